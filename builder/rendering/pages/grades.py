"""What pages need to know of the proof of a pin, whoever worked it out."""

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple

from builder.findings import DataPath
from builder.model.words import GradeBand
from builder.proof.attack import Attack
from builder.proof.dispute import Dispute
from builder.proof.evidence import Item
from builder.proof.grading import shown_score
from builder.rendering.pages.wording import grade_mark


class Expected(NamedTuple):
    """What a pin of its function should read in one state, as two phrases."""

    state: str
    reads: str
    note: str = ""


class ExpectedKind(NamedTuple):
    """One kind that a pin may be of, and what such a pin reads, state by state."""

    name: str
    lines: tuple[Expected, ...]
    note: str
    house: tuple[str, ...] = ()  # the house defaults that set the limits, in words


class PinProof(NamedTuple):
    """The grade of one pin with its reasons, and what its function should read.

    `band` is a grade word, `score` from 0 to 1. `expected` holds every kind that the pin may be
    of. `items` is all evidence, what was set aside too; `counted` what of it made the score;
    `house` the house defaults it was made with, in words. `attack` is what speaks against the pin,
    with every explanation tried.
    """

    band: GradeBand
    score: float
    why: str
    raise_by: str
    expected: tuple[ExpectedKind, ...] = ()
    items: tuple[Item, ...] = ()
    counted: tuple[Item, ...] = ()
    dispute: Dispute | None = None
    attack: Attack | None = None
    house: tuple[str, ...] = ()

    @property
    def mark(self) -> str:
        """The mark that stands beside the word."""
        return grade_mark(self.band)

    @property
    def shown(self) -> str:
        """The score with two figures, as it stands beside the band everywhere."""
        return shown_score(self.score)

    @property
    def css(self) -> str:
        """The class name of the band."""
        return "g-" + "".join(letter for letter in self.band if letter.isalpha())


Proofs = Mapping[DataPath, PinProof]
"""The proof of each pin by the pin's path in its record."""

UNGRADED = PinProof("unproved", 0.0, "Nobody has graded this pin.", "Measure it.")
