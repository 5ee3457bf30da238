"""What is this wire? Rank every kind of pin by the readings taken on one unknown cavity."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass

from builder.model.house_defaults import HouseDefaults
from builder.model.words import Function
from builder.proof.judging import Judgement, Outcome, judge
from builder.proof.next_test import Proposal, assumed_against, propose, word_of
from builder.proof.shapes import Kind
from builder.proof.signatures import kinds
from builder.proof.splitting import Measurement
from builder.proof.wording import Measured


@dataclass(frozen=True, slots=True)
class Candidate:
    """One kind of pin and how the readings stand to it.

    `met`, `contradicted` and `silent` are sentences, one a reading. `fits` counts the met lines
    that were strict. `solid` counts the met readings that a decision may rest on: all but those
    taken before the car had slept long enough. `untested` counts the lines of the signature that
    no reading touched.
    """

    kind: Kind
    met: tuple[str, ...]
    contradicted: tuple[str, ...]
    silent: tuple[str, ...]
    fits: int
    solid: int
    untested: int

    @property
    def function(self) -> Function:
        """The function of the kind."""
        return self.kind.function

    def rank(self) -> tuple[bool, int, int, int, int]:
        """Best first: no contradiction, then most met; strict lines and few untested break ties."""
        return (
            bool(self.contradicted),
            len(self.contradicted),
            -len(self.met),
            -self.fits,
            self.untested,
        )

    def level(self) -> tuple[int, int]:
        """What makes a tie: as many contradictions and as many met."""
        return (len(self.contradicted), len(self.met))


@dataclass(frozen=True, slots=True)
class Identification:
    """The ranked candidates, best first, and what the readings allow to be said.

    `open_functions` are the functions that nothing contradicts. `tie` holds those of them that
    fit equally well at the top; one function alone is the answer. `verdict` says it in a sentence.
    `decided` says that the answer may be relied on: one function alone at the top, borne out by
    `READINGS_TO_DECIDE` solid readings, or by one when everything else is contradicted; and no
    `rival`, a function that meets as many readings and is contradicted by others.
    """

    candidates: tuple[Candidate, ...]
    open_functions: tuple[Function, ...]
    tie: tuple[Function, ...]
    verdict: str
    decided: bool
    rival: Candidate | None
    next: Proposal | None


def identify(
    readings: Sequence[Measured],
    defaults: HouseDefaults,
    *,
    may_load: bool = False,
    skip: Collection[Measurement] = (),
) -> Identification:
    """Rank every kind of pin by readings on one unknown cavity and say what to measure next.

    Args:
        readings: Figures off a meter, all from one cavity. A reading against another cavity
            is judged as if that were the other wire of a pair.
        defaults: House defaults for the limits.
        may_load: Whether a loaded test may be proposed at all; even then only a load that is
            safe for every candidate still open.
        skip: Measurements that cannot be made and are not to be proposed.
    """
    table = kinds(defaults)
    ranked = sorted((_candidate(kind, readings) for kind in table.values()), key=Candidate.rank)
    open_kinds = [one for one in ranked if not one.contradicted]
    open_functions = _functions(open_kinds)
    tie = _functions([one for one in open_kinds if one.level() == open_kinds[0].level()])
    leading = [one.kind for one in _leading(open_kinds)] if len(open_functions) > 1 else []
    following = propose(leading, readings, may_load, skip)
    rival = _rival(ranked, tie)
    verdict = _verdict(ranked, open_functions, tie, following, bool(skip)) + _doubt(rival)
    decided = rival is None and _decided(ranked, open_functions, tie)
    return Identification(tuple(ranked), open_functions, tie, verdict, decided, rival, following)


READINGS_TO_DECIDE = 2
"""Readings that one function alone must have met before it is the answer while others are still
open. Chosen by this project."""


def _decided(
    ranked: Sequence[Candidate], open_functions: Sequence[Function], tie: Sequence[Function]
) -> bool:
    if len(tie) != 1:
        return False
    return ranked[0].solid >= (1 if len(open_functions) == 1 else READINGS_TO_DECIDE)


def _rival(ranked: Sequence[Candidate], tie: Sequence[Function]) -> Candidate | None:
    """The contradicted candidate that meets most, if it meets as many readings as the best one.

    One bad reading throws the right function out; what it leaves behind must not win by that.
    """
    thrown_out = [one for one in ranked if one.contradicted and one.function not in tie]
    most = max(thrown_out, key=lambda one: len(one.met), default=None)
    if most is None or len(most.met) < max(len(ranked[0].met), READINGS_TO_DECIDE):
        return None
    return most


def _doubt(rival: Candidate | None) -> str:
    if rival is None:
        return ""
    against = len(rival.contradicted)
    again = "it" if against == 1 else "them"
    return (
        f"; {word_of(rival.function)} meets {len(rival.met)} readings and {against} "
        f"speak{'s' if against == 1 else ''} against it: take {again} again"
    )


def _functions(candidates: Sequence[Candidate]) -> tuple[Function, ...]:
    return tuple(dict.fromkeys(one.function for one in candidates))


def _candidate(kind: Kind, readings: Sequence[Measured]) -> Candidate:
    judged = [judge(reading, kind, assumed_against(reading)) for reading in readings]
    said = {
        outcome: tuple(one.sentence for one in judged if one.outcome is outcome)
        for outcome in Outcome
    }
    fitting = [one for one in judged if one.outcome is Outcome.MET and one.row]
    touched = {id(one.row) for one in judged if one.outcome is not Outcome.SILENT}
    return Candidate(
        kind,
        said[Outcome.MET],
        said[Outcome.CONTRADICTED],
        said[Outcome.SILENT],
        sum(1 for one in fitting if one.row and one.row.strict),
        sum(_is_solid(one, reading) for one, reading in zip(judged, readings, strict=True)),
        sum(1 for row in kind.rows if id(row) not in touched),
    )


def _is_solid(judged: Judgement, reading: Measured) -> bool:
    """Whether a reading bears a kind out, and not only because the car is not asleep yet."""
    if judged.outcome is not Outcome.MET or judged.row is None:
        return False
    return reading.state != "asleep" or (reading.minutes or 0.0) >= judged.row.proves_from_min


def _verdict(
    ranked: Sequence[Candidate],
    open_functions: tuple[Function, ...],
    tie: tuple[Function, ...],
    following: Proposal | None,
    skipped: bool,
) -> str:
    if not open_functions:
        return "every kind of pin in the table is contradicted: check the readings and the states"
    if not any(one.met for one in ranked if not one.contradicted):
        return "the readings bear out nothing yet"
    if len(open_functions) == 1:
        return f"{word_of(tie[0])}: nothing else in the table fits"
    if len(tie) == 1:
        others = [name for name in open_functions if name != tie[0]]
        return f"{word_of(tie[0])} fits best; not ruled out: {_names(others)}"
    if following is not None:
        return f"these readings cannot decide between {_names(tie)}"
    return _undecidable(ranked, tie, skipped)


def _undecidable(ranked: Sequence[Candidate], tie: tuple[Function, ...], skipped: bool) -> str:
    if skipped:
        return f"these readings cannot decide between {_names(tie)}; what could was skipped"
    notes = dict.fromkeys(one.kind.note for one in ranked if one.function in tie)
    why = " ".join(note for note in notes if note)
    cannot = "these readings cannot decide, nor can any other of the table"
    return f"{cannot}: {_names(tie)}. {why}".strip()


def _names(functions: Sequence[Function]) -> str:
    return ", ".join(word_of(name) for name in functions)


def _leading(candidates: Sequence[Candidate]) -> list[Candidate]:
    """The candidates that fit equally well at the top; with only one function there, all."""
    top = [one for one in candidates if one.level() == candidates[0].level()]
    return top if len(_functions(top)) > 1 else list(candidates)
