"""What the hands can change of a car: its battery, plugs, seats, panels, radio and key.

Each row says what has to stand how before, and what a person reads. What comes off near a
restraint part comes off, and goes home, with the battery off and the wait over.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from builder.model.access import AccessPart
from builder.model.house_defaults import HouseDefaults
from builder.model.plugs import Plug
from builder.model.vehicle import Vehicle
from builder.model.words import Tri
from builder.planning.car.access import fastener_words, parts_over, radio_parts
from builder.planning.car.route_zones import over_orange
from builder.planning.car.seats import has_plug, has_rails
from builder.planning.circuit.terminal_names import plug_name
from builder.planning.course.car_states import DEAD, KEY, RADIO, plug_of
from builder.planning.course.model import Change, Needs, Rank, Said, among, needs

HOME = among("home", "loomed")
"""How a plug stands at the end: in its own unit, or in it by way of a loom."""


@dataclass(frozen=True, slots=True)
class CarHands:
    """A car with what of it the work moves: access parts, plugs; and the house's minutes."""

    vehicle: Vehicle
    parts: Sequence[AccessPart]
    plugs: Sequence[Plug]
    house: HouseDefaults
    zones: tuple[str, ...]  # restraint parts that the work comes near
    tone_at: str  # the volume of a test tone
    asleep_min: float = 0.0  # how long a car is left alone before it is read asleep [min]
    slides: bool = False  # whether seats are slid and stay bolted: nothing is laid or joined

    @property
    def near_restraint(self) -> bool:
        """Whether anything that is moved or done may be near a restraint part."""
        out = bool(self.radio_plugs) and self.radio_restraint != "no"
        return out or bool(self.zones) or any(part.restraint != "no" for part in self.parts)

    @property
    def radio_restraint(self) -> Tri:
        """Whether a restraint part is near the radio; unknown while nobody wrote down how it
        comes out."""
        removal = self.vehicle.radio.removal
        return removal.restraint if removal else "unknown"

    @property
    def radio_plugs(self) -> list[Plug]:
        """Those of the plugs that lie behind the radio."""
        return [plug for plug in self.plugs if plug.unit == "radio"]


def near(restraint: Tri) -> Needs:
    """Return what work needs that may be near a restraint part: nobody having looked is near."""
    return {} if restraint == "no" else needs(battery="waited")


def part_changes(hands: CarHands) -> Iterator[Change]:
    """Yield how each access part comes off and goes home; one that covers another comes first."""
    for part in hands.parts:
        slides = hands.slides and has_rails(part)
        yield from _slid(part, hands.house) if slides else _part(hands, part)


def _slid(part: AccessPart, house: HouseDefaults) -> Iterator[Change]:
    """A seat moved as its owner moves it: a probe needs no more room, and no plug comes apart."""
    still = {KEY: among("off")}
    yield Change(
        part.name, among("on"), "slid", "seat",
        Said(f"{part.name} slid on its rails, its bolts in and every plug of it home", gate=_SLID,
             caution="; ".join(part.hazards)),
        still, minutes=house.hand_panel_min,
    )  # fmt: skip
    yield Change(
        part.name, among("slid"), "on", "seat",
        Said(f"{part.name} slid back to where it stood, no lead under its rails"), still,
        minutes=house.hand_panel_min,
    )  # fmt: skip


def _part(hands: CarHands, part: AccessPart) -> Iterator[Change]:
    off = dict.fromkeys(part.behind, OFF)
    over = {each.name: among("on") for each in hands.parts if part.name in each.behind}
    if part in radio_parts(hands.vehicle):
        over[RADIO] = among("fitted")
    rank: Rank = "panel" if part.kind != "seat" else "restraint plug" if has_plug(part) else "seat"
    minutes = part.minutes or (
        hands.house.hand_seat_min if part.kind == "seat" else hands.house.hand_panel_min
    )
    still = {KEY: among("off"), **near(part.restraint)}
    held = fastener_words(part.fasteners)
    yield Change(
        part.name, among("on", "loose"), "off", rank,
        Said(f"{part.name} off{f' ({held})' if held else ''}", part.steps,
             caution="; ".join(part.hazards)),
        {**still, **off}, minutes=minutes, over_live=over_orange(part, hands.vehicle),
    )  # fmt: skip
    if has_plug(part):
        yield Change(
            part.name, among("off"), "loose", rank,
            Said(f"{part.name} set in loosely, every plug of it home: {', '.join(part.plugs)}",
                 _REACH),
            still, minutes=minutes / 2,
        )  # fmt: skip
        bolts = f" ({held})" if held else ""
        yield Change(
            part.name, among("loose"), "on", rank,
            Said(f"{part.name} bolted in again{bolts}, its plugs stay home", gate=_tight(part)),
            {**still, **over}, minutes=minutes,
        )  # fmt: skip
    plugs = f", its plugs home ({', '.join(part.plugs)})" if part.plugs else ""
    yield Change(
        part.name, among("off"), "on", rank,
        Said(f"{part.name} on again{plugs}", gate=_tight(part)),
        {**still, **over}, minutes=minutes,
    )  # fmt: skip


def _tight(part: AccessPart) -> str:
    """What is true before a seat counts as home: a belt pulls at what its bolts hold.

    A bench that hangs on hooks has none; of a seat on rails nobody has to have counted them.
    """
    clips = all("clip" in each.head for each in part.fasteners)
    bolted = part.kind == "seat" and (has_rails(part) if clips else True)
    return _TORQUE if bolted else ""


_TORQUE = "each of its bolts to the vehicle maker's torque, looked up: ____ N·m"
_REACH = (
    "first: test leads on everything that is read under it, led out at its side",
    "gains, filter switches and the speaker plug under it within a hand's reach from its side or "
    "front; where they are not, it is tipped back for them with the key off, its plugs home and "
    "their leads slack",
)
OFF = among("off")
_SLID = (
    "what is read lies open with the seat bolted; where it does not, it is not read, and the "
    "readings say so: no seat comes off for a reading"
)
OPEN = among("off", "loose", "slid")
"""How a part may stand while something under it is read."""


def radio_changes(hands: CarHands) -> Iterator[Change]:
    """Yield how the radio comes out, with its plugs on it, and goes home."""
    removal = hands.vehicle.radio.removal
    still = {KEY: among("off"), **near(hands.radio_restraint)}
    off = {part.name: OFF for part in radio_parts(hands.vehicle) if part in hands.parts}
    home = {plug_of(plug.id): HOME for plug in hands.radio_plugs}
    minutes = (removal.minutes if removal else None) or hands.house.hand_radio_min
    steps = removal.steps if removal else ()
    mind = "; ".join(removal.hazards) if removal else ""
    yield Change(
        RADIO, among("fitted"), "pulled", "radio",
        Said("radio out, its plugs still on it", steps, caution=mind), {**still, **off},
        minutes=minutes,
    )  # fmt: skip
    yield Change(
        RADIO, among("pulled"), "fitted", "radio",
        Said("radio home, no wire pinched behind it"), {**still, **home}, minutes=minutes,
    )  # fmt: skip


def plug_changes(hands: CarHands) -> Iterator[Change]:
    """Yield how each plug comes off and goes home: with the battery off."""
    for plug in hands.plugs:
        way = {**DEAD, **reach_of(hands, plug)}
        minutes = hands.house.hand_plug_min
        yield Change(
            plug_of(plug.id), among("home"), "off", "plug",
            Said(f"{plug_name(plug)} off"), way, minutes=minutes,
        )  # fmt: skip
        yield Change(
            plug_of(plug.id), OFF, "home", "plug", Said(f"{plug_name(plug)} home until it clicks"),
            way, minutes=minutes,
        )  # fmt: skip


def reach_of(hands: CarHands, plug: Plug) -> Needs:
    """Return what has to be out of the way of a plug."""
    if plug.unit == "radio":
        return needs(radio="pulled")
    over = parts_over(hands.vehicle, plug.location)
    return {part.name: OPEN for part in over if part in hands.parts}
