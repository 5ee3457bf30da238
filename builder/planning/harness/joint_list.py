"""The joint list of a loom: each joint of the circuit in it, and each end that is closed off."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from typing import NamedTuple

from builder.figures import shown
from builder.model.house_defaults import HouseDefaults
from builder.planning.circuit.index import CircuitIndex
from builder.planning.circuit.model import CircuitWire, Element, EndId, Joint
from builder.planning.harness.cable_ends import CableEnds
from builder.planning.harness.joint_parts import Barrel, area_mm2, barrel_for, sleeve_for
from builder.planning.harness.joint_places import joint_place
from builder.planning.harness.planned import LoomPlan
from builder.planning.harness.rows import CLOSED_OFF, LoomJointRow, SleeveOn
from builder.planning.harness.wire_rows import WireOfLoom, WireSide
from builder.planning.power.conductors import conductor_of
from builder.planning.views.names import element_words, end_words, wire_words

WRAPPED = "wrap of tape"
BESIDE = "clip"
MEASURE = "measure"
"""What closes a tap, what it is made with, and what is said of a size that nobody recorded."""

_CORE: SleeveOn = "before"
_TIP: SleeveOn = "after"
_NONE: SleeveOn = "none"


class _Place(NamedTuple):
    """Where a joint lies [mm]; `core` from its jacket."""

    cut: float | None = None
    tip: float | None = None
    core: float | None = None
    sleeve: tuple[float, float] | None = None
    branch: str = ""


def joint_rows(
    plan: LoomPlan,
    index: CircuitIndex,
    wires: Sequence[WireOfLoom],
    ends: CableEnds,
    defaults: HouseDefaults,
) -> Iterator[LoomJointRow]:
    """Yield one row a joint or closed end: wire by wire, the unit's side before the car's."""
    maker = _Rows(plan, index, wires, ends, defaults)
    for number, row in enumerate(maker.rows(), 1):
        yield row(number)


class _Rows:
    """The rows of one loom."""

    def __init__(
        self, plan: LoomPlan, index: CircuitIndex, wires: Sequence[WireOfLoom],
        ends: CableEnds, defaults: HouseDefaults,
    ) -> None:  # fmt: skip
        self.plan, self.index, self.wires, self.defaults = plan, index, wires, defaults
        self.ends = ends
        self.on_branch: Counter[str] = Counter()

    def rows(self) -> Iterator[_Row]:
        for wire in self.wires:
            for side in wire.sides():
                yield from self._side(wire, side)

    def _side(self, wire: WireOfLoom, side: WireSide) -> Iterator[_Row]:
        joints = wire.joints_at(side)
        if not joints:
            place, area = self._place(wire, side, None), area_mm2(conductor_of(wire.wire.wire))
            sleeve = sleeve_words([[area]], self.defaults, crimped=False)
            yield _Row(
                wire, self._where(wire, side), "", CLOSED_OFF, None, place, "none", sleeve, "after"
            )
        for joint in joints:
            met = wire.met_at(side, joint)
            owners = [owner for end in met if (owner := self.index.owners.get(end)) is not None]
            core = next((each for each in owners if isinstance(each, CircuitWire)), None)
            place = self._place(wire, side, core)
            yield self._joined(wire, side, joint, core, place)
            for part in owners:
                if isinstance(part, Element):
                    yield from self._behind(wire, part, met, place)

    def _joined(
        self, wire: WireOfLoom, side: WireSide, joint: Joint, core: CircuitWire | None, at: _Place
    ) -> _Row:
        areas = [self._area(wire, end) for end in joint.joins]
        if joint.kind == "tap":
            barrel, sleeve, on = BESIDE, WRAPPED, _NONE
        else:
            head_on = wire.cut and side.end == self.plan.ends[0].name
            groups, on = ([[each] for each in areas], _CORE) if head_on else ([areas], _TIP)
            barrel = barrel_words(areas, self.defaults)
            sleeve = sleeve_words(groups, self.defaults)
        return _Row(wire, self._where(wire, side), joint.id, wire.joined_at(side, joint),
                    core, at, barrel, sleeve, on)  # fmt: skip

    def _behind(
        self, wire: WireOfLoom, part: Element, met: Sequence[EndId], near: _Place
    ) -> Iterator[_Row]:
        """The other lead of a fuse's holder, with what is joined to it in the loom."""
        far = next(end for end in part.ends if end not in met)
        joints = self.index.joints_of.get(far, [])
        for joint in (each for each in joints if each.kind == "element_lead"):
            cores = [
                (end, owner) for end in joint.joins
                if isinstance(owner := self.index.owners.get(end), CircuitWire)
            ]  # fmt: skip
            for end, core in cores:
                areas = [self._area(wire, each) for each in joint.joins]
                said = f"{end_words(self.index, end)}{wire.onward(end)}"
                place = _Place(core=self.ends.core_mm(wire, core), branch=near.branch)
                yield _Row(
                    wire,
                    f"far lead of {_called(part)}",
                    joint.id,
                    said,
                    core,
                    place,
                    barrel_words(areas, self.defaults),
                    sleeve_words([[each] for each in areas], self.defaults),
                    "before",
                )

    def _area(self, wire: WireOfLoom, end: EndId) -> float | None:
        """The copper of an end: a lead of a part has none on record."""
        owner = self.index.owners.get(end)
        if isinstance(owner, CircuitWire):
            return area_mm2(owner.size)
        return None if owner is not None else area_mm2(conductor_of(wire.wire.wire))

    def _where(self, wire: WireOfLoom, side: WireSide) -> str:
        if wire.cut:
            return f"{side.end}'s half"
        branch = wire.branch_of(side.end)
        if branch is None:
            return "beside it, it stays whole"
        return f"plug of {branch.name}" if branch.housing else f"bare end at {branch.name}"

    def _place(self, wire: WireOfLoom, side: WireSide, core: CircuitWire | None) -> _Place:
        at, branch = wire.joint_mm(), wire.branch_of(side.end)
        if branch is not None:
            if core is None:
                return _Place(branch=branch.name)
            number = self.on_branch[branch.name]
            self.on_branch[branch.name] += 1
            found = self.ends.on_branch(branch, number)
            return _Place(*found, branch.name) if found else _Place(branch=branch.name)
        if at is None:
            return _Place()
        length = None if core is None else self.ends.core_mm(wire, core, side.end)
        if not wire.cut:
            return _Place(None, at, length)
        place = joint_place(at, "unit" if side.end == self.plan.ends[0].name else "car")
        return _Place(at, place.tip_mm, length, place.sleeve_mm)


def _called(part: Element) -> str:
    """The part of the line before: a fuse by its holder, which that line names in full."""
    return "its holder" if part.kind == "fuse" else f"the {element_words(part)}"


class _Row(NamedTuple):
    """A row that has no number yet."""

    wire: WireOfLoom
    side: str
    joint: str
    joined: str
    core: CircuitWire | None
    place: _Place
    barrel: str
    sleeve: str
    sleeve_on: SleeveOn

    def __call__(self, number: int) -> LoomJointRow:
        low, high = self.place.sleeve or (None, None)
        cable, core = ("", "") if self.core is None else (self.core.piece, wire_words(self.core))
        return LoomJointRow(
            number, self.joint, self.wire.name, self.side, self.wire.colour, self.place.branch,
            self.joined, core, cable, self.place.cut, self.place.tip, self.place.core, low, high,
            self.barrel, self.sleeve, self.sleeve_on,
        )  # fmt: skip


def barrel_said(barrel: Barrel) -> str:
    """Return a barrel by the copper that it holds: "1.5 to 2.5 mm²"."""
    return f"{shown(barrel.least_mm2)} to {shown(barrel.most_mm2)} mm²"


def barrel_words(areas: Sequence[float | None], defaults: HouseDefaults) -> str:
    """Return which barrel wires of these areas [mm²] take: "1.5 to 2.5 mm²"."""
    barrel = barrel_for(areas, defaults)
    if barrel is not None:
        return barrel_said(barrel)
    known = [each for each in areas if each is not None]
    if len(known) < len(areas):
        return MEASURE
    return f"none of the house holds {shown(sum(known))} mm²: solder"


def sleeve_words(
    groups: Sequence[Sequence[float | None]], defaults: HouseDefaults, *, crimped: bool = True
) -> str:
    """Return which sleeve a joint or, not crimped, a closed end takes: "6 / 2 mm"."""
    inside = barrel_for([each for group in groups for each in group], defaults)
    sleeve = sleeve_for(groups, inside if crimped else None)
    if sleeve is None:
        return MEASURE
    return f"{shown(sleeve.before_mm)} / {shown(sleeve.after_mm)} mm"
