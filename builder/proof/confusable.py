"""Wires of one plug that somebody would take for each other by colour.

Two wires are compared base with base and stripe with stripe, a plain wire counting as its own
stripe; the larger of the two differences is what tells them apart. Two wires with the same
two colours in opposite order (white/black and black/white) always count: which of the two is the
stripe is a matter of a glance. Wires that are written alike are another check's business, and so
is bare metal, which is told by touch.
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache
from itertools import combinations
from typing import NamedTuple

from builder.model.plugs import Pin
from builder.model.wire import Wire
from builder.model.wire_colours import srgb_8bit
from builder.model.words import PAIRED, SUPPLIES, Function
from builder.proof.colour.difference import colour_difference_de00
from builder.proof.colour.srgb import Triple, decode_srgb, lab_of_linear
from builder.proof.colour.vision import VISIONS, Vision, seen_by
from builder.proof.sisters.coexistence import can_coexist

Look = tuple[str, str]
"""Base word and stripe word of a wire."""
_DATA_PAIR: frozenset[Function] = frozenset({"data_high", "data_low"})
_JOINED_TO = PAIRED | SUPPLIES | {"ground", "amplifier_on", "aerial_on"}
"""Functions of the wires that an installation cuts or joins to."""


class Likeness(NamedTuple):
    """How alike two wires look: to which eyes, and the difference to the worst of them."""

    eyes: tuple[Vision, ...]
    difference_de00: float
    swapped: bool  # the same two colours in opposite order


class ConfusablePair(NamedTuple):
    """Two wires of one plug that look alike; `first` stands first in the record."""

    first: Pin
    second: Pin
    likeness: Likeness


def confusable_pairs(pins: Sequence[Pin], limit_de00: float) -> tuple[ConfusablePair, ...]:
    """Return the pairs of a plug's wires that look alike to some eyes and are not written alike.

    Args:
        pins: The pins of one plug.
        limit_de00: Two wires that differ by less look alike. [ΔE00] > 0

    Pairs come with the costliest mistake first: a supply among them, then the two wires of one
    pair, then the rest; among those, the most alike first. Left out are two wires of one job
    (grounds), wires no car has both of, and two wires that an installation leaves alone,
    unless they are alike to all eyes or swapped.
    """
    looks = [(look, pin) for pin in pins if (look := _look(pin.wire)) is not None]
    found = [
        ConfusablePair(first, second, likeness)
        for (look_1, first), (look_2, second) in combinations(looks, 2)
        if (likeness := likeness_of(look_1, look_2, limit_de00)) is not None
        and _matters(first, second, likeness)
    ]
    return tuple(sorted(found, key=lambda pair: (_rank(*pair[:2]), pair.likeness.difference_de00)))


def _look(wire: Wire | None) -> Look | None:
    return None if wire is None or wire.base == "bare" else (wire.base, wire.stripe or wire.base)


@lru_cache(maxsize=65536)
def likeness_of(first: Look, second: Look, limit_de00: float) -> Likeness | None:
    """Return how alike two wires look; None when they are the same, unknown, or far apart."""
    if first == second or any(srgb_8bit(word) is None for word in (*first, *second)):
        return None
    by_vision = {vision: _difference_de00(first, second, vision) for vision in VISIONS}
    eyes = tuple(vision for vision in VISIONS if by_vision[vision] < limit_de00)
    swapped = first == second[::-1]
    return Likeness(eyes, min(by_vision.values()), swapped) if eyes or swapped else None


def _difference_de00(first: Look, second: Look, vision: Vision) -> float:
    return max(
        word_difference_de00(base, other, vision) for base, other in zip(first, second, strict=True)
    )


@lru_cache(maxsize=4096)
def word_difference_de00(first: str, second: str, vision: Vision) -> float:
    """Return how far apart two colour words look to such eyes. [ΔE00]

    Raises:
        ValueError: a word that stands for no colour.
    """
    return colour_difference_de00(_lab(first, vision), _lab(second, vision))


@lru_cache(maxsize=512)
def _lab(word: str, vision: Vision) -> Triple:
    levels = srgb_8bit(word)
    if levels is None:
        raise ValueError(f"{word!r} stands for no colour")
    return lab_of_linear(seen_by(vision, decode_srgb(*levels)))


def _matters(first: Pin, second: Pin, likeness: Likeness) -> bool:
    if first.cavity == second.cavity or not can_coexist(first, second):
        return False
    if first.function == second.function and first.function not in PAIRED:
        return False
    shown = likeness.swapped or "normal" in likeness.eyes
    return shown or _rank(first, second) < _LEFT_ALONE


_LEFT_ALONE = 3


def _rank(first: Pin, second: Pin) -> int:
    functions = {first.function, second.function}
    if functions & SUPPLIES:
        return 0
    same_channel = first.channel is not None and first.channel == second.channel
    if functions == _DATA_PAIR or (same_channel and len(functions) == 1):
        return 1
    return 2 if functions & _JOINED_TO else _LEFT_ALONE


_LACKS: dict[Vision, str] = {"protan": "red", "deutan": "green", "tritan": "blue"}


def eyes_in_words(likeness: Likeness) -> str:
    """Return who confuses the two, or what is alike about them."""
    if likeness.swapped:
        return "the same two colours in opposite order"
    if "normal" in likeness.eyes:
        return "to any eyes"
    cones = [_LACKS[vision] for vision in likeness.eyes]
    listed = cones[0] if len(cones) == 1 else f"{', '.join(cones[:-1])} or {cones[-1]}"
    return f"to eyes without {listed} cones"


def colours_in_words(wire: Wire | None) -> str:
    """Return base and stripe as a person says them, "light blue/black"; "" without a wire."""
    if wire is None:
        return ""
    return f"{wire.base}/{wire.stripe}" if wire.stripe else wire.base
