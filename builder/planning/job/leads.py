"""The wires between amplifier and speakers of a job: new leads, and pairs that go back."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from builder.figures import read_as
from builder.model.house_defaults import HouseDefaults
from builder.model.job import JobLead, JobSpeaker
from builder.planning.cables.cut_lengths import cut_length_m
from builder.planning.cables.laying import Laying
from builder.planning.cables.speaker_leads import (
    Lead,
    LeadDemand,
    choose_lead,
    judge_lead,
    lead_ohm,
)
from builder.planning.car.output_sums import corner_of
from builder.planning.job.speaker_links import use_of
from builder.planning.levels.amplifier_loads import ChannelLoad
from builder.planning.pack_details import PackFlag
from builder.planning.plan import Reason
from builder.planning.power.conductors import Conductor, choice_awg, conductor_of
from builder.planning.power.tables import REFERENCE_C
from builder.planning.sheet_rows import SpeakerLead
from builder.planning.tables import HOUSE_DEFAULT
from builder.planning.words import FlagKind, LeadFlagKind
from builder.units import Ohms


@dataclass(frozen=True, slots=True)
class JobLeads:
    """Every lead that was worked out, why, and which limits some do not keep."""

    leads: tuple[SpeakerLead, ...]
    reasons: tuple[Reason, ...]
    flags: tuple[PackFlag, ...]
    sizes: tuple[tuple[str, Conductor], ...] = ()  # by the speaker's name
    ohms: tuple[tuple[str, Ohms], ...] = ()  # of both wires together, by the speaker's name


def job_leads(
    loads: Mapping[tuple[str, int], ChannelLoad], laying: Laying, defaults: HouseDefaults
) -> JobLeads:
    """Return the lead of each speaker: its new one, or the pair that goes back to its wire."""
    leads: list[SpeakerLead] = []
    reasons: list[Reason] = []
    flags: list[PackFlag] = []
    sizes: list[tuple[str, Conductor]] = []
    ohms: list[tuple[str, Ohms]] = []
    for load in loads.values():
        for speaker in load.speakers:
            judged = _judge(speaker, load, laying, defaults)
            if judged is None:
                continue
            length, lead, thinner = judged
            leads.append(_row(speaker, length, lead))
            sizes.append((speaker.name, lead.conductor))
            ohms.append((speaker.name, lead.wire_ohm))
            reasons += _reasons(speaker, lead, thinner)
            flags += _flags(speaker, lead)
    return JobLeads(tuple(leads), tuple(reasons), tuple(flags), tuple(sizes), tuple(ohms))


def _judge(
    speaker: JobSpeaker, load: ChannelLoad, laying: Laying, defaults: HouseDefaults
) -> tuple[float, Lead, tuple[Lead, ...]] | None:
    if speaker.lead is not None:
        return _new_lead(speaker, speaker.lead, load, defaults)
    returned = _returned(speaker, laying, defaults)
    if returned is None:
        return None
    length, conductor = returned
    return length, judge_lead(_demand(speaker, load, length, defaults), conductor, defaults), ()


def _new_lead(
    speaker: JobSpeaker, lead: JobLead, load: ChannelLoad, defaults: HouseDefaults
) -> tuple[float, Lead, tuple[Lead, ...]]:
    demand = _demand(speaker, load, lead.length_m, defaults)
    given = conductor_of(lead)
    if given is not None:
        return lead.length_m, judge_lead(demand, given, defaults), ()
    chosen, thinner = choose_lead(demand, choice_awg(), defaults)
    return lead.length_m, chosen, thinner


def _demand(
    speaker: JobSpeaker, load: ChannelLoad, length_m: float, defaults: HouseDefaults
) -> LeadDemand:
    return LeadDemand(
        speaker.nominal_ohm,
        min(load.power_w, speaker.rated_w_rms),
        length_m,
        use_of(speaker, load),
        _existing_ohm(speaker.existing_lead, defaults),
    )


def _existing_ohm(lead: JobLead | None, defaults: HouseDefaults) -> float:
    conductor = conductor_of(lead)
    if lead is None or conductor is None or lead.length_m <= 0:
        return 0.0
    return lead_ohm(lead.length_m, conductor, defaults)


def _returned(
    speaker: JobSpeaker, laying: Laying, defaults: HouseDefaults
) -> tuple[float, Conductor] | None:
    """The cut length of the jacket that carries the speaker's pair back, and its conductor."""
    for laid in laying.jackets:
        for use in laid.jacket.uses:
            demand = use.demand
            if demand is None or demand.kind != "amplified" or demand.channel is None:
                continue
            mine = demand.channel == speaker.channel
            mine = mine or corner_of(demand.channel) == speaker.channel
            conductor = conductor_of(laid.cable, laid.cable.material)
            if mine and conductor is not None:
                return cut_length_m(laid.route.length_m, defaults), conductor
    return None


def _row(speaker: JobSpeaker, length_m: float, lead: Lead) -> SpeakerLead:
    return SpeakerLead(
        speaker=speaker.name,
        conductor=lead.conductor.words,
        length_m=length_m,
        added_loss_db=lead.added_loss_db,
        existing_loss_db=lead.existing_loss_db,
        whole_loss_db=lead.whole_loss_db,
        damping=lead.damping,
        music_current_a=lead.music_a_rms,
    )


def _reasons(speaker: JobSpeaker, lead: Lead, thinner: tuple[Lead, ...]) -> list[Reason]:
    said = (
        f"{lead.wire_ohm:.3f} Ω at {REFERENCE_C:g} °C costs {-lead.added_loss_db:.2f} dB, damping "
        f"{lead.damping:.1f}, {read_as(lead.music_a_rms, 'A')} A of music"
    )
    if thinner and thinner[-1].flags:
        said += f"; the next thinner fails: {thinner[-1].flags[0].says}"
    if lead.existing_loss_db < 0:
        said += (
            f"; the factory wire behind it costs {-lead.existing_loss_db:.2f} dB, "
            f"{-lead.whole_loss_db:.2f} dB together"
        )
    return [Reason(f"{speaker.name}: {lead.conductor.words}", said, HOUSE_DEFAULT)]


def _flags(speaker: JobSpeaker, lead: Lead) -> list[PackFlag]:
    kinds: dict[LeadFlagKind, FlagKind] = {
        "current": "lead_overloaded",
        "loss": "lead_loss",
        "damping": "lead_damping",
    }
    return [
        PackFlag(kinds[flag.kind], speaker.name, flag.says, flag.value, flag.limit, flag.unit)
        for flag in lead.flags
    ]
