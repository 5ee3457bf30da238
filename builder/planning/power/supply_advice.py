"""What to say of a supply besides its figures: shapes, terminals, metric cable, places."""

from __future__ import annotations

from builder.figures import shown
from builder.model.house_defaults import HouseDefaults
from builder.model.job import JobSupply
from builder.planning.plan import Reason
from builder.planning.power.conductors import Conductor, choice_mm2, conductor_of
from builder.planning.power.fuse_sizes import FuseDistance, families_with, fuse_family
from builder.planning.power.main_fuse import main_fuse_place
from builder.planning.power.supply import (
    SupplyLoad,
    size_runs,
)
from builder.planning.power.supply_runs import RunChoice
from builder.planning.tables import AMPLIFIER_RECORD, COMMON_PRACTICE, HOUSE_DEFAULT, RECORD
from builder.planning.words import FeedPlace
from builder.planning.work_pack import JobParts


def family_reasons(supply: JobSupply, runs: tuple[RunChoice, ...]) -> list[Reason]:
    """Say so where the main fuse is not made in the shape the job asks for."""
    fuse = runs[0].run.fuse_a
    family = fuse_family(supply.fuse_family)
    if fuse is None or fuse in family.ratings_a:
        return []
    others = [fuse_family(key).name for key in families_with(fuse)]
    because = f"no {family.name} is made for {fuse:g} A"
    because += f"; made as {', '.join(others)}" if others else ""
    return [Reason("another shape of main fuse", because, family.source)]


def terminal_reasons(parts: JobParts, runs: tuple[RunChoice, ...]) -> list[Reason]:
    """Amplifier terminals too small for the conductor that leads to them."""
    reasons = []
    branches = {choice.run.name: choice for choice in runs}
    for name, amplifier in parts.amplifiers.items():
        run = branches.get(f"branch to {name}") or (runs[0] if len(runs) == 1 else None)
        most = amplifier.power_max_awg
        size = run.conductor.size_awg if run else None
        if most is None or size is None or _thickness(size) >= _thickness(most):
            continue
        because = f"its terminal takes {most} AWG, the run is {size} AWG: use a stepped sleeve"
        reasons.append(Reason(f"{name} needs a reducing sleeve", because, AMPLIFIER_RECORD))
    return reasons


def _thickness(size_awg: str) -> int:
    """A number that falls as conductors get thicker."""
    return 1 - int(size_awg[0]) if "/" in size_awg else int(size_awg)


def metric_reasons(
    supply: JobSupply,
    loads: list[SupplyLoad],
    out: float,
    back: float,
    runs: tuple[RunChoice, ...],
    defaults: HouseDefaults,
) -> list[Reason]:
    """The same supply in metric cable, where the job left the size open."""
    if chosen_conductor(supply) is not None:
        return []
    metric = size_runs(loads, out, back, choice_mm2(supply.material), defaults)
    names = ", ".join(
        f"{choice.run.name} {choice.run.conductor} ({choice.run.cumulative_drop_v:.3f} V)"
        for choice in metric
    )
    if not all(choice.clear for choice in metric):
        return []
    because = f"of metric cable these are the thinnest that fuse and drop allow: {names}"
    return [Reason("metric cable would do as well", because, f"IEC 60228; {HOUSE_DEFAULT}")]


def place_reasons(
    parts: JobParts, distance: FuseDistance | None, fed_at: FeedPlace, defaults: HouseDefaults
) -> list[Reason]:
    """Return where the main fuse and the ground belong in this car."""
    one = (
        "one point for the amplifiers; the converter's is the radio's"
        if fed_at == "radio"
        else "one point for converter and amplifiers"
    )
    ground = Reason(
        "ground: bare metal of the body, the same size as the supply",
        f"at most {defaults.ground_lead_max_m:g} m, " + one + "; "
        "never a seat bolt, a bracket or a restraint stud",
        f"{COMMON_PRACTICE}; {HOUSE_DEFAULT}",
    )
    return [_fuse_place(parts.job.supply, distance, defaults), *_sensor_reasons(parts), ground]


def _fuse_place(
    supply: JobSupply, distance: FuseDistance | None, defaults: HouseDefaults
) -> Reason:
    if distance is None:
        because = f"the distance is not measured, at most {defaults.fuse_distance_m:g} m of wire"
    else:
        because = (
            f"{shown(distance.distance_m, beside=distance.house_limit_m)} m of wire before it, at "
            f"most {shown(distance.house_limit_m)} m; boats are allowed "
            f"{shown(distance.published_limit_m, 2)} m ({distance.published_source})"
        )
    return Reason(f"main fuse {main_fuse_place(supply)}", because, HOUSE_DEFAULT)


def _sensor_reasons(parts: JobParts) -> list[Reason]:
    sensor = parts.vehicle.power.battery.sensor_on_negative
    if sensor == "no":
        return []
    known = "sits on" if sensor == "yes" else "may sit on"
    because = f"a current sensor {known} the negative post and must count what returns"
    return [Reason("ground to the body, not to the post", because, RECORD)]


def chosen_conductor(supply: JobSupply) -> Conductor | None:
    """Return the conductor the job has chosen for its supply, or None where it is left open."""
    return conductor_of(supply, supply.material)
