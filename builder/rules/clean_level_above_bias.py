"""A clean level is higher than the pair's bias allows.

What it catches
---------------
A measured `clean_max_v_rms` above (2 · bias − 1.5 V) / √2, where the bias is what the legs of
that pair rest at: a warning, because the level may have been read with the engine on
and the bias without. Above what the bias allows at 14.4 V it is a fault (fix). A record that
states a raised rail (rail_v of the factory amplifier) allows what half of that rail does.

Why it matters in the bay
-------------------------
A bridge rests at half its supply, so the bias says how high the supply is. A level beyond it
was read while clipping, or on another pair; gains set with it are wrong.

Example
-------
Fails::

    # the legs rest at 6.4 V: at most (2 · 6.4 − 1.5) / √2 = 7.99 V RMS
    channels:
      - {channel: front-left, level: {clean_max_v_rms: 9.9}}

Passes::

    # the legs rest at 6.4 V: at most (2 · 6.4 − 1.5) / √2 = 7.99 V RMS
    channels:
      - {channel: front-left, level: {clean_max_v_rms: 7.9}}

How to mend it
--------------
Measure the clean level again with a scope or clip indicator, and the bias with the engine in
the same state.

Source
------
Half-supply bias: ADI bridge amplifier design note (read). 1.5 V lost in the output stage:
chosen by this project, in line with 9.12 V from 14.4 V.
"""

from __future__ import annotations

import math
from collections.abc import Iterator

from builder.findings import Fault, Severity
from builder.model.book import Shelf
from builder.model.sound import SpeakerChannel
from builder.model.vehicle import Vehicle
from builder.proof.pin_readings import exceeds
from builder.rules.house import prints
from builder.rules.pair_readings import Bias, biases_of
from builder.rules.rule import Scope, rule
from builder.rules.wording import volts

_STAGE_LOSS_V = 1.5
_CHARGING_V = 14.4


@prints("biased_leg_min_v")
def check(vehicle: Vehicle, shelf: Shelf) -> Iterator[Fault]:
    """Yield measured levels that the highest bias seen on their pair cannot give."""
    for channel in vehicle.channels:
        level_v = channel.level.clean_max_v_rms if channel.level else None
        if level_v is None:
            continue
        bias = max(_biases(channel, biases_of(vehicle)), key=_bias_v, default=None)
        if bias is None or _bias_v(bias) < shelf.defaults.biased_leg_min_v:
            continue
        rail_v = vehicle.factory_amplifier.rail_v if channel.driven_by == "amplifier" else None
        if rail_v is not None and not exceeds(level_v, _clean_limit_v(rail_v / 2)):
            continue
        if exceeds(level_v, _clean_limit_v(_bias_v(bias))):
            charging_v = _clean_limit_v(_bias_v(bias) * _rise(bias))
            yield _fault(channel, level_v, bias, charging_v)


def _biases(channel: SpeakerChannel, biases: tuple[Bias, ...]) -> Iterator[Bias]:
    for bias in biases:
        if bias.pair.channel == channel.channel and bias.pair.unit == channel.driven_by:
            yield bias


def _bias_v(bias: Bias) -> float:
    return (bias.low_v + bias.high_v) / 2


def _clean_limit_v(bias_v: float) -> float:
    """The highest clean level that a bridge resting at `bias_v` can give [V RMS]."""
    return (2 * bias_v - _STAGE_LOSS_V) / math.sqrt(2)


def _rise(bias: Bias) -> float:
    """How much the bias rises when the engine charges; a boosted rail does not follow."""
    battery = bias.low_reading.battery_v
    if battery is None or not _bias_v(bias) < battery < _CHARGING_V:
        return 1.0
    return _CHARGING_V / battery


def _fault(channel: SpeakerChannel, level_v: float, bias: Bias, charging_v: float) -> Fault:
    possible = not exceeds(level_v, charging_v)
    return Fault(
        (*channel.path, "level", "clean_max_v_rms"),
        f"{channel.channel} is said to give {volts(level_v, _clean_limit_v(_bias_v(bias)))} "
        "RMS clean, but its legs rest "
        f"at {volts(_bias_v(bias))}, which allows {volts(_clean_limit_v(_bias_v(bias)), level_v)} "
        f"({volts(charging_v)} while charging): it was read while clipping, on another pair, or "
        "with the engine on",
        "measure the clean level and the bias again with the car in one state",
        Severity.WARN if possible else None,
    )


RULE = rule("MET124", Severity.FIX, Scope.VEHICLE, check)
