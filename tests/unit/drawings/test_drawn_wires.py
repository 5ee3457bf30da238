"""Colour words to colours, and wires drawn from them."""

from __future__ import annotations

import pytest
from drawing_samples import drawings_in

from builder.model.wire import Wire
from builder.rendering.drawings import swatch
from builder.rendering.drawings.wire_colours import colour_hex, wire_words


def wire(base: str, stripe: str | None = None) -> Wire:
    return Wire(base=base, stripe=stripe)


def fills(markup: object) -> list[str | None]:
    return [rect.get("fill") for rect in drawings_in(markup)[0].iter("rect")]  # type: ignore[arg-type]


def test_swatch_shows_base_and_stripe_and_says_them() -> None:
    sample = swatch(wire("white", "black"))
    assert fills(sample) == [colour_hex("white"), colour_hex("black")]
    assert drawings_in(sample)[0].findtext("title") == "white/black"


@pytest.mark.parametrize("given", [wire("puce"), None])
def test_unknown_colour_is_an_outline_with_hatching(given: Wire | None) -> None:
    sample = swatch(given)
    assert fills(sample) == ["none"]
    assert 'class="lb-hatch"' in sample
    assert drawings_in(sample)[0].findtext("title") == wire_words(given)


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
