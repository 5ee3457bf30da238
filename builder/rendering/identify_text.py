"""What readings say of an unknown wire, as plain text for a terminal."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence
from textwrap import fill

from builder.model.plugs import Reading
from builder.proof.identify.candidates import Candidate
from builder.proof.identify.naming import Identification
from builder.proof.identify.next_test import Proposal, word_of
from builder.proof.identify.raising import Raising
from builder.proof.wording import reading_words

WIDTH = 96
_HELD = "\N{NO-BREAK SPACE}"
_FIGURE = re.compile(r"(?<=\d) (?=(?:V|Ω|Hz|mA|%|min)(?:\W|$))|(?<=battery) (?=[+-])")
_POINTS = {"battery_negative": "", "pair": ", against the other wire of the pair"}
_NAMED = 6
"""How many functions a one-line summary names before it counts the rest."""


def identification_text(
    readings: Sequence[Reading],
    found: Identification,
    functions: Sequence[Candidate],
    safety: str,
    house: str,
) -> str:
    """The whole answer: readings, verdict, functions best first, and what to measure next.

    Args:
        readings: What was measured.
        found: The ranking.
        functions: The best kind of each function, best first.
        safety: What to mind in the next measurement, or "".
        house: The note of the house defaults that acted, or "".
    """
    lines = [*_readings(readings), "", *_verdict(found)]
    lines += _functions(functions, found)
    title = "TO RULE OUT MORE" if found.decided else "MEASURE NEXT"
    lines += raising_lines(found.raising)
    lines += next_lines(found.next, safety, title)
    if house:
        lines += ["", _filled(f"{house[0].upper()}{house[1:]}", "")]
    return "\n".join(lines) + "\n"


def _readings(readings: Sequence[Reading]) -> Iterator[str]:
    count = len(readings)
    yield f"UNKNOWN WIRE: {count} reading{'' if count == 1 else 's'}"
    for reading in readings:
        volts = reading.quantity in ("dc_v", "ac_v") and reading.battery_v is not None
        battery = f"   battery {reading.battery_v:.2f} V" if volts else ""
        point = _POINTS.get(reading.against, f", against {reading.against}")
        yield f"  {reading_words(reading)}{point}{battery}"


def _verdict(found: Identification) -> Iterator[str]:
    word = "DECIDED" if found.decided else "NOT DECIDED"
    yield _filled(f"{word}: {found.verdict}.".replace("..", "."), "")


def _functions(functions: Sequence[Candidate], found: Identification) -> Iterator[str]:
    still = [one for one in functions if not one.contradicted]
    out = [one for one in functions if one.contradicted]
    fitting = [one for one in still if one.met]
    if fitting:
        yield from ("", "Fits, best first")
        for one in fitting:
            yield from _fitting_lines(one, found)
    quiet = [word_of(one.function) for one in still if not one.met]
    if quiet:
        yield from ("", "Neither borne out nor ruled out", _filled(", ".join(quiet), "  "))
    if out:
        yield from ("", "Ruled out")
        for one in out:
            yield _filled(f"{word_of(one.function)}: {one.contradicted[0]}", "  ")


def _fitting_lines(one: Candidate, found: Identification) -> Iterator[str]:
    mark = "=" if one.function in found.tie and len(found.tie) > 1 else " "
    mark = ">" if found.tie == (one.function,) else mark
    yield f"  {mark} {word_of(one.function)}   {len(one.met)} met, {one.untested} untested"
    if one.function in found.tie:
        for sentence in one.met:
            yield _filled(f"met: {sentence}", "      ")
        for sentence in one.silent:
            yield _filled(f"says nothing: {sentence}", "      ")
        if one.kind.note:
            yield _filled(one.kind.note, "      ")


def next_lines(
    proposal: Proposal | None, safety: str, title: str = "MEASURE NEXT"
) -> Iterator[str]:
    """What to measure next, what each leading function would show, and what to mind."""
    if proposal is None:
        return
    expected = proposal.sentence.removeprefix(f"{proposal.measurement.words}. ")
    yield from ("", title, _filled(proposal.measurement.words, "  "))
    for one in expected.split("; "):
        yield _filled(one, "    ")
    if safety:
        yield _filled(f"Mind: {safety}", "  ")


def raising_lines(raising: Raising | None) -> Iterator[str]:
    """What raises a named wire to a proved one."""
    if raising is None:
        return
    yield from ("", "TO PROVE IT")
    if raising.measurement is not None:
        yield _filled(f"{raising.measurement.words}: {raising.expect}", "  ")
        if raising.mind:
            yield _filled(f"Mind: {raising.mind}", "  ")
    if raising.why:
        yield _filled(f"{raising.why[0].upper()}{raising.why[1:]}.", "  ")
    if raising.also:
        still = "Then still" if raising.measurement is not None else "Still to measure"
        yield _filled(f"{still}: {'; '.join(raising.also)}", "  ")


def open_line(found: Identification, before: int | None) -> str:
    """One line for after each reading: how many functions are left, and which."""
    return _filled(_how_many(found, before), "   ")


def _how_many(found: Identification, before: int | None) -> str:
    left = len(found.open_functions)
    if not found.tie or not any(one.met for one in found.candidates if not one.contradicted):
        return found.verdict
    was = f" (of {before})" if before is not None and before != left else ""
    leading = _named(word_of(name) for name in found.tie)
    best = "best so far" if len(found.tie) == 1 else "equally good"
    return f"{left} kinds of wire left{was}; {best}: {leading}"


def _named(names: Iterable[str]) -> str:
    every = list(names)
    more = f" and {len(every) - _NAMED} more" if len(every) > _NAMED else ""
    return ", ".join(every[:_NAMED]) + more


def slip_text(place: str, text: str, column: int, length: int, message: str, help_text: str) -> str:
    """A slip in a typed line, with a mark under the words it is about."""
    mark = " " * (column - 1) + "^" * max(length, 1)
    return f"{place}: {message}\n    {text}\n    {mark}\n  help: {help_text}"


def _filled(text: str, indent: str) -> str:
    """The text in lines; a figure and its unit are never parted."""
    held = _FIGURE.sub(_HELD, text)
    lines = fill(
        held, WIDTH, initial_indent=indent, subsequent_indent=f"{indent}  ", break_on_hyphens=False
    )
    return lines.replace(_HELD, " ")
