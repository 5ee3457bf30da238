"""A new speaker in the place of a factory one, on the wires that the factory laid."""

from __future__ import annotations

from dataclasses import replace

import pytest
from circuit_checks import check_circuit, circuit_of
from pack_jobs import HOUSE, shipped_pack, shipped_parts
from spice_checks import check_deck

from builder.model.job import Coils
from builder.model.names import channel_name
from builder.planning.circuit.index import CircuitIndex
from builder.planning.circuit.ohmmeter import Ohmmeter
from builder.planning.job.make_pack import make_pack
from builder.planning.work_pack import JobParts, WorkPack
from builder.rules.job_wiring import replaced, returns_to

DOORS = "leto-four-doors"


def in_its_place(name: str = DOORS, at: int = 0, **changes: object) -> JobParts:
    parts = shipped_parts(name)
    speakers = list(parts.job.speakers)
    speakers[at] = replace(speakers[at], existing=False, **changes)  # type: ignore[arg-type]
    return replace(parts, job=replace(parts.job, speakers=tuple(speakers)))


def made(parts: JobParts) -> WorkPack:
    return make_pack(parts, defaults=HOUSE)


@pytest.mark.parametrize("name", [DOORS, "sorrel-five-channels", "sedge-fronts"])
def test_it_is_whole_on_every_sheet(name: str) -> None:
    """With the car's wires cut at the plug, and behind looms bought and made here."""
    parts = in_its_place(name)
    pack, new = made(parts), parts.job.speakers[0]
    assert pack.kind == "tap_plan"
    check_circuit(parts, pack)
    check_deck(parts, pack)
    units = {unit.id: unit.kind for unit in circuit_of(pack).units}
    assert units[new.name] == "speaker"
    assert f"factory speaker {new.channel}" not in units
    assert any(part.item == new.name for part in pack.parts)
    back = f"Take {new.name} off the car's wire and put the factory speaker back in its place"
    assert sum(back in line for line in pack.revert) == 1
    rows = [row for row in pack.wiring if row.to_terminal.startswith(f"{new.name} ")]
    assert {row.to_place for row in rows} == {
        f"place of the factory speaker {channel_name(new.channel)}"
    }
    assert all("put the factory speaker back on the wire" in row.way_back for row in rows)
    joined = [step for step in pack.steps if any(f"{new.name} +" in line for line in step.lines)]
    assert [step.text for step in joined] == [
        "speaker leads, the end far from the amplifier; of two wires the marked one is +"
    ]
    assert not any(f"new lead to {new.name}" in test.what for test in pack.tests)


def test_the_amplifier_reaches_its_terminals_through_the_cars_wire() -> None:
    parts = in_its_place()
    circuit = circuit_of(made(parts))
    index = CircuitIndex(circuit)
    name = parts.job.speakers[0].name
    links = [link for link in circuit.links if index.unit_of(link.finishes).id == name]
    assert len(links) == 2
    for link in links:
        wires = list(index.wires_of(link))
        assert [wire.stays for wire in wires] == [False, True]
        assert wires[1].size is not None and wires[1].length_m is not None


def test_its_own_ohms_count_and_not_those_of_the_speaker_that_went() -> None:
    """A new one of 2 Ω in place of 4 Ω: the limits of the return line halve or nearly so."""
    (before,) = returned_ohms(shipped_pack(DOORS))
    (after,) = returned_ohms(made(in_its_place(nominal_ohm=2)))
    assert after[0] == pytest.approx(before[0] / 2) and after[1] < before[1]
    (line,) = [
        t for t in made(in_its_place(nominal_ohm=2)).tests if t.id == "front-left-return-ohms"
    ]
    assert line.why.startswith("2 Ω nominal")


def returned_ohms(pack: WorkPack) -> list[tuple[float, float]]:
    tests = [test for test in pack.tests if test.id == "front-left-return-ohms"]
    return [(float(test.band.low[1]), float(test.band.high[1])) for test in tests]


def test_the_factory_wire_costs_what_it_costs_before() -> None:
    before, after = shipped_pack(DOORS).speaker_leads, made(in_its_place()).speaker_leads
    assert after == before


def test_its_coils_lie_behind_the_factory_wire() -> None:
    coils = Coils(number=2, ohm=2, wired="series")
    parts = in_its_place(coils=coils)
    pack = made(parts)
    check_circuit(parts, pack)
    circuit = circuit_of(pack)
    name = parts.job.speakers[0].name
    assert sum(part.kind == "coil" for part in circuit.elements) == 2
    ohms = Ohmmeter.of(circuit, 1.0).between(f"{name} +", f"{name} −")
    assert ohms == pytest.approx(4.0, abs=0.2)


def test_a_rule_sees_that_its_pair_is_broken_and_comes_back() -> None:
    parts = in_its_place()
    new = parts.job.speakers[0]
    assert returns_to(new, parts.vehicle) == (new.channel,)
    assert new.channel not in replaced(parts)


def test_one_speaker_on_the_wires_of_two_bands_is_refused_with_what_to_type() -> None:
    parts = shipped_parts("ullin-split-fronts")
    changed = tuple(
        replace(each, existing=False, lead=None) if each.existing_lead else each
        for each in parts.job.speakers
    )  # fmt: skip
    pack = made(replace(parts, job=replace(parts.job, speakers=changed)))
    said = [each.because for each in pack.refusals]
    both = [each.name for each in changed if each.channel in ("front-left", "front-right")]
    for name in both:
        assert any(f"Give {name} channel: front-" in each and "-woofer" in each for each in said)
    assert both
