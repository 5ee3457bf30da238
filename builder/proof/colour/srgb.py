"""From the numbers of a screen colour to light, and to CIELAB.

A triple of *linear* light is red, green, blue from 0 to 1, in proportion to what a screen emits.
"""

from __future__ import annotations

Triple = tuple[float, float, float]

_XYZ_OF_LINEAR: tuple[Triple, Triple, Triple] = (
    (0.4124, 0.3576, 0.1805),
    (0.2126, 0.7152, 0.0722),
    (0.0193, 0.1192, 0.9505),
)
"""Linear sRGB to CIE XYZ with white D65. Source: IEC 61966-2-1, as printed (memory)."""
WHITE_XYZ: Triple = (0.9505, 1.0, 1.089)
"""D65 as that matrix makes it: the sums of its rows, so that a grey is exactly neutral."""
_LAB_KNEE, _LAB_SLOPE = (6 / 29) ** 3, (29 / 6) ** 2 / 3
"""Where CIELAB's cube root gives way to a line. Source: ISO/CIE 11664-4 (memory)."""


def linear_of(encoded: float) -> float:
    """Return the light of one sRGB channel.

    Args:
        encoded: The channel from 0 to 1, which is its 8-bit value over 255.

    Raises:
        ValueError: it is not from 0 to 1.

    Source: IEC 61966-2-1; the knee 0.04045 as WCAG 2.2 prints it (read).
    """
    if not 0 <= encoded <= 1:
        raise ValueError(f"an sRGB channel is from 0 to 1, not {encoded!r}")
    return encoded / 12.92 if encoded <= 0.04045 else float(((encoded + 0.055) / 1.055) ** 2.4)


def decode_srgb(red: int, green: int, blue: int) -> Triple:
    """Return linear light of an 8-bit sRGB colour.

    Raises:
        ValueError: a channel is not from 0 to 255.
    """
    return linear_of(red / 255), linear_of(green / 255), linear_of(blue / 255)


def apply(matrix: tuple[Triple, Triple, Triple], column: Triple) -> Triple:
    """Return a 3 by 3 matrix times a column."""
    x, y, z = column
    first, second, third = ((row[0] * x + row[1] * y + row[2] * z) for row in matrix)
    return first, second, third


def lab_of_linear(linear: Triple) -> Triple:
    """Return CIELAB (L* from 0 to 100, a*, b*), white D65, of linear light.

    Source: ISO/CIE 11664-4 (memory).
    """
    xyz = apply(_XYZ_OF_LINEAR, linear)
    x, y, z = (_compressed(value / white) for value, white in zip(xyz, WHITE_XYZ, strict=True))
    return 116 * y - 16, 500 * (x - y), 200 * (y - z)


def _compressed(share: float) -> float:
    return float(share ** (1 / 3)) if share > _LAB_KNEE else _LAB_SLOPE * share + 4 / 29
