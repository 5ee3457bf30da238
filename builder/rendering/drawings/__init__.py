"""Drawings as SVG in our own hand: plugs, taps, ladders, wires. No page is needed to make one."""

from builder.rendering.drawings.ladders import level_ladder, turn_on_ladder
from builder.rendering.drawings.look_alikes import look_alikes
from builder.rendering.drawings.plug_faces import legend, plug_faces
from builder.rendering.drawings.swatch import swatch
from builder.rendering.drawings.tap_diagram import tap_diagram

__all__ = [
    "legend",
    "level_ladder",
    "look_alikes",
    "plug_faces",
    "swatch",
    "tap_diagram",
    "turn_on_ladder",
]
