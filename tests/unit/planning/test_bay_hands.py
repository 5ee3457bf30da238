"""Lines of the bay sheet as hands take them: where, with what on, judged by what hangs there."""

from __future__ import annotations

import re

import pytest
from pack_jobs import SHIPPED, shipped_pack, shipped_parts

from builder.figures import read_as

JOBS = [name for name in SHIPPED if shipped_pack(name).circuit]


@pytest.mark.parametrize("name", JOBS)
def test_no_two_lines_read_the_same_terminals_with_the_same_tone(name: str) -> None:
    lines = [x for x in shipped_pack(name).tests if x.id.endswith("-line-level")]
    said = [re.sub(r"line output for .*?: ", "", x.what).partition(";")[0] for x in lines]
    assert len(said) == len(set(said))
    named = " ".join(x.what for x in lines)
    for chain in shipped_pack(name).levels:
        if chain.converter_target_v_rms is not None:
            assert chain.speaker in named


@pytest.mark.parametrize("name", JOBS)
def test_the_converter_s_gain_is_set_where_it_can_be(name: str) -> None:
    """Once for each output, to what is left with its inputs joined, as the levels' sheet has it."""
    pack = shipped_pack(name)
    chains = {each.speaker: each for each in pack.levels}
    done: set[str] = set()
    for line in (x for x in pack.tests if x.id.endswith("-line-level")):
        outputs = set(line.probes)
        (first,) = re.findall(r"line output for (.*?)(?: and .*?)?: ", line.what)
        chain = next(chains[each] for each in chains if first.startswith(each))
        target = chain.loaded_v_rms or chain.converter_target_v_rms
        assert target is not None and line.low is not None and line.high is not None
        said = f"gain up until it reads {read_as(target, 'V')} V"
        fixed = chain.gain_min == chain.gain_max
        assert (said in line.what) == (not fixed and not outputs <= done), line.what
        assert line.low <= float(read_as(target, "V")) <= line.high
        done |= outputs


@pytest.mark.parametrize("name", JOBS)
def test_a_pair_read_back_through_our_wires_may_have_their_ohms(name: str) -> None:
    """What passes at the plug passes through cable too: the band grows by the lead, no less."""
    pack = shipped_pack(name)
    proofs = {
        x.reading.cavity: x for x in pack.tests if x.reading and "ohms-to-" in x.id and x.high
    }
    leads = {each.speaker: each for each in pack.speaker_leads}
    for line in (x for x in pack.tests if x.id.endswith("-return-ohms") and x.high is not None):
        (speaker,) = re.findall(r"\((.*?)\)", line.what)
        lead = leads.get(speaker)
        if lead is None:
            continue
        both_m = 2 * lead.length_m  # copper of 10 AWG has 3.3 mΩ a metre, of 20 AWG 33
        highs = {x.high for x in proofs.values() if x.low == line.low and x.high is not None}
        for high in highs:
            assert 0.003 * both_m < line.high - high < 0.035 * both_m


@pytest.mark.parametrize("name", JOBS)
def test_a_line_names_what_is_unplugged_and_what_it_reads(name: str) -> None:
    pack, parts = shipped_pack(name), shipped_parts(name)
    tests = {test.id: test for test in pack.tests}
    if legs := tests.get("signal-legs"):
        assert not legs.what.startswith("plugs off")
        assert "not in the radio yet" in legs.what or re.match(r".*plug \S+ off", legs.what)
    assert "(no turn-on)" in tests["supply-insulation"].what
    for test in pack.tests:
        if test.id.endswith("-polarity"):
            assert "balance-and-fader" not in test.what
        if test.id.endswith("-pair-level") and test.probes:
            inputs = any(end.startswith(f"{parts.converter.name} in ") for end in test.probes)
            assert (f"at {parts.converter.name} in " in test.what) == inputs


@pytest.mark.parametrize("name", JOBS)
def test_gains_are_set_at_the_volts_that_power_was_counted_for(name: str) -> None:
    pack = shipped_pack(name)
    turns = {test.id: test.turn for test in pack.tests}
    for step in pack.steps:
        taken = {turns[id] for id in step.tests}
        assert ("a charger on" in step.text) == bool(taken & {"gain", "again"})
        if "again" in taken:
            assert "one tone at a time" in step.text and "volume up from 0 to" in step.text
        if "battery-rest" in step.tests:
            assert "charged first" in step.gate


@pytest.mark.parametrize("name", JOBS)
def test_a_polarity_that_begins_turned_is_compared_at_its_corner(name: str) -> None:
    pack = shipped_pack(name)
    turned = [row for row in pack.tune if row.polarity == "inverted"]
    lines = {x.what.partition(" Hz tone: ")[2].partition(" inverted")[0]: x
             for x in pack.tests if x.id.endswith("-at-corner")}  # fmt: skip
    assert set(lines) == {row.speaker for row in turned}
    for row in turned:
        corner = row.low_pass_hz or row.high_pass_hz
        assert f"volume low, {corner:g} Hz tone" in lines[row.speaker].what
        (step,) = [x for x in pack.steps if x.text.startswith("set the filters")]
        assert any(x.startswith(row.speaker) and "change places" in x for x in step.lines)
