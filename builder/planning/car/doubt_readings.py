"""Readings that settle a doubt which no pin's signature speaks of."""

from __future__ import annotations

from math import sqrt
from typing import Any

from builder.model.house_defaults import HouseDefaults
from builder.model.words import Quantity, State
from builder.planning.car.pairs import Leg, Pair
from builder.planning.plan import ProofReading
from builder.units import Hertz

THROUGH_MAX_OHM = 1.0
"""Both ends of one wire of a car. [Ω] Common practice, no source."""

SILENT_MAX_V_RMS = 0.02
"""A pair under this is silent. [V] Chosen by this project."""


def level_reading(pair: Pair, limit_v_rms: float) -> ProofReading:
    """Return the reading that tells how loud a pair gets clean."""
    return _across(
        pair,
        high=limit_v_rms,
        how="1 kHz tone at 0 dBFS, volume just below the first clipping: AC volts across the pair",
        settles="how loud this pair gets clean, and whether the converter's input takes it",
        safety="Keep it short: speakers do not like a full tone.",
    )


def place_readings(pair: Pair, place: str) -> tuple[ProofReading, ...]:
    """Return the readings that show both wires of a pair at a place along them."""
    return tuple(
        ProofReading(
            plug=leg.plug.id,
            cavity=leg.pin.cavity,
            fuse_position=None,
            function=leg.pin.function,
            state="unplugged",
            against=f"the {leg.wire} wire at {place}",
            load="none",
            quantity="ohm",
            low=None,
            high=THROUGH_MAX_OHM,
            how=f"plug off: ohms from {leg.name} to the {leg.wire} wire at {place}, under "
            f"{THROUGH_MAX_OHM:g} Ω, leads taken off",
            settles=f"which wire at {place} is the {leg.pin.leg} leg of {pair.named}",
            safety="Dead circuit only: pull the plug and measure on the car side.",
        )
        for leg in pair.legs
    )


def return_wire_reading(pair: Pair, other: Pair, defaults: HouseDefaults) -> ProofReading:
    """Return the reading that tells whether two speakers share their return wire."""
    return _between(
        pair.negative,
        other.negative,
        state="unplugged",
        quantity="ohm",
        low=defaults.body_open_ohm,
        how=f"plug off: ohms between the returns of {pair.named} and {other.named}",
        settles="whether each speaker has a return wire of its own",
        safety="Dead circuit only: pull the plug and measure on the car side.",
    )


def corner_reading(pair: Pair) -> ProofReading:
    """Return the reading that tells where the band of a pair ends."""
    return _across(
        pair,
        quantity="hz",
        how="sweep a tone; note the frequency where the AC volts have fallen to 0.71 of the band",
        settles=f"where the band of {pair.named} ends",
    )


def band_phase_reading(woofer: Pair, tweeter: Pair, crossover_hz: Hertz) -> ProofReading:
    """Return the reading that tells how far two bridged bands are apart at the crossover.

    Two legs of 0.5 V each against the body, phase apart, stand 2 · 0.5 V · sin(phase/2) from each
    other, so 90 degrees, where the sum has lost 3 dB, show 0.71 V. That holds whether the negative
    legs are driven or on the body, which is why the volume is set by a leg and not by the pair.
    """
    return _between(
        woofer.positive,
        tweeter.positive,
        high=1 / sqrt(2),
        how=(
            "radio's seat setting as it will stay, on all seats where it has one; tone of "
            f"{crossover_hz:.0f} Hz, volume up from 0 until each positive leg reads 0.50 V AC to "
            "the body, then AC volts between the two positive legs: at most 0.71 V"
        ),
        settles=f"whether {woofer.named} and {tweeter.named} add up or cancel",
        safety="A scope, or a meter that still reads true at this frequency. Low volume.",
    )


def key_off_reading(pair: Pair, sound: str) -> ProofReading:
    """Return the reading that tells whether a sound plays through a pair with the key off."""
    return _across(
        pair,
        state="retained",
        high=SILENT_MAX_V_RMS,
        how=f"key off, make the car give its {sound}: AC volts across the pair, silent or not",
        settles=f"whether {pair.named} gives the {sound} with the key off",
    )


def emergency_call_reading(pair: Pair) -> ProofReading:
    """Return the reading that tells whether the emergency call speaks through a pair."""
    return _across(
        pair,
        state="other_source",
        high=SILENT_MAX_V_RMS,
        how="run the emergency call's self-test: AC volts across the pair, silent or not",
        settles=f"whether the emergency call, if the car has one, speaks through {pair.named}",
        safety="Use the car's own self-test; never place a call.",
    )


def _across(pair: Pair, **said: Any) -> ProofReading:
    return _between(pair.positive, pair.negative, **said)


def _between(
    leg: Leg,
    other: Leg,
    *,
    how: str,
    settles: str,
    state: State = "radio_on_tone",
    quantity: Quantity = "ac_v",
    low: float | None = None,
    high: float | None = None,
    safety: str = "Low volume; never let the probe bridge the two legs.",
) -> ProofReading:
    return ProofReading(
        plug=leg.plug.id,
        cavity=leg.pin.cavity,
        fuse_position=None,
        function="speaker",
        state=state,
        against=other.name,
        load="none",
        quantity=quantity,
        low=low,
        high=high,
        how=how,
        settles=settles,
        safety=safety,
    )
