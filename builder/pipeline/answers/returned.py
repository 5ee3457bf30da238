"""A job whose car comes back: its circuit as it was handed over, with what can be wrong in it."""

from __future__ import annotations

from builder.book import Book
from builder.pipeline.answers.packs import MadePack, packed
from builder.planning.comeback.causes import Causes
from builder.planning.comeback.handed_over import HandedOver


class NoCircuitError(Exception):
    """The job comes to no tap plan, so that nothing of it is joined."""

    def __init__(self, made: MadePack) -> None:
        super().__init__(made.pack.job)
        self.made = made


def returned(book: Book, name: str) -> Causes:
    """Return the faults of the job that `name` means: its id, or a part of only one id.

    Raises:
        NoSuchRecordError: none or several fit, or the job cannot be planned.
        NoCircuitError: it comes to a probe plan or to no plan.
    """
    return causes_of(packed(book, name))


def causes_of(made: MadePack) -> Causes:
    """Return the faults of a job that was planned.

    Raises:
        NoCircuitError: it comes to a probe plan or to no plan.
    """
    if made.pack.circuit is None:
        raise NoCircuitError(made)
    return Causes(HandedOver(made.parts, made.pack, made.parts.shelf.defaults))
