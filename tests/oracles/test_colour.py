"""Colour differences against a general colour library, over all colour words of the records.

The library derives its matrix from the chromaticities of sRGB where the standard prints four
decimals, so the two may differ in the third figure.
"""

from __future__ import annotations

from itertools import combinations

import pytest
from coloraide import Color
from coloraide.filters.cvd import Deutan, Protan, Tritan
from contrast import contrast_ratio

from builder.model.wire_colours import WIRE_SRGB_HEX
from builder.proof.colour.srgb import decode_srgb, lab_of_linear
from builder.proof.colour.vision import VISIONS, Vision
from builder.proof.confusable import word_difference_de00

WORDS = [word for word, colour in WIRE_SRGB_HEX.items() if colour]
TOLERANCE_DE00 = 0.02


class Library(Color):
    """The library with its simulations of missing cones."""


Library.register([Protan(), Deutan(), Tritan()], overwrite=True)


def colour_of(word: str) -> Library:
    return Library(f"#{WIRE_SRGB_HEX[word]}")


def seen(word: str, vision: Vision) -> Library:
    if vision == "normal":
        return colour_of(word)
    seen_as = colour_of(word).filter(vision, 1, method="machado", space="srgb-linear")
    return seen_as.convert("srgb-linear").clip()


@pytest.mark.parametrize("vision", VISIONS)
def test_differences_of_all_words(vision: Vision) -> None:
    looks = {word: seen(word, vision) for word in WORDS}
    for first, second in combinations(WORDS, 2):
        expected = looks[first].delta_e(looks[second], method="2000")
        found = word_difference_de00(first, second, vision)
        assert found == pytest.approx(expected, abs=TOLERANCE_DE00), (first, second)


@pytest.mark.parametrize("word", WORDS)
def test_lab_of_a_word(word: str) -> None:
    linear = decode_srgb(*bytes.fromhex(WIRE_SRGB_HEX[word] or ""))
    expected = colour_of(word).convert("lab-d65").coords()
    assert lab_of_linear(linear) == pytest.approx(tuple(expected), abs=0.05)


@pytest.mark.parametrize(("first", "second"), [("black", "white"), ("grey", "red")])
def test_contrast_of_two_words(first: str, second: str) -> None:
    ours = contrast_ratio(
        *(decode_srgb(*bytes.fromhex(WIRE_SRGB_HEX[word] or "")) for word in (first, second))
    )
    expected = colour_of(first).contrast(colour_of(second), method="wcag21")
    assert ours == pytest.approx(expected, abs=1e-3)
