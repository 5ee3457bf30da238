"""Why the cables of a job are as they are, and what is wrong with them: clashes, noise, reels."""

from __future__ import annotations

from dataclasses import dataclass

from builder.model.house_defaults import HouseDefaults
from builder.model.job import AT_CONVERTER
from builder.model.parts import Cable
from builder.model.vehicle import Vehicle
from builder.model.words import Carries
from builder.planning.cables.colour_clashes import CarWire, clash_words, colour_clashes
from builder.planning.cables.cut_lengths import cut_length_m, line_lead_m, reel_short_m
from builder.planning.cables.laying import LaidJacket, Laying
from builder.planning.cables.piece_names import CLASS_NAMES, cables_named
from builder.planning.car.selection import Selection
from builder.planning.pack_details import PackFlag
from builder.planning.plan import Reason, TurnOn
from builder.planning.tables import COMMON_PRACTICE, HOUSE_DEFAULT, SIGNAL_APART
from builder.planning.words import CableFlagKind, DemandKind
from builder.planning.work_pack import JobParts


@dataclass(frozen=True, slots=True)
class JobCables:
    """Reasons and shortcomings; what is cut and joined stands in the circuit."""

    reasons: tuple[Reason, ...]
    flags: tuple[PackFlag, ...]


def job_cables(
    parts: JobParts,
    laying: Laying,
    selection: Selection,
    turn_on: TurnOn,
    defaults: HouseDefaults,
) -> JobCables:
    """Return what is to say of jackets that have been laid."""
    clashes = colour_clashes(laying.allocation, car_wires(selection, turn_on, parts.vehicle))
    return JobCables(
        reasons=(
            *_count_reasons(laying),
            *(
                Reason("label by function, not by colour", told, COMMON_PRACTICE)
                for told in clash_words(clashes)
            ),
            *_noise(parts),
            *_line_leads(parts, defaults),
        ),
        flags=(*_cable_flags(laying), *_reel_flags(laying, defaults), *_noise_flags(parts)),
    )


def _count_reasons(laying: Laying) -> list[Reason]:
    """Pairs and singles are counted, not conductors."""
    kinds: dict[tuple[DemandKind, str], list[LaidJacket]] = {}
    for laid in laying.jackets:
        kinds.setdefault((laid.jacket.kind, laid.cable.id), []).append(laid)
    reasons = []
    for (kind, cable), mine in kinds.items():
        pairs = sum(_used(laid, "positive") for laid in mine)
        singles = sum(_used(laid, "single") for laid in mine)
        spare = sum(len(laid.jacket.spare) for laid in mine)
        because = (
            f"whole pairs: {pairs}, single cores: {singles}, spare cores: {spare}; "
            "classes are not mixed and a pair is never made of two halves"
        )
        named = cables_named(laid.jacket.number for laid in mine)
        decision = f"{len(mine)} of {cable} for {CLASS_NAMES[kind]}: {named}"
        reasons.append(Reason(decision, because, COMMON_PRACTICE))
    return reasons


def _used(laid: LaidJacket, word: str) -> int:
    return sum(word in use.place and use.demand is not None for use in laid.jacket.uses)


def car_wires(selection: Selection, turn_on: TurnOn, vehicle: Vehicle) -> tuple[CarWire, ...]:
    """Return every wire of the plugs at which something of the job is joined."""
    plugs = {leg.plug.id for tap in selection.touched for leg in tap.pair.legs}
    plugs |= {turn_on.plug} if turn_on.plug else set()
    return tuple(
        CarWire(f"{plug.id}.{pin.cavity}", pin.function, pin.channel, pin.leg, pin.wire)
        for plug in vehicle.plugs
        if plug.id in plugs
        for pin in plug.pins
        if pin.wire is not None
    )


def _noise(parts: JobParts) -> list[Reason]:
    """Signal beside the supply, as far as the zones of the routes tell."""
    shared = _shared_zones(parts)
    if not shared:
        return [Reason("keep signal and supply apart", SIGNAL_APART, COMMON_PRACTICE)]
    because = f"both run along {', '.join(shared)}: take the other side, or {SIGNAL_APART}"
    return [Reason("signal runs beside the supply", because, COMMON_PRACTICE)]


def _shared_zones(parts: JobParts) -> list[str]:
    return sorted(_zones(parts, "supply") & _zones(parts, "signal"))


def _zones(parts: JobParts, carries: Carries) -> set[str]:
    return {zone for r in parts.job.routes if r.carries == carries for zone in r.zones}


def _noise_flags(parts: JobParts) -> list[PackFlag]:
    shared = ", ".join(_shared_zones(parts))
    says = f"signal and supply both run along {shared}"
    return [PackFlag("signal_beside_supply", shared, says)] if shared else []


def _line_leads(parts: JobParts, defaults: HouseDefaults) -> list[Reason]:
    """Line leads from converter to amplifier, where a route says how far that is."""
    reasons = []
    for name in parts.amplifiers:
        for route in parts.job.routes:
            ends = {route.from_place, route.to_place}
            if ends == {AT_CONVERTER, name} and route.carries == "signal":
                stock = line_lead_m(route.length_m, defaults)
                if stock is not None:
                    because = f"{route.length_m:g} m and the house's slack"
                    decision = f"line lead of {stock:g} m to {name}"
                    reasons.append(Reason(decision, because, HOUSE_DEFAULT))
    return reasons


_STOPS: frozenset[CableFlagKind] = frozenset({"no_conductor_fits", "pair_split", "conductor_twice"})


def _cable_flags(laying: Laying) -> list[PackFlag]:
    return [
        PackFlag(flag.kind, flag.where, flag.says, stops=flag.kind in _STOPS)
        for flag in laying.flags
    ]


def _reel_flags(laying: Laying, defaults: HouseDefaults) -> list[PackFlag]:
    """Reels that hold less than is cut from them."""
    cables: dict[str, Cable] = {laid.cable.id: laid.cable for laid in laying.jackets}
    flags = []
    for name, cable in cables.items():
        mine = [laid.route.length_m for laid in laying.jackets if laid.cable.id == name]
        needed = round(sum(cut_length_m(length, defaults) for length in mine), 1)
        short = reel_short_m(needed, cable.on_reel_m)
        if short:
            says = f"{needed:g} m of {name} are cut, {cable.on_reel_m:g} m are on the reel"
            flags.append(PackFlag("reel_short", name, says, needed, cable.on_reel_m, "m"))
    return flags
