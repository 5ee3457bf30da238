"""Two plugs that could be taken for one another, side by side, first difference ringed."""

from __future__ import annotations

from markupsafe import Markup, escape

from builder.model.housing import Housing
from builder.model.plugs import LookAlike, Plug
from builder.model.words import Tri
from builder.rendering.drawings.canvas import identifier
from builder.rendering.drawings.plug_difference import first_difference
from builder.rendering.drawings.plug_faces import draw_face

_FITS: dict[Tri, str] = {
    "yes": " One goes into the place of the other.",
    "no": " One does not go into the place of the other.",
    "unknown": " Nobody has tried whether one goes into the place of the other.",
}


def look_alikes(housing_a: Housing, plug_a: Plug, housing_b: Housing, plug_b: Plug) -> Markup:
    """Return a figure with the wire side of both plugs and the first difference in words.

    The ring marks a difference of the shells if there is one, else of the wires.
    """
    found = first_difference((housing_a, plug_a), (housing_b, plug_b))
    key = identifier("like", plug_a.id, plug_b.id)
    drawings = (
        draw_face(housing_a, plug_a, "wire_side", f"{key}-a", found.spots_a if found else ()),
        draw_face(housing_b, plug_b, "wire_side", f"{key}-b", found.spots_b if found else ()),
    )
    said = (
        f"First difference: {found.words}."
        if found
        else "The record shows no difference between these two plugs: measure before joining."
    )
    return Markup(  # drawings are markup, words are escaped
        f'<figure class="lb-pair"><div class="lb-faces">{"".join(drawings)}</div>'
        f"<figcaption>{escape(said)}{escape(_fits(plug_a, plug_b))}</figcaption></figure>"
    )


def _fits(plug_a: Plug, plug_b: Plug) -> str:
    told = (_naming(plug_a, plug_b.id), _naming(plug_b, plug_a.id))
    entry = next((entry for entry in told if entry), None)
    return _FITS[entry.fits] if entry else ""


def _naming(plug: Plug, other: str) -> LookAlike | None:
    return next((entry for entry in plug.look_alikes if entry.plug == other), None)
