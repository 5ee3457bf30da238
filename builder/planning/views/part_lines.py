"""The parts list of a circuit: devices, metres, fuses, parts, the small things of its joints."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass

from builder.figures import shown
from builder.model.house_defaults import HouseDefaults
from builder.planning.cables.cut_lengths import pick_list, round_up_m, with_spare
from builder.planning.circuit.board import PAINTED, SLEEVE, WRAP
from builder.planning.circuit.devices import hold_up_place, tied_holders
from builder.planning.circuit.hold_up import HOLD_UP_TIES
from builder.planning.circuit.index import CircuitIndex
from builder.planning.circuit.model import Element, Joint
from builder.planning.circuit.terminal_names import SECOND
from builder.planning.harness.bench_counts import (
    BAND_M,
    SPARE_JOINTS,
    TIE,
    to_buy,
)
from builder.planning.harness.cables_of import roll_spare_m
from builder.planning.harness.rows import LoomSheet
from builder.planning.sheet_rows import CutRow, PartLine
from builder.planning.views.capped_ends import cap_lines
from builder.planning.views.crimp_lines import crimp_lines
from builder.planning.views.cut_rows import cuts_of
from builder.planning.views.fixing_parts import fixing_lines, pass_lines
from builder.planning.views.fuse_parts import fuse_part_lines
from builder.planning.views.lead_lines import lead_lines
from builder.planning.views.loom_joints import closed_at_table
from builder.planning.views.loom_parts import loom_part_lines
from builder.planning.views.speaker_lines import new_speakers
from builder.planning.views.tool_parts import ties_words, tool_lines
from builder.planning.views.wiring_rows import is_home_of_loom, made_by_us
from builder.planning.words import ElementKind, UnitKind
from builder.planning.work_pack import JobParts


@dataclass(frozen=True, slots=True)
class PartsWork:
    """What the list is made from: `labels` are stuck on, with `bands` of tape; `remarks` are notes
    on parts by their purpose."""

    parts: JobParts
    index: CircuitIndex
    cut_list: tuple[CutRow, ...]
    labels: int
    bands: int
    remarks: dict[str, str]
    defaults: HouseDefaults
    looms: tuple[LoomSheet, ...] = ()


def part_lines(work: PartsWork) -> tuple[PartLine, ...]:
    """Return every line, spares counted in."""
    return (
        *_devices(work),
        *_cables(work),
        *lead_lines(work.index),
        *fuse_part_lines(work.parts, work.index),
        *_elements(work),
        *_small(work),
    )


def _devices(work: PartsWork) -> list[PartLine]:
    first, *others = device_lines(work.parts, work.index)
    return [first, *loom_part_lines(work.parts, work.index), *others]


def battery_joiners(index: CircuitIndex) -> Iterator[str]:
    """Yield what joins two batteries: ordered with the parts, and fitted as a device."""
    kinds: tuple[ElementKind, ...] = ("relay", "charger", "diode")
    for part in index.circuit.elements:
        if part.kind in kinds and part.carries == "supply":
            yield part.purpose


def device_lines(parts: JobParts, index: CircuitIndex) -> list[PartLine]:
    """Return what stays in the car as a device: the converter, then everything else."""
    found = [PartLine(parts.converter.name, 1, "", parts.converter.maker)]
    found += [
        PartLine(each.name, 1, "", f"{each.maker}; data interface")
        for each in parts.shelf.interfaces.values()
        if each.name in index.units
    ]
    found += [
        PartLine(amplifier.name, 1, "", f"{amplifier.maker}; {name}")
        for name, amplifier in parts.amplifiers.items()
    ]
    found += [PartLine(name, 1, "", note) for name, note in new_speakers(parts.job)]
    found += crossover_lines(index)
    found += [
        PartLine(load.name, 1, "", f"{shown(load.draw_ma)} mA; the turn-on lead switches it")
        for load in parts.job.other_turn_on_loads
    ]
    second = parts.job.supply.second_battery
    if second is not None:
        kind = "" if second.type == "unknown" else f"{second.type.replace('_', ' ')}, "
        found.append(PartLine(SECOND, 1, "", f"{kind}{shown(second.ah)} Ah"))
    kinds: dict[UnitKind, tuple[str, str]] = {
        "driver": ("transistor or relay driver", "logic level to 12 V"),
        "distribution": ("distribution block with fuses", "where the supply parts into branches"),
    }
    return found + [
        PartLine(kinds[unit.kind][0], 1, "", kinds[unit.kind][1])
        for unit in index.circuit.units
        if unit.kind in kinds
    ]


def crossover_lines(index: CircuitIndex) -> Iterator[PartLine]:
    """Yield each passive crossover with both its ways."""
    for unit in index.circuit.units:
        ways = [part for part in index.circuit.elements if part.id.endswith(f" of {unit.id}")]
        if unit.kind == "crossover":
            said = (f"{part.kind} {part.rating}, {part.purpose}" for part in ways)
            yield PartLine(unit.id, 1, "", f"passive; {'; '.join(said)}")


def _cables(work: PartsWork) -> list[PartLine]:
    metres: dict[str, float] = {}
    for row in work.cut_list:
        metres[row.cable] = metres.get(row.cable, 0.0) + row.cut_m
    pieces = Counter(row.cable for row in work.cut_list)
    called = {cable.id: cable.called for cable in work.parts.cables}
    rows = [row for sheet in work.looms for row in sheet.cables]
    return [
        PartLine(
            called.get(name, name), round_up_m(length), "m",
            _pieces(pieces[name]) + _more(roll_spare_m(rows, name, work.defaults)),
        )
        for name, length in metres.items()
    ]  # fmt: skip


def _more(spare_m: float) -> str:
    return f"; {shown(spare_m, 1)} m more for the loom sheet" if spare_m else ""


def _pieces(count: int) -> str:
    return "1 piece of the cut list" if count == 1 else f"{count} pieces of the cut list"


def _of_kind(work: PartsWork, kind: ElementKind) -> list[Element]:
    return [part for part in work.index.circuit.elements if part.kind == kind]


def _elements(work: PartsWork) -> list[PartLine]:
    """Resistors, capacitors and diodes; alike ones together."""
    alike: dict[str, list[str]] = {}
    for kind in ("resistor", "capacitor", "diode", "relay", "charger"):
        for part in _of_kind(work, kind):
            alike.setdefault(f"{kind} {part.rating}", []).append(part.purpose)
    return [
        PartLine(item, len(purposes), "", _purposes(purposes, work.remarks))
        for item, purposes in alike.items()
    ]


def _purposes(purposes: list[str], remarks: dict[str, str]) -> str:
    said = list(dict.fromkeys(purposes))
    return "; ".join((*said, *dict.fromkeys(remarks[each] for each in said if each in remarks)))


def _small(work: PartsWork) -> list[PartLine]:
    index, defaults = work.index, work.defaults
    made = [
        joint
        for joint in index.circuit.joints
        if made_by_us(index, joint) and not is_home_of_loom(index, joint)
    ]
    sleeved = [joint for joint in made if joint.closed_by == SLEEVE and not _at_loom(work, joint)]
    opened = [
        each
        for each in index.circuit.open_ends
        if each.closed_by == SLEEVE and not closed_at_table(index, each)
    ]
    beside = sum(joint.closed_by == WRAP for joint in made)
    rings = sum(joint.kind == "ring" for joint in made)
    picked = pick_list(cuts_of(index, work.cut_list), defaults)
    share = f"{defaults.spare_share:.0%} spare in it"
    sleeves = with_spare(len(sleeved) + len(opened), defaults)
    ends = f"{len(opened)} {'end' if len(opened) == 1 else 'ends'} closed off"
    joints = f"{len(sleeved)} {'joint' if len(sleeved) == 1 else 'joints'}, {ends}; {share}"
    held = 0 if hold_up_place(work.index) is None else HOLD_UP_TIES
    held += 2 * len(tied_holders(index)) if work.parts.job.routes else 0
    ties = sum(to_buy(n, defaults) for sheet in work.looms for n in sheet.counts if n.item == TIE)
    lines = [
        PartLine("ring terminal", rings, "", "battery, ground; one size for each stud"),
        PartLine("adhesive sleeve", sleeves, "", joints),
        *crimp_lines(index, [each for each in made if not _at_loom(work, each)], defaults),
        *_for_looms(work, share),
        *pass_lines(work.parts),
        PartLine(
            TIE,
            picked.ties_to_pick + ties + held,
            "",
            ties_words(picked.ties_to_pick, ties, held, share),
        ),
        *tool_lines(index, work.looms),
        PartLine("roll of self-sealing tape", min(beside, 1), "", _beside_words(beside)),
        PartLine("roll of cloth tape", 1, "", "over joints and along the cables"),
        PartLine("label", with_spare(work.labels, defaults), "", share),
        *_tape(work),
        *_paint(made),
        *cap_lines(index, work.parts.amplifiers),
        *fixing_lines(work.parts.job, index),
    ]
    return [each for each in lines if each.quantity > 0]


def _for_looms(work: PartsWork, share: str) -> Iterator[PartLine]:
    """What each bench sheet counts; its ties are among those of all cables."""
    for sheet in work.looms:
        for need in sheet.counts:
            if need.item != TIE:
                buy = to_buy(need, work.defaults)
                spare = (
                    share
                    if buy == with_spare(need.quantity, work.defaults)
                    else (f"{SPARE_JOINTS} to spare")
                )
                note = f"{need.quantity} on the sheet of {sheet.loom}; {spare}"
                yield PartLine(need.item, buy, "", note)


def _at_loom(work: PartsWork, joint: Joint) -> bool:
    unit = work.index.units.get(joint.place)
    return unit is not None and unit.kind == "loom"


def _tape(work: PartsWork) -> list[PartLine]:
    """Of one colour: how many bands, not which colour, tells the cables apart."""
    metres = round_up_m(BAND_M * work.bands)
    note = f"{work.bands} bands round cables, all of one colour"
    return [PartLine("coloured tape", metres, "m", note)] if work.bands else []


def _paint(made: list[Joint]) -> list[PartLine]:
    over = sum(joint.closed_by == PAINTED for joint in made)
    note = f"over {over} {'joint' if over == 1 else 'joints'} on bare metal"
    return [PartLine("paint or grease", 1, "", note)] if over else []


def _beside_words(count: int) -> str:
    return "1 joint beside a whole wire" if count == 1 else f"{count} joints beside whole wires"
