"""A level or printed power that cannot exist on its supply.

What it catches
---------------
- A clean level measured at a radio whose bias nobody read, above what a bridge without any loss
  gives at 14.4 V (10.18 V RMS; half of it where one leg is ground), or above what a stated raised
  rail of the factory amplifier allows.
- A printed power of a factory amplifier that means more volts than its stated rail, or the bias
  of its legs, allows (warn).
- A printed power of a radio that nobody measured and that means more than an output on 14.4 V
  gives clean, 9.12 V RMS (house default), half of it where one leg is ground (note).

Where the bias was read, a measured level is compared with it by MET124.

Why it matters in the bay
-------------------------
Such a source does not exist: the level was read while clipping, or the label means peaks. Gains
set for it leave the amplifier quiet, and a converter chosen for it is too large.

Example
-------
Fails::

    radio: {outputs: bridged, …}       # no bias was read; 14.4 V/√2 = 10.18 V
    channels: [{channel: front-left, level: {clean_max_v_rms: 14.1}}]

Passes::

    factory_amplifier: {feed: digital, location: boot, rail_v: 32}   # (32 − 1.5)/√2 = 21.6 V
    channels: [{channel: sub, driven_by: amplifier, level: {label_w: 200, label_ohm: 2}}]

How to mend it
--------------
Measure the clean level with a scope or clip indicator. Where the amplifier's supply is raised,
read it and say so with rail_v. A label may stay: plans use what the supply allows.

Source
------
A sine's peak is √2 times its RMS; half-supply bias: ADI bridge amplifier design note (read).
1.5 V lost in the output stage: common practice. The radio's clean level is a house default.
"""

from __future__ import annotations

import math
from collections.abc import Iterator

from builder.figures import shown
from builder.findings import DataPath, Fault, Severity
from builder.model.book import Shelf
from builder.model.house_defaults import HouseDefaults
from builder.model.sound import Level, SpeakerChannel
from builder.model.vehicle import Vehicle
from builder.planning.car.pairs import Pair, find_pairs
from builder.planning.levels.rail_limit import amplifier_limit
from builder.planning.tables import (
    AUDIO_SUPPLY_V,
    bridge_clean_v_rms,
    single_ended_clean_v_rms,
)
from builder.proof.pin_readings import exceeds
from builder.rules.house import prints
from builder.rules.rule import Scope, rule
from builder.units import volts_for_power

_MEASURE = "measure the clean level again with a scope or clip indicator"


@prints("clean_level_v_rms", "biased_leg_min_v")
def check(vehicle: Vehicle, shelf: Shelf) -> Iterator[Fault]:
    """Yield levels and labels that the supply of their output cannot give."""
    pairs = {(p.channel, p.driven_by): p for p in find_pairs(vehicle, shelf.defaults)}
    for channel in vehicle.channels:
        pair = pairs.get((channel.channel, channel.driven_by))
        if channel.driven_by == "amplifier":
            yield from _at_amplifier(vehicle, channel, pair)
        elif vehicle.radio.outputs != "line":
            yield from _at_radio(vehicle, channel, pair, shelf.defaults)


def _at_radio(
    vehicle: Vehicle, channel: SpeakerChannel, pair: Pair | None, defaults: HouseDefaults
) -> Iterator[Fault]:
    bias = pair.bias if pair and pair.bias else None
    biased = bias is not None and bias.high_v >= defaults.biased_leg_min_v
    single = vehicle.radio.outputs == "common_ground"
    level_v = channel.level.clean_max_v_rms if channel.level else None
    supply = f"an output on {shown(AUDIO_SUPPLY_V)} V gives"
    most = AUDIO_SUPPLY_V / (2 if single else 1) / math.sqrt(2)
    if level_v is not None and not biased and exceeds(level_v, most):
        yield _measured(channel, level_v, most, f"{supply} even without loss")
    clean = single_ended_clean_v_rms() if single else defaults.clean_level_v_rms
    if bias is not None and biased:
        clean = max(clean, bridge_clean_v_rms(bias.at_audio_supply_v))
    labelled = _label_v_rms(channel, vehicle.radio.label_w)
    if level_v is None and labelled is not None and exceeds(labelled, clean):
        words = f"{supply} {shown(clean, 2, beside=labelled)} V clean"
        yield _labelled(channel, labelled, clean, words, Severity.NOTE)


def _at_amplifier(vehicle: Vehicle, channel: SpeakerChannel, pair: Pair | None) -> Iterator[Fault]:
    limit = amplifier_limit(vehicle, pair) if pair else None
    if limit is None:
        return
    level_v = channel.level.clean_max_v_rms if channel.level else None
    words = f"{limit.because} allow {shown(limit.v_rms, 2)} V clean"
    if level_v is not None:
        if limit.basis == "rail" and exceeds(level_v, limit.v_rms):
            yield _measured(channel, level_v, limit.v_rms, f"{limit.because} allow")
        return
    labelled = _label_v_rms(channel, None)
    if labelled is not None and exceeds(labelled, limit.v_rms):
        yield _labelled(channel, labelled, limit.v_rms, words, Severity.WARN)


def _label_v_rms(channel: SpeakerChannel, radio_w: float | None) -> float | None:
    level: Level | None = channel.level
    watts = level.label_w if level and level.label_w is not None else radio_w
    ohms = (level.label_ohm if level else None) or channel.speaker_ohm
    return None if watts is None or ohms is None else volts_for_power(watts, ohms)


def _measured(channel: SpeakerChannel, level_v: float, most: float, words: str) -> Fault:
    return Fault(
        (*channel.path, "level", "clean_max_v_rms"),
        f"{channel.channel} is said to give {shown(level_v, 2, beside=most)} V RMS clean, and "
        f"{words} {shown(most, 2, beside=level_v)} V: such a source cannot exist",
        _MEASURE,
    )


def _labelled(
    channel: SpeakerChannel, label_v: float, most: float, words: str, severity: Severity
) -> Fault:
    return Fault(
        _label_path(channel),
        f"the printed power of {channel.channel} means {shown(label_v, 1, beside=most)} V RMS, "
        f"and {words}: such a source cannot exist, and plans use the lower figure",
        "nothing need be changed; measure the clean maximum to know better",
        severity,
    )


def _label_path(channel: SpeakerChannel) -> DataPath:
    own = channel.level is not None and channel.level.label_w is not None
    return (*channel.path, "level", "label_w") if own else channel.path


RULE = rule("MET125", Severity.FIX, Scope.VEHICLE, check)
