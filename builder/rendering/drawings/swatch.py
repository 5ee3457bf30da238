"""A small sample of a wire, to stand beside its colour words."""

from __future__ import annotations

from functools import lru_cache

from markupsafe import Markup

from builder.model.wire import Wire
from builder.rendering.drawings.shapes import wire_line
from builder.rendering.drawings.wire_colours import wire_words


def swatch(wire: Wire | None) -> Markup:
    """Return a two-tone sample of `wire`; the words for its colour stand beside it."""
    return _sample(wire_words(wire))


@lru_cache(maxsize=1024)
def _sample(words: str) -> Markup:
    return Markup(  # our own markup, in which no word stands
        f'<svg class="lb-swatch" viewBox="-1 -1.5 36 12">'
        f"{wire_line(words, 0, 0, 34, 9, is_sample=True)}</svg>"
    )
