"""What a job has to connect, and by which of its measured routes."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from builder.model.house_defaults import HouseDefaults
from builder.model.job import Job, JobSpeaker, Route
from builder.model.names import channel_name
from builder.model.words import Channel
from builder.planning.cables.speaker_leads import music_current_a_rms
from builder.planning.cables.tap_places import tap_place_objections
from builder.planning.car.demands import Demand
from builder.planning.car.interface_fit import plug_for
from builder.planning.car.selection import Selection
from builder.planning.car.treatments import wires_of
from builder.planning.objections import Objection, object_to
from builder.planning.plan import TurnOn
from builder.planning.tables import COMMON_PRACTICE
from builder.planning.turn_on.loads import WAKES_BY_ITSELF
from builder.planning.words import DemandKind
from builder.planning.work_pack import JobParts


@dataclass(frozen=True, slots=True)
class RoutedDemand:
    """A connection and the route it takes."""

    demand: Demand
    route: Route


@dataclass(frozen=True, slots=True)
class JobDemands:
    """All connections that lie in cables of the job; `objections` are routes nobody measured."""

    routed: tuple[RoutedDemand, ...]
    objections: tuple[Objection, ...]


def job_demands(
    parts: JobParts,
    selection: Selection,
    turn_on: TurnOn,
    power_w: dict[str, float],
    defaults: HouseDefaults,
    *,
    turn_on_settled: bool = True,
) -> JobDemands:
    """Return signal pairs, amplified pairs and the turn-on wire of a job, each with its route.

    `power_w` is what each speaker, by name, is driven with. While it is not settled what switches
    on, no route is asked for to where it may turn out not to be.
    """
    demands = [
        *_signals(selection, parts.job),
        *_returns(parts, selection, power_w, defaults),
        *_control(parts, turn_on),
    ]
    routed = [RoutedDemand(demand, route) for demand, route in demands if route is not None]
    missing = dict.fromkeys(
        demand.kind
        for demand, route in demands
        if route is None and (turn_on_settled or demand.kind != "control")
    )
    pairs = {tap.pair.channel: tap.pair for tap in selection.taps}
    ways = [
        (demand.channel, route)
        for demand, route in demands
        if demand.kind == "signal" and demand.channel and route is not None
    ]
    return JobDemands(tuple(routed), (*map(_no_route, missing), *tap_place_objections(pairs, ways)))


def _no_route(kind: DemandKind) -> Objection:
    because = f"the job names no route that carries {kind}; measure it with a string and add it"
    return object_to(f"no {kind} route", because, COMMON_PRACTICE)


def _signals(selection: Selection, job: Job) -> list[tuple[Demand, Route | None]]:
    routes = [route for route in job.routes if route.carries == "signal"]
    found: list[tuple[Demand, Route | None]] = []
    for tap in selection.taps:
        channel = tap.pair.channel
        route = _nearest(routes, (route_words(route) for route in routes), channel)
        ends = (route.from_place, route.to_place) if route else ("radio", "converter")
        purpose = f"{channel_name(channel)} signal"
        found.append((Demand(purpose, *ends, "signal", True, 0.0, channel), route))
    return found


def route_words(route: Route) -> frozenset[str]:
    """Return the words of both ends of a route."""
    return frozenset(f"{route.from_place} {route.to_place}".lower().replace("-", " ").split())


def _nearest(
    routes: list[Route], words: Iterable[frozenset[str]], channel: Channel
) -> Route | None:
    """The route whose ends share most words with a channel; the first of equals."""
    wanted = frozenset(channel.split("-"))
    scored = [len(wanted & each) for each in words]
    return routes[scored.index(max(scored))] if routes else None


def _returns(
    parts: JobParts, selection: Selection, power_w: dict[str, float], defaults: HouseDefaults
) -> list[tuple[Demand, Route | None]]:
    """One amplified pair for each broken pair: back to the speaker's own wire."""
    broken = {tap.pair.channel: tap.pair for tap in selection.broken}
    routes = [route for route in parts.job.routes if route.carries == "amplified"]
    found: list[tuple[Demand, Route | None]] = []
    for speaker in parts.job.speakers:
        for channel in wires_of(speaker, broken):
            mine = [route for route in routes if speaker.amplifier in route.from_place] or routes
            route = _nearest(mine, (route_words(each) for each in mine), channel)
            ends = (route.from_place, route.to_place) if route else (speaker.amplifier, "radio")
            current = _current_a(speaker, power_w, defaults)
            purpose = f"{channel_name(channel)} to its speaker"
            found.append((Demand(purpose, *ends, "amplified", True, current, channel), route))
    return found


def _current_a(speaker: JobSpeaker, power_w: dict[str, float], defaults: HouseDefaults) -> float:
    watts = power_w.get(speaker.name, speaker.rated_w_rms)
    return music_current_a_rms(watts, speaker.nominal_ohm, defaults)


def _control(parts: JobParts, turn_on: TurnOn) -> list[tuple[Demand, Route | None]]:
    """The turn-on wire from the car; none where the converter wakes by itself."""
    if turn_on.kind in WAKES_BY_ITSELF or turn_on.kind == "none":
        return []
    names = _place_names(parts, turn_on)
    routes = [route for route in parts.job.routes if _starts_at(route, names)]
    best = sorted(routes, key=lambda route: ("control", "signal").index(route.carries))
    route = best[0] if best else None
    ends = (route.from_place, route.to_place) if route else (names[0], "converter")
    return [(Demand("turn-on", *ends, "control", False), route)]


def _place_names(parts: JobParts, turn_on: TurnOn) -> tuple[str, ...]:
    """How a route may name the place where the turn-on wire begins."""
    if turn_on.fuse_position is not None:
        return (turn_on.fuse_position, "fuse panel")
    vehicle, interface = parts.vehicle, parts.shelf.interfaces.get(turn_on.interface or "")
    where = turn_on.plug if interface is None else plug_for(interface, vehicle)
    own = () if interface is None else ("interface", interface.id)
    plug = vehicle.plug(where) if where else None
    unit = plug.unit if plug else "radio"
    return (*own, unit.replace("_", " "), f"plug {where}")


def _starts_at(route: Route, names: tuple[str, ...]) -> bool:
    place = route.from_place.lower()
    return route.carries in ("control", "signal") and any(n.lower() in place for n in names)
