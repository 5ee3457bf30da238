"""Tests while a job is built: nothing powered, amplifiers disconnected."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace

from builder.model.house_defaults import HouseDefaults
from builder.model.job import JobSpeaker
from builder.model.names import channel_name
from builder.model.words import Channel
from builder.planning.bay import bands
from builder.planning.bay.crossover_tests import driven_at, through_tests
from builder.planning.bay.held_tests import held_tests
from builder.planning.bay.ids import speakable
from builder.planning.bay.insulation_tests import PAIRS_APART, insulation_tests
from builder.planning.bay.line import WITH_THE_CIRCUIT, measure, tick
from builder.planning.bay.looked_at import at_unit, own_name
from builder.planning.bay.second_battery_lines import link_insulation
from builder.planning.bay.work import BayWork
from builder.planning.car.pairs import Pair
from builder.planning.car.selection import Selection
from builder.planning.car.treatments import wires_of
from builder.planning.circuit.terminal_names import (
    SIGNS,
    channel_of,
    legs_of,
    pair_input,
    plug_name,
)
from builder.planning.feeds.input_type import fed_legs
from builder.planning.harness.planned import LoomPlan
from builder.planning.levels.fitted_pads import FittedPad, fitted_pads
from builder.planning.tables import PAD_TOLERANCE
from builder.planning.work_pack import BayTest, JobParts
from builder.proof.band import Band
from builder.proof.signatures.nominal import band_through, job_pair_band
from builder.proof.signatures.shapes import Nominal

_ALONE = "amplifier end open"


def build_tests(work: BayWork) -> Iterator[BayTest]:
    """Yield insulation, ohms and polarity, with bands from the speakers of this car."""
    parts, selection = work.parts, work.selection
    yield from insulation_tests(work)
    yield from link_insulation(parts.job.supply)
    broken = {tap.pair.channel: tap.pair for tap in selection.broken}
    for speaker in parts.job.speakers:
        for channel in wires_of(speaker, broken):
            driven = driven_at(speaker, channel, broken)
            yield from _returned(work, speaker, broken[channel], driven)
        if speaker.lead is not None:
            yield from _new(work, speaker)
    if len({(speaker.amplifier, speaker.channel_name) for speaker in parts.job.speakers}) > 1:
        yield _ohms(
            PAIRS_APART,
            f"every pair to a speaker to every other, {_ALONE}", bands.PAIR_APART_MIN_OHM, None,
            "two pairs that touch destroy an amplifier with floating outputs",
        )  # fmt: skip
    pads = fitted_pads(work.plan.levels, parts.converter)
    yield from _pads(pads)
    yield from _signals(work, pads)
    yield _signal_legs(parts, selection, work.looms, padded=bool(pads))
    yield from _polarity(parts, broken)
    yield from through_tests(work)
    yield from held_tests(parts.job, parts.vehicle, work.devices)
    yield tick(
        "ends-closed-off", "built",
        "every spare core and every open end closed off by itself, both ends",
        "battery_off", "two that touch join two outputs",
    )  # fmt: skip


def _ohms(
    id: str, what: str, low: float | None, high: float | None, why: str,
    probes: tuple[str, ...] = (), since: str = "",
) -> BayTest:  # fmt: skip
    return measure(id, "far_end", what, "battery_off", "ohm", low, high, why, probes, since)


def _returned(work: BayWork, speaker: JobSpeaker, pair: Pair, driven: str) -> Iterator[BayTest]:
    """A pair that goes back to a factory wire: ohms, our wires counted in; then to the body."""
    defaults, ours_ohm = work.defaults, work.lead_ohms.get(speaker.name, 0.0)
    alone = _ALONE if driven.startswith(f"{speaker.amplifier} ") else "crossover end open"
    name = f"pair back to {pair.named} ({speaker.name}), {alone}"
    if _in_series(pair):
        yield _ohms(
            speakable(pair.channel, "return ohms"),
            f"{name}: reads open through its capacitor", bands.PAIR_APART_MIN_OHM, None,
            "a capacitor in the factory wire; a low reading means that it is bridged",
        )  # fmt: skip
    else:
        carries = pair.carries
        if carries is not None and not speaker.existing:
            carries = replace(carries, speaker_ohm=speaker.nominal_ohm)
        known = carries.speaker_ohm if carries else None
        nominal = known if known is not None else speaker.nominal_ohm
        low, high = _limits(job_pair_band(carries, nominal, defaults))
        high += ours_ohm
        yield _ohms(
            speakable(pair.channel, "return ohms"),
            f"{name}: ohms, test leads' ohms taken off", low, high,
            f"{nominal:g} Ω nominal; open is a bad joint, half is two speakers or a short",
            legs_of(driven),
        )  # fmt: skip
    yield _to_body(speakable(pair.channel, "return to body"), name, defaults)


def _new(work: BayWork, speaker: JobSpeaker) -> Iterator[BayTest]:
    nominal, wires = Nominal(speaker.nominal_ohm, shared=False), work.lead_ohms.get(speaker.name, 0)
    low, high = _limits(band_through(nominal, wires, work.defaults))
    name = f"new lead to {speaker.name}, {_ALONE}"
    yield _ohms(
        speakable(speaker.name, "lead ohms"),
        f"{name}: ohms, test leads' ohms taken off", low, high,
        f"{speaker.nominal_ohm:g} Ω nominal; less is a coil wired otherwise than planned",
        legs_of(channel_of(speaker.amplifier, speaker.channel_name)),
    )  # fmt: skip
    yield _to_body(speakable(speaker.name, "lead to body"), name, work.defaults)


def _to_body(id: str, name: str, defaults: HouseDefaults) -> BayTest:
    why = "a leg on the body shorts the amplifier"
    return _ohms(id, f"{name}: legs to body", defaults.body_open_ohm, None, why)


def _limits(band: Band) -> tuple[float, float]:
    """Both limits of a band of ohms, neither of which moves with the battery."""
    assert band.low is not None and band.high is not None
    return band.low[1], band.high[1]


def _pads(pads: tuple[FittedPad, ...]) -> Iterator[BayTest]:
    for pad in pads:
        yield _ohms(
            speakable(pad.channel, "pad ohms"),
            f"pad of {channel_name(pad.channel)}, converter end open: across either resistor, "
            "test leads' ohms taken off; the two alike",
            pad.ohm_per_leg * (1 - PAD_TOLERANCE), pad.ohm_per_leg * (1 + PAD_TOLERANCE),
            f"{pad.resistor} in each leg; open is silence, a short is an overdriven input",
        )  # fmt: skip


def _signals(work: BayWork, pads: tuple[FittedPad, ...]) -> Iterator[BayTest]:
    """Each pair as the converter will see it: across what goes into its input, while it is open."""
    extra = {pad.channel: 2 * pad.ohm_per_leg for pad in pads}
    defaults, converter = work.defaults, work.parts.converter.name
    for tap in work.selection.taps:
        channel, load = tap.pair.channel, work.stand_ins.get(tap.pair.channel)
        own = tap.pair.carries.speaker_ohm if tap.pair.carries else None
        nominal = own if tap.treatment == "addon" else load.ohm if load else None
        if nominal is None or _in_series(tap.pair):
            continue
        low, high = (
            _limits(job_pair_band(tap.pair.carries, nominal, defaults))
            if tap.treatment == "addon"
            else (nominal * (1 - PAD_TOLERANCE), nominal * (1 + PAD_TOLERANCE))
        )
        seen = "its own speaker" if tap.treatment == "addon" else "its stand-in load"
        yield _ohms(
            speakable(channel, "signal ohms"),
            f"{_apart(tap.pair, work.looms)}, converter end open: across what goes into its input "
            f"{tap.converter_input}, {channel_name(channel)}, test leads' ohms taken off",
            low + extra.get(channel, 0.0), high + extra.get(channel, 0.0),
            f"it sees {seen} through both legs; open is a bad joint, near nothing a short",
            tuple(pair_input(converter, tap.converter_input, sign) for sign in SIGNS),
            WITH_THE_CIRCUIT,
        )  # fmt: skip


def _apart(pair: Pair, looms: Mapping[str, LoomPlan]) -> str:
    """What is unplugged, so that the radio is out of the way."""
    plan = looms.get(pair.positive.plug.id)
    if plan is None:
        return f"{plug_name(pair.positive.plug)} off"
    return f"{plan.use.name} in the car's plug, its {plan.ends[0].name} not in the radio yet"


def _signal_legs(
    parts: JobParts, selection: Selection, looms: Mapping[str, LoomPlan], *, padded: bool
) -> BayTest:
    """Which leg is which: no level says it, and a reversed side takes the bass away."""
    ends = [
        (at_unit(looms, leg), pair_input(parts.converter.name, tap.converter_input, sign))
        for tap in selection.taps
        for leg, sign in zip(fed_legs(tap.pair, parts.converter), SIGNS, strict=True)
    ]
    said = ", ".join(f"{cavity} to {terminal}" for cavity, terminal in ends)
    own = "the ohms of its pad" if padded else "under 1 Ω"
    off = " and ".join(dict.fromkeys(_apart(tap.pair, looms) for tap in selection.taps))
    grounded = any(tap.pair.topology == "common_ground" for tap in selection.taps)
    meet = (
        "; the minus legs meet at the body, so any of them reads like its own" if grounded else ""
    )
    return tick(
        "signal-legs", "legs",
        f"{off}, one long test lead, ohms: {said}; {own} to its own, more to any other{meet}",
        "battery_off", "a reversed or exchanged leg is heard only when two sides add up",
        tuple(end for pair in ends for end in pair), WITH_THE_CIRCUIT,
    )  # fmt: skip


def _in_series(pair: Pair) -> bool:
    return pair.carries is not None and "series_capacitor" in pair.carries.in_line


def _polarity(parts: JobParts, broken: dict[Channel, Pair]) -> Iterator[BayTest]:
    """A short pulse moves a cone forward; a bare tweeter is checked by continuity instead."""
    for speaker in parts.job.speakers:
        returned = wires_of(speaker, broken)
        for channel in returned or (speaker.channel,):
            name = own_name(speaker, channel) if returned else speaker.name
            yield tick(
                speakable(channel if returned else speaker.name, "polarity"),
                "far_end", f"{name}: {_how(speaker, channel, broken)}", "battery_off",
                "a reversed speaker takes the bass or the voices away",
                _legs_to(driven_at(speaker, channel, broken), name),
            )  # fmt: skip


def _legs_to(driven: str, name: str) -> tuple[str, ...]:
    """Each leg of what drives a speaker with the speaker's own, + before −."""
    return tuple(end for ends in zip(legs_of(driven), legs_of(name), strict=True) for end in ends)


def _how(speaker: JobSpeaker, channel: Channel, broken: dict[Channel, Pair]) -> str:
    pair, grille = broken.get(channel), _BEHIND_GRILLE if speaker.existing else ""
    high = pair is not None and pair.carries is not None and pair.carries.band == "high"
    return _CONTINUITY if high or channel.endswith("-tweeter") else _PULSE + grille


_PULSE = (
    "1.5 V pulse at the amplifier's end, amplifier disconnected: the cone moves out with + on +"
)
_BEHIND_GRILLE = (
    "; behind a grille a finger laid on it feels which way, or a polarity checker held to it "
    "tells; where neither does, the grille comes off"
)
_CONTINUITY = (
    "+ and − by continuity to the terminals marked on the part; no pulse, a bare tweeter burns"
)
