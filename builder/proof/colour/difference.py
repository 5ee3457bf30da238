"""How far apart two colours look side by side: the CIEDE2000 difference."""

from __future__ import annotations

from math import atan2, cos, degrees, exp, hypot, radians, sin, sqrt

from builder.proof.colour.srgb import Triple

_FADE = 25.0**7
"""Chroma of 25, to the seventh: where the corrections for greyish and blue colours change over."""


def colour_difference_de00(first: Triple, second: Triple) -> float:
    """Return the CIEDE2000 difference of two CIELAB colours (L*, a*, b*), all weights 1. [ΔE00]

    About 1 is just seen on large patches side by side; 100 parts black from white. When two
    hues stand exactly opposite, the mean hue is not defined and rounding decides it.

    Source: Sharma, Wu, Dalal, Color Research and Application 30 (2005), equations 2 to 22
    (second hand: their 33 of 34 test pairs, as a colour library ships them).
    """
    widen = _widening((hypot(*first[1:]) + hypot(*second[1:])) / 2)
    chroma_1, hue_1 = _chroma_and_hue(first, widen)
    chroma_2, hue_2 = _chroma_and_hue(second, widen)
    chroma = (chroma_1 + chroma_2) / 2
    grey = chroma_1 * chroma_2 == 0
    hue = hue_1 + hue_2 if grey else _mean_hue(hue_1, hue_2)
    turn = 0.0 if grey else _shortest_turn(hue_2 - hue_1)
    d_light = (second[0] - first[0]) / _light_weight((first[0] + second[0]) / 2)
    d_chroma = (chroma_2 - chroma_1) / (1 + 0.045 * chroma)
    d_hue = 2 * sqrt(chroma_1 * chroma_2) * sin(radians(turn) / 2) / _hue_weight(chroma, hue)
    rotated = _rotation(chroma, hue) * d_chroma * d_hue
    return sqrt(max(0.0, d_light**2 + d_chroma**2 + d_hue**2 + rotated))


def _widening(mean_chroma: float) -> float:
    """Return what a* is multiplied by: 1.5 for greys, 1 for strong colours."""
    return 1.5 - 0.5 * sqrt(mean_chroma**7 / (mean_chroma**7 + _FADE))


def _chroma_and_hue(lab: Triple, widen: float) -> tuple[float, float]:
    """Return chroma and hue angle from 0 to 360; a pure grey has hue 0. [°]"""
    _, a, b = lab
    return hypot(widen * a, b), degrees(atan2(b, widen * a)) % 360


def _shortest_turn(degrees_between: float) -> float:
    if abs(degrees_between) <= 180:
        return degrees_between
    return degrees_between - 360 if degrees_between > 180 else degrees_between + 360


def _mean_hue(first: float, second: float) -> float:
    total = first + second
    if abs(first - second) <= 180:
        return total / 2
    return (total + 360) / 2 if total < 360 else (total - 360) / 2


def _light_weight(light: float) -> float:
    return 1 + 0.015 * (light - 50) ** 2 / sqrt(20 + (light - 50) ** 2)


def _hue_weight(chroma: float, hue: float) -> float:
    uneven = (
        1
        - 0.17 * cos(radians(hue - 30))
        + 0.24 * cos(radians(2 * hue))
        + 0.32 * cos(radians(3 * hue + 6))
        - 0.20 * cos(radians(4 * hue - 63))
    )
    return 1 + 0.015 * chroma * uneven


def _rotation(chroma: float, hue: float) -> float:
    """Return the term that ties chroma to hue in blue."""
    spread = 30 * exp(-(((hue - 275) / 25) ** 2))
    return -2 * sqrt(chroma**7 / (chroma**7 + _FADE)) * sin(radians(2 * spread))
