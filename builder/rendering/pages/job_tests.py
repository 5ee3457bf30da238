"""The bay sheet in phrases: one line a test, its band beside an empty box, phase by phase."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import groupby
from typing import NamedTuple

from builder.figures import at_least, at_most, shown
from builder.model.job import Result
from builder.model.names import STATE_NAMES, function_name
from builder.model.results import by_test
from builder.planning.bay.ids import numbered
from builder.planning.bay.line import proof_line
from builder.planning.plan import ProofReading
from builder.planning.sheet_rows import Step
from builder.planning.words import TestState
from builder.planning.work_pack import BayTest, WorkPack
from builder.rendering.pages.bay_ask import TEST_UNITS, ask_of
from builder.rendering.pages.expected import band_phrase
from builder.rendering.pages.plan_phrases import band_words
from builder.rendering.pages.wording import anchor, figure, plain

PHASES = {
    "before": "Before work begins",
    "build": "While it is built",
    "bench": "Connected, before the trim goes back",
    "close": "Closing up",
}


class BayLine(NamedTuple):
    """One line of the bay sheet."""

    anchor: str
    id: str
    number: int
    what: str
    state: str
    band: str
    why: str
    care: str  # the mark of a caution of its group, or ""
    why_kind: str  # "settles" which proof it is, "again" as in the line before, or ""
    beside: str  # what is read with it and has a box of its own: "battery", "A", or ""
    filled: str  # the newest result of the job's record, or ""
    earlier: tuple[str, ...]  # older results, newest first: they count no more
    ask: str  # what a phone has to know of it, as JSON
    waits: str = ""  # why it may not be read yet, of the step that reads it


class Group(NamedTuple):
    """The lines of one phase, and the cautions they are marked with, each said once."""

    title: str
    cares: tuple[tuple[str, str], ...]
    lines: tuple[BayLine, ...]


def bay_groups(pack: WorkPack, results: Sequence[Result]) -> list[Group]:
    """Return the tests of a pack by phase; a plan that is not whole asks for its proofs only."""
    filled = by_test(results)
    tests = pack.tests or reading_tests(pack.plan.tests)
    said: dict[str, int] = {}
    return [
        _with_waits(_group(PHASES.get(phase, plain(phase)), tuple(mine), filled), pack.steps, said)
        for phase, mine in groupby(tests, key=lambda test: test.phase)
    ]


def _with_waits(group: Group, steps: Sequence[Step], said: dict[str, int]) -> Group:
    """Say why a line may not be read yet; `said` has the line that gave each reason in full."""
    why = {test: step.blocked for step in steps if step.blocked for test in step.tests}
    lines = []
    for line in group.lines:
        reason = why.get(line.id, "")
        first = said.setdefault(reason, line.number)
        waits = reason if first == line.number else f"as test {first}" if reason else ""
        lines.append(line._replace(waits=waits))
    return group._replace(lines=tuple(lines))


def proof_groups(readings: Sequence[ProofReading]) -> list[Group]:
    """Return the proof readings of a tap plan as lines like those of a bay sheet."""
    if not readings:
        return []
    group = _group("", reading_tests(readings), {})
    lines = tuple(line._replace(anchor=anchor("test", line.id)) for line in group.lines)
    return [group._replace(lines=lines)]


def reading_tests(readings: Sequence[ProofReading]) -> tuple[BayTest, ...]:
    """Return the readings of a plan as lines of a sheet of their own."""
    return numbered(
        replace(proof_line(reading), what=f"{_place(reading)}: {reading.how}")
        for reading in readings
    )


def _place(reading: ProofReading) -> str:
    place = f"fuse {reading.fuse_position}" if reading.fuse_position else "the car"
    if reading.plug and reading.cavity:
        place = f"{reading.plug}.{reading.cavity}"
    return f"{place}, {function_name(reading.function)}"


def _group(title: str, tests: Sequence[BayTest], filled: dict[str, tuple[Result, ...]]) -> Group:
    said = dict.fromkeys(test.reading.safety for test in tests if test.reading)
    marks = {safety: at for at, safety in enumerate((one for one in said if one), 1)}
    lines = [_bay_line(test, marks, filled.get(test.id, ())) for test in tests]
    cares = tuple((str(at), safety) for safety, at in marks.items())
    return Group(title, cares, tuple(_marked_again(lines)))


def _marked_again(lines: Sequence[BayLine]) -> Iterator[BayLine]:
    """Mark a reason that the line before gave as well: paper has no room to say it twice."""
    before = ""
    for line in lines:
        again = line.why == before and not line.why_kind
        yield line._replace(why_kind="again") if again else line
        before = line.why


def _bay_line(test: BayTest, marks: dict[str, int], results: tuple[Result, ...]) -> BayLine:
    *older, newest = (_filled(result, test) for result in results) if results else ("",)
    return BayLine(
        anchor("bay", test.id),
        test.id,
        test.number,
        _what(test),
        state_words(test.state),
        bay_band(test),
        test.why,
        str(marks.get(test.reading.safety, "")) if test.reading else "",
        "settles" if test.reading else "",
        _beside(test),
        newest,
        tuple(reversed(older)),
        ask_of(test),
    )


def _beside(test: BayTest) -> str:
    """What is read with a figure: the battery as evidence needs it, or the amperes."""
    if test.high_mohm is not None:
        return "A"
    battery = test.band.moves or (test.reading is not None and test.quantity == "dc_v")
    return "battery" if battery else ""


def _what(test: BayTest) -> str:
    """What is measured; the state and the band of a proof reading have columns of their own."""
    if test.reading is None:
        return test.what
    said = test.what.replace(f" {state_words(test.state)}: ", " ", 1)
    start, _, end = said.rpartition(": ")
    return start if start and _IS_BAND.match(end) else said


_IS_BAND = re.compile(r"(at least |at most )?(battery|−?-?\d)")


def state_words(state: TestState) -> str:
    """A state of the records in words; a step of the work is called that."""
    return state if state == "step" else STATE_NAMES[state]


def bay_band(test: BayTest) -> str:
    """The band of a test in words: compared unrounded, printed on the side that passes.

    A limit that moves is printed as what is added to the battery's volts, never as a figure: there
    is a box for the battery beside the one for the reading.
    """
    unit = TEST_UNITS[test.quantity]
    if test.quantity == "check":
        return "yes"
    if test.high_mohm is not None:
        return f"at most {at_most(test.high_mohm, 'mΩ')} mΩ (V ÷ A)"
    if test.band.moves:
        return band_phrase(test.band, unit)
    low, high = test.low, test.high
    if unit == "Ω" and low is not None and low >= 1000 and high is None:
        return f"{at_least(low / 1000, 'kΩ')} kΩ or more (open passes)"
    return band_words(low, high, unit).strip()


def _filled(result: Result, test: BayTest) -> str:
    unit = TEST_UNITS[test.quantity]
    passed = {True: "passed", False: "failed", None: ""}[result.passed]
    battery = "" if result.battery_v is None else f"(battery {result.battery_v:g} V)"
    current = _at_current(result.value, result.current_a)
    words = (figure(result.value, unit, ""), battery, current, passed)
    said = " ".join(word for word in words if word)
    return f"{said}, {result.by}, {result.date}"


def _at_current(volts: float | None, amperes: float | None) -> str:
    """The amperes beside volts, and what both are together; empty where nobody read them."""
    if volts is None or amperes is None:
        return ""
    return f"(at {shown(amperes)} A: {shown(1000 * volts / amperes, 1)} mΩ)"
