"""What the supply of an output stage allows clean: from its legs' bias, or from a stated rail."""

from __future__ import annotations

from dataclasses import dataclass

from builder.figures import shown
from builder.model.vehicle import Vehicle
from builder.planning.car.pairs import Pair
from builder.planning.tables import bridge_clean_v_rms
from builder.planning.words import LevelBasis
from builder.units import VoltsRms


@dataclass(frozen=True, slots=True)
class RailLimit:
    """The loudest clean level a stage can give, and where the figure comes from."""

    v_rms: VoltsRms
    basis: LevelBasis
    because: str


def amplifier_limit(vehicle: Vehicle, pair: Pair) -> RailLimit | None:
    """Return what a factory amplifier's pair can give, or None where nothing says so.

    (2·bias − 1.5)/√2, the bias being what the legs were read at or half of a stated raised rail,
    whichever is more.

    Source: half-supply bias of a bridge, ADI bridge amplifier design note (read); 1.5 V lost in
    the stage is common practice.
    """
    rail, read = vehicle.factory_amplifier.rail_v, pair.bias.at_audio_supply_v if pair.bias else 0.0
    if rail is not None and rail / 2 >= read:
        because = f"half of its raised rail of {shown(rail)} V at each leg"
        return RailLimit(bridge_clean_v_rms(rail / 2), "rail", because)
    if pair.bias is None or bridge_clean_v_rms(read) <= 0:
        return None
    because = f"legs biased at {shown(pair.bias.high_v, 1)} V"
    return RailLimit(bridge_clean_v_rms(read), "leg_bias", because)
