"""What the bay sheet of a job is made from."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from builder.model.house_defaults import HouseDefaults
from builder.planning.car.heard_ends import only_end
from builder.planning.car.selection import Selection
from builder.planning.feeds.stand_ins import StandIns
from builder.planning.harness.planned import LoomPlan
from builder.planning.pack_details import GainSetting, HoldUpPart, LevelChain, PowerSheet
from builder.planning.plan import Plan
from builder.planning.tune_sheet import TuneRow
from builder.planning.words import End
from builder.planning.work_pack import JobParts
from builder.units import Ohms


@dataclass(frozen=True, slots=True)
class BayWork:
    """A job with its tap plan, levels and gains."""

    parts: JobParts
    plan: Plan
    selection: Selection
    chains: tuple[LevelChain, ...]
    gains: tuple[GainSetting, ...]
    hold_up: HoldUpPart | None
    defaults: HouseDefaults
    stand_ins: StandIns = field(default_factory=dict)
    looms: Mapping[str, LoomPlan] = field(default_factory=dict)  # by the car's plug
    tune: tuple[TuneRow, ...] = ()
    power: PowerSheet | None = None
    lead_ohms: Mapping[str, Ohms] = field(default_factory=dict)  # both wires, by the speaker
    devices: tuple[str, ...] = ()  # what something has to hold in the car, by name


def fader_end(work: BayWork) -> End | None:
    """Return the end of the car from which all sound comes: turned to the other, the fader
    silences it, so it stays centred. None where it weighs two ends as before."""
    known = [each.channel for each in work.parts.vehicle.channels]
    played = [tap.pair.channel for tap in work.selection.taps]
    return only_end(known, played, [tap.pair.channel for tap in work.selection.broken])
