"""A passive crossover is a unit of the circuit: every sheet has it, and every fault of it shows."""

from __future__ import annotations

from dataclasses import replace

import pytest
from circuit_checks import check_circuit, circuit_of
from crossed_jobs import LEFT, NAME, RIGHT, crossed
from pack_jobs import HOUSE, shipped_pack
from spice_checks import check_deck
from test_circuit_faults import bench_of, noticing, without
from test_generated_circuits import breaches

from builder.planning.bay.work import BayWork
from builder.planning.circuit.bench import Bench
from builder.planning.comeback.as_joined import AsJoined
from builder.planning.comeback.bay_looks import bay_looks
from builder.planning.comeback.caught import catches
from builder.planning.comeback.causes import Causes
from builder.planning.comeback.exchanged import exchanged_ways
from builder.planning.comeback.handed_over import HandedOver
from builder.planning.job import make_pack as planner
from builder.planning.job.make_pack import make_pack
from builder.planning.work_pack import JobParts, WorkPack
from builder.rendering.pages.fitted_facts import fitted_facts


@pytest.fixture(scope="module")
def pack() -> WorkPack:
    return make_pack(crossed(), defaults=HOUSE)


def test_every_piece_of_it_is_on_every_sheet(pack: WorkPack) -> None:
    assert pack.kind == "tap_plan"
    check_circuit(crossed(), pack)
    check_deck(crossed(), pack)
    assert breaches(circuit_of(pack)) == []


def test_it_has_six_terminals_two_ways_and_two_leads(pack: WorkPack) -> None:
    circuit = circuit_of(pack)
    for unit in (each for each in circuit.units if each.kind == "crossover"):
        names = [each.name for each in unit.terminals]
        assert names == ["in +", "woofer +", "tweeter +", "in −", "woofer −", "tweeter −"]
        assert all(each.needed for each in unit.terminals)
        kinds = [x.kind for x in circuit.elements if x.id.endswith(f" of {unit.id}")]
        assert kinds == ["low-pass", "high-pass"]
    assert {x.id for x in circuit.units if x.kind == "crossover"} == {LEFT, RIGHT}
    ends = {(link.begins, link.finishes) for link in circuit.links if link.carries == "amplified"}
    for sign in "+−":
        assert ("amp 1 out 1 " + sign, f"{LEFT} in {sign}") in ends
        for band in ("woofer", "tweeter"):
            assert (f"{LEFT} in {sign}", f"factory speaker front left {band} {sign}") in ends


def test_the_ohmmeter_reads_the_woofer_through_it(pack: WorkPack) -> None:
    """Behind a capacitor nothing is read: 2 Ω of the woofer, and not 1.33 Ω of both."""
    assert pack.sound is not None
    bench = Bench(circuit_of(pack), pack.sound)
    read = bench.ohms(f"{LEFT} in +", f"{LEFT} in −")
    assert read == pytest.approx(2 * pack.sound.dc_share, abs=0.15)
    assert bench.speaker_plays("factory speaker front left tweeter")
    assert bench.speaker_plays("factory speaker front left woofer")


def test_it_is_bought_labelled_fixed_joined_and_taken_out(pack: WorkPack) -> None:
    bought = {line.item: line.note for line in pack.parts}
    assert "low-pass 3000 Hz, 12 dB/octave" in bought[LEFT]
    assert {f"lead to {LEFT}", f"lead to {RIGHT}"} <= {label.jacket for label in pack.labels}
    texts = [step.text for step in pack.steps]
    fixed = next(at for at, text in enumerate(texts) if text.startswith(f"{LEFT} (left"))
    joined = next(at for at, text in enumerate(texts) if text.startswith(f"{LEFT}: each end"))
    spoken = [test.id for test in pack.tests]
    read = next(
        at for at, step in enumerate(pack.steps) if "crossover-front-left-ohms" in step.tests
    )
    assert fixed < joined < read
    far = [
        at for at, step in enumerate(pack.steps) if "front-left-tweeter-return-ohms" in step.tests
    ]
    assert far[0] < joined, "a pair is read while it is still open at the crossover"
    bands = spoken.index("crossover-front-left-bands")
    loud = next(at for at, test in enumerate(pack.tests) if test.turn == "loud")
    assert bands < loud
    assert any("rossover front left (left luggage side) out: " in x for x in pack.revert)
    labels = [x.text for x in pack.labels if x.jacket == "cable 4"]
    assert all(LEFT in text for text in labels) and labels


def test_a_walk_through_the_steps_finds_nothing_wrong(pack: WorkPack) -> None:
    assert [flag for flag in pack.flags if flag.kind == "course_broken"] == []


def exchanged_at(job: HandedOver) -> list[str]:
    found = [fault for fault in exchanged_ways(job) if LEFT in fault.at]
    return [line for fault in found for line in lines_that_fail(job, fault)]


def lines_that_fail(job: HandedOver, fault: object) -> list[str]:
    stands = AsJoined(job)
    return [
        line for line, look in bay_looks(job).items()
        if look(stands.standing(line, None)) == "in" != look(stands.standing(line, fault))  # type: ignore[arg-type]
    ]  # fmt: skip


def test_a_tweeter_on_the_woofers_terminals_is_found_before_anything_is_loud() -> None:
    job = HandedOver(crossed(), make_pack(crossed(), defaults=HOUSE), HOUSE)
    lines = exchanged_at(job)
    assert "crossover-front-left-ohms" in lines and "crossover-front-left-bands" in lines


@pytest.mark.parametrize("slope", [6, 12, 18, 24])
def test_every_slope_is_drawn_and_written_as_a_netlist(slope: int) -> None:
    parts = crossed(slope_db_per_octave=slope)
    made = make_pack(parts, defaults=HOUSE)
    check_deck(parts, made)
    assert any(f"{slope} dB/octave" in line.note for line in made.parts)


def test_cover_and_customer_are_told_of_it(pack: WorkPack) -> None:
    facts = {fact.label: fact.value for fact in fitted_facts(crossed().job)}
    assert "3000 Hz, 12 dB/octave" in facts[LEFT] and "beside amp 1" in facts[LEFT]
    assert LEFT in pack.customer[0] and RIGHT in pack.customer[0]


def test_a_probe_plan_tells_of_it_too() -> None:
    probe = shipped_pack(NAME)
    assert probe.kind == "probe_plan" and probe.circuit is None
    said = {each.decision: each.because for each in probe.because}
    assert "amp 1 channel 1" in said[LEFT] and "sees 2 Ω" in said[LEFT]
    broken = [each.because for each in probe.treatments if "intercept" in each.decision]
    assert len(broken) == 4 and all("through crossover front" in each for each in broken)


def planned() -> tuple[WorkPack, BayWork]:
    """The pack, and what its bay sheet was made from."""
    seen: list[BayWork] = []
    with pytest.MonkeyPatch.context() as patch:
        made = planner.bay_sheet
        patch.setattr(planner, "bay_sheet", lambda work, of: seen.append(work) or made(work, of))
        return planner.make_pack(crossed(), defaults=HOUSE), seen[-1]


def test_each_step_left_out_is_noticed() -> None:
    pack, work = planned()
    healthy = bench_of(work, circuit_of(pack))
    assert noticing(pack, healthy, work, circuit_of(pack)) == []
    for step in (each for each in pack.steps if each.makes):
        faulty = without(circuit_of(pack), *step.makes)
        assert noticing(pack, healthy, work, faulty), step.text


def with_like_speakers() -> JobParts:
    """Woofer and tweeter of 4 Ω each: no ohmmeter tells which is which."""
    parts = crossed(woofer_ohm=4, tweeter_ohm=4)
    channels = tuple(
        replace(each, speaker_ohm=4) if each.channel.endswith("-woofer") else each
        for each in parts.vehicle.channels
    )
    return replace(parts, vehicle=replace(parts.vehicle, channels=channels))


def test_every_single_fault_is_found_before_trim_goes_home(pack: WorkPack) -> None:
    found = catches(Causes(HandedOver(crossed(), pack, HOUSE)))
    assert [x.fault.id for x in found if not x.in_time and x.because is None] == []
    by = {each.fault.id: each.line.id for each in found if each.line}
    changed = f"exchanged {LEFT} woofer and {LEFT} tweeter"
    assert by[changed] == "crossover-front-left-ohms"
    assert by[f"open high-pass of {LEFT}"] == "balance-and-fader"


def test_the_ear_finds_what_the_meter_cannot() -> None:
    parts = with_like_speakers()
    job = HandedOver(parts, make_pack(parts, defaults=HOUSE), HOUSE)
    lines = exchanged_at(job)
    assert "crossover-front-left-ohms" not in lines and "crossover-front-left-bands" in lines
