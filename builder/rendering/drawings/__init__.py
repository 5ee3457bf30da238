"""Drawings as SVG in our own hand: plugs, ladders, wires. No page is needed to make one."""

from builder.rendering.drawings.gain_ladder import gain_ladder
from builder.rendering.drawings.jacket_section import jacket_section
from builder.rendering.drawings.label_strip import label_strip
from builder.rendering.drawings.ladders import level_ladder, turn_on_ladder
from builder.rendering.drawings.look_alikes import look_alikes
from builder.rendering.drawings.plug_faces import legend, plug_faces
from builder.rendering.drawings.power_tree import power_tree
from builder.rendering.drawings.swatch import swatch

__all__ = [
    "gain_ladder",
    "jacket_section",
    "label_strip",
    "legend",
    "level_ladder",
    "look_alikes",
    "plug_faces",
    "power_tree",
    "swatch",
    "turn_on_ladder",
]
