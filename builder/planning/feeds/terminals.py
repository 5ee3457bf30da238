"""Converter terminals and the pins that feed them, and whether those pins are proved enough."""

from __future__ import annotations

from builder.model.house_defaults import HouseDefaults
from builder.model.parts import Converter
from builder.model.vehicle import Vehicle
from builder.model.words import GradeBand, Leg
from builder.planning.car.measurements import pair_readings
from builder.planning.car.selection import Selection, Tap
from builder.planning.feeds.input_type import fed_legs
from builder.planning.objections import Objection, object_to
from builder.planning.plan import Feed, LevelCheck
from builder.planning.tables import COMMON_PRACTICE
from builder.planning.trust import LISTENING, RELIABLE, Trust, worst_band


def list_feeds(
    selection: Selection, converter: Converter, trust: Trust, levels: tuple[LevelCheck, ...]
) -> tuple[Feed, ...]:
    """Return one feed for each terminal of each used input, positive before negative."""
    pads = {check.channel: check.pad_ohm_per_leg for check in levels}
    return tuple(
        feed
        for tap in selection.taps
        for feed in _feeds_of(tap, converter, trust, pads.get(tap.pair.channel))
    )


_TERMINALS: tuple[Leg, Leg] = ("positive", "negative")


def _feeds_of(tap: Tap, converter: Converter, trust: Trust, pad_ohm: float | None) -> list[Feed]:
    legs = fed_legs(tap.pair, converter)
    return [
        Feed(
            tap.converter_input, terminal, leg.plug.id, leg.pin.cavity, tap.pair.channel,
            tap.treatment, leg.wire, trust.grade(leg.pin).band, leg.pin.path, pad_ohm, tap.group,
        )
        for terminal, leg in zip(_TERMINALS, legs, strict=True)
    ]  # fmt: skip


def pair_band(trust: Trust, tap: Tap) -> GradeBand:
    """Return the band of the weaker leg."""
    return worst_band(trust.grade(leg.pin).band for leg in tap.pair.legs)


def weak_pair_objections(
    vehicle: Vehicle, selection: Selection, trust: Trust, defaults: HouseDefaults
) -> list[Objection]:
    """Return one objection for each pair that must be proved first."""
    return [
        _prove_pair(vehicle, tap, trust, defaults)
        for tap in selection.touched
        if pair_band(trust, tap) not in _asked(tap)
    ]


def _asked(tap: Tap) -> frozenset[GradeBand]:
    return RELIABLE if tap.treatment == "intercept" else LISTENING


def _prove_pair(vehicle: Vehicle, tap: Tap, trust: Trust, defaults: HouseDefaults) -> Objection:
    verb = "broken" if tap.treatment == "intercept" else "tapped"
    decision = f"prove the {tap.pair.named} pair before it is {verb}"
    readings = pair_readings(vehicle, tap.pair, defaults, open_only=True)
    because = _why_weak(tap, trust)
    return object_to(decision, because, COMMON_PRACTICE, settled_by=readings)


def _why_weak(tap: Tap, trust: Trust) -> str:
    """Say what is wrong with the legs, legs with the same trouble together."""
    said: dict[str, list[str]] = {}
    for leg in tap.pair.legs:
        grade = trust.grade(leg.pin)
        if grade.band not in _asked(tap):
            what = f"{grade.band}: {grade.why}"
            what += f". To raise it: {grade.raise_by}" if grade.raise_by else ""
            said.setdefault(what, []).append(leg.name)
    return "; ".join(f"{', '.join(names)} {what}" for what, names in said.items())
