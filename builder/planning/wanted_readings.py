"""Which readings a plan asks for: all that prove it, or only those that settle a doubt."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from builder.model.house_defaults import HouseDefaults
from builder.model.vehicle import Vehicle
from builder.planning.measurements import pair_readings, place_readings
from builder.planning.pairs import Pair
from builder.planning.parallel_tap import shared_return_objections
from builder.planning.plan import ProofReading
from builder.planning.selection import Selection, Tap
from builder.planning.sources import Sources
from builder.planning.turn_on_places import Place


def proving_readings(
    vehicle: Vehicle, selection: Selection, place: Place | None, defaults: HouseDefaults
) -> tuple[ProofReading, ...]:
    """Return the readings of every used pin; they must pass before a joint is made."""
    found: list[ProofReading] = []
    for tap in selection.taps:
        found += pair_readings(vehicle, tap.pair, defaults)
    if place is not None:
        found += place_readings(vehicle, place, defaults)
    return tuple(found)


def settling_readings(
    vehicle: Vehicle,
    selection: Selection,
    weak: Sequence[Tap],
    place: Place | None,
    defaults: HouseDefaults,
) -> tuple[ProofReading, ...]:
    """Return only what nobody measured yet on the weak pairs and the weak turn-on source."""
    pairs = [tap.pair for tap in weak]
    if place is not None and place.kind == "offset_wake" and place.verdict == "weak":
        pairs += [tap.pair for tap in selection.taps[:1] if tap not in weak]
    found: list[ProofReading] = []
    for pair in pairs:
        found += pair_readings(vehicle, pair, defaults, open_only=True)
    if place is not None and place.verdict == "weak":
        found += place_readings(vehicle, place, defaults, open_only=True)
    if any(objection.settled_by_reading for objection in shared_return_objections(selection)):
        found += return_wire_readings((tap.pair for tap in selection.broken), defaults)
    return tuple(found)


def barred_readings(
    vehicle: Vehicle, sources: Sources, defaults: HouseDefaults
) -> tuple[ProofReading, ...]:
    """Return what to measure on the pairs that a finding keeps from being used."""
    return tuple(
        reading
        for pair in sources.barred_pairs.values()
        for reading in pair_readings(vehicle, pair, defaults)
    )


def level_reading(pair: Pair, limit_v_rms: float) -> ProofReading:
    """Return the reading that tells how loud a pair gets clean."""
    return ProofReading(
        plug=pair.positive.plug.id,
        cavity=pair.positive.pin.cavity,
        fuse_position=None,
        function="speaker",
        state="radio_on_tone",
        against=pair.negative.name,
        load="none",
        quantity="ac_v",
        low=None,
        high=limit_v_rms,
        how="1 kHz tone at 0 dBFS, volume just below the first clipping: AC volts across the pair",
        settles="how loud this pair gets clean, and whether the converter's input takes it",
        safety="Keep it short: speakers do not like a full tone.",
    )


def return_wire_readings(pairs: Iterable[Pair], defaults: HouseDefaults) -> list[ProofReading]:
    """Return the readings that tell whether speakers have return wires of their own."""
    known = list(pairs)
    return [
        _return_wire(pair, other, defaults)
        for index, pair in enumerate(known)
        for other in known[index + 1 :]
    ]


def _return_wire(pair: Pair, other: Pair, defaults: HouseDefaults) -> ProofReading:
    return ProofReading(
        plug=pair.negative.plug.id,
        cavity=pair.negative.pin.cavity,
        fuse_position=None,
        function="speaker",
        state="unplugged",
        against=other.negative.name,
        load="none",
        quantity="ohm",
        low=defaults.body_open_ohm,
        high=None,
        how=f"plug pulled: ohms between the returns of {pair.channel} and {other.channel}",
        settles="whether each speaker has a return wire of its own",
        safety="Dead circuit only: pull the plug and measure on the car side.",
    )
