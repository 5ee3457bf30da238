"""One kind of pin against the readings of an unknown wire."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from builder.model.words import Function
from builder.proof.house import house_in
from builder.proof.identify.next_test import assumed_against
from builder.proof.judging import Judgement, Outcome, judge
from builder.proof.signatures.shapes import Kind
from builder.proof.wording import Measured
from builder.proof.words import Defining


@dataclass(frozen=True, slots=True)
class Candidate:
    """One kind of pin and how the readings stand to it.

    `met`, `contradicted` and `silent` are sentences, one a reading. `fits` counts the met lines
    that were strict. `solid` counts the met readings that a decision may rest on: all but those
    taken before the car had slept long enough. `untested` counts the lines of the signature that
    no reading touched. `against` holds the places of the readings that contradict it, `proved` the
    names of the defining states that solid readings settle, `house` the house defaults that set
    the limits it was judged by. `loaded` says whether a reading under load bears it out.
    """

    kind: Kind
    met: tuple[str, ...]
    contradicted: tuple[str, ...]
    silent: tuple[str, ...]
    fits: int
    solid: int
    untested: int
    against: tuple[int, ...]
    proved: frozenset[Defining]
    house: tuple[str, ...]
    loaded: bool

    @property
    def function(self) -> Function:
        """The function of the kind."""
        return self.kind.function

    def rank(self) -> tuple[bool, int, int, int, int]:
        """Best first: no contradiction, then most met; strict lines and few untested break ties.

        What nothing bears out keeps the order of the table, where the commonest stand first.
        """
        return (
            bool(self.contradicted),
            len(self.contradicted),
            -len(self.met),
            -self.fits,
            self.untested if self.met else 0,
        )

    def level(self) -> tuple[int, int]:
        """What makes a tie: as many contradictions and as many met."""
        return (len(self.contradicted), len(self.met))


def functions_of(candidates: Iterable[Candidate]) -> tuple[Function, ...]:
    """Return the functions of some candidates, each once, in their order."""
    return tuple(dict.fromkeys(one.function for one in candidates))


def candidate_of(kind: Kind, readings: Sequence[Measured]) -> Candidate:
    """Judge all readings by one kind."""
    judged = [judge(reading, kind, assumed_against(reading)) for reading in readings]
    said = {each: tuple(j.sentence for j in judged if j.outcome is each) for each in Outcome}
    fitting = [one for one in judged if one.outcome is Outcome.MET and one.row]
    pairs = list(zip(judged, readings, strict=True))
    solid = [one.row for one, reading in pairs if one.row and _is_solid(one, reading)]
    touched = {id(one.row) for one in judged if one.outcome is not Outcome.SILENT}
    return Candidate(
        kind,
        said[Outcome.MET],
        said[Outcome.CONTRADICTED],
        said[Outcome.SILENT],
        sum(one.row.strict for one in fitting if one.row),
        len(solid),
        sum(id(row) not in touched for row in kind.rows),
        tuple(i for i, one in enumerate(judged) if one.outcome is Outcome.CONTRADICTED),
        frozenset(name for row in solid for name in row.proves),
        tuple(dict.fromkeys(name for pair in pairs for name in _house(*pair))),
        any(r.load != "none" and one.outcome is Outcome.MET for one, r in pairs),
    )


def _house(judged: Judgement, reading: Measured) -> tuple[str, ...]:
    if judged.row is None or judged.outcome is Outcome.SILENT:
        return ()
    return house_in(judged.row, reading.state)


def _is_solid(judged: Judgement, reading: Measured) -> bool:
    """Whether a reading bears a kind out, and not only because the car is not asleep yet."""
    if judged.outcome is not Outcome.MET or judged.row is None:
        return False
    return reading.state != "asleep" or (reading.minutes or 0.0) >= judged.row.proves_from_min
