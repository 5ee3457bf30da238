"""What a line of the bay sheet would find on a circuit, and so which faults it notices."""

from __future__ import annotations

from collections.abc import Hashable, Iterator, Sequence
from dataclasses import replace

from builder.model.parts import Converter
from builder.planning.bay.looked_at import line_inputs_of
from builder.planning.bay.work import BayWork
from builder.planning.circuit.bench import Bench, Sound
from builder.planning.circuit.model import Circuit
from builder.planning.circuit.terminal_names import channel_of, line_output, supply_of
from builder.planning.sheet_rows import Step
from builder.planning.turn_on.loads import WAKES_BY_ITSELF
from builder.planning.work_pack import BayTest
from builder.proof.band import where_in

IDLE, BALANCE = "idle-current", "balance-and-fader"


def sound_of(work: BayWork) -> Sound:
    """Return how sound runs through the devices of a job."""
    converter: Converter = work.parts.converter
    plays = {
        line_output(converter.name, at): tuple(tap.converter_input for tap in output.taps)
        for at, output in enumerate(work.selection.outputs or (), 1)
    }
    inputs = {
        channel_of(speaker.amplifier, speaker.channel_name): line_inputs_of(work, speaker)
        for speaker in work.parts.job.speakers
    }
    house = work.defaults
    dc_share = (house.speaker_dc_min_share + house.speaker_dc_max_share) / 2
    return Sound(plays, inputs, work.plan.turn_on.kind in WAKES_BY_ITSELF, dc_share)


def notices(test: BayTest, healthy: Bench, faulty: Bench) -> bool:
    """Whether a line that passes on the healthy circuit fails on the faulty one."""
    if not test.probes and test.id != IDLE:
        return False
    if test.quantity == "ohm":
        read = map(faulty.ohms, test.probes[::2], test.probes[1::2])
        return any(where_in(test.band, ohm, None) != "in" for ohm in read)
    return outcome(test, healthy) != outcome(test, faulty)


def outcome(test: BayTest, bench: Bench) -> Hashable:
    """Return what a line looks at, as far as joints decide it."""
    if test.id == IDLE:
        return tuple(working(bench))
    if test.quantity == "check" and test.id != BALANCE:
        return all(map(bench.joined, test.probes[::2], test.probes[1::2]))
    if test.quantity == "check":
        return tuple(bench.speaker_plays(leg.removesuffix(" +")) for leg in test.probes[::2])
    return _volts(test, bench) if test.quantity == "dc_v" else _sound(test, bench)


def _volts(test: BayTest, bench: Bench) -> bool:
    """Whether the volts that a line asks for are there."""
    first, *rest = test.probes
    if first not in bench.index.terminals:
        return bench.charged(bench.index.owners[first].id)
    return bench.joined(first, rest[0]) if rest else bench.switched_on(_unit(bench, first))


def _sound(test: BayTest, bench: Bench) -> Hashable:
    """Which pairs are heard where a line listens: at a plug or an input of the converter, a line
    output, an amplifier."""
    first, other, *_ = test.probes
    paired = bench.index.terminals[first].carries == "speaker_level"
    if paired or bench.index.unit_of(first).kind in ("plug", "loom"):
        return bench.played_at(first) and bench.played_at(other)
    if _unit(bench, first) == bench.converter:
        return tuple(bench.line_pairs(output) for output in test.probes[::2])
    return bench.channel_plays(first.removesuffix(" +"))


def _unit(bench: Bench, terminal: str) -> str:
    return bench.index.terminals[terminal].unit


def working(bench: Bench) -> Iterator[str]:
    """Yield the devices that draw current with the volume at 0."""
    for unit in bench.circuit.units:
        if unit.kind == "amplifier" and bench.works(unit.id):
            yield unit.id
        fed = supply_of(unit.id) in bench.index.terminals
        if unit.kind == "converter" and fed and bench.converter_on:
            yield unit.id


def left_out(circuit: Circuit, step: Step) -> Circuit:
    """Return a circuit without what one step joins and what it sets."""
    return replace(
        circuit,
        joints=tuple(joint for joint in circuit.joints if joint.id not in step.makes),
        links=tuple(link for link in circuit.links if link.id not in step.sets),
    )


def untested_steps(
    work: BayWork, circuit: Circuit, tests: Sequence[BayTest], steps: Sequence[Step]
) -> Iterator[Step]:
    """Yield each step of joining that could be left out without any line noticing."""
    sound = sound_of(work)
    healthy = Bench(circuit, sound)
    for step in steps:
        if not step.makes and not step.sets:
            continue
        faulty = Bench(left_out(circuit, step), sound)
        if not any(notices(test, healthy, faulty) for test in tests):
            yield step
