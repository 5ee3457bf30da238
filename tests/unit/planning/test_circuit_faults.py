"""With anything left out or joined wrongly, some line of the bay sheet fails before trim goes home.

The sheet, the circuit and the model of what a fault takes away are made apart from each other:
what the sheet looks at is named in its lines, what is joined stands in the circuit.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import replace
from functools import cache

import pytest
from pack_jobs import HOUSE, SHIPPED, shipped_pack, shipped_parts

from builder.planning.bay.foretold import IDLE, notices, outcome, sound_of, untested_steps
from builder.planning.bay.work import BayWork
from builder.planning.circuit.bench import Bench
from builder.planning.circuit.index import CircuitIndex
from builder.planning.circuit.model import Circuit, CircuitWire, Joint
from builder.planning.circuit.nets import continuity
from builder.planning.job import make_pack as planner
from builder.planning.views.wiring_rows import made_by_us
from builder.planning.work_pack import WorkPack

TAP_PLANS = tuple(name for name in SHIPPED if shipped_pack(name).kind == "tap_plan")


@cache
def planned(name: str) -> tuple[WorkPack, BayWork]:
    """The pack of a job, and what its bay sheet was made from."""
    seen: list[BayWork] = []
    with pytest.MonkeyPatch.context() as patch:
        made = planner.bay_sheet
        patch.setattr(planner, "bay_sheet", lambda work, of: seen.append(work) or made(work, of))
        pack = planner.make_pack(shipped_parts(name), defaults=HOUSE)
    return pack, seen[-1]


def bench_of(work: BayWork, circuit: Circuit) -> Bench:
    return Bench(circuit, sound_of(work))


def circuit_of(pack: WorkPack) -> Circuit:
    assert pack.circuit is not None
    return pack.circuit


def noticing(pack: WorkPack, healthy: Bench, work: BayWork, faulty: Circuit) -> list[str]:
    """The lines of the sheet that fail on a faulty circuit."""
    bench = bench_of(work, faulty)
    return [test.id for test in pack.tests if notices(test, healthy, bench)]


def without(circuit: Circuit, *gone: str) -> Circuit:
    return replace(circuit, joints=tuple(j for j in circuit.joints if j.id not in gone))


@pytest.mark.parametrize("name", TAP_PLANS)
def test_a_healthy_circuit_passes_every_line(name: str) -> None:
    pack, work = planned(name)
    healthy = bench_of(work, circuit_of(pack))
    assert noticing(pack, healthy, work, circuit_of(pack)) == []


@pytest.mark.parametrize("name", TAP_PLANS)
def test_each_step_left_out_is_noticed(name: str) -> None:
    pack, work = planned(name)
    healthy = bench_of(work, circuit_of(pack))
    joining = [step for step in pack.steps if step.makes]
    assert joining
    for step in joining:
        faulty = without(circuit_of(pack), *step.makes)
        assert noticing(pack, healthy, work, faulty), step.text


def is_idle(circuit: Circuit, joint: Joint) -> bool:
    """Whether a joint carries nothing wanted: at the plug, before a wire that is closed off."""
    nets = continuity(circuit)
    linked = {nets.of(piece) for link in circuit.links for piece in (link.begins, link.finishes)}
    closed = {nets.of(each.end) for each in circuit.open_ends}
    return nets.of(joint.joins[0]) in closed - linked


@pytest.mark.parametrize("name", TAP_PLANS)
def test_each_joint_left_open_is_noticed(name: str) -> None:
    pack, work = planned(name)
    circuit = circuit_of(pack)
    healthy = bench_of(work, circuit)
    for joint in circuit.joints:
        if is_idle(circuit, joint):
            continue
        assert noticing(pack, healthy, work, without(circuit, joint.id)), joint


def swapped(circuit: Circuit) -> Iterator[tuple[str, Circuit]]:
    """Every circuit with two wires of one class exchanged at the far end of a piece."""
    ends = {end: joint for joint in circuit.joints for end in joint.joins}
    ours = [wire for wire in circuit.wires if not wire.stays and wire.ends[1] in ends]
    for at, one in enumerate(ours):
        for other in ours[at + 1 :]:
            if one.carries == other.carries and one.carries in ("speaker_level", "amplified"):
                pairs = {one.ends[1]: other.ends[1], other.ends[1]: one.ends[1]}
                joints = tuple(_exchanged(joint, pairs) for joint in circuit.joints)
                yield f"{one.id} for {other.id}", replace(circuit, joints=joints)


def _exchanged(joint: Joint, pairs: dict[str, str]) -> Joint:
    return replace(joint, joins=tuple(pairs.get(end, end) for end in joint.joins))


@pytest.mark.parametrize("name", ["leto-four-doors", "rook-two-amplifiers", "tansy-subwoofer"])
def test_each_swap_of_two_wires_is_noticed(name: str) -> None:
    """Reversed polarity of a whole pair is what the polarity ticks are for: they ask for eyes."""
    pack, work = planned(name)
    circuit = circuit_of(pack)
    healthy = bench_of(work, circuit)
    unnoticed = [said for said, faulty in swapped(circuit)
                 if not noticing(pack, healthy, work, faulty)]  # fmt: skip
    assert unnoticed == []


@pytest.mark.parametrize("name", TAP_PLANS)
def test_the_clamp_finds_what_stands_on_the_battery_and_no_other_device(name: str) -> None:
    """A converter that lives on its signal draws nothing through the clamp."""
    pack, work = planned(name)
    (idle,) = [test for test in pack.tests if test.id == IDLE]
    parts = work.parts
    fed = [parts.converter.name] * (parts.converter.supply is not None)
    found = outcome(idle, bench_of(work, circuit_of(pack)))
    assert isinstance(found, tuple)
    assert sorted(found) == sorted([*parts.amplifiers, *fed])


def test_without_a_line_every_step_that_joins_or_sets_is_untested() -> None:
    pack, work = planned("leto-four-doors")
    doing = [step for step in pack.steps if step.makes or step.sets]
    assert 0 < len(doing) < len(pack.steps)
    assert list(untested_steps(work, circuit_of(pack), (), pack.steps)) == doing
    assert list(untested_steps(work, circuit_of(pack), pack.tests, doing)) == []


def test_a_line_output_is_silent_while_the_converter_is_off_or_the_radio_stands_alone() -> None:
    pack, work = planned("tansy-subwoofer")
    circuit, healthy = circuit_of(pack), bench_of(work, circuit_of(pack))
    (output,) = [each for each in healthy.sound.plays if healthy.line_pairs(each)][:1]

    def heard(taken: Callable[[Bench], bool]) -> set[tuple[str, ...]]:
        """What the output plays with any one joint open that leaves what is asked for."""
        benches = [bench_of(work, without(circuit, joint.id)) for joint in circuit.joints]
        return {bench.line_pairs(output) for bench in benches if taken(bench)}

    assert heard(lambda bench: bench.radio_works and not bench.converter_on) == {()}
    assert heard(lambda bench: bench.converter_on and not bench.radio_works) == {()}


@pytest.mark.parametrize(
    ("name", "device", "cavity"),
    [("teasel-four-doors", "OK-7N", "A.14"), ("dash-converter", "CVN-2A", "A.25")],
)
def test_a_ground_at_a_plug_is_read_by_a_line_of_its_own(
    name: str, device: str, cavity: str
) -> None:
    pack, work = planned(name)
    circuit = circuit_of(pack)
    line = f"{device.lower()}-plug-ground-ohms"
    (test,) = [each for each in pack.tests if each.id == line]
    assert cavity in test.what and test.high == 0.3
    held = [x for x in circuit.joints if f"{device} GND" in x.joins]
    assert held
    for joint in held:
        faulty = without(circuit, joint.id)
        assert line in noticing(pack, bench_of(work, circuit), work, faulty)


@pytest.mark.parametrize("name", TAP_PLANS)
def test_every_wire_of_the_car_that_is_joined_was_proved_by_a_line(name: str) -> None:
    """What a plug of its own brings is not joined, and a loom passes on what it does not touch."""
    pack, _ = planned(name)
    circuit = circuit_of(pack)
    index = CircuitIndex(circuit)
    proved = {f"{at.plug}.{at.cavity}" for test in pack.tests if (at := test.reading) and at.plug}
    joined = {
        cavity
        for joint in circuit.joints
        if joint.kind in ("tap", "splice") and made_by_us(index, joint)
        for end in joint.joins
        if (cavity := _cavity(index, end))
    }
    assert joined <= proved, joined - proved
    assert joined or shipped_parts(name).job.looms


def _cavity(index: CircuitIndex, end: str) -> str:
    """The cavity of the car of a terminal, or of one half of its cut wire."""
    owner = index.owners.get(end)
    if isinstance(owner, CircuitWire):
        return owner.place if owner.stays and not owner.loom else ""
    is_plug = owner is None and index.unit_of(end).kind == "plug"
    return end if is_plug else ""
