"""What readings of an unknown wire allow to be said of it, in a sentence."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from builder.model.words import Function
from builder.proof.identify.candidates import Candidate
from builder.proof.identify.next_test import LEADERS_SHOWN, Proposal, phrase_of, together
from builder.proof.wording import Measured, reading_words


class Slip(NamedTuple):
    """A reading (by its place) that, were it wrong, would leave some functions uncontradicted."""

    reading: int
    frees: tuple[Function, ...]


def nothing_fits(ranked: Sequence[Candidate]) -> bool:
    """Whether every kind that the readings speak of is contradicted by one of them."""
    speaking = [one for one in ranked if one.met or one.contradicted]
    return bool(speaking) and all(one.contradicted for one in speaking)


def slips_of(ranked: Sequence[Candidate]) -> Iterator[Slip]:
    """Yield the readings that alone contradict functions which all the others bear out."""
    freed: dict[int, list[Function]] = {}
    for one in ranked:
        if len(one.against) == 1 and one.met:
            freed.setdefault(one.against[0], []).append(one.function)
    for reading, functions in freed.items():
        yield Slip(reading, tuple(dict.fromkeys(functions)))


def wrong_one(slips: Sequence[Slip], readings: Sequence[Measured]) -> str:
    """Say which single reading, were it wrong, would free which functions; it follows a verdict."""
    said = (
        f"; were “{reading_words(readings[one.reading])}” wrong, it could be "
        f"{together(one.frees, 'or', LEADERS_SHOWN)}"
        for one in slips
    )
    return "".join(said)


def doubt_of(rival: Candidate | None) -> str:
    """Say what a few readings threw out that the others bear out; it follows a verdict."""
    if rival is None:
        return ""
    against = len(rival.contradicted)
    again = "it" if against == 1 else "them"
    return (
        f"; {phrase_of(rival.function)} meets {len(rival.met)} readings and {against} "
        f"speak{'s' if against == 1 else ''} against it: take {again} again"
    )


def verdict_on(
    ranked: Sequence[Candidate],
    open_functions: tuple[Function, ...],
    tie: tuple[Function, ...],
    following: Proposal | None,
    skipped: bool,
) -> str:
    """Say what the readings allow to be said.

    Args:
        ranked: Every kind, best first.
        open_functions: The functions that nothing contradicts.
        tie: Those of them at the top.
        following: What to measure next.
        skipped: Whether a measurement was skipped.
    """
    if nothing_fits(ranked):
        return _all_contradicted(ranked)
    if not any(one.met for one in ranked if not one.contradicted):
        return "the readings bear out nothing yet"
    if len(tie) == 1:
        return _one_fits(ranked, open_functions)
    if following is not None:
        return f"these readings cannot decide between {together(tie, 'and', LEADERS_SHOWN)}"
    return _undecidable(ranked, tie, skipped)


def _all_contradicted(ranked: Sequence[Candidate]) -> str:
    said = "contradicted everywhere: no kind of wire reads all of this"
    if any(len(one.against) == 1 and one.met for one in ranked):
        return said
    return f"{said}, and no single wrong reading would explain it: begin again, battery volts first"


def _one_fits(ranked: Sequence[Candidate], open_functions: Sequence[Function]) -> str:
    best = ranked[0]
    phrase = f"{phrase_of(best.function)}{_which_kind(ranked)}"
    if len(open_functions) > 1:
        others = [name for name in open_functions if name != best.function]
        return f"{phrase} fits best; not ruled out: {together(others, 'or', LEADERS_SHOWN)}"
    if not best.fits:
        return (
            f"only {phrase} is not ruled out, and nothing read so far proves it. {best.kind.note}"
        )
    return f"{phrase}: nothing else in the table fits"


def _which_kind(ranked: Sequence[Candidate]) -> str:
    """Name the kinds of the leading function that fit alike, where the table has several."""
    kinds = [one for one in ranked if one.function == ranked[0].function]
    if len(kinds) == 1:
        return ""
    *more, last = [one.kind.name for one in kinds if one.level() == ranked[0].level()]
    return f" ({', '.join(more)} or {last})" if more else f" ({last})"


def _undecidable(ranked: Sequence[Candidate], tie: tuple[Function, ...], skipped: bool) -> str:
    if skipped:
        both = together(tie, "and", LEADERS_SHOWN)
        return f"these readings cannot decide between {both}; what could was skipped"
    notes = dict.fromkeys(one.kind.note for one in ranked if one.function in tie)
    why = " ".join(note for note in notes if note)
    cannot = "these readings cannot decide, nor can any other of the table"
    return f"{cannot}: {together(tie, 'or', LEADERS_SHOWN)}. {why}".strip()
