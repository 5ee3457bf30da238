"""Two coils on one output, two channels on one load: what the channel sees, and what is joined."""

from __future__ import annotations

from dataclasses import replace

import pytest
from circuit_checks import check_circuit, circuit_of
from pack_jobs import HOUSE, shipped_pack, shipped_parts

from builder.model.job import Coils, JobSpeaker
from builder.planning.circuit.bench import Bench, Sound
from builder.planning.job.make_pack import make_pack
from builder.planning.levels.bridged_channels import as_driven, group_at, why_not_bridged
from builder.planning.work_pack import JobParts, WorkPack

NAME = "tansy-two-coils"


def coils(number: int, ohm: float, wired: str) -> Coils:
    return Coils(number=number, ohm=ohm, wired=wired)  # type: ignore[arg-type]


def with_speaker(**changes: object) -> JobParts:
    parts = shipped_parts(NAME)
    speaker = replace(parts.job.speakers[0], **changes)  # type: ignore[arg-type]
    return replace(parts, job=replace(parts.job, speakers=(speaker,)))


def pack_of(parts: JobParts) -> WorkPack:
    return make_pack(parts, defaults=HOUSE)


@pytest.mark.parametrize(
    ("number", "ohm", "wired", "seen"),
    [(2, 2, "series", 4), (2, 4, "parallel", 2), (3, 6, "parallel", 2), (2, 2, "separate", 2)],
)
def test_ohms_add_up_in_series_and_their_inverses_in_parallel(
    number: int, ohm: float, wired: str, seen: float
) -> None:
    """Ohm's law; any textbook."""
    assert coils(number, ohm, wired).seen_ohm == pytest.approx(seen)


@pytest.mark.parametrize(
    ("number", "ohm", "wired", "jumpers"),
    [(2, 2, "series", 1), (4, 1, "series", 3), (2, 8, "parallel", 2), (3, 12, "parallel", 4)],
)
def test_every_coil_and_the_wires_between_them_are_on_every_sheet(
    number: int, ohm: float, wired: str, jumpers: int
) -> None:
    parts = with_speaker(coils=coils(number, ohm, wired))
    pack = pack_of(parts)
    check_circuit(parts, pack)
    circuit = circuit_of(pack)
    assert sum(part.kind == "coil" for part in circuit.elements) == number
    assert sum(" coil " in wire.id for wire in circuit.wires) == jumpers
    read = Bench(circuit, Sound({}, {}, wakes=False)).ohms("subwoofer +", "subwoofer −")
    assert read == pytest.approx(4, abs=0.15)  # the wires between coils have 0.02 Ω each


def test_a_coil_left_out_is_read_at_the_lead() -> None:
    circuit = circuit_of(pack_of(with_speaker(coils=coils(2, 8, "parallel"))))
    jumper = next(wire for wire in circuit.wires if " coil " in wire.id)
    joints = tuple(
        replace(joint, joins=tuple(end for end in joint.joins if end not in jumper.ends))
        for joint in circuit.joints
    )
    bench = Bench(replace(circuit, joints=joints), Sound({}, {}, wakes=False))
    assert bench.ohms("subwoofer +", "subwoofer −") == pytest.approx(8, abs=0.1)


def test_two_bridged_channels_see_the_load_against_their_own_least() -> None:
    pack = shipped_pack(NAME)
    chain, gain = pack.levels[0], pack.gains[0]
    assert (chain.load_ohm, round(chain.set_v_rms, 1)) == (4.0, 29.7)  # √(220 W · 4 Ω)
    assert gain.channel_name == "1+2"
    low = pack_of(with_speaker(nominal_ohm=2.0, coils=coils(2, 4, "parallel")))
    assert low.kind == "no_plan"
    assert any("1+2" in reason.because for reason in low.refusals)


def test_without_bridged_figures_each_of_the_two_sees_half_the_load() -> None:
    amplifier = shipped_parts(NAME).amplifiers["sub amp"]
    group = group_at(amplifier, 1)
    assert group is not None
    driven = as_driven(replace(group, bridged=None), shipped_parts(NAME).job.speakers[0])
    assert driven.min_ohm == 2 * group.min_ohm
    assert driven.power_w == {2 * ohm: 2 * watts for ohm, watts in group.power_w.items()}


def test_a_record_that_does_not_say_so_bridges_nothing() -> None:
    parts = shipped_parts(NAME)
    speaker: JobSpeaker = parts.job.speakers[0]
    amplifier = parts.amplifiers["sub amp"]
    groups = tuple(replace(each, bridgeable="unknown") for each in amplifier.channels)
    said = why_not_bridged(replace(amplifier, channels=groups), speaker, ())
    assert "does not say" in said
    assert why_not_bridged(amplifier, speaker, ()) == ""
