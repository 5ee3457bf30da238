"""The circuit of a job as a netlist that a circuit simulator runs as it is.

Its comments hold everything that the netlist itself cannot: which terminal is which node, what
each wire looks like, what was assumed. What runs holds no word that anybody typed.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.model.house_defaults import HouseDefaults
from builder.planning.circuit.index import CircuitIndex
from builder.planning.circuit.spice_car import car_lines
from builder.planning.circuit.spice_crossovers import crossover_parts, network
from builder.planning.circuit.spice_devices import device_lines
from builder.planning.circuit.spice_figures import run_lines
from builder.planning.circuit.spice_lines import comment, heading
from builder.planning.circuit.spice_nodes import Nodes
from builder.planning.circuit.spice_ties import leaks
from builder.planning.circuit.spice_wires import diode_model, part_lines, wire_lines
from builder.planning.circuit.spice_work import DeckWork
from builder.planning.work_pack import JobParts, WorkPack

_ABOUT = (
    "Volts of sound are RMS, as on the sheets: 1 V of a source is 1 V RMS.",
    "Supplies draw their full current, turn-on inputs what their records say.",
    "What is assumed says so; nothing else is.",
)


def spice_deck(parts: JobParts, pack: WorkPack, defaults: HouseDefaults) -> str:
    """Return the netlist of a tap plan, each line ended.

    Raises:
        ValueError: the pack has no circuit, because it is no tap plan.
    """
    if pack.circuit is None:
        raise ValueError(f"{pack.job} is no tap plan and has no circuit")
    nodes = Nodes(CircuitIndex(pack.circuit))
    return "".join(f"{line}\n" for line in _lines(DeckWork(parts, pack, nodes, defaults)))


def _lines(work: DeckWork) -> Iterator[str]:
    wires = list(wire_lines(work.nodes, work.pack, work.defaults))
    fitted = list(part_lines(work.nodes, work.parts.job, work.defaults))
    models = [*car_lines(work), *device_lines(work)]
    yield f"loombook: {' '.join(work.pack.job.split())}, the circuit of the finished job"
    yield from map(comment, _ABOUT)
    yield heading("units, and the node of each of their terminals")
    yield from work.nodes.table()
    yield heading("wires")
    yield from (line.text for line in wires)
    yield heading("parts")
    yield from (line.text for line in fitted)
    yield diode_model(work.defaults)
    for name, made, band in crossover_parts(work.parts.job).values():
        yield network(name, made, band)
    yield heading("what the units are, electrically")
    yield from (line.text for line in models)
    yield heading("what nothing ties to ground")
    yield from (line.text for line in leaks([*wires, *fitted, *models]))
    yield heading("the run")
    yield from run_lines(work)
    yield ".end"
