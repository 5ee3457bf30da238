"""A piece for a phone: from an amplifier down to a passive crossover."""

from __future__ import annotations

from builder.rendering.drawings.wiring.crossovers_drawn import inside_ids
from builder.rendering.drawings.wiring.piece_out import unit_above, unit_below
from builder.rendering.drawings.wiring.reading import Reading
from builder.rendering.drawings.wiring.scene import Scene
from builder.rendering.drawings.wiring.upright import (
    draw_stretch,
    names_height,
    pitch_of,
    spread,
    write_names,
)


def crossover_piece(reading: Reading, unit: str) -> tuple[Scene, float]:
    """Return the lead from an amplifier down to the input of a crossover."""
    leads = reading.leads_to(unit)
    scene, xs, pitch = Scene(), spread(len(leads)), pitch_of(len(leads))
    names = {each.id: each.name for each in reading.circuit.terminals}
    amplifier = reading.index.unit_of(leads[0].way[0]).id
    outs = [(x, names[lead.way[0]]) for x, lead in zip(xs, leads, strict=True)]
    edge = unit_above(scene, amplifier, outs, pitch)
    wires = [reading.wires_in(lead)[0] for lead in leads]
    said = [(x, wire.id) for x, wire in zip(xs, wires, strict=True)]
    cuts = write_names(scene, said, edge + 14, pitch)
    top = edge + 14 + names_height(said, pitch) + 16
    for x, lead, wire, cut in zip(xs, leads, wires, cuts, strict=True):
        scene.mark("screw", (x, edge), lead.way[0], lead.way[1])
        draw_stretch(scene, wire, (x, edge), (x, top), cut=cut)
        end = lead.way[-1]
        scene.mark("screw", (x, top), end, lead.way[-2], *inside_ids(reading, end))
    ins = [(x, names[lead.way[-1]]) for x, lead in zip(xs, leads, strict=True)]
    return scene, unit_below(scene, unit, ins, pitch, top) + 10
