"""The circuit of a job: every terminal joined, every end accounted for, nothing else joined."""

from __future__ import annotations

from dataclasses import replace

import pytest
from circuit_checks import check_circuit, check_every_end, check_needed, circuit_of
from pack_jobs import HOUSE, SHIPPED, shipped_pack, shipped_parts, with_supply

from builder.planning.circuit.model import Element
from builder.planning.circuit.nets import continuity
from builder.planning.job.make_pack import make_pack

TAP_PLANS = tuple(name for name in SHIPPED if shipped_pack(name).kind == "tap_plan")


@pytest.mark.parametrize("name", TAP_PLANS)
def test_the_circuit_of_a_shipped_job_is_whole(name: str) -> None:
    check_circuit(shipped_parts(name), shipped_pack(name))


def test_only_a_tap_plan_has_a_circuit() -> None:
    kinds = {name: shipped_pack(name).kind for name in SHIPPED}
    assert set(kinds.values()) > {"tap_plan"}
    for name, kind in kinds.items():
        assert (shipped_pack(name).circuit is None) == (kind != "tap_plan")


@pytest.mark.parametrize("name", TAP_PLANS)
def test_every_amplifier_is_switched_fed_and_driven(name: str) -> None:
    """What was missing once: nothing joined the converter's turn-on output to the amplifier."""
    circuit, parts = circuit_of(shipped_pack(name)), shipped_parts(name)
    classes = {}
    for link in circuit.links:
        classes.setdefault(link.finishes, set()).add(link.carries)
    for amplifier in parts.amplifiers:
        assert classes[f"{amplifier} turn-on"] == {"control"}
        assert classes[f"{amplifier} +12 V"] == {"supply"}
    played = {(speaker.amplifier, speaker.amplifier_channel) for speaker in parts.job.speakers}
    for amplifier, channel in played:
        ways = (f"{amplifier} in {channel}", f"{amplifier} channel {channel}")
        found = [end for end in classes if end.startswith(ways)]
        assert found, f"nothing feeds {amplifier} channel {channel}"


@pytest.mark.parametrize("fed", ["by branches", "straight"])
def test_each_amplifier_draws_its_own_current(fed: str) -> None:
    """Where no branch names it too: the trunk's current is that of all of them."""
    parts = shipped_parts("rook-two-amplifiers")
    if fed == "straight":
        parts = with_supply(parts, distribution=None, ground_lead_m=0.4)
    pack = make_pack(parts, defaults=HOUSE)
    assert pack.power is not None
    drawn = {each.id: each.draw_ma for each in circuit_of(pack).terminals}
    amplifiers = [drawn[f"{name} +12 V"] for name in ("sub amp", "door amp")]
    assert amplifiers == pytest.approx([108696, 31621], abs=1)  # 1200/0.8 and 240/0.55, by 13.8 V
    converter = drawn[f"{parts.converter.name} +12 V"]
    assert converter == pytest.approx(800)  # the most that its record says
    assert sum(amplifiers) == pytest.approx(1000 * pack.power.full_current_a)
    # the trunk brings the converter's too
    trunk_ma = 1000 * pack.power.runs[0].current_a
    assert sum(amplifiers) + converter == pytest.approx(trunk_ma)


def test_a_factory_wire_in_use_is_as_long_and_thick_as_the_job_says() -> None:
    circuit = circuit_of(shipped_pack("leto-four-doors"))
    onward = [wire for wire in circuit.wires if wire.id.endswith("speaker end")]
    assert len(onward) == 8
    assert {(wire.conductor, wire.length_m) for wire in onward} == {("0.75 mm² copper", 4.5)}


def closed(part: Element) -> bool:
    """What current passes when everything works: fuses, and the relay between two batteries."""
    return part.kind in ("fuse", "relay")


@pytest.mark.parametrize("name", TAP_PLANS)
def test_a_wire_left_out_is_noticed(name: str) -> None:
    """Take any one wire of ours out, and something needed is joined no more."""
    circuit = circuit_of(shipped_pack(name))
    whole = continuity(circuit, closed)
    for wire in circuit.wires:
        if wire.stays or any(each.end in wire.ends for each in circuit.open_ends):
            continue
        without = replace(circuit, wires=tuple(each for each in circuit.wires if each != wire))
        nets = continuity(without, closed)
        links = [link for link in circuit.links if wire.id in link.path]
        assert links, wire.id
        assert any(
            whole.together(link.begins, link.finishes)
            and not nets.together(link.begins, link.finishes)
            for link in links
        ) or any(part.kind == "diode" for part in circuit.elements), wire.id


def test_the_checks_notice_what_they_are_for() -> None:
    circuit = circuit_of(shipped_pack("tansy-subwoofer"))
    cut = replace(circuit, joints=circuit.joints[:-1])
    with pytest.raises(AssertionError):
        check_every_end(cut)
    unswitched = replace(
        circuit, links=tuple(link for link in circuit.links if link.carries != "control")
    )
    with pytest.raises(AssertionError):
        check_needed(unswitched)


def test_every_spare_conductor_is_closed_off_at_both_ends() -> None:
    spare = circuit_of(shipped_pack("leto-four-doors")).open_ends
    assert [end.what for end in spare[:2]] == [
        "blue (single 1) of cable 2, radio end",
        "blue (single 1) of cable 2, converter end",
    ]
    assert len(spare) == 6 and all("alone" in end.because for end in spare)
