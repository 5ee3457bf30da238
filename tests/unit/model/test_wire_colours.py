"""The colour words of the model are those of the schema, each with a colour of its own."""

from __future__ import annotations

import pytest

from builder.model.wire_colours import WIRE_SRGB_HEX, srgb_8bit
from builder.rendering.drawings.wire_colours import colour_hex
from builder.schema_check.schemas import SHARED, read_schema


def test_the_words_are_the_closed_list_of_the_schema() -> None:
    assert list(WIRE_SRGB_HEX) == [
        *("black", "brown", "red", "orange", "yellow", "green", "blue", "violet", "grey", "white"),
        *("pink", "turquoise", "beige", "tan", "light blue", "dark blue", "light green"),
        *("dark green", "gold", "silver", "clear", "natural", "bare", "unknown"),
    ]
    assert list(WIRE_SRGB_HEX) == read_schema(SHARED)["$defs"]["colour"]["enum"]


def test_every_word_but_unknown_has_a_colour_of_its_own() -> None:
    seen = [srgb_8bit(word) for word in WIRE_SRGB_HEX if word != "unknown"]
    assert None not in seen
    assert len(set(seen)) == len(seen) == 23
    assert srgb_8bit("unknown") is srgb_8bit("puce") is None


@pytest.mark.parametrize("word", [word for word in WIRE_SRGB_HEX if word != "unknown"])
def test_drawings_use_the_same_colours(word: str) -> None:
    assert colour_hex(word) == f"#{WIRE_SRGB_HEX[word]}"
    assert srgb_8bit(word) == tuple(bytes.fromhex(WIRE_SRGB_HEX[word] or ""))
