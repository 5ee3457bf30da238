"""The parts list of a job, spares counted in."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass

from builder.figures import shown
from builder.model.house_defaults import HouseDefaults
from builder.planning.cables.cut_lengths import Cut, pick_list, with_spare
from builder.planning.car.turn_on_wires import is_logic_level
from builder.planning.levels.fitted_pads import fitted_pads
from builder.planning.levels.speaker_loads import StandInLoad
from builder.planning.pack_details import HoldUpPart, LevelChain, PowerSheet
from builder.planning.plan import Plan
from builder.planning.preferred import next_size
from builder.planning.tables import STAND_IN_RATINGS_W
from builder.planning.turn_on.loads import turn_on_pin
from builder.planning.work_pack import CutRow, JobParts, PartLine

_FUSES_APART = "one to fit and one spare"


@dataclass(frozen=True, slots=True)
class PartsWork:
    """What the list is made from."""

    parts: JobParts
    plan: Plan
    power: PowerSheet | None
    cuts: tuple[Cut, ...]
    cut_list: tuple[CutRow, ...]
    chains: tuple[LevelChain, ...]
    stand_ins: tuple[StandInLoad, ...]
    hold_up: HoldUpPart | None
    plugs: int


def parts_list(work: PartsWork, defaults: HouseDefaults) -> tuple[PartLine, ...]:
    """Return every line: devices, cable, conductors, fuses, small parts."""
    return (
        *_devices(work.parts, work.plan),
        *_cables(work),
        *_supply(work),
        *_fuses(work),
        *_electrics(work, defaults),
        *_small(work, defaults),
    )


def _devices(parts: JobParts, plan: Plan) -> list[PartLine]:
    found = [PartLine(parts.converter.name, 1, "", parts.converter.maker)]
    if plan.turn_on.interface is not None:
        interface = parts.shelf.interfaces[plan.turn_on.interface]
        found.append(PartLine(interface.name, 1, "", f"{interface.maker}; data interface"))
    return found + [
        PartLine(amplifier.name, 1, "", f"{amplifier.maker}; {name}")
        for name, amplifier in parts.amplifiers.items()
    ]


def _cables(work: PartsWork) -> list[PartLine]:
    metres: dict[str, float] = {}
    for row in work.cut_list:
        metres[row.cable] = round(metres.get(row.cable, 0.0) + row.cut_m, 1)
    pieces = Counter(row.cable for row in work.cut_list)
    return [PartLine(name, length, "m", _pieces(pieces[name])) for name, length in metres.items()]


def _pieces(count: int) -> str:
    return "1 piece of the cut list" if count == 1 else f"{count} pieces of the cut list"


def _supply(work: PartsWork) -> list[PartLine]:
    if work.power is None:
        return []
    lines = [
        PartLine(run.conductor, run.length_m, "m", f"{run.name}, out and return; cut after dry fit")
        for run in work.power.runs
    ]
    ends = 2 * len(work.power.runs) + 2
    lines.append(PartLine("ring terminal or end sleeve", ends, "", "for the supply conductors"))
    lines.append(PartLine("grommet", 1, "", "where the supply passes sheet metal"))
    if len(work.power.runs) > 1:
        lines.append(PartLine("distribution block with fuses", 1, "", "at the end of the trunk"))
    return lines


def _fuses(work: PartsWork) -> list[PartLine]:
    ratings: list[tuple[float, str]] = []
    for at, run in enumerate(work.power.runs if work.power else ()):
        if run.fuse_a is not None:
            ratings.append((run.fuse_a, "main fuse" if at == 0 else run.name))
    if work.parts.converter.supply is not None:
        ratings.append((work.parts.converter.supply.fuse_a, work.parts.converter.name))
    if work.plan.turn_on.fuse_position is not None:
        ratings.append((1.0, f"turn-on from {work.plan.turn_on.fuse_position}"))
    if work.plan.turn_on.interface is not None:
        interface = work.parts.shelf.interfaces[work.plan.turn_on.interface]
        ratings.append((interface.supply.fuse_a, interface.name))
    return [PartLine(f"fuse {a:g} A", 2, "", f"{what}; {_FUSES_APART}") for a, what in ratings]


def _electrics(work: PartsWork, defaults: HouseDefaults) -> list[PartLine]:
    lines = []
    if work.stand_ins:
        load = work.stand_ins[0]
        most = max(load.rating_w for load in work.stand_ins)
        note = (
            "in air, across each broken pair at the radio end; "
            f"{shown(load.sine_w, 2, beside=most)} W sine, "
            f"{shown(load.square_w, 2, beside=most)} W square, so at least {shown(most, 2)} W"
        )
        watts = next_size(most, STAND_IN_RATINGS_W) or STAND_IN_RATINGS_W[-1]
        count = len(work.stand_ins)
        lines.append(PartLine(f"resistor {load.ohm:g} Ω {watts:g} W", count, "", note))
    lines += _pads(work)
    return [*lines, *_turn_on_parts(work, defaults)]


def _pads(work: PartsWork) -> list[PartLine]:
    """Two resistors a pair, pairs with the same ones together."""
    alike: dict[str, list[str]] = {}
    for pad in fitted_pads(work.plan.levels, work.parts.converter):
        alike.setdefault(pad.resistor, []).append(pad.channel)
    return [
        PartLine(
            f"resistor {each}", 2 * len(names), "", f"pad: one in each leg of {', '.join(names)}"
        )
        for each, names in alike.items()
    ]


def _turn_on_parts(work: PartsWork, defaults: HouseDefaults) -> list[PartLine]:
    lines = []
    if work.hold_up is not None:
        held = work.hold_up
        lines.append(
            PartLine(f"capacitor {held.capacitor_uf:g} µF 25 V", 1, "", f"holds up {held.where}")
        )
        lines.append(PartLine(f"resistor {held.charge_ohm:g} Ω 5 W", 1, "", "charges it"))
        lines.append(PartLine("diode 1 A", 2, "", "before it, and across the resistor"))
    pin = turn_on_pin(work.parts.vehicle, work.plan.turn_on)
    if pin is not None and is_logic_level(pin, defaults):
        lines.append(PartLine("transistor or relay driver", 1, "", "logic level to 12 V"))
    coils = [load for load in work.parts.job.other_turn_on_loads if load.coil]
    missing = [load.name for load in coils if load.diode != "yes"]
    if missing:
        lines.append(PartLine("diode 1 A", len(missing), "", f"across {', '.join(missing)}"))
    return lines


def _small(work: PartsWork, defaults: HouseDefaults) -> list[PartLine]:
    picked = pick_list(work.cuts, work.plugs, defaults)
    share = f"{defaults.spare_share:.0%} spare in it"
    line_leads = len({(chain.speaker, name) for chain in work.chains for name in chain.channels})
    lines = [
        PartLine("adhesive sleeve", picked.sleeves_to_pick, "", f"{picked.joints} joints; {share}"),
        PartLine("cable tie", picked.ties_to_pick, "", share),
        PartLine("roll of cloth tape", 1, "", "over joints and along the cables"),
        PartLine("label", picked.labels_to_pick, "", share),
    ]
    if line_leads:
        lines.append(PartLine("line lead", with_spare(line_leads, defaults), "", share))
    return [each for each in lines if each.quantity > 0]
