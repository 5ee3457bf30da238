"""The ways to take a plug's pairs: in a loom that is bought, in one made here, or at the plug."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from typing import NamedTuple

from builder.model.parts import Loom
from builder.model.plugs import Plug
from builder.model.words import Function
from builder.planning.car.interface_supply import joined_legs
from builder.planning.car.pairs import Leg
from builder.planning.car.selection import Selection
from builder.planning.circuit.car_side import SELF_LIMITING
from builder.planning.circuit.terminal_names import plug_name
from builder.planning.harness.at_plug import looms_of, use_of
from builder.planning.harness.judged import loom_flags
from builder.planning.harness.planned import LoomPlan, Wanted, wanted_at
from builder.planning.looms.mates import mates_said
from builder.planning.plan import Reason, TurnOn
from builder.planning.tables import COMMON_PRACTICE
from builder.planning.words import LoomFlagKind
from builder.planning.work_pack import JobParts

_ORDER = ("in a loom that is bought and altered", "in a loom made here", "at the plug")


@dataclass(frozen=True, slots=True)
class _Way:
    """One way: what it cuts of the car, how many joints, how it is undone, what is missing."""

    how: str
    cut: int
    beside: int
    joints: int
    undone: str
    has: str  # what of the book it would be made of
    missing: str  # empty where nothing is

    @property
    def told(self) -> str:
        """The way in a sentence."""
        on_car = f"{self.cut} of the car's wires cut, {self.beside} joined beside"
        having = f"; {self.missing}" if self.missing else f"; {self.has}" if self.has else ""
        return f"{self.how}: {on_car}, {self.joints} joints; undone: {self.undone}{having}"


def way_reasons(
    parts: JobParts, selection: Selection, turn_on: TurnOn, feeding: Sequence[Leg]
) -> Iterator[Reason]:
    """Yield, for each plug of which wires are cut, the ways compared and the one recommended."""
    interface = parts.shelf.interfaces.get(turn_on.interface or "")
    fed = tuple(joined_legs(parts.vehicle, interface)) if interface else ()
    for plug in parts.vehicle.plugs:
        wanted = wanted_at(parts, selection, turn_on, plug.id, feeding)
        if any(each.unit_half for each in wanted.values()):
            at_car = [leg.pin.cavity for leg in fed if leg.plug is plug]
            yield _compared(parts, plug, wanted, at_car)


def _compared(
    parts: JobParts, plug: Plug, wanted: dict[str, Wanted], at_car: Sequence[str]
) -> Reason:
    """The ways; `at_car` are the cavities where an interface is joined, with a loom or without."""
    beside = dict.fromkeys(at_car, Wanted(None, None, True))
    stays = _joints(plug, beside)
    ways = (
        _and_at_car(_bought(parts, plug, wanted), stays),
        _and_at_car(_made(parts, plug, wanted), stays),
        _at_plug(plug, wanted | beside),
    )
    best = next((way for way in ways if not way.missing), ways[-1])
    use = looms_of(parts).get(plug.id)
    done = _ORDER[2] if use is None else _ORDER[1 if use.loom.made == "bench" else 0]
    why = (
        "it cuts no wire of the car and leaves none to join again"
        if best.cut == 0
        else "no loom for it is on record, and its joints hold as well"
    )
    agreed = "the job does so" if done == best.how else f"the job has them {done}, which decides"
    told = ". ".join(way.told for way in ways)
    return Reason(
        f"{plug_name(plug)}: recommended {best.how}",
        f"{why}; {agreed}. {told}",
        COMMON_PRACTICE,
    )


class _Joints(NamedTuple):
    """Wires that are cut, wires that are joined beside, and joints in all."""

    cut: int
    beside: int
    all: int


def _joints(plug: Plug, wanted: dict[str, Wanted]) -> _Joints:
    """Count what a plug's wires take.

    A supply is joined to the holder of a fuse of its own, which is joined on both sides.
    """
    cut = [each for each in wanted.values() if each.unit_half]
    beside = sum(each.tapped for each in wanted.values())
    halves = [half for each in cut for half in (each.unit_half, each.car_half)]
    functions = {pin.cavity: pin.function for pin in plug.pins}
    fused = sum(e.tapped and functions[c] not in _WITHOUT_FUSE for c, e in wanted.items())
    return _Joints(len(cut), beside, halves.count("cable") + beside + fused)


_WITHOUT_FUSE: frozenset[Function] = SELF_LIMITING | {"speaker", "line", "ground"}


def _and_at_car(way: _Way, stays: _Joints) -> _Way:
    """A way by a loom, with what is joined at the car's own wires all the same."""
    if not stays.beside:
        return way
    joints = way.joints + stays.all
    undone = f"{way.undone}; {stays.beside} closed, behind the trim"
    return replace(way, beside=stays.beside, joints=joints, undone=undone)


def _at_plug(plug: Plug, wanted: dict[str, Wanted]) -> _Way:
    cut, beside, joints = _joints(plug, wanted)
    undone = f"{cut} wires joined again and {beside} closed, all behind the trim"
    return _Way(_ORDER[2], cut, beside, joints, undone, "", "")


def _bought(parts: JobParts, plug: Plug, wanted: dict[str, Wanted]) -> _Way:
    looms = [each for each in parts.shelf.looms.values() if each.made != "bench"]
    fit = [each.id for each in looms if _fits(parts, each, plug, wanted)]
    has = f"by their records these fit: {', '.join(fit)}" if fit else ""
    missing = "" if fit else "no loom of this book fits"
    return _in_loom(_ORDER[0], plug, wanted, has, missing)


_LOSES: tuple[LoomFlagKind, ...] = ("loom_cavity_dead", "loom_undescribed")


def _fits(parts: JobParts, loom: Loom, plug: Plug, wanted: dict[str, Wanted]) -> bool:
    plan = LoomPlan(use_of(loom, plug, ()), wanted)
    found = loom_flags(parts, {plug.id: plan})
    return not any(flag.stops or flag.kind in _LOSES for flag in found)


def _made(parts: JobParts, plug: Plug, wanted: dict[str, Wanted]) -> _Way:
    shells = parts.shelf.housings
    own = shells.get(plug.housing)
    takes = [
        each.id
        for each in shells.values()
        if own is not None and each is not own and mates_said(each, own) == "yes"
    ]
    if own is None or not takes:
        return _in_loom(
            _ORDER[1], plug, wanted, "", "no bare plug that takes this one is on record"
        )
    return _in_loom(_ORDER[1], plug, wanted, f"of {own.id} and {' or '.join(takes)}, bare", "")


def _in_loom(how: str, plug: Plug, wanted: dict[str, Wanted], has: str, missing: str) -> _Way:
    joints = _joints(plug, wanted).all
    return _Way(how, 0, 0, joints, "unplug the loom, the plug home", has, missing)
