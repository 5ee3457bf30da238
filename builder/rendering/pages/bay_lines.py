"""The lines of a bay sheet in phrases: where, its band, what was read, and what lines share."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from itertools import groupby
from typing import NamedTuple

from builder.figures import at_least, at_most, shown
from builder.model.job import Result
from builder.model.names import STATE_NAMES, function_name
from builder.model.words import GROUND_REFERENCES
from builder.planning.words import TestState
from builder.planning.work_pack import BayTest
from builder.rendering.pages.bay_ask import TEST_UNITS, Ask, ask_of, asked_alike
from builder.rendering.pages.expected import band_phrase
from builder.rendering.pages.plan_phrases import band_words
from builder.rendering.pages.wording import anchor, figure


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
    ask: Ask  # what a phone has to know of it
    waits: str = ""  # why it may not be read yet, of the step that reads it
    pin: str = ""  # of a reading at a pin: its place, with which `what` begins
    name: str = ""  # what that pin is, or the place that the other probe goes to
    how: str = ""  # how it is read, with which `what` ends

    @property
    def in_words(self) -> str:
        """What is measured, its caution and what it waits for, as a terminal prints it."""
        care = f" (care {self.care})" if self.care else ""
        return f"{self.what}{care}{f' (not yet: {self.waits})' if self.waits else ''}"


class Alike(NamedTuple):
    """Lines one behind the other that are read in the same state, and in the same way."""

    state: str
    how: str
    care: str
    lines: tuple[BayLine, ...]

    @property
    def asked(self) -> tuple[str, list[tuple[str, BayLine]]]:
        """What a phone has to know of all lines as JSON, and of each beside that."""
        alike, own = asked_alike([line.ask for line in self.lines])
        return alike, list(zip(own, self.lines, strict=True))


class Group(NamedTuple):
    """The lines of one phase, and the cautions they are marked with, each said once."""

    title: str
    cares: tuple[tuple[str, str], ...]
    lines: tuple[BayLine, ...]

    @property
    def parts(self) -> list[Alike]:
        """The same lines, with what they share said once: how to read, and in which state."""
        return [
            Alike(*_state_and_way(state, how), care, tuple(mine))
            for (state, how, care), mine in groupby(
                self.lines, key=lambda line: (line.state, line.how, line.care)
            )
        ]


def _state_and_way(state: str, how: str) -> tuple[str, str]:
    """A state that the way of reading says more of is told in those words: how long asleep."""
    longer, _, way = how.partition(": ")
    return (longer, way) if way and longer.startswith(state) else (state, how)


def group_of(
    title: str,
    tests: Sequence[BayTest],
    filled: dict[str, tuple[Result, ...]],
    names: Mapping[tuple[str | None, str | None], str],
) -> Group:
    """Return tests as lines. `filled` has the results by the line's id; `names` say of a pin, by
    plug and cavity, what it is to the plan."""
    said = dict.fromkeys(test.reading.safety for test in tests if test.reading)
    marks = {safety: at for at, safety in enumerate((one for one in said if one), 1)}
    lines = [_at_pin(_bay_line(test, marks, filled.get(test.id, ())), test, names)
             for test in tests]  # fmt: skip
    cares = tuple((str(at), safety) for safety, at in marks.items())
    return Group(title, cares, tuple(_marked_again(lines)))


def _at_pin(
    line: BayLine, test: BayTest, names: Mapping[tuple[str | None, str | None], str]
) -> BayLine:
    """Say of a reading at a pin where, what that is, and how it is read, each by itself."""
    reading = test.reading
    if reading is None:
        return line
    pin = reading.fuse_position or f"{reading.plug}.{reading.cavity}"
    name = names.get((reading.plug, reading.cavity), function_name(reading.function))
    if reading.against not in GROUND_REFERENCES:
        name = f"to {reading.against}"
    if pin not in line.what:
        return line
    return line._replace(pin=pin, name=name, how=line.what.partition(pin)[2].partition(": ")[2])


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
