"""Every job of the book as circuits: its sound from the radio to the amplifier, its supply."""

from __future__ import annotations

import sys
from collections.abc import Callable
from pathlib import Path

import pytest

sys.path.insert(0, str(Path(__file__).parents[1] / "unit" / "planning"))
from pack_jobs import HOUSE, SHIPPED, settled, shipped_parts

from builder.planning.job.make_pack import make_pack
from builder.planning.pack_details import LevelChain, SupplyRun
from builder.planning.power.conductors import choice_awg, hot_ohm_per_km
from builder.planning.work_pack import WorkPack

Measure = Callable[[str], dict[str, float]]
CLOSE = 0.005
BATTERY_V = 13.8
WORDS = {conductor.words: conductor for conductor in choice_awg()}


def pack_of(name: str) -> WorkPack:
    pack = make_pack(settled(shipped_parts(name)), defaults=HOUSE)
    assert pack.kind == "tap_plan"
    return pack


def source_v_rms(chain: LevelChain) -> float:
    """What the gain finds at its tone: less bass than elsewhere, unless a correction mends it."""
    lost_db = chain.bass_db if chain.bass_db is not None and chain.correction == "off" else 0.0
    return float(chain.source_v_rms * 10 ** (lost_db / 20))


def signal_path(chain: LevelChain, input_ohm: float, gain: float) -> str:
    """The radio's two legs, a resistor in each, the input, what it adds up, its gain."""
    pad = chain.pad_ohm_per_leg or 1e-6
    lines = ["Vref mid 0 0"]
    for at in range(chain.sources_summed):
        half = source_v_rms(chain) / 2
        lines += [
            f"Vp{at} p{at} mid {half:.12g}", f"Vn{at} mid n{at} {half:.12g}",
            f"Rp{at} p{at} a{at} {pad:.12g}", f"Rn{at} n{at} b{at} {pad:.12g}",
            f"Ri{at} a{at} b{at} {input_ohm:.12g}",
            f"E{at} s{at} {'0' if at == 0 else f's{at - 1}'} a{at} b{at} {gain:.12g}",
        ]  # fmt: skip
    last = chain.sources_summed - 1
    return "\n".join(
        (*lines, f"Rload s{last} 0 47k", ".control", "op", f"print v(s{last})", ".endc")
    )


@pytest.mark.parametrize("name", SHIPPED)
def test_the_line_level_that_a_gain_is_set_for(simulate: Measure, name: str) -> None:
    parts, pack = settled(shipped_parts(name)), pack_of(name)
    for chain in pack.levels:
        gain, target = chain.converter_gain, chain.converter_target_v_rms
        assert gain is not None and target is not None
        circuit = signal_path(chain, parts.converter.input.impedance_ohm or 1e9, gain)
        (seen,) = simulate(circuit).values()
        assert target == pytest.approx(seen, rel=CLOSE)


@pytest.mark.parametrize("name", SHIPPED)
def test_the_power_that_a_gain_gives(simulate: Measure, name: str) -> None:
    for chain in pack_of(name).levels:
        found = simulate(
            f"V1 out 0 {chain.set_v_rms:.12g}\nRs out 0 {chain.load_ohm:.12g}\n"
            ".control\nop\nlet watts = -v(out)*i(v1)\nprint watts\n.endc"
        )
        assert chain.set_w == pytest.approx(found["watts"], rel=CLOSE)


def network(runs: tuple[SupplyRun, ...]) -> str:
    """One trunk, and behind it every branch with its current; joints once a path."""
    trunk, *branches = runs
    lines = [f"V1 battery 0 {BATTERY_V}", f"Rj battery lead {HOUSE.joint_ohm:.12g}",
             wire("t", "lead", "block", trunk)]  # fmt: skip
    prints = ["op"]
    for at, run in enumerate(branches):
        lines += [wire(f"b{at}", "block", f"p{at}", run), f"I{at} p{at} 0 {run.current_a:.12g}"]
        prints += [f"let d{at} = v(battery)-v(p{at})", f"print d{at}"]
    if not branches:
        lines.append(f"It block 0 {trunk.current_a:.12g}")
    prints += ["let trunk = v(battery)-v(block)", "print trunk"]
    return "\n".join((*lines, ".control", *prints, ".endc"))


def wire(name: str, start: str, end: str, run: SupplyRun) -> str:
    ohm = run.length_m * hot_ohm_per_km(WORDS[run.conductor], HOUSE) / 1000
    return f"R{name} {start} {end} {max(ohm, 1e-9):.12g}"


@pytest.mark.parametrize("name", SHIPPED)
def test_what_the_supply_loses(simulate: Measure, name: str) -> None:
    power = pack_of(name).power
    assert power is not None
    found = simulate(network(power.runs))
    assert power.runs[0].drop_v == pytest.approx(found["trunk"], rel=CLOSE)
    for at, run in enumerate(power.runs[1:]):
        assert run.cumulative_drop_v == pytest.approx(found[f"d{at}"], rel=CLOSE)
