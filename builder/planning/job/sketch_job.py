"""A job nobody has written yet, composed of a vehicle, a converter and amplifiers.

Everything a job would say and nobody said is assumed and listed, so that a sketch is judged by
the same planner and rules as a job, and nobody takes it for one.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from math import ceil

from builder.findings import DataPath
from builder.model.house_defaults import HouseDefaults
from builder.model.job import (
    Job,
    JobAmplifier,
    JobCar,
    JobSpeaker,
    JobSupply,
    Route,
    Told,
)
from builder.model.parts import Amplifier, Cable, Converter
from builder.model.vehicle import Vehicle
from builder.model.words import THIS, Carries, Unit
from builder.model.zones import all_known, known
from builder.planning.car.sources import find_sources
from builder.planning.feeds.tap_plan import Treatment
from builder.planning.job.sketch_assumed import assumed_keys
from builder.planning.job.sketch_speakers import (
    Cast,
    Stage,
    doors,
    outlets_of,
    subwoofers,
)
from builder.planning.job.sketch_supply import sketch_supply
from builder.planning.job.sketch_switches import of_switches, sketch_switches
from builder.planning.plan import Reason
from builder.planning.tables import HOUSE_DEFAULT, PROJECT_CHOICE, RECORD
from builder.planning.trust import Trust, grade_by_readings

SKETCH = "sketch"
"""The id of every sketched job: no record has it."""

_DOORS_FROM_CHANNELS = 3
"""From this many amplifier channels on a sketch takes the doors. Chosen by this project."""

_PLACES: dict[Unit, str] = {
    "radio": "radio",
    "amplifier": "factory amplifier",
    "fuse_panel": "fuse panel",
}


class CannotSketchError(ValueError):
    """The amplifiers cannot do what was asked of them; the message says why."""


@dataclass(frozen=True, slots=True)
class Sketch:
    """A composed job, and every value in it that nobody gave."""

    job: Job
    assumed: tuple[Reason, ...]


def sketch_job(
    vehicle: Vehicle,
    converter: Converter,
    amplifiers: Sequence[Amplifier],
    cables: Sequence[Cable],
    *,
    defaults: HouseDefaults,
    treatment: Treatment = "auto",
    barred: Mapping[DataPath, str] | None = None,
) -> Sketch:
    """Return a job of these parts in this car.

    Args:
        vehicle: The car.
        converter: The converter.
        amplifiers: One or more; the job calls them amp 1, amp 2 and so on.
        cables: The cables of the book.
        defaults: The book's house defaults.
        treatment: "addon" adds a subwoofer beside the factory speakers, "intercept" takes the
            doors over, "auto" adds a subwoofer with one or two amplifier channels and takes the
            doors from three on.
        barred: Data paths of the vehicle on which a stop finding stands, with the reason.
    Raises:
        CannotSketchError: "intercept" with amplifiers that have no two full-range channels.
    """
    named = [(f"amp {number}", amplifier) for number, amplifier in enumerate(amplifiers, 1)]
    trust = Trust(vehicle, grade_by_readings(defaults), barred or {})
    sources = find_sources(vehicle, trust, defaults)
    stage = Stage(vehicle, converter, outlets_of(named), sources, trust, defaults)
    cast = _cast(stage, treatment)
    stock = _cables(cables, cast.speakers)
    supply, of_supply = sketch_supply(stage, named)
    routes = _routes(stage, cast.speakers)
    job = _job(stage, named, cast.speakers, routes, stock, supply)
    return Sketch(
        job,
        (
            *_of_car(vehicle, job.car),
            *cast.assumed,
            *_of_routes(vehicle, defaults),
            *of_supply,
            _of_cables(stock),
            _of_pad(defaults),
            *of_switches(job),
        ),
    )


def _cast(stage: Stage, treatment: Treatment) -> Cast:
    full_range = sum(not outlet.is_sub for outlet in stage.outlets)
    many = len(stage.outlets) >= _DOORS_FROM_CHANNELS and full_range > 1
    if treatment == "addon" or (treatment == "auto" and not many):
        return subwoofers(stage)
    if full_range < 2:
        raise CannotSketchError(
            "to break the doors two full-range amplifier channels are needed, left and right; "
            f"here are {full_range}. Leave --treatment out, or take another amplifier"
        )
    return doors(stage)


def _job(
    stage: Stage,
    named: Sequence[tuple[str, Amplifier]],
    speakers: tuple[JobSpeaker, ...],
    routes: tuple[Route, ...],
    cables: Sequence[Cable],
    supply: JobSupply,
) -> Job:
    first, parts = named[0][0], " and ".join(amplifier.name for _, amplifier in named)
    vehicle = stage.vehicle
    return Job(
        id=SKETCH,
        data=vehicle.data,
        title=f"a sketch with {stage.converter.name} and {parts}",
        vehicle=vehicle.id,
        car=JobCar(answers=_answers(vehicle), **assumed_keys(JobCar)),
        converter=stage.converter.id,
        converter_place=f"beside {first}",
        amplifiers=tuple(
            JobAmplifier(
                name=name,
                part=amplifier.id,
                path=("amplifiers",),
                switches=sketch_switches(name, amplifier, speakers, stage.converter),
                **assumed_keys(JobAmplifier),
            )
            for name, amplifier in named
        ),
        speakers=speakers,
        treatments=None,
        routes=routes,
        cables=tuple(cable.id for cable in cables),
        supply=supply,
        **assumed_keys(Job),
    )


def _answers(vehicle: Vehicle) -> tuple[Told, ...]:
    """The answers that make a car one of this record."""
    return tuple(
        Told(question=question.question, answer=mine[0])
        for question in vehicle.how_to_tell
        if (mine := [each.answer for each in question.answers if each.means == THIS])
    )


def _of_car(vehicle: Vehicle, car: JobCar) -> list[Reason]:
    answers = "; ".join(f'"{told.question}" {told.answer}' for told in car.answers)
    because = (
        f"answered as this record asks: {answers}" if answers else "nothing tells it from others"
    )
    found = [Reason("the car is one that this record is about", because, RECORD)]
    if vehicle.sounds or not vehicle.sounds_known:
        sounds = ", ".join(sound.sound for sound in vehicle.sounds)
        has = f"this car has: {sounds}" if sounds else "nobody listened for those of this car"
        because = f"a job names what must sound as before; {has}"
        found.append(Reason("no sound is asked to be kept", because, RECORD))
    return found


def _routes(stage: Stage, speakers: Sequence[JobSpeaker]) -> tuple[Route, ...]:
    """Every way a demand may ask for, all of one length: nobody drew a string through this car."""
    pairs = [stage.sources.pairs[n] for s in speakers for n in s.plays if n in stage.sources.pairs]
    unit = pairs[0].positive.plug.unit if pairs else "radio"
    start, metres = _PLACES.get(unit, "radio"), stage.defaults.sketch_route_m
    returning = dict.fromkeys(speaker.amplifier for speaker in speakers if speaker.existing)
    return (
        _route(start, "converter", "signal", metres),
        *(_route(place, "converter", "control", metres) for place in _control_places(stage)),
        *(_route(name, start, "amplified", metres) for name in returning),
    )


def _control_places(stage: Stage) -> dict[str, None]:
    """Where a turn-on wire may begin, in the words of a job's routes."""
    plugs = stage.vehicle.plugs
    places = dict.fromkeys(_PLACES.get(plug.unit, f"plug {plug.id}") for plug in plugs)
    return places | ({"fuse panel": None} if stage.vehicle.fuse_positions else {})


def _route(start: str, end: str, carries: Carries, metres: float) -> Route:
    return Route(
        from_place=start, to_place=end, carries=carries, length_m=metres, zones=(), path=("routes",)
    )


def _of_routes(vehicle: Vehicle, defaults: HouseDefaults) -> list[Reason]:
    what = f"{defaults.sketch_route_m:g} m between radio, converter and amplifiers"
    because = "nobody drew a string along it; the converter stands beside the first amplifier"
    found = [Reason(what, because, HOUSE_DEFAULT)]
    zones = [*vehicle.safety.restraint_zones, *vehicle.safety.high_voltage_zones]
    if zones:
        named = ", ".join(known(tuple(dict.fromkeys(zones))))
        places = (
            named if all_known(tuple(zones)) else f"{named or 'all of them'}, nobody has looked"
        )
        because = f"no way is chosen; look before you lay one: {places}"
        found.append(Reason("every way keeps out of the zones of the car", because, RECORD))
    return found


def _cables(cables: Sequence[Cable], speakers: Sequence[JobSpeaker]) -> list[Cable]:
    """The book's light copper cables: first those with pairs and a single for the turn-on wire,
    of these the one that needs the fewest conductors for all pairs.
    """
    pairs = len({name for speaker in speakers for name in speaker.plays})
    light = [each for each in cables if each.use != "power" and each.material == "copper"]

    def size(cable: Cable) -> tuple[bool, int, str]:
        jackets = ceil(pairs / max(len(cable.pairs), 1))
        conductors = jackets * (2 * len(cable.pairs) + len(cable.singles))
        return not (cable.pairs and cable.singles), conductors, cable.id

    return sorted(light, key=size)


def _of_cables(cables: Sequence[Cable]) -> Reason:
    names = ", ".join(cable.id for cable in cables) or "none"
    because = "no shelf is named: every copper cable of the book, in this order"
    return Reason(f"the cables {names}", because, PROJECT_CHOICE)


def _of_pad(defaults: HouseDefaults) -> Reason:
    because = "nobody said whether resistors may be fitted; `pad: none` in a job forbids them"
    decision = f"a pad wherever an input has less than {defaults.margin_thin_db:g} dB to spare"
    return Reason(decision, because, HOUSE_DEFAULT)
