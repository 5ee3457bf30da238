"""A loom at a plug of the car: which of its ends goes where, and what it passes on."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property

from builder.findings import DataPath
from builder.model.parts import Loom
from builder.model.parts.loom import LoomEnd, PlugsInto
from builder.model.plugs import Plug
from builder.model.words import Unit
from builder.planning.looms.conductors import Terminal
from builder.planning.looms.nets import Net, nets_of
from builder.planning.work_pack import JobParts


@dataclass(frozen=True)
class LoomUse:
    """A loom of the book between a plug of the car and its unit. `path` is where the job says it.

    A record that is no loom for this unit has no end for it: `unit_end` is then None.
    """

    loom: Loom
    plug: Plug
    unit_end: LoomEnd | None
    car_end: LoomEnd | None
    path: DataPath

    @property
    def name(self) -> str:
        """What it is called on every sheet: one loom sits at a plug."""
        return loom_name(self.plug.id)

    @property
    def ends(self) -> tuple[LoomEnd, LoomEnd] | None:
        """The end at the unit and that at the car's plug; None when it lacks one of them."""
        return (self.unit_end, self.car_end) if self.unit_end and self.car_end else None

    @cached_property
    def nets(self) -> tuple[Net, ...]:
        """What it joins as it is recorded."""
        return nets_of(self.loom)

    def net_at(self, end: LoomEnd, cavity: str) -> Net | None:
        """What is joined to a cavity of an end; None where no wire sits."""
        here = Terminal(end.name, cavity)
        return next((net for net in self.nets if here in net.terminals), None)

    def passes(self, cavity: str) -> bool:
        """Whether a cavity of the car's plug reaches the same cavity of the unit."""
        if self.ends is None:
            return False
        unit, car = self.ends
        net = self.net_at(unit, cavity)
        return net is not None and cavity in net.cavities(car.name)


def loom_name(plug: str) -> str:
    """Return what the loom at a plug is called.

    >>> loom_name("A")
    'loom A'
    """
    return f"loom {plug}"


_UNIT_ENDS: dict[Unit, PlugsInto] = {"amplifier": "amplifier"}


def looms_of(parts: JobParts) -> Mapping[str, LoomUse]:
    """Return the looms of a job by the plug they sit at; names that lead nowhere are left out."""
    job, vehicle, shelf = parts.job, parts.vehicle, parts.shelf
    found: dict[str, LoomUse] = {}
    for each in job.looms:
        loom, plug = shelf.looms.get(each.record), vehicle.plug(each.plug)
        if loom is not None and plug is not None and plug.id not in found:
            found[plug.id] = use_of(loom, plug, each.path)
    return found


def use_of(loom: Loom, plug: Plug, path: DataPath) -> LoomUse:
    """Return a loom at a plug, whether it fits or not."""
    into = _UNIT_ENDS.get(plug.unit, "radio")
    unit = next((end for end in loom.ends if end.plugs_into == into), None)
    car = next((end for end in loom.ends if end.plugs_into == "car"), None)
    return LoomUse(loom, plug, unit, car, path)
