"""The faces of a plug once more on the page that draws them, by reference to what stands there."""

from __future__ import annotations

from typing import get_args

from markupsafe import Markup

from builder.model.housing import Housing
from builder.model.plugs import Plug
from builder.model.words import View
from builder.rendering.drawings.canvas import identifier, number
from builder.rendering.drawings.plug_geometry import face_id, face_of


def faces_once_more(housing: Housing, plug: Plug) -> tuple[Markup, ...]:
    """Return both drawings of `plug_faces` again, wire side first, a few bytes each.

    They show nothing where that drawing is missing from the page, and are said by nobody: what
    they show is said where it is drawn.
    """
    return tuple(_again(housing, plug, view) for view in get_args(View))


def _again(housing: Housing, plug: Plug, view: View) -> Markup:
    face = face_of(housing, view)
    return Markup(
        f'<svg class="lb-drawing" viewBox="0 0 {number(face.width)} {number(face.height)}"'
        f' aria-hidden="true"><use href="#{face_id(identifier(plug.id), view)}"/></svg>'
    )
