"""Where things stand on the record page in a hand: in the width, above the bar, under a thumb.

All places are in px of the screen, once somebody has pressed his way there.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any, NamedTuple

import pytest
from maker_page import TWENTY, MakerPage, choose_shell, with_a_plug
from shipped_book import PINOUTS

from builder.book import open_book
from builder.model.housing import Housing
from builder.pipeline.checking.shelf import housings_of
from builder.rendering.drawings.plug_geometry import Face, face_of

pytestmark = pytest.mark.browser

SCREENS = ((390, 844), (360, 740))
THUMB = 44.0
NEARLY = 0.1  # px that a browser may round

_BOXES = """
  const box = n => (r => [r.left, r.top, r.right, r.bottom])(n.getBoundingClientRect());
  return [...document.querySelectorAll(arguments[0])].filter(n => n.checkVisibility())
    .map(n => [n.textContent, ...box(n)]);
"""
_CAVITIES = """
  return [...document.querySelectorAll('.maker-face svg')].map(svg =>
    [...svg.querySelectorAll('[data-cavity]')].map(group => {
      const r = group.querySelector('.maker-sheet').getBoundingClientRect();
      const hit = document.elementFromPoint((r.left + r.right) / 2, (r.top + r.bottom) / 2);
      const own = hit && hit.closest('[data-cavity]'), met = own ? own.dataset.cavity : '';
      return [group.dataset.cavity, r.left, r.top, r.right, r.bottom, met];
    }));
"""


class Place(NamedTuple):
    """Something on the screen; `met` is the cavity that a finger on its middle presses."""

    name: str
    left: float
    top: float
    right: float
    bottom: float
    met: str = ""


@pytest.fixture(params=SCREENS, ids=lambda size: f"{size[0]}x{size[1]}")
def page(request: Any, browser: Any, address: str) -> Iterator[MakerPage]:
    browser.resize(*request.param)
    yield with_a_plug(browser, address, TWENTY)
    browser.resize(1280)


def settle(page: MakerPage) -> None:
    page.browser.driver.execute_async_script("setTimeout(arguments[0], 60)")


def places(page: MakerPage, chosen: str) -> list[Place]:
    found: Any = page.browser.run(_BOXES, chosen)
    return [Place(*each) for each in found]


def pieces(page: MakerPage) -> list[list[Place]]:
    """The cavities of each piece of the drawing."""
    found: Any = page.browser.run(_CAVITIES)
    return [[Place(*each) for each in piece] for piece in found]


def bar(page: MakerPage) -> float:
    """Where the bar at the foot of the screen begins."""
    return float(str(page.browser.run("return document.querySelector('.lb-nav').offsetTop")))


def width(page: MakerPage) -> float:
    return float(str(page.browser.run("return document.documentElement.clientWidth")))


def outside(page: MakerPage, all_of: list[Place]) -> list[Place]:
    """Those that do not stand whole on the screen, above the bar."""
    most, low = width(page) + NEARLY, bar(page) + NEARLY
    return [p for p in all_of if p.left < 0 or p.top < 0 or p.right > most or p.bottom > low]


def opened(page: MakerPage, name: str) -> None:
    page.press("maker-all-plugs")
    page.press(f"Open plug {name}")
    settle(page)


# ---- the drawing of a plug ----------------------------------------------------------------------
def shipped() -> list[Housing]:
    return [each for _, each in sorted(housings_of(open_book(PINOUTS)).items()) if each.name]


def test_every_cavity_of_every_housing_is_under_the_thumb_at_once(page: MakerPage) -> None:
    housings, faults = shipped(), list[str]()
    assert max(len(row) for each in housings for row in each.rows) >= 13
    for housing in housings:
        page.browser.run("document.getElementById('maker-housing').open = true")
        choose_shell(page, 0, len(housing.cavities), housing.name)
        opened(page, "A")
        all_of = [each for piece in pieces(page) for each in piece]
        assert sorted(p.name for p in all_of) == sorted(housing.cavities)
        faults += [f"{housing.id}: {p} is off the screen" for p in outside(page, all_of)]
        faults += [f"{housing.id}: {p} is too small" for p in all_of if is_small(p)]
        faults += [f"{housing.id}: {p} presses {p.met}" for p in all_of if p.met != p.name]
    assert faults == []


def is_small(place: Place) -> bool:
    sides = (place.right - place.left, place.bottom - place.top)
    return min(sides) < THUMB - NEARLY


def test_the_pieces_side_by_side_are_the_face(page: MakerPage) -> None:
    for housing in shipped():
        page.browser.run("document.getElementById('maker-housing').open = true")
        choose_shell(page, 0, len(housing.cavities), housing.name)
        opened(page, "A")
        for view in ("wire_side", "mating_side"):
            face = face_of(housing, view)
            for row in {cell.row for cell in face.cells}:
                cells = sorted((c for c in face.cells if c.row == row), key=lambda c: c.x)
                assert joined(pieces(page), [c.name for c in cells]) == [c.name for c in cells]
            assert downwards(pieces(page), face) == []
            page.press("maker-turn")


def joined(shown: list[list[Place]], row: list[str]) -> list[str]:
    """The cavities of a row from left to right, each piece put beside the one before it."""
    own = [[p for p in piece if p.name in row] for piece in shown]
    return [p.name for piece in own for p in sorted(piece, key=lambda p: p.left)]


def downwards(shown: list[list[Place]], face: Face) -> list[str]:
    """Where a piece has a cavity of a lower row of the face above one of a higher row."""
    height = {cell.name: cell.y + cell.h / 2 for cell in face.cells}
    pairs = [
        (a, b)
        for piece in shown
        for a in piece
        for b in piece
        if height[a.name] < height[b.name] - 15
    ]
    return [f"{a.name} above {b.name}" for a, b in pairs if middle_down(a) >= middle_down(b)]


def middle_down(place: Place) -> float:
    return (place.top + place.bottom) / 2


def test_a_cut_drawing_says_which_half_is_which(page: MakerPage) -> None:
    assert [p.name for p in places(page, ".maker-half")] == ["left half", "right half"]
    assert len(places(page, ".maker-cut")) == 2
    page.browser.resize(1280)
    settle(page)
    assert places(page, ".maker-half") == []
    assert len(pieces(page)) == 1


def test_the_drawing_is_there_for_the_next_cavity(page: MakerPage) -> None:
    for cavity in ("20", "1", "11"):
        page.cavity(cavity)
        page.press("ground")
        settle(page)
        assert outside(page, [p for piece in pieces(page) for p in piece]) == []


# ---- a cavity -----------------------------------------------------------------------------------
def test_line_and_chips_of_a_cavity_stand_above_the_bar(page: MakerPage) -> None:
    opened(page, "A")
    page.cavity("7")
    settle(page)
    chosen = "#maker-pin, #maker-say, #maker-say-take, .maker-chips .button"
    found = places(page, chosen)
    assert len(found) == 22
    assert outside(page, found) == []
    assert [
        p for p in found if p.name and p.bottom - p.top < THUMB and "cavity" not in p.name
    ] == []


# ---- a plug without a housing -------------------------------------------------------------------
def test_a_plug_without_a_housing_is_one_screen_of_lines(page: MakerPage) -> None:
    page.press("maker-all-plugs")
    page.press("maker-add-plug")
    settle(page)
    lines = places(page, ".maker-plug summary, .maker-plug button, .maker-plug select")
    names = " ".join(p.name for p in lines)
    for word in ("Its housing", "Unit", "Location", "Shell colours", "The face", "Paste", "Photos"):
        assert word in names
    assert outside(page, lines) == []


def test_an_answer_of_one_tap_opens_the_next_line_that_is_due(page: MakerPage) -> None:
    page.press("maker-all-plugs")
    page.press("maker-add-plug")
    page.browser.run("document.querySelector('#maker-about-unit > summary').click()")
    settle(page)
    page.answer("plugs.1.unit", "radio")
    settle(page)
    opened_now = "return [...document.querySelectorAll('.maker-one[open]')].map(n => n.id)"
    assert page.browser.run(opened_now) == ["maker-about-location"]
    said = [p.name for p in places(page, ".maker-one > summary")]
    assert said[0] == "Unitradio"
    assert said[1] == "Locationto answer"
    typed = "const n = document.getElementById(arguments[0]); n.value = arguments[1];"
    typed += "n.dispatchEvent(new Event('input', {bubbles: true}))"
    page.browser.run(typed, "maker-vehicle-plugs-1-location", "behind the radio")
    assert "Locationbehind the radio" in [p.name for p in places(page, ".maker-one > summary")]


def test_the_face_that_was_counted_on_is_asked_above_the_drawing(page: MakerPage) -> None:
    page.press("maker-all-plugs")
    page.press("maker-add-plug")
    choose_shell(page, 1, *TWENTY)
    assert [p.name for p in places(page, "#maker-face-asked")] == ["Which face do you count on?"]
    page.press("mating side")
    assert places(page, "#maker-face-asked") == []
    label = "return document.querySelector('.maker-face .maker-label').textContent"
    assert page.browser.run(label) == "Plug B, looking into the open face"
    assert page.browser.complaints() == []
