"""Colour science against published figures, and what must hold for any colour."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest
from contrast import contrast_ratio
from hypothesis import given
from hypothesis import strategies as st

from builder.proof.colour.difference import colour_difference_de00
from builder.proof.colour.srgb import (
    Triple,
    apply,
    decode_srgb,
    lab_of_linear,
    linear_of,
)
from builder.proof.colour.vision import MACHADO, VISIONS, Vision, seen_by

VECTORS = Path(__file__).parents[2] / "vectors"
CHANNEL = st.integers(0, 255)
COLOUR = st.tuples(CHANNEL, CHANNEL, CHANNEL)
LAB = st.tuples(*(st.floats(low, high) for low, high in ((0, 100), (-128, 128), (-128, 128))))


def groups(name: str) -> dict[str, Any]:
    data = json.loads((VECTORS / f"{name}.json").read_text(encoding="utf-8"))
    return {group["name"]: group for group in data["groups"]}


DIFFERENCE, VISION, CONTRAST = map(
    groups, ("colour_difference", "machado_matrices", "wcag_contrast")
)


def hex_colour(text: str) -> Triple:
    return decode_srgb(*bytes.fromhex(text))


def test_all_published_pairs_are_here() -> None:
    pairs = sorted(case[0] for group in DIFFERENCE.values() for case in group["cases"])
    assert pairs == list(range(1, 35))


@pytest.mark.parametrize(
    ("light", "lightness"),
    [
        (0.0, 0.0),
        (0.002, 1.8066),
        (0.004, 3.6132),
        (0.0082, 7.4070),
        (216 / 24389, 8.0),
        (0.010, 8.9914),
        (0.0125, 10.9212),
        (0.1842, 50.0016),
        (1.0, 100.0),
    ],
)
def test_the_lightness_of_a_grey_from_its_light(light: float, lightness: float) -> None:
    """L* is 903.3 times the light up to 216/24389, and 116 times its cube root less 16 above.

    Source: CIE 15, the figures of ISO/CIE 11664-4 as fractions (memory).
    """
    found = lab_of_linear((light, light, light))
    assert found == pytest.approx((lightness, 0.0, 0.0), abs=5e-4)


@pytest.mark.parametrize("case", DIFFERENCE["sharma_2005"]["cases"], ids=lambda case: case[0])
def test_published_differences(case: list[Any]) -> None:
    _, first, second, expected = case
    tolerance = DIFFERENCE["sharma_2005"]["tolerance"]
    assert colour_difference_de00(first, second) == pytest.approx(expected, abs=tolerance)
    assert colour_difference_de00(second, first) == pytest.approx(expected, abs=tolerance)


def test_opposite_hues_give_one_of_the_two_answers_that_rounding_allows() -> None:
    group = DIFFERENCE["sharma_2005_opposite_hues"]
    ((_, first, second, either),) = group["cases"]
    found = colour_difference_de00(first, second)
    assert min(abs(found - answer) for answer in either) <= group["tolerance"]
    assert abs(either[0] - either[1]) > 100 * group["tolerance"]


@given(LAB)
def test_a_colour_does_not_differ_from_itself(lab: Triple) -> None:
    assert colour_difference_de00(lab, lab) == 0


@given(LAB, LAB)
def test_the_difference_is_the_same_both_ways(first: Triple, second: Triple) -> None:
    there, back = colour_difference_de00(first, second), colour_difference_de00(second, first)
    assert there == pytest.approx(back, abs=1e-9)
    assert there >= 0


def test_black_and_white_are_a_hundred_apart() -> None:
    black, white = (lab_of_linear(hex_colour(text)) for text in ("000000", "ffffff"))
    assert black == pytest.approx((0, 0, 0), abs=1e-9)
    assert white == pytest.approx((100, 0, 0), abs=1e-9)
    assert colour_difference_de00(black, white) == pytest.approx(100, abs=1e-6)


@pytest.mark.parametrize("vision", list(MACHADO))
def test_the_matrices_are_as_published(vision: Vision) -> None:
    published = VISION["severity_1"]["values"][vision]
    for row, expected in zip(MACHADO[vision], published, strict=True):
        assert row == pytest.approx(expected, abs=1e-9)
        assert sum(row) == pytest.approx(1, abs=2e-6)
    assert list(VISION["severity_1"]["values"]) == list(MACHADO)


@pytest.mark.parametrize("case", VISION["primaries_8bit"]["cases"], ids=lambda case: case[0])
def test_the_matrices_are_applied_to_linear_light(case: list[Any]) -> None:
    vision, *becomes = case
    for primary, expected in zip(("ff0000", "00ff00", "0000ff"), becomes, strict=True):
        seen = seen_by(vision, hex_colour(primary))
        for light, level in zip(seen, expected, strict=True):
            low, high = max(0, level - 1.5), min(255, level + 1.5)  # 1 and the rounding of 8 bits
            assert linear_of(low / 255) <= light <= linear_of(high / 255)


@given(CHANNEL, st.sampled_from(VISIONS))
def test_a_grey_looks_the_same_to_all_eyes(level: int, vision: Vision) -> None:
    grey = decode_srgb(level, level, level)
    assert seen_by(vision, grey) == pytest.approx(grey, abs=2e-6)
    _, a, b = lab_of_linear(grey)
    assert (a, b) == pytest.approx((0, 0), abs=1e-9)


@given(COLOUR, st.sampled_from(VISIONS))
def test_what_eyes_see_is_a_colour_of_the_screen(colour: tuple[int, int, int], vision: Any) -> None:
    seen = seen_by(vision, decode_srgb(*colour))
    assert all(0 <= light <= 1 for light in seen)
    if vision == "normal":
        assert seen == decode_srgb(*colour)


def test_what_leaves_the_screen_is_clipped() -> None:
    blue = hex_colour("0000ff")
    assert apply(MACHADO["protan"], blue)[0] < 0
    assert seen_by("protan", blue)[0] == 0
    assert seen_by("protan", blue)[2] == 1


@pytest.mark.parametrize("case", CONTRAST["contrast_ratio"]["cases"], ids=lambda case: case[0])
def test_published_contrast(case: list[Any]) -> None:
    first, second, expected = case
    tolerance = CONTRAST["contrast_ratio"]["tolerance"]
    found = contrast_ratio(hex_colour(first), hex_colour(second))
    assert found == pytest.approx(expected, abs=tolerance)
    assert contrast_ratio(hex_colour(second), hex_colour(first)) == found


@pytest.mark.parametrize(("encoded", "expected"), CONTRAST["linear_of_encoded"]["cases"])
def test_decoding(encoded: float, expected: float) -> None:
    tolerance = CONTRAST["linear_of_encoded"]["tolerance"]
    assert linear_of(encoded) == pytest.approx(expected, abs=tolerance)


@pytest.mark.parametrize(("encoded",), CONTRAST["refused"]["cases"])
def test_what_is_no_channel_is_refused(encoded: float) -> None:
    with pytest.raises(ValueError, match="from 0 to 1"):
        linear_of(encoded)
    with pytest.raises(ValueError, match="from 0 to 1"):
        decode_srgb(0, 256, 0)
