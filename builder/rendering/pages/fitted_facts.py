"""What the cover of a job says is fitted: speakers, and a battery with what joins it."""

from __future__ import annotations

from builder.figures import shown
from builder.model.job import FactoryLead, Job, JobSpeaker
from builder.model.names import crossover_name
from builder.planning.circuit.terminal_names import SECOND
from builder.planning.job.crossovers import crossover_words
from builder.planning.power.joiners import JOINERS
from builder.rendering.pages.car_facts import Fact
from builder.rendering.pages.wording import listed, plain, size_words


def fitted_facts(job: Job) -> list[Fact]:
    """Return each as a line of the cover; converter and amplifiers have lines of their own."""
    return (
        [
            Fact(
                one.name,
                f"{one.nominal_ohm:g} Ω, {one.rated_w_rms:g} W RMS, "
                f"{'factory' if one.existing else 'new'}{_stands(one)}; {one.amplifier} channel "
                f"{one.channel_name}; plays {listed(tuple(map(plain, one.plays)), 'nothing')}"
                + _factory_wire(one.existing_lead),
            )
            for one in job.speakers
        ]
        + _crossovers(job)
        + _second_battery(job)
    )


def _crossovers(job: Job) -> list[Fact]:
    """The passive crossovers, each beside its amplifier."""
    return [
        Fact(crossover_name(one.channel),
             f"passive; {crossover_words(one.crossover)}; beside {one.amplifier}")
        for one in job.speakers
        if one.crossover is not None
    ]  # fmt: skip


def _stands(one: JobSpeaker) -> str:
    """Where a new speaker goes; one on the wire of the car's own goes into the car's place."""
    if one.existing or one.existing_lead is not None:
        return ""
    return f", {one.place}" if one.place else ", its place is not said"


def _second_battery(job: Job) -> list[Fact]:
    """A battery of its own and what joins it, which are fitted like every other device."""
    second = job.supply.second_battery
    if second is None:
        return []
    kind = "kind not known" if second.type == "unknown" else second.type.replace("_", " ")
    joins = JOINERS[second.joined_by]
    given = f", {shown(second.charger_a)} A" if second.charger_a else ""
    return [
        Fact(SECOND, f"{kind}, {shown(second.ah)} Ah; {second.place}"),
        Fact(joins, f"joins it to the car's{given}; {second.place}"),
    ]


def _factory_wire(lead: FactoryLead | None) -> str:
    return f"; {lead.length_m:g} m of factory wire, {size_words(lead)}" if lead else ""
