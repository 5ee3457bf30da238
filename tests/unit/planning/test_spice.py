"""The netlist of a job: read back it is the job's circuit, whatever the job."""

from __future__ import annotations

import re
from dataclasses import replace

import pytest
from pack_jobs import HOUSE, SHIPPED, settled, shipped_pack, shipped_parts
from spice_checks import check_deck, check_read_back, circuit_of, deck_of, read_deck

from builder.model.words import Tri
from builder.planning.circuit.model import Circuit
from builder.planning.circuit.spice_lines import DeckLine, comment
from builder.planning.circuit.spice_ties import leaks
from builder.planning.circuit.spice_work import INSIDE_OHM
from builder.planning.job.make_pack import make_pack

TAP_PLANS = tuple(name for name in SHIPPED if shipped_pack(name).kind == "tap_plan")


@pytest.mark.parametrize("name", SHIPPED)
def test_a_netlist_read_back_is_the_circuit(name: str) -> None:
    parts = settled(shipped_parts(name))
    check_deck(parts, make_pack(parts, defaults=HOUSE))


def test_what_is_no_tap_plan_has_no_netlist() -> None:
    names = set(SHIPPED) - set(TAP_PLANS)
    assert names
    for name in names:
        with pytest.raises(ValueError, match=name):
            deck_of(shipped_parts(name), shipped_pack(name))


@pytest.mark.parametrize("name", ["leto-four-doors", "teasel-subwoofer"])
def test_a_netlist_that_says_something_else_is_noticed(name: str) -> None:
    """Any one wire or part that is left out, or joined elsewhere."""
    circuit = circuit_of(shipped_pack(name))
    text = deck_of(shipped_parts(name), shipped_pack(name))
    lines = [line for line in text.splitlines() if re.match(r"[RCX][wp]\d", line)]
    assert len(lines) == len(circuit.wires) + len(circuit.elements)
    for line in lines:
        part, _, other, value = line.split(" ", 3)
        for spoilt in ("", f"{part} {other} {other} {value}"):
            with pytest.raises(AssertionError):
                _read(circuit, text.replace(f"\n{line}\n", f"\n{spoilt}\n"))


def _read(circuit: Circuit, text: str) -> None:
    check_read_back(circuit, read_deck(text.replace("\n\n", "\n")))


def test_words_that_people_typed_never_run() -> None:
    """Names and places that would be lines of a netlist change its comments, and nothing else."""
    parts = shipped_parts("tansy-subwoofer")
    place = "boot\nR1 0 0 1\n.control\nshell ls\n.endc"
    typed = replace(parts, job=replace(parts.job, converter_place=place))
    told, plain = (deck_of(each, make_pack(each, defaults=HOUSE)) for each in (typed, parts))
    assert told != plain and "shell ls" in told
    assert _running(told) == _running(plain)


def _running(text: str) -> list[str]:
    return [line for line in text.splitlines() if not line.startswith("*")]


def test_a_comment_is_one_line() -> None:
    assert comment("a\r\nb\x85c d") == "* a b c d"


def test_only_what_hangs_in_the_air_gets_a_leak() -> None:
    tied, afloat = DeckLine("R1", ("a", "0"), "1"), DeckLine("R2", ("b", "c"), "1")
    blocked, drawn = DeckLine("C1", ("a", "d"), "1"), DeckLine("I1", ("a", "e"), "1")
    found = [line.nodes[0] for line in leaks([tied, afloat, blocked, drawn])]
    assert found == ["b", "d", "e"]


@pytest.mark.parametrize(("floating", "ends"), [("yes", "ab"), ("unknown", "ab"), ("no", "")])
def test_an_output_is_bridged_unless_one_leg_is_known_to_be_ground(
    floating: Tri, ends: str
) -> None:
    """Two halves about a middle that lies at half the supply, or one source over a small ohm."""
    parts = shipped_parts("teasel-subwoofer")
    amplifiers = {
        name: replace(each, output_floating=floating) for name, each in parts.amplifiers.items()
    }
    told = replace(parts, amplifiers=amplifiers)
    models = read_deck(deck_of(told, make_pack(told, defaults=HOUSE))).models
    outputs = {each.name for each in models if each.name.startswith(("Vo", "Ro"))}
    assert outputs == ({"Vo1_1a", "Vo1_1b", "Vo1_1"} if ends else {"Vo1_1", "Ro1_1"})


@pytest.mark.parametrize("name", TAP_PLANS)
def test_the_volts_of_each_speaker_are_asked_for_once(name: str) -> None:
    """At its own terminals, whatever coils it has: not at the inner ends of each."""
    circuit, text = circuit_of(shipped_pack(name)), deck_of(shipped_parts(name), shipped_pack(name))
    for unit in circuit.units:
        if unit.kind in ("speaker", "factory_speaker"):
            assert text.count(f"V RMS at {unit.id}\n") == 1, unit.id


def test_what_is_one_terminal_inside_a_unit_is_felt_in_no_figure() -> None:
    """At the largest main fuse of the book it loses less than a millivolt, the last digit shown."""
    fuses = [power.main_fuse_a or 0 for name in TAP_PLANS if (power := shipped_pack(name).power)]
    assert max(fuses) >= 100
    assert 0 < INSIDE_OHM * max(fuses) < 0.001
