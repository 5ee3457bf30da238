"""A small sample of a wire, to stand beside its colour words."""

from __future__ import annotations

from functools import lru_cache

from markupsafe import Markup, escape

from builder.model.wire import Wire
from builder.rendering.drawings.shapes import wire_line
from builder.rendering.drawings.wire_colours import wire_words


def swatch(wire: Wire | None) -> Markup:
    """Return a two-tone sample of `wire`; its title is the colour in words."""
    return _sample(wire_words(wire))


@lru_cache(maxsize=1024)
def _sample(words: str) -> Markup:
    return Markup(  # the words are escaped, the wire is our own markup
        f'<svg class="lb-swatch" viewBox="0 0 36 12"><title>{escape(words)}</title>'
        f"{wire_line(words, 1, 1.5, 34, 9)}</svg>"
    )
