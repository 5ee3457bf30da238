"""The wiring picture of a job or a plan: its circuit from cavity to terminal."""

from builder.rendering.drawings.wiring.pictures import wiring_of

__all__ = ["wiring_of"]
