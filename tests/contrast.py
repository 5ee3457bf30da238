"""How far two colours stand out from each other, for the tests that judge our own pages."""

from __future__ import annotations

from builder.proof.colour.srgb import Triple

_LUMINANCE: Triple = (0.2126, 0.7152, 0.0722)
"""The part of red, green and blue light in luminance. Source: WCAG 2.2 (read)."""


def contrast_ratio(first: Triple, second: Triple) -> float:
    """Return the contrast of two colours in linear light, from 1 to 21.

    Source: WCAG 2.2, definition of contrast ratio (read).
    """
    dark, bright = sorted(
        sum(part * light for part, light in zip(_LUMINANCE, colour, strict=True))
        for colour in (first, second)
    )
    return (bright + 0.05) / (dark + 0.05)
