"""Records are data: whatever they hold, a drawing stays a drawing."""

from __future__ import annotations

import re
from dataclasses import replace
from xml.etree.ElementTree import Element

import pytest
from drawing_samples import (
    FEEDS,
    LADDER,
    LEVELS,
    TURN_ON,
    drawings_in,
    housing,
    outside,
    pin,
    plan,
    plug,
    text_boxes,
)
from markupsafe import Markup

from builder.model.wire import Wire
from builder.rendering.drawings import (
    level_ladder,
    look_alikes,
    plug_faces,
    swatch,
    turn_on_ladder,
)

HOSTILE = [
    "</title></svg><script>alert(1)</script>",
    '" onload="alert(1)" x="',
    "' onclick='alert(1)",
    "<a href='javascript:alert(1)'>x</a>",
    "&lt;b&gt; &amp; ]]> <!-- -->",
    "{{ 7 * 7 }} {% raw %}",
    "long " * 300,
]
PLAIN = {"svg", "title", "desc", "text", "g", "rect", "path", "circle"}
ATTRIBUTES = {
    *(
        "class",
        "width",
        "height",
        "viewBox",
        "role",
        "aria-labelledby",
        "font-family",
        "fill",
        "id",
    ),
    *("x", "y", "font-size", "text-anchor", "font-weight", "stroke", "stroke-width", "rx", "d"),
    *("stroke-dasharray", "stroke-linecap", "transform", "cx", "cy", "r"),
}


def everything(word: str) -> Markup:
    """Return every drawing there is, with `word` wherever a record can hold text."""
    shell = housing(rows=((word, "2"),), sizes={}, blocked=())
    one = plug(word, [pin(word, "ground", word)], name=word)
    feeds = [replace(f, plug=word, cavity=word, channel=word, wire=word) for f in FEEDS]
    switched = replace(TURN_ON, plug=word, cavity=word, kind=word, because=word)
    whole = plan(
        converter=word,
        feeds=tuple(feeds),
        turn_on=switched,
        ladder=(replace(LADDER[0], kind=word, where=word, verdict=word, because=word),),
        levels=(replace(LEVELS[0], channel=word, basis=word, verdict=word),),
    )
    parts = [*plug_faces(shell, one, [word]), look_alikes(shell, one, housing(), plug("B"))]
    parts += [turn_on_ladder(whole)]
    parts += [level_ladder(whole), swatch(Wire(base=word, stripe=word))]
    assert all(isinstance(part, Markup) for part in parts)
    return Markup("").join(parts)


def elements(word: str) -> list[Element]:
    return [element for drawing in drawings_in(everything(word)) for element in drawing.iter()]


@pytest.mark.parametrize("word", HOSTILE)
def test_hostile_words_add_no_element_and_no_attribute(word: str) -> None:
    found = elements(word)
    assert {element.tag for element in found} <= PLAIN
    assert {name for element in found for name in element.attrib} <= ATTRIBUTES


@pytest.mark.parametrize("word", HOSTILE)
def test_hostile_words_arrive_as_they_were_written(word: str) -> None:
    titles = [element.text or "" for element in elements(word) if element.tag == "title"]
    assert any(word in title for title in titles)


@pytest.mark.parametrize("word", HOSTILE)
def test_words_of_any_length_stay_inside_the_drawing(word: str) -> None:
    for drawing in drawings_in(everything(word)):
        if drawing.get("class") != "lb-swatch":
            assert outside(drawing, text_boxes(drawing)) == []


def test_a_strict_content_policy_finds_nothing_to_block() -> None:
    shown = everything("A")
    assert not re.search(r"<style|<script|\sstyle=|\son\w+=|href=.(?!#)|url\(", shown)
