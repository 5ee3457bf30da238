"""The acts of reading: the lines of the bay sheet that can be taken in one state, at one turn."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field

from builder.model.house_defaults import HouseDefaults
from builder.planning.bay.before_tests import BATTERY_REST
from builder.planning.course.car_changes import HOME
from builder.planning.course.car_states import (
    DEAD,
    PLAY,
    asked_by,
    plug_of,
    speakers_of,
)
from builder.planning.course.model import Act, Needs, Said, among, needs
from builder.planning.course.places import APART, Places
from builder.planning.words import HowItStands, TestState, Turn
from builder.planning.work_pack import BayTest

_PROVED = "every pin reads as its band says; one that does not ends the job here"
_ONLY_READ = (
    "every reading written down as it is, one outside its band too: the plan is made again from it"
)
_PASSED = "all within their bands"
_GATES: dict[Turn, str] = {
    "at_table": "every line of its ring-out has passed; until then no plug of the car is unplugged",
    "as_found": "",
    "proof": _PROVED,
    "proof_dead": _PROVED,
    "closing": "no trim before the last has passed",
}
_POWERED_TURNS: tuple[Turn, ...] = (
    "turn_on", "idle", "silence", "passed_on", "level", "gain", "again", "loud", "sound",
    "closing", "whole", "driven",
)  # fmt: skip
_WHOLE: tuple[Turn, ...] = ("whole", "driven")
_LOUD: tuple[Turn, ...] = ("again", "loud", "sound")
_SPEAKERS_ON: tuple[Turn, ...] = ("again", "loud", "sound", "closing", "whole", "driven")


@dataclass(frozen=True, slots=True)
class Reading:
    """What the readings of a job ask for besides their state."""

    places: Places
    house: HouseDefaults
    open: Needs = field(default_factory=dict)  # while what was joined can still be reached
    whole: Needs = field(default_factory=dict)  # the car with everything home
    read_plugs: tuple[str, ...] = ()  # plugs at which signals are read once all is joined
    amplifiers: tuple[str, ...] = ()
    live: Needs = field(default_factory=dict)  # batteries and fuses once all is joined
    held: str = ""  # what has to be known before anything is loud
    joins: bool = True  # whether anything is joined after it


def reading_acts(tests: Sequence[BayTest], reading: Reading) -> Iterator[Act]:
    """Yield one act for all lines that ask for the same at the same turn."""
    found: dict[tuple[Turn, frozenset[tuple[str, frozenset[HowItStands]]]], list[BayTest]] = {}
    for test in tests:
        wanted = needs_of(test, reading)
        found.setdefault((test.turn, frozenset(wanted.items())), []).append(test)
    for (turn, _), mine in found.items():
        yield Act(
            id=f"read {mine[0].id}",
            phase=mine[0].phase,
            said=Said(
                _text(turn, mine),
                gate=_gate(turn, mine, reading),
                blocked=reading.held if _is_loud(mine) else "",
            ),
            needs=needs_of(mine[0], reading),
            tags=frozenset({turn}),
            tests=tuple(test.id for test in mine),
            minutes=reading.house.hand_reading_min * len(mine),
        )


def _gate(turn: Turn, tests: Sequence[BayTest], reading: Reading) -> str:
    """What must be true after it; where nothing is joined, a doubt is read and not passed."""
    gate = _GATES.get(turn, _PASSED)
    if any(test.id == BATTERY_REST for test in tests):
        return _RESTED
    return _ONLY_READ if gate == _PROVED and not reading.joins else gate


def _is_loud(tests: Sequence[BayTest]) -> bool:
    """Whether a speaker plays at full level in it: all that follows filters and speakers."""
    running = any(test.state in ("engine", "auto_restart") for test in tests)
    return tests[0].turn in _LOUD or (tests[0].turn == "closing" and running)


def _text(turn: Turn, tests: Sequence[BayTest]) -> str:
    """What is done besides the lines of the sheet: a loom has a sheet of its own."""
    if turn != "at_table":
        return _MEANWHILE.get(turn, "")
    looms = ", ".join(test.what.partition(",")[0] for test in tests)
    return f"ring {looms} out, line by line of its loom sheet"


_MEANWHILE: dict[Turn, str] = {
    "gain": "a charger on, 13 V or more at the battery, off again afterwards",
    "again": "meter on first, one tone at a time, 2 s, then volume 0; all on that plug plays: ears "
    "covered; a charger on as for the gains",
}
"""What is minded while a line is read. An amplifier's volts may follow the battery's: at rest they
clip before a gain is reached that was counted at full power. Common practice, no source."""
_RESTED = (
    "a battery that rests lower is charged first, and every reading so far that was taken under "
    "power is taken again"
)


def needs_of(test: BayTest, reading: Reading) -> Needs:
    """Return how the car has to stand for a line of the sheet."""
    wanted = dict(asked_by(test.state))
    if test.turn in ("proof", "proof_dead"):
        if test.state == "radio_on_tone":
            wanted[PLAY] = among("quiet")
        return {**wanted, **_at_pin(test, reading.places)}
    if test.turn in ("far_end", "legs"):
        apart = {plug_of(each): APART for each in reading.read_plugs}
        return {**DEAD, **reading.open, **apart}
    if test.turn in ("ground", "built", "fused"):
        return {**DEAD, **reading.open}
    if test.turn in _POWERED_TURNS:
        wanted |= _powered(test.turn, test.state, reading)
    return wanted


def _powered(turn: Turn, state: TestState, reading: Reading) -> dict[str, frozenset[HowItStands]]:
    """What everything joined and powered asks for at a turn."""
    wanted = dict(reading.whole if turn in _WHOLE else reading.open)
    wanted |= {plug_of(plug.id): HOME for plug in reading.places.hands.plugs}
    wanted |= {**needs(battery="on"), **reading.live}
    on = among("on") if turn in _SPEAKERS_ON else among("open", "capped")
    if turn in ("level", "gain", *_SPEAKERS_ON):
        wanted |= {speakers_of(name): on for name in reading.amplifiers}
    if turn == "loud":
        wanted[PLAY] = among("loud")
    if turn == "sound" and state == "radio_on_tone":
        wanted[PLAY] = among("quiet")  # judged by ear, with every speaker on
    return wanted


def _at_pin(test: BayTest, places: Places) -> Needs:
    """A pin is read behind its plug; dead ones with the plug off, all others with it home."""
    at = test.reading
    if at is None:
        return places.at_home([plug.id for plug in places.hands.plugs])
    if at.fuse_position is not None:
        return places.open_at([at.fuse_position])
    assert at.plug is not None
    if test.state == "unplugged":
        return {plug_of(at.plug): among("off")}
    return places.at_home([at.plug])
