"""What a circuit is made of: a job whose pairs, cables, levels and supply are decided."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from builder.model.house_defaults import HouseDefaults
from builder.model.words import Channel
from builder.planning.cables.laying import LaidJacket, Laying
from builder.planning.car.selection import Selection
from builder.planning.feeds.converter_feed import ConverterFeed
from builder.planning.harness.planned import LoomPlan
from builder.planning.levels.amplifier_loads import ChannelLoad
from builder.planning.levels.fitted_pads import FittedPad
from builder.planning.levels.speaker_loads import StandInLoad
from builder.planning.pack_details import HoldUpPart
from builder.planning.plan import Plan
from builder.planning.power.conductors import Conductor
from builder.planning.power.supply_runs import RunChoice
from builder.planning.sheet_rows import SpeakerLead
from builder.planning.words import DemandKind
from builder.planning.work_pack import JobParts


@dataclass(frozen=True, slots=True)
class CircuitWork:
    """A job with all that was decided for it. `loads` by (amplifier, channel)."""

    parts: JobParts
    plan: Plan
    selection: Selection
    laying: Laying
    loads: dict[tuple[str, int], ChannelLoad]
    leads: tuple[SpeakerLead, ...]
    lead_sizes: tuple[tuple[str, Conductor], ...]  # by the speaker's name
    runs: tuple[RunChoice, ...]  # trunk, then branches; empty where a length is not measured
    hold_up: HoldUpPart | None
    pads: tuple[FittedPad, ...]
    stand_ins: dict[Channel, StandInLoad]  # by the broken pair
    feed: ConverterFeed  # where the converter takes its supply
    defaults: HouseDefaults
    looms: Mapping[str, LoomPlan] = field(default_factory=dict)  # by the car's plug
    second_link: RunChoice | None = None  # to a second battery

    @property
    def unchosen(self) -> tuple[str, ...]:
        """The amplifiers that nobody has chosen: a tap plan has one, a job none."""
        named = (each.name for each in self.parts.job.amplifiers)
        return tuple(name for name in named if name not in self.parts.amplifiers)

    @property
    def converter(self) -> str:
        """What the converter is called on every sheet."""
        return self.parts.converter.name

    @property
    def converter_place(self) -> str:
        """Where the converter sits."""
        return self.parts.job.converter_place

    def amplifier_place(self, name: str) -> str:
        """Where an amplifier of the job sits."""
        found = self.parts.job.amplifier(name)
        return found.place if found else ""

    def carried(
        self, kind: DemandKind, channel: Channel | None
    ) -> tuple[tuple[LaidJacket, str], ...]:
        """The conductors that carry one demand: (jacket, place in it), positive before negative."""
        return tuple(
            (laid, use.place)
            for laid in self.laying.jackets
            for use in laid.jacket.uses
            if use.demand is not None and use.demand.kind == kind and use.demand.channel == channel
        )

    def lead_size(self, speaker: str) -> Conductor | None:
        """What the lead to a speaker is made of."""
        return dict(self.lead_sizes).get(speaker)
