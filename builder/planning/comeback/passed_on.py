"""Which of all that a loom passes on is gone: asked by halves, before any panel comes off."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from builder.model.words import PAIRED
from builder.planning.circuit.model import Link
from builder.planning.comeback.handed_over import HandedOver
from builder.planning.comeback.looks import Look, yes_if
from builder.planning.comeback.reading_made import Reading, asked
from builder.planning.comeback.symptoms import brought
from builder.planning.words import TestState


def passed_on_readings(job: HandedOver) -> Iterator[Reading]:
    """Yield a question for each half of the functions that looms pass on, down to each by itself.

    An owner can be asked, or it is tried from the driver's seat: so many wires run through a loom
    that the halves save more than any reading at one of them.
    """
    wires: dict[str, list[Link]] = {}
    for link in job.passed_on:
        wires.setdefault(link.purpose.rpartition(": ")[2], []).append(link)
    for half in _halves(list(wires)):
        said = ", ".join(half)
        links = [link for each in half for link in wires[each]]
        yield asked(
            f"works {said}", f"what hangs on these works as before: {said}", _state(job, links), (),
            _all_brought(links),
        )  # fmt: skip


def _state(job: HandedOver, links: Sequence[Link]) -> TestState:
    """A speaker leg is heard with the radio playing, all else with the volume at zero too."""
    legs = any(job.function_at(link.begins) in PAIRED for link in links)
    return "tuner" if legs else "radio_on_zero"


def _halves(names: Sequence[str]) -> Iterator[Sequence[str]]:
    """Both halves of a list, their halves, and so on down to one; of one alone nothing."""
    if len(names) < 2:
        return
    middle = len(names) // 2
    for half in (names[:middle], names[middle:]):
        yield half
        yield from _halves(half)


def _all_brought(links: Sequence[Link]) -> Look:
    return yes_if(lambda now: all(brought(now.day, link) for link in links))
