"""The netlist of every job, run by a simulator, gives the figures that its sheets print.

One run a job: the netlist's own, and behind it what this file asks of its terminals.
"""

from __future__ import annotations

import re
import sys
from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from functools import cached_property
from math import log10
from pathlib import Path

import pytest
from read_deck import Deck, read_deck

sys.path.insert(0, str(Path(__file__).parents[1] / "unit" / "planning"))
from pack_jobs import HOUSE, SHIPPED, settled, shipped_parts

from builder.model.names import channel_name
from builder.planning.bay.ids import speakable
from builder.planning.circuit.spice import spice_deck
from builder.planning.circuit.terminal_names import source_name
from builder.planning.job.make_pack import make_pack
from builder.planning.pack_details import LevelChain
from builder.planning.power.conductors import awg, hot_ohm_per_km, ohm_per_km
from builder.planning.work_pack import JobParts, WorkPack

Measure = Callable[[str], dict[str, float]]
CLOSE = 0.005


@dataclass
class Job:
    """A job, its netlist read back, and what the simulator measured."""

    parts: JobParts
    pack: WorkPack
    text: str
    run: Measure

    @cached_property
    def deck(self) -> Deck:
        return read_deck(self.text)

    def node(self, terminal: str) -> str:
        return self.deck.terminals[terminal]

    def volts(self, plus: str, minus: str) -> str:
        """The volts between two terminals, as the simulator is asked for them."""
        return "-".join(
            "0" if self.node(each) == "0" else f"v({self.node(each)})" for each in (plus, minus)
        )

    @cached_property
    def signals(self) -> dict[str, tuple[str, str]]:
        """Where the radio drives each pair that feeds the converter."""
        feeds = sorted(self.pack.plan.feeds, key=lambda feed: feed.leg != "positive")
        found: dict[str, tuple[str, ...]] = {}
        for feed in feeds:
            unit = next(plug.unit for plug in self.parts.vehicle.plugs if plug.id == feed.plug)
            socket = f"{source_name(unit)} {feed.plug}.{feed.cavity}"
            found[feed.channel] = (*found.get(feed.channel, ()), socket)
        return {channel: (legs[0], legs[1]) for channel, legs in found.items()}

    @cached_property
    def found(self) -> dict[str, float]:
        """All that one run measured: the netlist's own figures and ours."""
        asked = "\n".join((*_at_rest(self), "ac lin 1 1000 1000", *_with_sound(self)))
        assert self.text.count("\nquit\n") == 1
        return self.run(self.text.replace("\nquit\n", f"\n{asked}\nquit\n"))


def _at_rest(job: Job) -> Iterator[str]:
    """The supply as the sheet counts it: all that draws, at its most."""
    yield "op"
    for at, name in enumerate(job.parts.amplifiers):
        seen = job.volts(f"{name} +12 V", f"{name} GND")
        yield from _ask(f"t_drop{at}", f"{job.volts('battery +', 'battery −')}-({seen})")
        home = "second battery −" if "second battery −" in job.deck.terminals else "battery −"
        yield from _ask(f"t_rise{at}", job.volts(f"{name} GND", home))
    yield from _ask("t_clamp_a", f"-i({_battery(job, home)})")
    if "distribution block in" in job.deck.terminals:
        yield from _ask("t_trunk", job.volts("battery +", "distribution block in"))


def _battery(job: Job, minus: str) -> str:
    """The name of the source that stands for the battery behind the main fuse."""
    poles = {job.node(minus.replace("−", sign)) for sign in ("+", "−")}
    (one,) = (p.name.lower() for p in job.deck.models if p.name[0] == "V" and {*p.nodes} == poles)
    return one


def _with_sound(job: Job) -> Iterator[str]:
    for channel, legs in job.signals.items():
        source = next(
            part
            for part in job.deck.models
            if part.name[0] == "V" and part.nodes[0] == job.node(legs[0])
        )
        yield from _ask(f"t_ohm_{channel}", f"mag(({job.volts(*legs)})/i({source.name.lower()}))")
    for feed in job.pack.plan.feeds:
        unit, at = job.parts.converter.name, feed.converter_input
        seen = job.volts(f"{unit} in {at} +", f"{unit} in {at} −")
        yield from _ask(f"t_in_{feed.channel}", f"mag({seen})")
    for at, gain in enumerate(job.pack.gains):
        channel = f"{gain.amplifier} out {gain.channel_name}"
        yield from _ask(f"t_out{at}", f"mag({job.volts(f'{channel} +', f'{channel} −')})")
        if f"{gain.speaker} +" in job.deck.terminals:
            at_speaker = job.volts(f"{gain.speaker} +", f"{gain.speaker} −")
            yield from _ask(f"t_speaker{at}", f"mag({at_speaker})")
    for at, (_, taken) in enumerate(_lines(job)):
        yield from _ask(f"t_line{at}", f"mag({job.volts(taken, f'{taken} shield')})")
    for at, end in enumerate(end for end in job.deck.terminals if " channel " in end):
        ground = f"{end.rsplit(' channel ', 1)[0]} GND"
        yield from _ask(f"t_inside{at}", f"mag({job.volts(end, ground)})")


def _ask(name: str, formula: str) -> tuple[str, str]:
    name = name.replace("-", "_")
    return f"let {name} = {formula}", f"print {name}"


def _lines(job: Job) -> list[tuple[str, str]]:
    """Every line lead: the output it begins at and the input it ends at."""
    assert job.pack.circuit is not None
    leads = [link for link in job.pack.circuit.links if link.carries == "line" and link.mate]
    return [(each.begins, each.finishes) for each in leads if not each.begins.endswith("shield")]


def padded() -> JobParts:
    """A shipped job with resistors before its inputs: none of them needs any."""
    parts = shipped_parts("tansy-subwoofer")
    return replace(parts, job=replace(parts.job, pad=560.0))


PARTS = {name: lambda name=name: settled(shipped_parts(name)) for name in SHIPPED}
JOBS: dict[str, Callable[[], JobParts]] = {**PARTS, "padded": padded}


@pytest.fixture(scope="module", params=JOBS)
def job(request: pytest.FixtureRequest, run_deck: Measure) -> Job:
    parts = JOBS[request.param]()
    pack = make_pack(parts, defaults=HOUSE)
    return Job(parts, pack, spice_deck(parts, pack, HOUSE), run_deck)


def test_it_prints_its_main_figures(job: Job) -> None:
    """As it is written, without what this file adds; here only that each came out."""
    named = set(re.findall(r"^print (\w+)$", job.text, re.MULTILINE))
    assert named and named <= job.found.keys()


def test_every_wire_has_the_ohms_of_its_size_and_length(job: Job) -> None:
    assert job.pack.circuit is not None
    measured = 0
    for wire in job.pack.circuit.wires:
        ohm = float(job.deck.pieces[wire.id].part.value)
        if wire.size is not None and wire.length_m is not None:
            measured += 1
            wanted = wire.length_m * hot_ohm_per_km(wire.size, HOUSE) / 1000
            assert ohm == pytest.approx(max(wanted, 1e-9), rel=1e-6)
        else:
            assert 0 < ohm <= 0.1
    assert measured


def test_volts_at_the_inputs_behind_their_pads(job: Job) -> None:
    input_ohm = job.parts.converter.input.impedance_ohm
    for check in job.pack.plan.levels:
        pad = check.pad_ohm_per_leg or 0.0
        behind = check.source_v_rms * input_ohm / (input_ohm + 2 * pad)
        found = job.found[f"t_in_{check.channel}".replace("-", "_")]
        assert found == pytest.approx(behind, rel=CLOSE)
        margin = check.converter_max_v_rms / 10 ** (check.converter_margin_db / 20)
        assert found == pytest.approx(margin, rel=CLOSE)


def chain_at(job: Job, taken: str) -> LevelChain:
    """The levels of the amplifier channel that an input belongs to."""
    assert job.pack.circuit is not None
    unit = next(each.unit for each in job.pack.circuit.terminals if each.id == taken)
    number = int(taken.removeprefix(f"{unit} in ").split()[0])
    setting = next(
        each
        for each in job.pack.gains
        if (each.amplifier, each.amplifier_channel) == (unit, number)
    )
    return next(each for each in job.pack.levels if each.speaker == setting.speaker)


def test_line_levels_open_and_loaded(job: Job) -> None:
    """At the output what the gain is set for; at the input what its load leaves of it."""
    lines, output = _lines(job), job.parts.converter.output
    assert lines
    for at, (begins, taken) in enumerate(lines):
        chain = chain_at(job, taken)
        number = begins.rsplit(" ", 1)[1]
        target = chain.converter_target_v_rms
        assert job.found[f"line{number}_open"] == pytest.approx(target, rel=CLOSE)
        siemens = sum(1 / _recorded_ohm(job, end) for each, end in lines if begins == each)
        loaded = target / (1 + (output.impedance_ohm or 0) * siemens)
        assert job.found[f"t_line{at}"] == pytest.approx(loaded, rel=CLOSE)
        if output.impedance_ohm is not None:
            assert chain.loaded_v_rms == pytest.approx(loaded, rel=CLOSE)


def _recorded_ohm(job: Job, taken: str) -> float:
    """What one line input loads with, by the amplifier's record."""
    name, number = re.fullmatch(r"(.+) in (\d+)( left| right)?", taken).groups()[:2]  # type: ignore
    found = [g.impedance_ohm for g in job.parts.amplifiers[name].inputs if int(number) in g.feeds]
    return next((ohm for ohm in found if ohm), HOUSE.amplifier_input_ohm)


def test_what_a_switch_gives_a_channel(job: Job) -> None:
    """The five-channel amplifier averages inputs 1 and 2 for its channel 5: equal volts stay."""
    inside = [end for end in job.deck.terminals if " channel " in end]
    assert bool(inside) == (job.parts.job.id == "sorrel-five-channels")
    for at in range(len(inside)):
        assert job.found[f"t_inside{at}"] == pytest.approx(3.6 * 5000 / 5100, rel=CLOSE)


def test_what_a_source_is_loaded_with(job: Job) -> None:
    """The speaker that still plays, or the stand-in, beside pads and input."""
    input_ohm = job.parts.converter.input.impedance_ohm
    assert job.pack.circuit is not None
    stand_ins = {p.id: p.value for p in job.pack.circuit.elements if p.id.startswith("stand-in")}
    speakers = {each.channel: each.speaker_ohm for each in job.parts.vehicle.channels}
    tapped = {feed.channel: feed.treatment for feed in job.pack.plan.feeds}
    assert tapped
    for check in job.pack.plan.levels:
        siemens = [1 / (input_ohm + 2 * (check.pad_ohm_per_leg or 0))]
        if tapped[check.channel] == "addon":
            siemens.append(1 / (speakers[check.channel] or HOUSE.sketch_speaker_ohm))
        instead = f"stand-in of {channel_name(check.channel)}"
        if instead in stand_ins:
            siemens.append(1 / stand_ins[instead])
        found = job.found[f"t_ohm_{check.channel}".replace("-", "_")]
        assert found == pytest.approx(1 / sum(siemens), rel=CLOSE)


def test_the_loading_that_is_printed(job: Job) -> None:
    """The plan's own sentence on pairs that keep playing: "4 Ω beside 10000 Ω is 4.00 Ω"."""
    listening = [feed.channel for feed in job.pack.plan.feeds if feed.treatment == "addon"]
    said = [each.because for each in job.pack.because if " Ω beside " in each.because]
    assert bool(said) == bool(listening)
    for because in said:
        printed = re.search(r"Ω is ([\d.]+) Ω", because)
        assert printed is not None
        ohms = [job.found[f"t_ohm_{channel}".replace("-", "_")] for channel in listening]
        assert max(ohms) == pytest.approx(float(printed[1]), rel=CLOSE)


def test_what_the_supply_loses(job: Job) -> None:
    assert job.pack.power is not None
    trunk, *branches = job.pack.power.runs
    straps_v = (job.pack.power.strap_mohm or 0.0) / 1000 * trunk.current_a
    if not branches:
        lost_v = trunk.cumulative_drop_v + straps_v
        assert job.found["t_drop0"] == pytest.approx(lost_v, rel=CLOSE)
        return
    assert not straps_v, "no job with branches has read its straps"
    assert job.found["t_trunk"] == pytest.approx(trunk.drop_v, rel=CLOSE)
    by_name = {run.name: run.cumulative_drop_v for run in branches}
    for at, name in enumerate(job.parts.amplifiers):
        assert job.found[f"t_drop{at}"] == pytest.approx(by_name[f"branch to {name}"], rel=CLOSE)


def test_milliohms_that_the_bay_sheet_expects(job: Job) -> None:
    """Volts at full power over what a clamp at the battery reads then: the loop, the way back."""
    assert job.pack.power is not None
    lines, clamp_a = {test.id: test for test in job.pack.tests}, job.found["t_clamp_a"]
    for at, name in enumerate(job.parts.amplifiers):
        for line, found in (("supply drop", "t_drop"), ("ground rise", "t_rise")):
            test = lines[speakable(name, line)]
            simulated_mohm = 1000 * job.found[f"{found}{at}"] / clamp_a
            # What hangs on the block comes home through an amplifier's ground: microohms.
            assert test.expected_mohm == pytest.approx(simulated_mohm, rel=CLOSE, abs=0.003)
            assert test.high_mohm is not None and simulated_mohm <= test.high_mohm


def test_volts_at_outputs_and_at_new_speakers(job: Job) -> None:
    """An output at what its gain is set to; a speaker at less by what its lead is said to lose."""
    chains = {chain.speaker: chain for chain in job.pack.levels}
    leads = {lead.speaker: lead for lead in job.pack.speaker_leads}
    for at, gain in enumerate(job.pack.gains):
        wanted = chains[gain.speaker].set_v_rms
        assert job.found[f"t_out{at}"] == pytest.approx(wanted, rel=CLOSE)
        reached = job.found.get(f"t_speaker{at}")
        if reached is None:
            continue
        lost_db = 20 * log10(reached / wanted)
        printed = leads[gain.speaker].whole_loss_db  # at 20 °C; a netlist's wires are warm
        hot = hot_ohm_per_km(awg("18"), HOUSE) / ohm_per_km(awg("18"), HOUSE)
        assert lost_db == pytest.approx(hot * printed, rel=0.01)


def test_a_restart_is_held_over(job: Job) -> None:
    """At least as long as the sheet says, the drop of both diodes counted."""
    held = job.pack.hold_up
    if held is None:
        assert "held_s" not in job.found
        return
    assert job.found["held_s"] >= held.held_s
    (draw,) = [
        each.draw_ma / 1000 for each in job.pack.turn_on_draws if held.where.endswith(each.output)
    ]
    assert draw * held.charge_ohm > HOUSE.hold_up_diode_v  # so the capacitor empties by the diode
    sinks = held.from_v - 2 * HOUSE.hold_up_diode_v - held.threshold_v
    expected = held.capacitor_uf / 1e6 * sinks / draw
    assert job.found["held_s"] == pytest.approx(expected, rel=CLOSE)
