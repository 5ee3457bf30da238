"""What brings a loop under its limit, the cheapest first: strap, cable, place."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from builder.figures import at_most, shown
from builder.model.house_defaults import HouseDefaults
from builder.planning.power.conductors import Conductor
from builder.planning.power.loop import Loop
from builder.planning.power.supply_runs import RunChoice, judge_run
from builder.units import Volts


def with_cures(
    loop: Loop, trunk: RunChoice, sizes: Sequence[Conductor], defaults: HouseDefaults
) -> Loop:
    """Return the loop with all that would cure it; the strap counts in each of them.

    Args:
        loop: As it was read; one that was not read, or loses little enough, needs no cure.
        trunk: The run out and back as it is chosen.
        sizes: What else it could be made of, thinnest first.
        defaults: The volts allowed for the whole loop.
    Raises:
        ValueError: a size is unknown.
    """
    if loop.drop_v is None or loop.drop_v <= defaults.supply_path_drop_v:
        return loop
    return replace(loop, cures=tuple(_cures(loop, trunk, sizes, defaults)))


def _cures(
    loop: Loop, trunk: RunChoice, sizes: Sequence[Conductor], defaults: HouseDefaults
) -> Iterator[str]:
    assert loop.drop_v is not None
    limit, rest = defaults.supply_path_drop_v, loop.drop_v - trunk.run.drop_v
    if loop.strap_max_ohm > 0:
        most = at_most(loop.strap_max_ohm * 1000, "mΩ")
        yield f"a strap of at most {most} mΩ, cleaned or doubled"
    for size in sizes:
        lost = rest + judge_run(trunk.demand, size, defaults).run.drop_v
        if lost <= limit:
            yield f"{size.words} as supply and ground ({shown(lost, 3, beside=limit)} V)"
            break
    nearer = _nearer_m(trunk, loop.drop_v - limit, defaults)
    if nearer < trunk.demand.out_m:
        yield f"the amplifier {shown(nearer, 1)} m of cable nearer to the battery"


def _nearer_m(trunk: RunChoice, too_much_v: Volts, defaults: HouseDefaults) -> float:
    """How much shorter the way out would have to be. [m]"""
    one_more = replace(trunk.demand, out_m=trunk.demand.out_m + 1)
    a_metre_v = judge_run(one_more, trunk.conductor, defaults).run.drop_v - trunk.run.drop_v
    return too_much_v / a_metre_v
