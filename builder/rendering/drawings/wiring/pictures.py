"""All pictures of one circuit: the whole, its pieces for a phone, what the signs in them mean.

Cars of one platform, and trims of one car, are often joined to a converter in the very same way:
pictures are kept by what they show, so that those of the next such car are there already.
"""

from __future__ import annotations

from functools import cached_property, lru_cache

from markupsafe import Markup

from builder.planning.circuit.model import Circuit
from builder.planning.work_pack import JobParts
from builder.rendering.drawings.wiring.left_side import Housings
from builder.rendering.drawings.wiring.legend import wiring_legend
from builder.rendering.drawings.wiring.pieces import LaidPiece, Piece, lay_pieces, paint_pieces
from builder.rendering.drawings.wiring.scene import Scene
from builder.rendering.drawings.wiring.signs import signs_of
from builder.rendering.drawings.wiring.whole import (
    Laid,
    fits_paper,
    lay_out,
    named_whole,
    paint_whole,
)

KEPT_CIRCUITS = 64
"""So many circuits are kept with their pictures, some 100 kB each: those of a dozen cars."""


class Wiring:
    """The pictures of a circuit; each is made once, when it is first asked for.

    A page has those of one circuit. `housings` are those of the car's plugs; `traced` are pictures
    whose elements say what they show.
    """

    def __init__(self, circuit: Circuit, housings: Housings, *, traced: bool = False) -> None:
        self._circuit, self._housings, self._traced = circuit, housings, traced

    @cached_property
    def _whole(self) -> Laid:
        return lay_out(self._circuit, self._housings)

    @cached_property
    def _laid_pieces(self) -> list[LaidPiece]:
        return lay_pieces(self._circuit, self._housings)

    @property
    def _scenes(self) -> list[Scene]:
        return [self._whole.scene, *(each.scene for each in self._laid_pieces)]

    @cached_property
    def _painted(self) -> str:
        return paint_whole(self._whole, traced=self._traced)

    @cached_property
    def signs(self) -> Markup:
        """What all the others refer to: it stands on their page, and shows nothing itself."""
        return signs_of(self._scenes)

    def picture(self, title: str) -> Markup:
        """The whole, said to be the wiring of `title`."""
        return named_whole(self._painted, self._whole, self._circuit, title)

    @cached_property
    def pieces(self) -> list[Piece]:
        """The pieces in the order of the chain."""
        return paint_pieces(self._laid_pieces, traced=self._traced)

    @cached_property
    def legend(self) -> Markup:
        """The signs that stand in them."""
        return wiring_legend(self._scenes)

    @property
    def fits_paper(self) -> bool:
        """Whether the whole can be read on one printed page."""
        return fits_paper(self._whole)


def wiring_of(circuit: Circuit, parts: JobParts) -> Wiring:
    """Return the pictures of a circuit that was made of these parts."""
    return _kept(circuit, housings_of(parts))


@lru_cache(maxsize=KEPT_CIRCUITS)
def _kept(circuit: Circuit, housings: Housings) -> Wiring:
    return Wiring(circuit, housings)


def housings_of(parts: JobParts) -> Housings:
    """Return the housings of the car's plugs that are on the shelf, by the plug."""
    shelf = parts.shelf.housings
    return tuple((plug.id, shelf[plug.housing]) for plug in parts.vehicle.plugs
                 if plug.housing in shelf)  # fmt: skip
