"""What reaches each amplifier channel: own outputs, Y-leads, switches; and what the load takes.

The figures of the five-channel job are worked by hand: inputs of 10 kΩ on an output of 100 Ω lose
20·log10(Z/(Z + R)), so one 10000/10100 and two 5000/5100.
"""

from __future__ import annotations

from dataclasses import replace
from math import log10
from typing import Any

import pytest
from circuit_checks import check_circuit, circuit_of
from pack_jobs import (
    CONVERTERS,
    CORNERS,
    HOUSE,
    chain,
    door,
    job,
    pack_of,
    route,
    shipped_pack,
    shipped_parts,
    supply,
)
from plan_cars import channel, doors_car, retained

from builder.declaring import read
from builder.model.job.lines import JobSwitch, LineLead
from builder.model.parts.amplifier_inputs import InputGroup, Socket
from builder.planning.bay.foretold import left_out
from builder.planning.car.line_feeds import ChannelFeed
from builder.planning.circuit import laws
from builder.planning.job.make_pack import make_pack
from builder.planning.job.sketch_job import sketch_job
from builder.planning.levels.line_load import loaded_share
from builder.planning.work_pack import JobParts, WorkPack

FIVE = "sorrel-five-channels"
Data = dict[str, Any]


def line_links(pack: WorkPack) -> set[tuple[str, str]]:
    """From where to where sound runs at line level, shields left out."""
    links = [link for link in circuit_of(pack).links if link.carries == "line"]
    return {(each.begins, each.finishes) for each in links if "shield" not in each.begins}


def five(
    *, inputs: list[Data] | None = None, switches: list[Data] | None = None,
    leads: list[Data] | None = None,
) -> JobParts:  # fmt: skip
    """The five-channel job with other inputs of its amplifier, other switches or leads."""
    parts = shipped_parts(FIVE)
    (fitted,), amplifiers = parts.job.amplifiers, dict(parts.amplifiers)
    if inputs is not None:
        groups = tuple(read(InputGroup, each) for each in inputs)
        amplifiers["amp"] = replace(amplifiers["amp"], inputs=groups)
    if switches is not None:
        fitted = replace(fitted, switches=tuple(read(JobSwitch, each) for each in switches))
    changed = replace(parts.job, amplifiers=(fitted,))
    if leads is not None:
        changed = replace(changed, line_leads=tuple(read(LineLead, each) for each in leads))
    return replace(parts, job=changed, amplifiers=amplifiers)


def groups(**last: Any) -> list[Data]:
    """The inputs of the five-channel amplifier, with other words for the subwoofer's."""
    return [
        {"name": "inputs 1/2", "count": 2, "feeds": [1, 2], "impedance_ohm": 10000},
        {"name": "inputs 3/4", "count": 2, "feeds": [3, 4], "impedance_ohm": 10000,
         "copies": ["inputs 1/2"]},
        {"name": "input 5", "count": 1, "feeds": [5], "impedance_ohm": 10000,
         "sums": ["inputs 1/2"], "sum": "average"} | last,
    ]  # fmt: skip


# -- the five-channel job ---------------------------------------------------------------------


def test_each_of_five_channels_has_its_source() -> None:
    assert line_links(shipped_pack(FIVE)) == {
        ("CVN-2A out 1", "amp in 1"), ("CVN-2A out 1", "amp in 3"),
        ("CVN-2A out 2", "amp in 2"), ("CVN-2A out 2", "amp in 4"),
        ("amp in 1", "amp channel 5"), ("amp in 2", "amp channel 5"),
    }  # fmt: skip


def test_the_figures_of_the_five_channel_job() -> None:
    pack = shipped_pack(FIVE)
    assert (pack.kind, len(pack.levels)) == ("tap_plan", 5)
    for link in pack.levels:
        assert link.source_v_rms == pytest.approx(8.944, abs=5e-4)
        assert link.converter_margin_db == pytest.approx(6.99, abs=5e-3)
        assert link.line_loss_db == pytest.approx(0.172, abs=5e-4)
        assert link.converter_target_v_rms == 3.6  # unloaded, and so is the gain
        assert link.converter_gain == pytest.approx(3.6 / 8.944, abs=5e-5)
        assert link.loaded_v_rms == pytest.approx(3.6 * 5000 / 5100)
    leads = next(line for line in pack.parts if line.item == "line lead 1 m")
    assert leads.quantity == 4
    assert next(line for line in pack.parts if line.item == "Y-lead").quantity == 2


def test_one_input_alone_takes_half_as_much() -> None:
    parts = five(
        switches=[
            {"group": "inputs 3/4", "does": "copies", "of": ["inputs 1/2"]},
            {"group": "input 5", "does": "sums", "of": ["inputs 1/2"]},
        ],
        leads=[
            {"output": 1, "to": [{"amplifier": "amp", "input": 1}]},
            {"output": 2, "to": [{"amplifier": "amp", "input": 2}]},
        ],
    )
    pack = make_pack(parts, defaults=HOUSE)
    check_circuit(parts, pack)
    for link in pack.levels:
        assert link.line_loss_db == pytest.approx(0.086, abs=5e-4)
    assert ("amp in 1", "amp channel 3") in line_links(pack)
    assert ("amp in 2", "amp channel 4") in line_links(pack)
    assert not any("Y-lead" in line.item for line in pack.parts)


def test_the_switch_is_a_step_and_a_line_notices_without() -> None:
    pack = shipped_pack(FIVE)
    (step,) = [each for each in pack.steps if each.sets]
    assert step.text == "set a switch of amp: input 5 sums inputs 1/2"
    without = left_out(circuit_of(pack), step)
    assert [breach.pieces for breach in laws.unfed_channels(without)] == [("amp out 5 +",)]
    assert not any(flag.kind == "step_untested" for flag in pack.flags)


def test_what_the_customer_loses_by_copies() -> None:
    losses = shipped_pack(FIVE).losses
    assert any("turned to the rear it silences everything" in loss for loss in losses)
    assert any("The radio's fader stays centred." in loss for loss in losses)
    (test,) = [each for each in shipped_pack(FIVE).tests if each.id == "balance-and-fader"]
    assert "fader to the rear: everything is silent" in test.what
    doors = shipped_pack("leto-four-doors")
    assert not any("silences" in loss for loss in doors.losses)
    (turned,) = [each for each in doors.tests if each.id == "balance-and-fader"]
    assert "fader to each corner" in turned.what
    assert not any("silences" in loss for loss in shipped_pack("tansy-subwoofer").losses)


# -- every channel has a source ---------------------------------------------------------------


def test_a_switch_left_on_its_own_input_leaves_the_subwoofer_without_a_source() -> None:
    pack = make_pack(five(switches=[]), defaults=HOUSE)
    assert [breach.pieces for breach in laws.unfed_channels(circuit_of(pack))] == [("amp out 5 +",)]


def test_a_switch_that_the_record_does_not_know_gives_nothing() -> None:
    pack = make_pack(five(inputs=groups(sums=[])), defaults=HOUSE)
    assert [breach.pieces for breach in laws.unfed_channels(circuit_of(pack))] == [("amp out 5 +",)]


def test_leads_that_bring_the_other_side_are_refused() -> None:
    crossed = [
        {"output": 2, "to": [{"amplifier": "amp", "input": at} for at in (1, 3)]},
        {"output": 1, "to": [{"amplifier": "amp", "input": at} for at in (2, 4)]},
    ]
    pack = make_pack(five(leads=crossed), defaults=HOUSE)
    assert pack.kind == "no_plan"
    said = [reason.because for reason in pack.refusals]
    assert any("channel 1 of amp hears front-right" in each and "is to play front-left" in each
               for each in said)  # fmt: skip


def test_one_input_that_feeds_two_channels() -> None:
    front = {"name": "front", "count": 1, "feeds": [1, 2], "impedance_ohm": 10000}
    parts = five(inputs=[front, *groups()[1:]], switches=[], leads=[])
    speakers = tuple(replace(each, plays=("front-left",)) for each in parts.job.speakers[:2])
    parts = replace(parts, job=replace(parts.job, speakers=speakers, treatments=None))
    pack = make_pack(parts, defaults=HOUSE)
    assert line_links(pack) == {("CVN-2A out 1", "amp in 1"), ("amp in 1", "amp channel 2")}
    assert not any(step.sets for step in pack.steps)  # nothing to set: it is always so


def test_leads_made_at_the_bench_are_cable_plugs_and_a_step() -> None:
    parts = shipped_parts(FIVE)
    made = tuple(replace(lead, made="at_the_bench") for lead in parts.job.line_leads[:1])
    job = replace(parts.job, line_leads=(*made, *parts.job.line_leads[1:]))
    pack = make_pack(replace(parts, job=job), defaults=HOUSE)
    found = {line.item: line.quantity for line in pack.parts}
    assert (found["shielded line cable"], found["line plug"]) == (2.0, 4)
    assert (found["line lead 1 m"], found["Y-lead"]) == (2, 2)
    (step,) = [each for each in pack.steps if "line leads at the bench" in each.text]
    assert step.lines == ("line lead to amp in 1: 1 m", "line lead to amp in 3: 1 m")


def three_on_one(order: tuple[int, ...]) -> JobParts:
    """The subwoofer plays the front left pair alone: its output feeds three inputs."""
    parts = five(
        switches=[],
        leads=[
            {"output": 1, "to": [{"amplifier": "amp", "input": at} for at in order]},
            {"output": 2, "to": [{"amplifier": "amp", "input": at} for at in (2, 4)]},
        ],
    )
    *doors, sub = parts.job.speakers
    speakers = (*doors, replace(sub, plays=("front-left",)))
    return replace(parts, job=replace(parts.job, speakers=speakers))


@pytest.mark.parametrize("order", [(1, 3, 5), (5, 3, 1), (3, 1, 5)])
def test_three_inputs_on_one_output_hang_on_a_y_lead_behind_another(
    order: tuple[int, ...],
) -> None:
    parts = three_on_one(order)
    pack = make_pack(parts, defaults=HOUSE)
    assert pack.kind == "tap_plan"
    check_circuit(parts, pack)
    first, second = "Y-lead at CVN-2A out 1", "Y-lead 2 at CVN-2A out 1"
    met = [row.meets for row in pack.joints]
    assert f"{first} socket 1 and {second} plug" in met
    assert f"CVN-2A out 1 and {first} plug" in met
    passed = {row.to_terminal: [each for each in row.parts if "Y-lead" in each]
              for row in pack.wiring if row.from_terminal == "CVN-2A out 1"}  # fmt: skip
    assert passed == {
        f"amp in {order[0]}": [first, second],
        f"amp in {order[1]}": [first, second],
        f"amp in {order[2]}": [first],
    }


def test_a_y_lead_pulled_out_silences_what_hangs_on_it() -> None:
    pack = shipped_pack(FIVE)
    circuit = circuit_of(pack)
    plugged = ("CVN-2A out 1", "Y-lead at CVN-2A out 1 plug")
    (home,) = [joint for joint in circuit.joints if joint.joins == plugged]
    reached = {link.finishes for link in circuit.links if home.id in link.path}
    assert reached == {"amp in 1", "amp in 3"}


# -- sums inside an amplifier -----------------------------------------------------------------


@pytest.mark.parametrize(
    ("sum", "target", "least"),
    [
        ("average", 3.6, 0.25),
        ("add", 1.8, 0.125),  # 0.9 of 4 V, which two inputs that add up reach at 2 V each
        ("unknown", 1.8, 0.25),  # add for what is too much, average for what is too little
    ],
)
def test_a_sum_counts_as_it_is_known(sum: str, target: float, least: float) -> None:
    pack = make_pack(five(inputs=groups(sum=sum)), defaults=HOUSE)
    sub = chain(pack, "subwoofer")
    assert sub.converter_target_v_rms == target
    assert sub.amplifier_min_v_rms == least
    assert sub.amplifier_max_v_rms == {"average": 4.0}.get(sum, 2.0)


def test_of_an_average_one_input_alone_is_half() -> None:
    one = (Socket(1),)
    assert ChannelFeed("amp", 5, one, 2, "average").least == 0.5
    assert ChannelFeed("amp", 5, one, 2, "add").least == 1
    assert ChannelFeed("amp", 5, one, 2, "unknown").most == 1
    assert ChannelFeed("amp", 5, one, 2, "unknown").least == 0.5


# -- which output is which --------------------------------------------------------------------


@pytest.mark.parametrize("order", [CORNERS, CORNERS[::-1]])
def test_an_output_has_the_number_of_its_input(order: tuple[str, ...]) -> None:
    """A converter that adds nothing up gives on output 1 what is on input 1, whoever asks first."""
    places = {name: at for at, name in enumerate(CORNERS, 1)}
    speakers = [door(name, places[name]) for name in order]
    routes = [route("radio", "converter", "signal", 4.0), route("amp", "radio", "amplified", 4.0),
              route("radio", "converter", "control", 4.0)]  # fmt: skip
    pack = pack_of(
        doors_car([retained(9)], channels=[channel(name) for name in CORNERS]),
        job(speakers, routes, supply(4.0, 0.4)), "cvn-4a", {speakers[0]["driven_by"]["amplifier"]:
        "amn-4"},
    )  # fmt: skip
    feeds = {feed.converter_input: feed.channel for feed in pack.plan.feeds}
    plays = {each.name: each.plays for each in circuit_of(pack).terminals if each.plays}
    assert len(plays) == 4
    assert plays == {f"out {number}": (name,) for number, name in feeds.items()}


# -- the load ---------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("output", "inputs", "loss_db"),
    [(100.0, [10000.0], 0.0864), (100.0, [10000.0, 10000.0], 0.1720), (0.0, [10000.0], 0.0),
     (10000.0, [10000.0], 6.0206)],
)  # fmt: skip
def test_what_a_load_takes(output: float, inputs: list[float], loss_db: float) -> None:

    assert -20 * log10(loaded_share(output, inputs)) == pytest.approx(loss_db, abs=5e-5)


# -- a sketched job ---------------------------------------------------------------------------


@pytest.mark.parametrize(("device", "switched"), [("cvn-2a", True), ("cvn-6s", False)])
def test_a_sketch_sets_the_switch_that_a_subwoofer_needs(device: str, switched: bool) -> None:
    """A converter that adds up the fronts by itself leaves the switch alone."""
    parts = shipped_parts(FIVE)
    made = sketch_job(
        parts.vehicle, CONVERTERS[device], [parts.amplifiers["amp"]], parts.cables, defaults=HOUSE
    )
    (fitted,) = made.job.amplifiers
    assert [each.of for each in fitted.switches] == ([("inputs 1/2",)] if switched else [])
    assumed = [each.decision for each in made.assumed]
    assert ("the switch beside input 5 of amp 1 sums inputs 1/2" in assumed) == switched
