"""What the finder knows of a vehicle: one row for each answer it could give."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import Literal, NamedTuple

from builder.model.legs import other_legs
from builder.model.names import LEG_SIGNS
from builder.model.plugs import Pin, Plug
from builder.model.said.functions import SWITCHED
from builder.model.vehicle import Question, Scope, Vehicle
from builder.model.words import GRADE_BANDS, PAIRED, Channel, Function, GradeBand

NO_WIRE = "colour not recorded"
FUSE = "fuse"
"""Stands for the cavity in a row about a place in a fuse panel."""


RowGrade = GradeBand | Literal["measured"]
"""How sure a row is. A place in a fuse panel has no grade: it was measured, or is unproved."""


class Row(NamedTuple):
    """One answer: a pin, or the two legs of a pair."""

    function: Function
    channel: Channel | Literal[""]  # "" for what belongs to no channel
    plug: str
    cavity: str  # "7", or "3 + / 4 −" for a pair
    wire: str
    grade: RowGrade
    warning: str


class Entry(NamedTuple):
    """One vehicle as the finder sees it."""

    id: str
    make: str
    model: str
    variant: str
    year_from: int
    year_to: int
    no_switched: str  # why there is no switched wire, "" when there is one or it is not known
    rows: tuple[Row, ...]
    scope: Scope
    how_to_tell: tuple[Question, ...]
    private: bool = False  # a record that only this shop may see
    shells: tuple[tuple[str, str], ...] = ()  # each plug that is drawn, and its housing's id
    plans: tuple[str, ...] = ()  # ids of the converters that it has a plan with

    @property
    def title(self) -> str:
        """The vehicle as a person would say it."""
        years = str(self.year_from)
        if self.year_to != self.year_from:
            years += f"–{self.year_to}"
        return f"{self.make} {self.model} {years}, {self.variant}"


GradeOf = Callable[[Pin], GradeBand]


def entry(vehicle: Vehicle, grade_of: GradeOf, private: bool = False) -> Entry:
    """Return the finder's entry for a vehicle; `grade_of` gives the band of a pin."""
    return Entry(
        vehicle.id,
        vehicle.make,
        vehicle.model,
        vehicle.variant,
        vehicle.scope.year_from,
        vehicle.scope.year_to,
        _why_no_switched(vehicle),
        tuple(row for plug in vehicle.plugs for row in _rows(plug, grade_of))
        + tuple(_fuse_rows(vehicle)),
        vehicle.scope,
        vehicle.how_to_tell,
        private,
        tuple((plug.id, plug.housing) for plug in vehicle.plugs),
    )


def _why_no_switched(vehicle: Vehicle) -> str:
    functions = {pin.function for plug in vehicle.plugs for pin in plug.pins}
    if not functions.isdisjoint(SWITCHED) or vehicle.radio.data_wake != "yes":
        return ""
    return "No switched wire on these plugs: the radio is woken by a data message."


def _rows(plug: Plug, grade_of: GradeOf) -> Iterator[Row]:
    for pin in plug.pins:
        if pin.function in PAIRED:
            yield from _pair(plug, pin, grade_of)
        else:
            cavity, wire = pin.cavity, wire_words(pin)
            yield Row(pin.function, "", plug.id, cavity, wire, grade_of(pin), _warning(pin))


def cavities(row: Row) -> tuple[str, ...]:
    """The cavities of a row: one, or those of both legs of a pair."""
    return tuple(leg.partition(" ")[0] for leg in row.cavity.split(" / "))


def colours(row: Row) -> tuple[str, ...]:
    """The wire of each leg of a row in words; none where no colour was recorded."""
    if row.cavity == FUSE or row.wire == NO_WIRE:
        return ()
    return tuple(wire for wire in row.wire.split(" and ") if wire != NO_WIRE)


def _pair(plug: Plug, pin: Pin, grade_of: GradeOf) -> Iterator[Row]:
    """One row for both legs, made at the positive one; a lone negative makes its own."""
    other = next((leg for _, leg in other_legs(pin, [plug])), None)
    if pin.leg == "negative" and other is not None:
        return
    legs = [pin] if other is None else [pin, other]
    yield Row(
        pin.function,
        pin.channel or "",
        plug.id,
        " / ".join(f"{leg.cavity} {LEG_SIGNS[leg.leg] if leg.leg else '?'}" for leg in legs),
        " and ".join(wire_words(leg) for leg in legs),
        weakest([grade_of(leg) for leg in legs]),
        "" if other else "only one leg is recorded",
    )


BANDS: tuple[GradeBand, ...] = GRADE_BANDS[::-1]


def weakest(bands: list[GradeBand]) -> GradeBand:
    """The band that decides: a pair is as good as its worse leg."""
    return min(bands, key=BANDS.index)


def wire_words(pin: Pin) -> str:
    """The wire's colours in words, base first: "white/black"."""
    if pin.wire is None:
        return NO_WIRE
    return pin.wire.base + (f"/{pin.wire.stripe}" if pin.wire.stripe else "")


def _warning(pin: Pin) -> str:
    if pin.function == "constant_sleeps":
        return "sleeps with the network: not a constant, and not switched either"
    if pin.only_if is not None:
        return "holds for part of these cars only"
    return ""


def _fuse_rows(vehicle: Vehicle) -> Iterator[Row]:
    for place in vehicle.fuse_positions:
        readings: RowGrade = "measured" if place.readings else "unproved"
        wire = f"fuse position in the {place.panel} panel"
        yield Row(place.function, "", place.position, FUSE, wire, readings, "")
