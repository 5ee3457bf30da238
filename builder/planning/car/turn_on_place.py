"""One place that could switch a converter on: where it is, its rung, what was judged of it."""

from __future__ import annotations

from dataclasses import dataclass

from builder.findings import DataPath
from builder.model.parts import Interface, InterfaceOutput
from builder.model.plugs import Pin
from builder.model.words import Channel
from builder.planning.words import PlaceVerdict, RungKind

RUNGS: dict[int, RungKind] = {
    1: "amplifier_on",
    2: "retained",
    3: "accessory",
    4: "fuse_position",
    5: "offset_wake",
    6: "data_interface",
    7: "run",
    8: "signal_wake",
}
"""The ladder, best first. Common practice."""


@dataclass(frozen=True, slots=True)
class Place:
    """One candidate."""

    rung: int
    verdict: PlaceVerdict
    because: str
    where: str = ""
    plug: str | None = None
    cavity: str | None = None
    fuse_position: str | None = None
    pair: Channel | None = None
    draw_ma: float | None = None
    capacity_ma: float | None = None
    path: DataPath | None = None
    pin: Pin | None = None
    driver: bool = False  # a logic level that a driver turns into 12 V
    interface: Interface | None = None  # what has the output, joined by its own plug
    output: InterfaceOutput | None = None
    bus: tuple[tuple[str, Pin], ...] = ()  # the data wires that it reads, each with its plug
    relied_on: tuple[DataPath, ...] = ()  # besides `path`: its other data wires, what feeds it

    @property
    def kind(self) -> RungKind:
        """The word of its rung."""
        return RUNGS[self.rung]
