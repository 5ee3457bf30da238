"""The supply of a job nobody has written yet: lengths of the car's record, else of the house."""

from __future__ import annotations

from collections.abc import Sequence

from builder.model.job import Distribution, JobBranch, JobSupply
from builder.model.parts import Amplifier
from builder.model.vehicle import Vehicle
from builder.planning.job.sketch_assumed import assumed_keys, assumed_words
from builder.planning.job.sketch_speakers import Stage
from builder.planning.plan import Reason
from builder.planning.power.idle_current import recorded_idle_a
from builder.planning.tables import AMPLIFIER_RECORD, COMMON_PRACTICE, HOUSE_DEFAULT, RECORD


def sketch_supply(
    stage: Stage, named: Sequence[tuple[str, Amplifier]]
) -> tuple[JobSupply, tuple[Reason, ...]]:
    """Return the supply of a sketched job, and where each of its figures comes from."""
    defaults, car = stage.defaults, stage.vehicle.power
    out = car.supply_lead_m if car.supply_lead_m is not None else defaults.sketch_supply_lead_m
    back = car.ground_lead_m if car.ground_lead_m is not None else defaults.ground_lead_max_m
    branch = defaults.sketch_branch_m
    branches = tuple(JobBranch(amplifier=name, out_m=branch, return_m=back) for name, _ in named)
    supply = JobSupply(
        supply_lead_m=out,
        ground_lead_m=back,
        fuse_to_battery_m=defaults.fuse_distance_m,
        distribution=Distribution(branches=branches) if len(named) > 1 else None,
        idle_a=recorded_idle_a(stage.converter, (amplifier for _, amplifier in named)),
        path=("supply",),
        **assumed_keys(JobSupply),
    )
    return supply, _of_supply(supply, stage.vehicle)


def _of_supply(supply: JobSupply, vehicle: Vehicle) -> tuple[Reason, ...]:
    car = vehicle.power
    usual = "to the usual amplifier place of this car"
    unread = "the record gives no length"
    out, back = car.supply_lead_m is not None, car.ground_lead_m is not None
    found = [
        Reason(f"supply lead of {supply.supply_lead_m:g} m", usual if out else unread,
               RECORD if out else HOUSE_DEFAULT),
        Reason(f"ground lead of {supply.ground_lead_m:g} m", usual if back else unread,
               RECORD if back else HOUSE_DEFAULT),
        Reason(f"main fuse {supply.fuse_to_battery_m:g} m from the battery",
               "the most that is allowed; nobody chose a place", HOUSE_DEFAULT),
        Reason(assumed_words(JobSupply),
               "nobody said; scrape a strand before you trust the reel", COMMON_PRACTICE),
        Reason(f"all of it draws {supply.idle_a:g} A with no sound",
               "the sum of what the devices' records say", AMPLIFIER_RECORD),
    ]  # fmt: skip
    if supply.branches:
        what = f"a distribution block, {supply.branches[0].out_m:g} m before each amplifier"
        found.append(Reason(what, "nobody chose a place for it", HOUSE_DEFAULT))
    return tuple(found)
