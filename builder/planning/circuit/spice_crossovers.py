"""The two ways of a passive crossover as networks of a netlist, by the values of any textbook."""

from __future__ import annotations

from collections.abc import Iterator
from math import pi

from builder.model.job import Crossover, Job
from builder.model.names import crossover_name
from builder.planning.circuit.crossover_links import CrossoverBand, part_name
from builder.planning.circuit.spice_lines import comment, figure
from builder.units import Hertz, Ohms

BUTTERWORTH: dict[int, tuple[float, ...]] = {
    1: (1.0,),
    2: (1.41421, 0.70711),
    3: (1.5, 1.33333, 0.5),
    4: (1.53073, 1.57716, 1.08239, 0.38268),
}
"""Parts of a low-pass between a source of no ohms and 1 Ω, at 1 rad/s, from the source on: coil in
series, capacitor across, and so on. Tables of any textbook on filters (memory)."""


def crossover_parts(job: Job) -> dict[str, tuple[str, Crossover, CrossoverBand]]:
    """Return each way of each crossover by its part's name: its network's name, what it is of."""
    found: dict[str, tuple[str, Crossover, CrossoverBand]] = {}
    bands: tuple[CrossoverBand, CrossoverBand] = ("woofer", "tweeter")
    crossed = [speaker for speaker in job.speakers if speaker.crossover is not None]
    for number, speaker in enumerate(crossed, 1):
        for band in bands:
            made, name = speaker.crossover, part_name(crossover_name(speaker.channel), band)
            assert made is not None
            found[name] = (f"{band}{number}", made, band)
    return found


def network(name: str, made: Crossover, band: CrossoverBand) -> str:
    """Return a way of a crossover as a network of three nodes: in, out, and the minus of both."""
    said = comment(f"assumed: a Butterworth of {made.slope_db_per_octave} dB/octave, ideal parts")
    ohm = made.woofer_ohm if band == "woofer" else made.tweeter_ohm
    parts = BUTTERWORTH[min(made.order, max(BUTTERWORTH))]
    lines = _ladder(band, parts, made.corner_hz, ohm)
    return "\n".join((said, f".subckt {name} in out ref", *lines, ".ends"))


def _ladder(
    band: CrossoverBand, parts: tuple[float, ...], corner_hz: Hertz, ohm: Ohms
) -> Iterator[str]:
    """Parts in series and across by turns; of a high-pass each is turned into its opposite."""
    low, turn = band == "woofer", 2 * pi * corner_hz
    last = (len(parts) - 1) // 2
    for at, part in enumerate(parts):
        step, across = divmod(at, 2)
        here = "in" if step == 0 else f"m{step}"
        there = "out" if step == last else f"m{step + 1}"
        is_coil = low != bool(across)
        size = part if low else 1 / part
        value = size * ohm / turn if is_coil else size / (turn * ohm)
        ends = f"{there} ref" if across else f"{here} {there}"
        yield f"{'L' if is_coil else 'C'}{at + 1} {ends} {figure(value)}"
