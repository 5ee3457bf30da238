"""New speaker leads: level lost, damping, music current, the thinnest that will do."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from math import sqrt

from builder.figures import shown
from builder.model.house_defaults import HouseDefaults
from builder.planning.power.conductors import Conductor, fuse_ceiling_a, ohm_per_km
from builder.planning.words import LeadFlagKind, SpeakerUse
from builder.units import (
    Amperes,
    Decibels,
    Ohms,
    Watts,
    require_not_negative,
    require_positive,
    voltage_ratio_db,
)


def lead_ohm(length_m: float, conductor: Conductor, defaults: HouseDefaults) -> Ohms:
    """Return the resistance of both conductors of a lead at 20 °C. [Ω] `length_m` is one way.

    None for 0 m: a speaker beside its amplifier.

    Raises:
        ValueError: the length is negative or not finite, or the size is unknown.

    >>> round(lead_ohm(4.6, Conductor(size_awg="16"), HouseDefaults()), 3)
    0.121
    """
    return 2 * require_not_negative("length_m", length_m) * ohm_per_km(conductor, defaults) / 1000


def lead_loss_db(speaker_ohm: Ohms, wire_ohm: Ohms) -> Decibels:
    """Return what a lead costs at the speaker, 20·log10(R/(R + Rw)). [dB] 0 or less.

    Raises:
        ValueError: the speaker is not positive, or the wire is negative or not finite.

    >>> round(lead_loss_db(4.0, 0.2), 2)
    -0.42
    """
    wire = require_not_negative("wire_ohm", wire_ohm)
    return voltage_ratio_db(speaker_ohm, speaker_ohm + wire)


def damping_factor(speaker_ohm: Ohms, wire_ohm: Ohms, output_ohm: Ohms) -> float:
    """Return the speaker's impedance over all that stands before it, R/(Rw + Ro).

    Raises:
        ValueError: the wire is negative, or another argument not positive and finite.

    >>> round(damping_factor(4.0, 0.2, 0.05), 1)
    16.0
    """
    before = require_not_negative("wire_ohm", wire_ohm) + require_positive("output_ohm", output_ohm)
    return require_positive("speaker_ohm", speaker_ohm) / before


def music_current_a_rms(power_w: Watts, speaker_ohm: Ohms, defaults: HouseDefaults) -> Amperes:
    """Return the music current of each conductor of a lead, √(P/(3·R)). [A RMS]

    The 3 is the house's full over average power of heavy music.

    Raises:
        ValueError: an argument is not positive and finite.

    >>> round(music_current_a_rms(75.0, 4.0, HouseDefaults()), 2)
    2.5
    """
    load = defaults.music_divisor_heavy * require_positive("speaker_ohm", speaker_ohm)
    return sqrt(require_positive("power_w", power_w) / load)


@dataclass(frozen=True, slots=True)
class LeadDemand:
    """A speaker and the new lead to it. `existing_ohm` is wiring that stays, both ways."""

    speaker_ohm: Ohms
    power_w: Watts
    length_m: float
    use: SpeakerUse
    existing_ohm: Ohms = 0.0


@dataclass(frozen=True, slots=True)
class LeadFlag:
    """A limit that a lead does not keep."""

    kind: LeadFlagKind
    value: float
    limit: float
    unit: str
    says: str


@dataclass(frozen=True, slots=True)
class Lead:
    """A lead judged. The existing wiring is shown apart: it is usually the greater loss."""

    conductor: Conductor
    wire_ohm: Ohms
    added_loss_db: Decibels
    existing_loss_db: Decibels
    whole_loss_db: Decibels
    damping: float
    music_a_rms: Amperes
    flags: tuple[LeadFlag, ...]


def judge_lead(demand: LeadDemand, conductor: Conductor, defaults: HouseDefaults) -> Lead:
    """Return what a lead costs and which limits it does not keep; compared unrounded.

    Raises:
        ValueError: the use is neither door nor sub, or a figure is not what it can be.
    """
    wire = lead_ohm(demand.length_m, conductor, defaults)
    loss = lead_loss_db(demand.speaker_ohm, wire)
    damping = damping_factor(demand.speaker_ohm, wire, defaults.amplifier_output_ohm)
    current = music_current_a_rms(demand.power_w, demand.speaker_ohm, defaults)
    flags = (
        *_current_flags(current, conductor, defaults),
        *_loss_flags(loss, demand.use, defaults),
        *_damping_flags(damping, demand.use, defaults),
    )
    return Lead(
        conductor,
        wire,
        loss,
        lead_loss_db(demand.speaker_ohm, demand.existing_ohm),
        lead_loss_db(demand.speaker_ohm, demand.existing_ohm + wire),
        damping,
        current,
        flags,
    )


def choose_lead(
    demand: LeadDemand, candidates: Iterable[Conductor], defaults: HouseDefaults
) -> tuple[Lead, tuple[Lead, ...]]:
    """Return the thinnest candidate that keeps every limit, and the thinner ones that did not.

    `candidates` stand thinnest first. When none will do, the last is returned with its flags.

    Raises:
        ValueError: no candidates, or as `judge_lead`.
    """
    judged: list[Lead] = []
    for conductor in candidates:
        judged.append(judge_lead(demand, conductor, defaults))
        if not judged[-1].flags:
            break
    if not judged:
        raise ValueError("no conductor to choose from")
    return judged[-1], tuple(judged[:-1])


def _current_flags(
    current: Amperes, conductor: Conductor, defaults: HouseDefaults
) -> list[LeadFlag]:
    ceiling = fuse_ceiling_a(conductor, defaults)
    if current <= ceiling:
        return []
    says = (
        f"music takes {shown(current, 1, beside=ceiling)} A, {conductor.words} carries "
        f"{shown(ceiling, beside=current)} A"
    )
    return [LeadFlag("current", current, ceiling, "A", says)]


def _loss_flags(loss: Decibels, use: SpeakerUse, defaults: HouseDefaults) -> list[LeadFlag]:
    limits: dict[SpeakerUse, float] = {
        "door": defaults.lead_loss_max_db,
        "sub": defaults.sub_lead_loss_max_db,
    }
    if use not in limits:
        raise ValueError(f"a lead goes to a door or a sub, not {use!r}")
    if -loss <= limits[use]:
        return []
    says = (
        f"the new lead costs {shown(-loss, 2, beside=limits[use])} dB, at most "
        f"{shown(limits[use])} dB"
    )
    return [LeadFlag("loss", -loss, limits[use], "dB", says)]


def _damping_flags(damping: float, use: SpeakerUse, defaults: HouseDefaults) -> list[LeadFlag]:
    if use != "sub" or damping >= defaults.sub_damping_min:
        return []
    least = defaults.sub_damping_min
    says = f"damping factor {shown(damping, 1, beside=least)}, at least {shown(least)}"
    return [LeadFlag("damping", damping, least, "", says)]
