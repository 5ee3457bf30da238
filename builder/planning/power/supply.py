"""The supply of the new amplifiers: currents, main fuse, trunk and branches, reserve, parking."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from builder.model.house_defaults import HouseDefaults
from builder.model.parts import Amplifier, AmplifierChannels
from builder.model.parts.amplifier_channels import AmplifierClass
from builder.model.words import Listening
from builder.planning.plan import Reason
from builder.planning.power.conductors import Conductor
from builder.planning.power.flags import PowerFlag
from builder.planning.power.reasons import FullCurrent, supply_reasons
from builder.planning.power.reserve import Reserve
from builder.planning.power.supply_runs import Run, RunChoice, RunDemand, choose_run
from builder.planning.words import BLOCK
from builder.units import Amperes, Watts, require_positive


@dataclass(frozen=True, slots=True)
class SupplyLoad:
    """An amplifier as its supply sees it. A branch of 0 m is fed straight from the trunk's end.

    `hung_a` is what small devices on its terminals take beside it, music or not; `block_a` what
    they take where its branch begins.
    """

    name: str
    full_current_a: Amperes
    on_board_a: Amperes
    branch_out_m: float = 0.0
    branch_return_m: float = 0.0
    hung_a: Amperes = 0.0
    block_a: Amperes = 0.0

    @property
    def drawn_a(self) -> Amperes:
        """What its terminals take at full power, with what hangs on them. [A]"""
        return self.full_current_a + self.hung_a

    @property
    def has_branch(self) -> bool:
        """Whether it hangs on a run of its own."""
        return self.branch_out_m + self.branch_return_m > 0


@dataclass(frozen=True, slots=True)
class Power:
    """The supply as a plan prints it. `reserve_a` is at hot idle, or of the DC-DC converter."""

    full_current_a: Amperes
    music_current_a: Amperes
    main_fuse_a: Amperes | None
    reserve_a: Amperes | None  # None: the vehicle's figures are not recorded
    runs: tuple[Run, ...]
    thicker: tuple[Run | None, ...]  # the next thicker conductor of each run, for comfort
    reserves: tuple[Reserve, ...]
    flags: tuple[PowerFlag, ...]
    because: tuple[Reason, ...]


def efficiency_of(amplifier: Amplifier, group: AmplifierChannels, defaults: HouseDefaults) -> float:
    """Return power out over power in of a group of channels, as a fraction over 0 and up to 1.

    What is known of the group itself goes before what is known of the amplifier, and a measured
    figure before the house figure of a class; but a group of a class of its own never takes the
    measured figure of an amplifier that mixes two.
    """
    by_class: dict[AmplifierClass, float] = {
        "D": defaults.class_d_efficiency,
        "AB": defaults.class_ab_efficiency,
    }
    if group.own_class is None:
        measured = group.efficiency or amplifier.efficiency
        return measured or by_class[amplifier.amplifier_class]
    return group.efficiency or by_class[group.own_class]


def full_current_a(power_w: Watts, efficiency: float, defaults: HouseDefaults) -> Amperes:
    """Return what an amplifier draws at full power of all its channels, ΣP/(η·V). [A]

    Raises:
        ValueError: an argument is not positive and finite.
    Source: conservation of energy; η and V are house defaults unless measured.

    >>> round(full_current_a(600.0, 0.8, HouseDefaults()), 1)
    54.3
    """
    draws_w = require_positive("power_w", power_w) / require_positive("efficiency", efficiency)
    return draws_w / defaults.charging_v


def music_current_a(full_a: Amperes, programme: Listening, defaults: HouseDefaults) -> Amperes:
    """Return the average current with music. [A]

    Raises:
        ValueError: the current is not positive, or the programme is neither heavy nor light.

    >>> music_current_a(54.0, "heavy", HouseDefaults())
    18.0
    """
    divisors: dict[Listening, float] = {
        "heavy": defaults.music_divisor_heavy,
        "light": defaults.music_divisor_light,
    }
    if programme not in divisors:
        raise ValueError(f"a programme is heavy or light, not {programme!r}")
    return require_positive("full_a", full_a) / divisors[programme]


def size_runs(
    loads: Iterable[SupplyLoad],
    trunk_out_m: float,
    trunk_return_m: float,
    candidates: Iterable[Conductor],
    defaults: HouseDefaults,
) -> tuple[RunChoice, ...]:
    """Return the trunk, then a branch for each load that has one.

    The trunk is the thinnest that carries its fuse and leaves every branch enough volts. When no
    trunk does, the thickest is returned with the flags that remain.

    Raises:
        ValueError: no loads, no candidates, or a current or length is not positive and finite.
    """
    listed, sizes = tuple(loads), tuple(candidates)
    trunk = trunk_demand(listed, trunk_out_m, trunk_return_m)
    first = choose_run(trunk, sizes, defaults)
    thicker = sizes[sizes.index(first.conductor) :]
    for at, conductor in enumerate(thicker):
        choice = first if at == 0 else choose_run(trunk, thicker[at:], defaults)
        branches = _branches(listed, choice.run.cumulative_drop_v, sizes, defaults)
        if all(branch.clear for branch in branches) or conductor == thicker[-1]:
            break
    return (choice, *branches)


def trunk_demand(loads: tuple[SupplyLoad, ...], out_m: float, return_m: float) -> RunDemand:
    """Return what the trunk must carry: all currents, all on-board fuses, the joints.

    Raises:
        ValueError: there is no load.
    """
    if not loads:
        raise ValueError("a supply needs at least one load")
    total = sum(load.drawn_a + load.block_a for load in loads)
    on_board = sum(load.on_board_a for load in loads)
    end = BLOCK if any(load.has_branch for load in loads) else loads[0].name
    return RunDemand(f"supply of {end}", total, on_board, out_m, return_m, joints=True)


def branch_demand(load: SupplyLoad) -> RunDemand:
    """Return what the branch of a load must carry; its joints are counted on the trunk."""
    return RunDemand(
        f"branch to {load.name}",
        load.drawn_a,
        load.on_board_a,
        load.branch_out_m,
        load.branch_return_m,
        joints=False,
    )


def _branches(
    loads: tuple[SupplyLoad, ...],
    before_v: float,
    candidates: tuple[Conductor, ...],
    defaults: HouseDefaults,
) -> tuple[RunChoice, ...]:
    return tuple(
        choose_run(branch_demand(load), candidates, defaults, before_v=before_v)
        for load in loads
        if load.has_branch
    )


def plan_power(
    runs: tuple[RunChoice, ...],
    reserves: tuple[Reserve, ...],
    full: FullCurrent,
    defaults: HouseDefaults,
) -> Power:
    """Return the supply of a plan from its sized runs and its reserves, worst reserve first.

    Raises:
        ValueError: no runs, or the programme is neither heavy nor light.
    """
    trunk, music = runs[0].run, music_current_a(full.amplifiers_a, full.programme, defaults)
    flags = (flag for choice in runs for flag in choice.flags)
    shortages = (flag for reserve in reserves[:1] for flag in reserve.flags)
    return Power(
        full.amplifiers_a,
        music,
        trunk.fuse_a,
        reserves[0].reserve_a if reserves else None,
        tuple(choice.run for choice in runs),
        tuple(choice.thicker for choice in runs),
        reserves,
        (*flags, *shortages),
        supply_reasons(runs, reserves, full, defaults),
    )
