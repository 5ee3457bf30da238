"""Every single fault of every shipped job is found before trim goes home, or says why it is not.

The faults and what a reading finds of them are those of a car that comes back; here each is put
into the job as far as it is joined when a line is read.
"""

from __future__ import annotations

from dataclasses import replace
from functools import cache
from itertools import islice

import pytest
from comeback_jobs import TAP_PLANS, causes_in
from pack_jobs import HOUSE, shipped_pack, shipped_parts, unadvised_pack
from samples import LONG
from test_customer_lines import checked, sketched_parts

from builder.planning.bay.insulation_tests import supply_ends
from builder.planning.circuit.second_battery_links import THE_LINK
from builder.planning.comeback.as_joined import AsJoined
from builder.planning.comeback.caught import UNCAUGHT_WORDS, Catch, catches, trim_home
from builder.planning.comeback.causes import Causes
from builder.planning.comeback.handed_over import HandedOver
from builder.planning.work_pack import WorkPack


@cache
def caught_in(name: str) -> tuple[Catch, ...]:
    return catches(causes_in(name))


def holes(found: tuple[Catch, ...]) -> list[str]:
    return [each.fault.id for each in found if not each.in_time and each.because is None]


@pytest.mark.parametrize("name", TAP_PLANS)
def test_every_fault_is_found_in_time_or_has_a_reason(name: str) -> None:
    found = caught_in(name)
    assert holes(found) == []
    assert {each.because for each in found} - {None} <= set(UNCAUGHT_WORDS)
    for each in found:
        assert each.in_time == (each.because is None), each.fault.id


@pytest.mark.parametrize("name", TAP_PLANS)
def test_every_kind_that_hurts_is_found_in_every_job(name: str) -> None:
    """Reasons are for what does no harm, or is looked at with the car whole: no other fault."""
    unfound = [each for each in caught_in(name) if not each.in_time]
    allowed = {
        "open": {"carries_nothing", "another_way"}, "short_to_body": {"carries_nothing"},
        "changed_over": {"left_alone"}, "exchanged": {"same_sound"}, "weak": {"few_milliamperes"},
        "restraint_plug": {"after_trim"},
    }  # fmt: skip
    for each in unfound:
        assert each.because in allowed.get(each.fault.kind, set()), each.fault.id


@pytest.mark.parametrize("name", TAP_PLANS)
def test_a_healthy_job_passes_each_line_as_far_as_it_is_joined_then(name: str) -> None:
    causes = causes_in(name)
    joined = AsJoined(causes.job)
    failing = [x for x, look in causes.looks.items() if look(joined.standing(x, None)) != "in"]
    assert failing == []


@pytest.mark.parametrize("name", TAP_PLANS)
def test_no_line_finds_a_joint_that_is_made_after_it_is_read(name: str) -> None:
    steps = shipped_pack(name).steps
    made = {joint: at for at, step in enumerate(steps) for joint in step.makes}
    read = {line: at for at, step in enumerate(steps) for line in step.tests}
    for each in caught_in(name):
        if each.line and each.fault.id.startswith(("open joint", "weak joint")):
            assert made.get(each.fault.at, 0) <= read[each.line.id], each.fault.id


@pytest.mark.parametrize("name", TAP_PLANS)
def test_a_supply_lead_on_the_body_is_found_before_power(name: str) -> None:
    """Behind a battery's post no fuse would go."""
    circuit = causes_in(name).job.circuit
    ours = {end.rpartition(" @")[0] for end in supply_ends(circuit, THE_LINK)}
    shorts = [x for x in caught_in(name) if x.fault.kind == "short_to_body" and x.fault.at in ours]
    assert shorts
    assert [x.fault.id for x in shorts if x.line is None or x.line.state != "battery_off"] == []


@pytest.mark.parametrize("name", TAP_PLANS)
def test_in_time_is_before_the_first_part_goes_home(name: str) -> None:
    pack, vehicle = shipped_pack(name), shipped_parts(name).vehicle
    trim = trim_home(pack.steps, vehicle)
    assert 0 < trim < len(pack.steps)
    before = {line for step in pack.steps[:trim] for line in step.tests}
    assert all(each.line and each.line.id in before for each in caught_in(name) if each.in_time)
    home = [step.text for step in pack.steps[trim:] if step.makes]
    assert home == [], "nothing is joined any more"


def without(pack: WorkPack, *lines: str) -> WorkPack:
    """A pack whose sheet lacks some lines."""
    return replace(
        pack,
        tests=tuple(test for test in pack.tests if test.id not in lines),
        steps=tuple(
            replace(step, tests=tuple(line for line in step.tests if line not in lines))
            for step in pack.steps
        ),
    )


def caught_by(name: str, pack: WorkPack) -> tuple[Catch, ...]:
    return catches(Causes(HandedOver(shipped_parts(name), pack, HOUSE)))


@pytest.mark.parametrize(
    ("name", "line", "unfound"),
    [
        ("tansy-subwoofer", "tapped-ways", "wrong pin A.5 for A.7"),
        ("dash-converter", "tapped-ways", "wrong pin A.6 for A.7"),
        ("sedge-fronts", "correction", "setting correction"),
        ("cutter-fronts", "signal-legs", "changed over front left signal +"),
        ("leto-four-doors", "front-left-polarity", "changed over front left to its speaker +"),
        ("lovage-mid-subwoofer", "subwoofer-polarity", "changed over lead to subwoofer +"),
        ("tansy-two-coils", "subwoofer-lead-to-body", "on the body subwoofer coil 1 to coil 2"),
        ("rook-two-amplifiers", "fan-relay-turn-on-radio-on", "broken ground of fan relay"),
        ("sedge-fronts", "loom-a-passed-on-lit", "on the body loom A radio end.7 to car end.7"),
    ],
)
def test_a_sheet_that_lacks_a_line_finds_less(name: str, line: str, unfound: str) -> None:
    pack = shipped_pack(name)
    assert line in {test.id for test in pack.tests}
    before = {x.fault.id for x in caught_in(name) if x.in_time}
    assert unfound in before
    after = {x.fault.id for x in caught_by(name, without(pack, line)) if x.in_time}
    assert after < before and unfound not in after


@pytest.mark.parametrize("name", ["tansy-subwoofer", "rook-second-battery"])
def test_without_insulation_lines_a_short_is_found_under_power_only(name: str) -> None:
    pack = without(shipped_pack(name), "supply-insulation", "link-insulation")
    leads = ("lead to the main fuse", "lead to the fuse of the link")
    found = {x.fault.at: x for x in caught_by(name, pack) if x.fault.kind == "short_to_body"}
    assert [at for at in leads if at in found]
    for lead in (found[at] for at in leads if at in found):
        assert lead.line is None or lead.line.state != "battery_off"


def test_a_sheet_without_lines_finds_nothing() -> None:
    pack = shipped_pack("tansy-subwoofer")
    empty = without(pack, *(test.id for test in pack.tests))
    found = caught_by("tansy-subwoofer", empty)
    assert len(found) > 100
    assert not any(each.in_time for each in found)
    assert len(holes(found)) > 80


def test_every_fault_of_sketches_is_found_in_time_or_has_a_reason() -> None:
    """One sketch of each vehicle, all of them in the long form."""
    said, looked = [], 0
    for vehicle in checked()[1]:
        for parts in islice(sketched_parts(vehicle), None if LONG else 1):
            pack = unadvised_pack(parts)
            if pack.circuit is not None:
                looked += 1
                found = catches(Causes(HandedOver(parts, pack, HOUSE)))
                said += [(pack.job, parts.converter.id, each) for each in holes(found)]
    assert said == []
    assert looked
