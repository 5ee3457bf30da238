"""A second battery: what flows to it, what its link is made of, what it is sure to hold."""

from __future__ import annotations

from builder.model.house_defaults import HouseDefaults
from builder.model.job import SecondBattery
from builder.planning.power.battery_kinds import BatteryKind, battery_kind
from builder.planning.power.conductors import choice_awg
from builder.planning.power.supply_runs import RunChoice, RunDemand, choose_run
from builder.planning.work_pack import JobParts
from builder.units import Amperes

LINK = "link between the batteries"


def charge_a(second: SecondBattery, kind: BatteryKind) -> Amperes:
    """Return what it takes at most while the engine charges it. [A]"""
    if second.charger_a is not None:
        return second.charger_a
    return kind.charge_a_per_ah * second.ah


def added_charge_a(parts: JobParts, defaults: HouseDefaults) -> Amperes:
    """Return what charging takes of what the car can spare; 0 without a second battery. [A]"""
    second = parts.job.supply.second_battery
    return 0.0 if second is None else charge_a(second, battery_kind(second.type, defaults))


def link_run(parts: JobParts, music_a: Amperes, defaults: HouseDefaults) -> RunChoice | None:
    """Return the positive lead between two batteries, with the size of the fuses at its ends.

    A relay and a diode carry what the second battery takes and, with the engine on, what the music
    takes as well; a charger carries what it gives.
    """
    supply = parts.job.supply
    second = supply.second_battery
    if second is None:
        return None
    flows = charge_a(second, battery_kind(second.type, defaults))
    flows += 0.0 if second.joined_by == "dc_charger" else music_a
    demand = RunDemand(LINK, flows, flows, second.link_m, second.ground_m, joints=True)
    return choose_run(demand, choice_awg(supply.material), defaults)
