"""How a colour looks to eyes that lack one kind of cone."""

from __future__ import annotations

from typing import Literal, get_args

from builder.proof.colour.srgb import Triple, apply

Vision = Literal["normal", "protan", "deutan", "tritan"]
VISIONS: tuple[Vision, ...] = get_args(Vision)

MACHADO: dict[Vision, tuple[Triple, Triple, Triple]] = {
    "protan": (
        (0.152286, 1.052583, -0.204868),
        (0.114503, 0.786281, 0.099216),
        (-0.003882, -0.048116, 1.051998),
    ),
    "deutan": (
        (0.367322, 0.860646, -0.227968),
        (0.280085, 0.672501, 0.047413),
        (-0.011820, 0.042940, 0.968881),
    ),
    "tritan": (
        (1.255528, -0.076749, -0.178779),
        (-0.078411, 0.930809, 0.147602),
        (0.004733, 0.691367, 0.303900),
    ),
}
"""Linear sRGB to linear sRGB at severity 1: the cone is missing, not only shifted.

Source: Machado, Oliveira, Fernandes, IEEE Transactions on Visualization and Computer Graphics
15 (2009), table 1 (second hand: two colour libraries print the same figures). The authors' model
is least sure for tritan.
"""


def seen_by(vision: Vision, linear: Triple) -> Triple:
    """Return linear light that looks to normal eyes as `linear` looks to these.

    The matrices are meant for linear light, not for the encoded values of a file. What falls
    outside the colours of a screen is clipped to them, from 0 to 1 in each channel.
    """
    if vision == "normal":
        return linear
    red, green, blue = (min(1.0, max(0.0, light)) for light in apply(MACHADO[vision], linear))
    return red, green, blue
