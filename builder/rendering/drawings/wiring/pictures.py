"""All pictures of one circuit: the whole, its pieces for a phone, what the signs in them mean."""

from __future__ import annotations

from functools import cached_property

from markupsafe import Markup

from builder.planning.circuit.model import Circuit
from builder.planning.work_pack import JobParts
from builder.rendering.drawings.wiring.legend import wiring_legend
from builder.rendering.drawings.wiring.pieces import LaidPiece, Piece, lay_pieces, paint_pieces
from builder.rendering.drawings.wiring.scene import Scene
from builder.rendering.drawings.wiring.signs import signs_of
from builder.rendering.drawings.wiring.whole import Laid, fits_paper, lay_out, paint_whole


class Wiring:
    """The pictures of a circuit; each is laid out once, when it is first asked for.

    A page has those of one circuit. `traced` are those whose elements say what they show.
    """

    def __init__(self, circuit: Circuit, parts: JobParts, *, traced: bool = False) -> None:
        self._circuit, self._parts, self._traced = circuit, parts, traced

    @cached_property
    def _whole(self) -> Laid:
        return lay_out(self._circuit, self._parts)

    @cached_property
    def _laid_pieces(self) -> list[LaidPiece]:
        return lay_pieces(self._circuit, self._parts)

    @property
    def _scenes(self) -> list[Scene]:
        return [self._whole.scene, *(each.scene for each in self._laid_pieces)]

    @property
    def signs(self) -> Markup:
        """What all the others refer to: it stands on their page, and shows nothing itself."""
        return signs_of(self._scenes)

    @property
    def picture(self) -> Markup:
        """The whole."""
        title = self._parts.job.title
        return paint_whole(self._whole, self._circuit, title, traced=self._traced)

    @property
    def pieces(self) -> list[Piece]:
        """The pieces in the order of the chain."""
        return paint_pieces(self._laid_pieces, traced=self._traced)

    @property
    def legend(self) -> Markup:
        """The signs that stand in them."""
        return wiring_legend(self._scenes)

    @property
    def fits_paper(self) -> bool:
        """Whether the whole can be read on one printed page."""
        return fits_paper(self._whole)
