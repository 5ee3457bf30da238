"""Colour words to colours, and wires drawn from them."""

from __future__ import annotations

import pytest
from drawing_samples import drawings_in
from markupsafe import Markup
from shipped_book import ROOT

from builder.model.wire import Wire
from builder.rendering.drawings import swatch
from builder.rendering.drawings.shapes import wire_line
from builder.rendering.drawings.wire_colours import colour_hex


def wire(base: str, stripe: str | None = None) -> Wire:
    return Wire(base=base, stripe=stripe)


def fills(markup: object) -> list[str | None]:
    return [rect.get("fill") for rect in drawings_in(markup)[0].iter("rect")]  # type: ignore[arg-type]


def test_swatch_shows_base_and_stripe() -> None:
    sample = swatch(wire("white", "black"))
    assert fills(sample) == [colour_hex("white"), colour_hex("black")]


def test_the_style_sheet_says_how_large_a_swatch_is() -> None:
    sheet = (ROOT / "site_templates" / "theme" / "drawings.css").read_text("utf-8")
    line = drawings_in(Markup(f"<svg>{wire_line('white/black', 0, 0, 34, 9)}</svg>"))[0]
    for rect in line.iter("rect"):
        said = "; ".join(f"{key}: {rect.get(key)}px" for key in ("width", "height"))
        assert f".lb-swatch .{rect.get('class')} {{ {said}; }}" in sheet


@pytest.mark.parametrize("given", [wire("puce"), None])
def test_unknown_colour_is_an_outline_with_hatching(given: Wire | None) -> None:
    sample = swatch(given)
    assert fills(sample) == ["none"]
    assert 'class="lb-hatch"' in sample


def test_bare_wire_is_braided() -> None:
    assert 'class="lb-hatch"' in swatch(wire("bare"))
    assert 'class="lb-hatch"' not in swatch(wire("brown"))


def test_colours_are_all_different() -> None:
    words = [
        "black",
        "white",
        "red",
        "green",
        "blue",
        "yellow",
        "grey",
        "brown",
        "violet",
        "orange",
        "pink",
        "tan",
    ]
    words += [f"light {word}" for word in ("green", "blue")] + ["dark green", "dark blue"]
    assert len({colour_hex(word) for word in words}) == len(words)


def test_shades_go_towards_white_and_towards_black() -> None:
    def brightness(word: str) -> int:
        found = colour_hex(word)
        assert found is not None
        return sum(int(found[at : at + 2], 16) for at in (1, 3, 5))

    assert brightness("dark green") < brightness("green") < brightness("light green")


@pytest.mark.parametrize(
    ("one", "same"), [("gray", "grey"), ("Violet", "purple"), (" red ", "red")]
)
def test_spellings_of_one_colour(one: str, same: str) -> None:
    assert colour_hex(one) == colour_hex(same) is not None


@pytest.mark.parametrize("word", ["", "puce", "red green", "light", "url(#x)"])
def test_words_that_are_no_colour(word: str) -> None:
    assert colour_hex(word) is None
