"""The plugs on the handbook's page: which way each mirrors, as the words beside them say."""

from __future__ import annotations

import pytest
from shipped_book import ROOT

from builder.model.house_defaults import HouseDefaults
from builder.model.housing import Housing
from builder.model.words import View
from builder.rendering.drawings.plug_geometry import Cell, face_of
from builder.rendering.drawings.plug_lesson import LATCH_ABOVE, LATCH_BESIDE, lesson
from builder.rendering.handbook import fill_in

PAGE = ROOT / "site_templates" / "handbook" / "read-a-plug-drawing.md"


def cells(housing: Housing, view: View) -> dict[str, Cell]:
    return {cell.name: cell for cell in face_of(housing, view).cells}


def test_with_the_latch_above_left_and_right_change_places():
    wires, open_face = cells(LATCH_ABOVE, "wire_side"), cells(LATCH_ABOVE, "mating_side")
    assert wires["1"].x < wires["2"].x and open_face["1"].x > open_face["2"].x
    assert all(wires[name].row == open_face[name].row for name in wires)


def test_with_the_latch_beside_top_and_bottom_change_places():
    wires, open_face = cells(LATCH_BESIDE, "wire_side"), cells(LATCH_BESIDE, "mating_side")
    assert wires["1"].y < wires["7"].y and open_face["1"].y > open_face["7"].y
    assert wires["1"].x < wires["2"].x and open_face["1"].x < open_face["2"].x


@pytest.mark.parametrize("which", [LATCH_ABOVE, LATCH_BESIDE], ids=["above", "beside"])
def test_one_cavity_is_ringed_in_both_faces(which: Housing):
    drawn = str(lesson(which))
    assert drawn.count("<svg") == 2 and drawn.count("lb-ring") == 2 and "\n" not in drawn


def test_the_page_shows_drawings_and_no_mark_is_left():
    page = fill_in(PAGE.read_text("utf-8"), HouseDefaults())
    assert page.count('class="face"') == 4 and "lb-legend" in page and "<!--" not in page
