"""The wiring picture of a job: its circuit from cavity to terminal, laid out by a program."""

from builder.rendering.drawings.wiring.legend import wiring_legend
from builder.rendering.drawings.wiring.pieces import Piece, wiring_pieces
from builder.rendering.drawings.wiring.whole import fits_paper, wiring_picture

__all__ = ["Piece", "fits_paper", "wiring_legend", "wiring_picture", "wiring_pieces"]
