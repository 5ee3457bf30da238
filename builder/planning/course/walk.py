"""Where a walk through printed steps stands, and whether a line can be read there."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field

from builder.model.vehicle import Vehicle
from builder.planning.circuit.index import CircuitIndex
from builder.planning.circuit.terminal_names import LINK_FUSE
from builder.planning.course.car_states import (
    BATTERY,
    FILTERS,
    KEY,
    MAIN_FUSE,
    PLAY,
    PLAYABLE,
    RADIO_SET,
)
from builder.planning.words import HowItStands, TestState
from builder.planning.work_pack import BayTest, JobParts

_PLAYING: tuple[HowItStands, ...] = ("accessory", "run")
_PLAYS: dict[TestState, tuple[HowItStands, ...]] = {
    "radio_off": ("off",), "radio_on_zero": ("zero",), "radio_on_tone": ("quiet", "tone"),
    "tuner": ("tuner",), "other_source": ("other",),
}  # fmt: skip


@dataclass(slots=True)
class Walk:
    """Where a walk through the steps stands."""

    parts: JobParts
    tests: dict[str, BayTest]
    index: CircuitIndex
    state: dict[str, HowItStands] = field(default_factory=dict)
    made: set[str] = field(default_factory=set)
    taken: list[str] = field(default_factory=list)
    gate: str = ""  # of the step before

    @property
    def vehicle(self) -> Vehicle:
        """The car."""
        return self.parts.vehicle

    @property
    def filters_set(self) -> bool:
        """Whether every channel has its filters."""
        return self.state.get(FILTERS) == "set"

    @property
    def gained(self) -> bool:
        """Whether a gain was set."""
        return any(self.tests[id].turn == "gain" for id in self.taken)


def taken(walk: Walk, test: BayTest) -> Iterator[str]:
    """A line of the sheet where the car stands as it asks."""
    if not _stands(walk, test):
        yield f"{test.id} asks for another state"
    if test.phase in ("bench", "close"):
        fuses = [each for each in (MAIN_FUSE, LINK_FUSE) if each in walk.index.elements]
        out = [each for each in fuses if walk.state[each] != "in"]
        yield from (f"{test.id} is read without the {each}" for each in out)
    if test.state in _PLAYS and test.state != "radio_off" and walk.state[RADIO_SET] not in PLAYABLE:
        yield f"{test.id} is read at a radio without the settings that it lost"
    if test.id in walk.taken:
        yield f"{test.id} is taken a second time"
    speakers = {value for what, value in walk.state.items() if what.startswith("speakers of")}
    if test.state == "radio_on_tone" and "on" in speakers and not walk.filters_set:
        yield "a tone with a speaker on and its filter flat"
    if test.turn == "proof" and walk.state[PLAY] == "tone":
        yield f"{test.id} is a proof at the loudest clean volume"
    if test.turn == "far_end" and _is_in(walk, test):
        yield f"{test.id} is read at an end that is no longer open"


def _is_in(walk: Walk, test: BayTest) -> bool:
    """Whether an end that is read is already in the terminal of a device."""
    joints = [joint for id in walk.made if (joint := walk.index.joints[id]).kind == "terminal"]
    devices = {u.id for u in walk.index.circuit.units if u.kind in ("converter", "amplifier")}
    held = [joint for joint in joints if {*joint.joins} & {*test.probes}]
    ends = (walk.index.terminals.get(end) for joint in held for end in joint.joins)
    return any(end is not None and end.unit in devices for end in ends)


def _stands(walk: Walk, test: BayTest) -> bool:
    state, battery = test.state, walk.state[BATTERY]
    if state == "step":
        return True
    if state in ("unplugged", "battery_off"):
        off = test.reading is None or state == "battery_off" or _plug_is_off(walk, test)
        return battery != "on" and off
    key = walk.state[KEY]
    if state in _PLAYS:
        return battery == "on" and key in _PLAYING and walk.state[PLAY] in _PLAYS[state]
    return battery == "on" and f"{key}" == f"{state}"


def _plug_is_off(walk: Walk, test: BayTest) -> bool:
    at = test.reading
    if at is None or at.plug is None:
        return True
    return walk.state.get(f"plug {at.plug}", "home") == "off"
