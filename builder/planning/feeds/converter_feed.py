"""Where a converter takes its own supply: what the job says, if what it says is proved."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import TypeVar

from builder.model.house_defaults import HouseDefaults
from builder.model.job import AT_RADIO, Job, Route
from builder.model.parts import Converter
from builder.model.plugs import FusePosition, Pin
from builder.model.vehicle import Vehicle
from builder.model.words import Function
from builder.planning.car.measurements import Where, pin_readings
from builder.planning.car.pairs import Leg
from builder.planning.objections import Objection, object_to
from builder.planning.plan import ProofReading, Reason, SuppliedAt
from builder.planning.power.feed_place import asked_feed_place, ways_from
from builder.planning.tables import COMMON_PRACTICE, DEVICE_RECORD
from builder.planning.trust import RELIABLE, Trust, holds_for_whole_scope, position_as_pin
from builder.planning.words import FeedPlace
from builder.planning.work_pack import JobParts


@dataclass(frozen=True, slots=True)
class ConverterFeed:
    """Where the supply is taken, and what stands against it.

    `plus` and `ground` are cavities of the radio's plugs, `position` a fuse position; None where
    the place is another. `route` is the shortest measured way from there, None where nobody
    measured one.
    """

    at: FeedPlace
    plus: Leg | None = None
    ground: Leg | None = None
    position: FusePosition | None = None
    route: Route | None = None
    objections: tuple[Objection, ...] = ()

    def reasons(self, converter: Converter) -> list[Reason]:
        """Why it is fed there, in the words of a plan; nothing for one without a supply."""
        if converter.supply is None:
            return []
        own = f"{converter.supply.fuse_a:g} A of its own fuse"
        if self.at == "amplifier":
            because = (
                f"{own} at the amplifier's terminals, and the same ground: the radio's supply and "
                "ground stay as they are"
            )
            return [Reason("feed the converter at the amplifier", because, DEVICE_RECORD)]
        because = f"the job says so; {own} at {self.words}"
        return [Reason(f"feed the converter at {self.words}", because, DEVICE_RECORD)]

    @property
    def legs(self) -> tuple[Leg, ...]:
        """The cavities of plugs that it hangs on."""
        return tuple(each for each in (self.plus, self.ground) if each is not None)

    @property
    def places(self) -> list[tuple[Where, Pin]]:
        """The pins of the car that it hangs on, each with where it is."""
        at_fuse = () if self.position is None else (self.position,)
        return [_found_at(each) for each in (*self.legs, *at_fuse)]

    @property
    def words(self) -> str:
        """The place, for people."""
        if self.plus is not None:
            return self.plus.name
        if self.position is not None:
            return f"fuse position {self.position.position}"
        return "the distribution block" if self.at == "block" else f"the {self.at}"


AT_THE_AMPLIFIER = ConverterFeed("amplifier")
_NONE_AT_RADIO = "no {} is described on the radio's plugs"


@dataclass(frozen=True, slots=True)
class FeedJudge:
    """What may feed a device: proved like a turn-on source."""

    trust: Trust
    defaults: HouseDefaults
    device: str = "the converter"

    def against(self, where: Where, pin: Pin) -> Iterator[Objection]:
        """Yield what stands against taking a supply or a ground at a pin."""
        place = where[2] or f"{where[0]}.{where[1]}"
        refused = self.trust.bar(pin.path)
        if refused is None and not holds_for_whole_scope(self.trust.vehicle, pin.only_if):
            refused = "it is there only in a part of the cars this record is about"
        if refused is not None:
            yield object_to(f"{place} may not feed {self.device}", refused, COMMON_PRACTICE)
            return
        grade = self.trust.grade(pin)
        if grade.band not in RELIABLE:
            because = f"{grade.band}: {grade.why}"
            decision = f"prove {place} before {self.device} hangs on it"
            readings = pin_readings(self.trust.vehicle, pin, where, self.defaults, open_only=True)
            yield object_to(decision, because, COMMON_PRACTICE, settled_by=readings)


def converter_feed(parts: JobParts, trust: Trust, defaults: HouseDefaults) -> ConverterFeed:
    """Return where the converter of a job takes its supply."""
    at, judge = asked_feed_place(parts.job), FeedJudge(trust, defaults)
    if parts.converter.supply is None:
        return AT_THE_AMPLIFIER
    if at == "radio":
        return _at_radio(parts, judge)
    if at == "fuse_position":
        return _at_position(parts, judge)
    if at == "block" and not parts.job.supply.branches:
        return ConverterFeed(at, objections=(_absent("the job has no distribution block"),))
    return ConverterFeed(at)


def feed_readings(
    vehicle: Vehicle, feed: ConverterFeed, defaults: HouseDefaults
) -> list[ProofReading]:
    """Return what proves the pins that a converter hangs on; they pass before a joint is made."""
    return [
        reading
        for where, pin in feed.places
        for reading in pin_readings(vehicle, pin, where, defaults)
    ]


def supplied_at(feed: ConverterFeed, trust: Trust) -> tuple[SuppliedAt, ...]:
    """Return the pins that a converter hangs on, as a plan tells them."""
    return tuple(
        SuppliedAt(*where, pin.function, trust.grade(pin).band, pin.path)
        for where, pin in feed.places
    )


def _shortest(job: Job, place: str) -> Route | None:
    """The way measured for a supply, else any way between the two: it is the same path."""
    found = ways_from(job, place, supply=True) or ways_from(job, place, supply=False)
    return next(iter(found), None)


def _at_radio(parts: JobParts, judge: FeedJudge) -> ConverterFeed:
    plus, against = _best(_legs(parts, "constant"), judge, _NONE_AT_RADIO.format("constant supply"))
    beside = [leg for leg in _legs(parts, "ground") if plus is None or leg.plug == plus.plug]
    ground, grounds_against = _best(beside, judge, _NONE_AT_RADIO.format("ground beside it"))
    return ConverterFeed(
        "radio", plus, ground, route=_shortest(parts.job, AT_RADIO),
        objections=(*against, *grounds_against),
    )  # fmt: skip


def _legs(parts: JobParts, function: Function) -> list[Leg]:
    return [
        Leg(plug, pin)
        for plug in parts.vehicle.plugs
        for pin in plug.pins
        if plug.unit == "radio" and pin.function == function
    ]


_Place = TypeVar("_Place", Leg, FusePosition)


def _best(
    places: list[_Place], judge: FeedJudge, none: str
) -> tuple[_Place | None, tuple[Objection, ...]]:
    """The first that can be relied on; else the first that readings can prove, with those."""
    if not places:
        return None, (_absent(none),)
    judged = [(place, tuple(judge.against(*_found_at(place)))) for place in places]
    return min(judged, key=lambda each: _badness(each[1]))


def _found_at(place: Leg | FusePosition) -> tuple[Where, Pin]:
    if isinstance(place, Leg):
        return (place.plug.id, place.pin.cavity, None), place.pin
    return (None, None, place.position), position_as_pin(place)


def _badness(found: tuple[Objection, ...]) -> int:
    return sum(1 if each.settled_by else 2 for each in found)


def _at_position(parts: JobParts, judge: FeedJudge) -> ConverterFeed:
    live = [each for each in parts.vehicle.fuse_positions if each.function == "constant"]
    position, against = _best(live, judge, "no fuse position that is always live is described")
    route = None if position is None else _shortest(parts.job, position.panel)
    return ConverterFeed("fuse_position", position=position, route=route, objections=against)


def _absent(because: str) -> Objection:
    said = f"{because}; feed it at the amplifier, or describe and read the place"
    return object_to("nothing feeds the converter", said, COMMON_PRACTICE)
