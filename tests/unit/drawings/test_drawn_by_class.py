"""How a shape is filled and stroked stands in the style sheet: no class is left without."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from builder.data_files import templates_folder

SHAPE = re.compile(r"<(?:path|rect|circle)\b([^>]*)>")
FILLED = {"lb-solid", "lb-head", "lb-joint", "lb-part-diode"}
"""Filled with ink, as a drawing is that says nothing else."""
UNLINED = {*FILLED, "lb-stripe", "lb-part-gap"}
"""Colour or paper without an edge."""
STYLE = (templates_folder() / "theme" / "drawings.css").read_text("utf-8")


def classes_with(property_: str) -> set[str]:
    """The classes that a rule of the sheet gives a property."""
    rules = re.findall(r"([^{}]+)\{([^{}]*)\}", STYLE)
    said = [heads for heads, body in rules if re.search(rf"(^|[; ]){property_}:", body)]
    return set(re.findall(r"\.(lb-[\w-]+)", " ".join(said)))


@pytest.mark.parametrize(("property_", "without"), [("fill", FILLED), ("stroke", UNLINED)])
def test_each_shape_of_a_class_is_drawn_as_the_sheet_says(
    shipped_site: Path, property_: str, without: set[str]
) -> None:
    known, shapes = classes_with(property_) | without, set[str]()
    for page in shipped_site.rglob("*.html"):
        for drawing in re.findall(r'<svg class="lb-drawing.*?</svg>', page.read_text("utf-8")):
            for inside in SHAPE.findall(drawing):
                if f' {property_}="' not in inside:
                    shapes |= set(re.findall(r'class="([^"]*)"', inside))
    assert [each for each in shapes if known.isdisjoint(each.split())] == []
    assert len(shapes) > 20
