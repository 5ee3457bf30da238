"""An amplifier or converter fed from the radio's supply.

What it catches
---------------
A supply that is taken at the radio or at a fuse position of the car: a stop for an amplifier, a
warning for a converter that takes more than a fifth of the fuse there (house default) or whose
share nobody knows.

Why it matters in the bay
-------------------------
The wire of the radio is made for the radio. Its fuse opens, or the wire gets warm in the loom.

Example
-------
Fails::

    routes: [{from: radio, to: amp 1, carries: supply, length_m: 3.0, zones: []}]

Passes::

    routes: [{from: battery, to: amp 1, carries: supply, length_m: 5.2, zones: []}]

How to mend it
--------------
Feed the converter at the amplifier's terminals, behind its own small fuse, and the amplifier
from the battery.

Source
------
Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from builder.findings import DataPath, Fault, Severity
from builder.model.job import AT_RADIO
from builder.planning.power.flags import shared_fuse_flags
from builder.planning.work_pack import JobParts, WorkPack
from builder.rules.rule import Scope, rule

ASKED: DataPath = ("converter_supply",)


def check(pack: WorkPack, parts: JobParts) -> Iterator[Fault]:
    """Yield each supply that is taken at the radio, or at a fuse of the car that it overloads."""
    for route in parts.job.routes:
        if route.carries == "supply" and route.from_place == AT_RADIO:
            if route.to_place in parts.amplifiers:
                yield Fault(
                    (*route.path, "from"),
                    f"{route.to_place} would be fed through the radio's supply: its wire and fuse "
                    "are made for the radio",
                    "feed it from the battery",
                )
            elif parts.job.converter_supply == "auto":
                yield from _shared(
                    parts, (*route.path, "from"), route.to_place, _radio(pack, parts)
                )
    if parts.job.converter_supply == "radio":
        yield from _shared(parts, ASKED, "the converter", _radio(pack, parts))
    elif parts.job.converter_supply == "fuse_position":
        yield from _shared(parts, ASKED, "the converter", _position(pack, parts))


@dataclass(frozen=True, slots=True)
class _Fuse:
    """A fuse of the car: what it feeds besides, and its rating where that is known."""

    of: str
    rating_a: float | None


def _shared(parts: JobParts, path: DataPath, who: str, fuse: _Fuse | None) -> Iterator[Fault]:
    why = None if fuse is None else _too_much(parts, fuse)
    if fuse is not None and why is not None:
        yield Fault(
            path,
            f"{who} would be fed through {fuse.of}'s supply: {why}",
            "feed it at the amplifier's terminals behind its own fuse",
            Severity.WARN,
            nobody_knows=fuse.rating_a is None,
        )


def _too_much(parts: JobParts, fuse: _Fuse) -> str | None:
    supply = parts.converter.supply
    draw = (supply.max_a or supply.fuse_a) if supply else None
    if draw is None:
        return None
    if fuse.rating_a is None:
        return f"nobody knows the fuse of {fuse.of}"
    flags = shared_fuse_flags(draw, fuse.rating_a, fuse.of, parts.shelf.defaults)
    return flags[0].says if flags else None


def _radio(pack: WorkPack, parts: JobParts) -> _Fuse:
    """The fuse of the pin that the plan hangs it on; of any constant where it hangs on none."""
    used = {each.path for each in pack.plan.supplied_at}
    live = [
        pin
        for plug in parts.vehicle.plugs
        for pin in plug.pins
        if plug.unit == "radio" and pin.function == "constant"
    ]
    hung = [pin for pin in live if pin.path in used] or live
    ratings = (pin.fuse.rating_a for pin in hung if pin.fuse is not None)
    return _Fuse("the radio", next((rating for rating in ratings if rating is not None), None))


def _position(pack: WorkPack, parts: JobParts) -> _Fuse | None:
    """The fuse position that the plan hangs the converter on."""
    used = {each.path for each in pack.plan.supplied_at}
    found = (each for each in parts.vehicle.fuse_positions if each.path in used)
    return next((_Fuse(each.position, each.rating_a) for each in found), None)


RULE = rule("PWR109", Severity.STOP, Scope.JOB, check, hazard=True, partly=(Severity.WARN,))
