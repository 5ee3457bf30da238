"""How insulation colour words are drawn. The word is always printed as well."""

from __future__ import annotations

from functools import lru_cache

from builder.model.wire import Wire
from builder.model.wire_colours import WIRE_SRGB_HEX

_SAME = {"gray": "grey", "purple": "violet"}
_BARE = frozenset({"bare", "shield", "screen", "braid"})
NOT_RECORDED = "not recorded"


def is_bare(word: str) -> bool:
    """Tell whether the word names metal without insulation, drawn as a braid."""
    return word.strip().lower() in _BARE


@lru_cache(maxsize=512)
def colour_hex(word: str) -> str | None:
    """Return "#rrggbb" for a colour word ("light green"), or None for a word not known."""
    name = " ".join(word.lower().replace("-", " ").split())
    found = WIRE_SRGB_HEX.get("bare" if name in _BARE else _SAME.get(name, name))
    return f"#{found}" if found else None


def wire_words(wire: Wire | None) -> str:
    """Return the colours of a wire as a person would say them."""
    if wire is None:
        return NOT_RECORDED
    return f"{wire.base}/{wire.stripe}" if wire.stripe else wire.base


def split_words(words: str) -> tuple[str, str | None]:
    """Return base and stripe of "white/black"; the stripe is None for one colour."""
    base, _, stripe = words.partition("/")
    return base.strip(), stripe.strip() or None
