"""The plugs of a vehicle: pins, wires, and what was measured and said of them."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from builder.findings import DataPath
from builder.model.wire import Wire
from builder.model.words import (
    Channel,
    ClaimMethod,
    DriverSeat,
    Face,
    Function,
    Instrument,
    Leg,
    Load,
    Quantity,
    Reference,
    State,
    Tri,
    Unit,
)

PLUGS: Final = "plugs"
FUSE_POSITIONS: Final = "fuse_positions"
"""Where the data paths of pins and of fuse positions begin."""


@dataclass(frozen=True, slots=True)
class Session:
    """One visit with a meter: who, when, on which car, reading from which face."""

    id: str
    by: str
    date: str  # YYYY-MM-DD
    car_tag: str
    car_year: int | None
    car_built: str | None
    car_trim: str | None
    car_drive_side: DriverSeat | None
    method: Instrument
    read_from: Face
    against: Reference
    impedance_mohm: float | None
    true_rms: Tri
    path: DataPath


@dataclass(frozen=True, slots=True)
class Reading:
    """One figure off a meter. `value` is None for an open circuit (ohms only).

    `against` is "battery_negative", "body", "4" (a cavity of the same plug) or "B.4".
    """

    session: str
    state: State
    quantity: Quantity
    value: float | None
    against: str
    battery_v: float | None
    load: Load
    minutes: float | None
    volume_step: int | None
    tone_hz: float | None
    note: str | None
    path: DataPath
    lasts_s: float | None = None  # of a dip whose lowest point `value` is
    from_v: float | None = None  # just before that dip
    counted_as: str | None = None  # the cavity as typed, where it was turned to this one


@dataclass(frozen=True, slots=True)
class Claim:
    """What somebody says of a pin without having measured it."""

    by: str
    date: str
    method: ClaimMethod
    says: Function
    channel: Channel | None
    leg: Leg | None
    source: str | None
    path: DataPath
    read_from: Face | None = None  # None: the face that the plug was counted on
    counted_as: str | None = None  # the cavity as typed, where it was turned to this one


@dataclass(frozen=True, slots=True)
class FaceRefusal:
    """What was counted on another face than a plug and could not be turned: it is not counted.

    `cavities` are as they were typed, `counted_on` is the face, `path` is where it is said.
    """

    plug: str
    who: str
    session: str  # "" for a claim
    counted_on: Face
    cavities: tuple[str, ...]
    why: str
    path: DataPath


@dataclass(frozen=True, slots=True)
class Fuse:
    """The fuse that feeds a supply pin."""

    place: str
    rating_a: float | None


@dataclass(frozen=True, slots=True)
class Condition:
    """The part of the scope for which a line holds."""

    trims: tuple[str, ...]
    options_any: tuple[str, ...]
    options_none: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Pin:
    """One described cavity of a plug."""

    cavity: str
    function: Function
    channel: Channel | None
    leg: Leg | None
    wire: Wire | None
    fuse: Fuse | None
    max_source_ma: float | None
    level_v: float | None
    only_if: Condition | None
    readings: tuple[Reading, ...]
    claims: tuple[Claim, ...]
    note: str | None
    path: DataPath


@dataclass(frozen=True, slots=True)
class LookAlike:
    """A plug that could be taken for this one, and how to tell."""

    plug: str | None
    housing: str | None
    fits: Tri
    tell: tuple[str, ...]
    path: DataPath


@dataclass(frozen=True, slots=True)
class Plug:
    """One plug of the vehicle."""

    id: str
    name: str
    unit: Unit
    location: str
    housing: str
    shell_colours: tuple[str, ...]
    read_from: Face
    empty: tuple[str, ...]
    look_alikes: tuple[LookAlike, ...]
    pins: tuple[Pin, ...]
    path: DataPath


@dataclass(frozen=True, slots=True)
class FusePosition:
    """A fuse-panel position that could feed a turn-on lead."""

    position: str
    panel: str
    label: str
    function: Function
    rating_a: float | None
    readings: tuple[Reading, ...]
    path: DataPath
