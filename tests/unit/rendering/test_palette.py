"""The colours of the style sheets: readable in both schemes, wherever they are used.

Which ink stands on which ground is read from the style sheets themselves, so that a new rule is
judged too. The least ratios are 4.5 for text (WCAG 2.2, success criterion 1.4.3, memory) and 3
for what shows where a control or the focus is (1.4.11, memory); the reckoning is tested against
published figures where it stands, in `builder/proof/colour/srgb.py`.
"""

from __future__ import annotations

import re

import pytest
from contrast import contrast_ratio

from builder.data_files import templates_folder
from builder.proof.colour.srgb import decode_srgb

STYLES = sorted((templates_folder() / "theme").glob("*.css"))
MAIN = (templates_folder() / "theme" / "base.css").read_text("utf-8")
TEXT, SHAPE = 4.5, 3.0


def on_screen(style: str) -> str:
    """A style sheet without its comments and without what is for paper only."""
    style = re.sub(r"/\*.*?\*/", "", style, flags=re.S)
    return re.sub(r"@media print \{(?:[^{}]*\{[^{}]*\})*[^{}]*\}", "", style)


def rules() -> list[dict[str, str]]:
    """The declarations of each rule for the screen."""
    found = []
    for file in STYLES:
        for inside in re.findall(r"\{([^{}]*)\}", on_screen(file.read_text("utf-8"))):
            pairs = (line.partition(":") for line in inside.split(";"))
            found.append({name.strip(): value.strip() for name, _, value in pairs if value})
    return found


def block(start: str) -> dict[str, str]:
    found = MAIN[MAIN.index(start) :]
    return dict(re.findall(r"--([a-z-]+): (#[0-9a-f]{6});", found[: found.index("}")]))


LIGHT, DARK = block(":root {"), block(':root[data-scheme="dark"] {')
BY_SYSTEM = block(':root:not([data-scheme="light"]) {')
# An ink whose ground is given by the rule of what it stands in.
NESTED = {("danger-ink", "danger-panel"), ("care-ink", "care-panel"), ("ink-soft", "panel")}
GROUNDS = {"paper", "lift", "panel", "danger-panel", "care-panel", "good-panel"}


def used(value: str) -> list[str]:
    return [name for name in re.findall(r"var\(--([a-z-]+)\)", value) if name in LIGHT]


def inks_on_grounds() -> set[tuple[str, str]]:
    """Every ink with each ground it can stand on."""
    found = {("ink", ground) for ground in GROUNDS} | {("accent", "paper"), *NESTED}
    for rule in rules():
        for ink in used(rule.get("color", "")):
            own = used(rule.get("background", "") + rule.get("background-color", ""))
            found |= {(ink, ground) for ground in own or ("paper",)}
    return found


def edges() -> set[str]:
    """Inks that show where a box, a control or the focus is; --line only separates rows."""
    found = set()
    for rule in rules():
        for name, value in rule.items():
            if name.startswith(("border", "outline")):
                found |= set(used(value))
    return found - {"line"}


def contrast(one: str, other: str) -> float:
    first, second = (decode_srgb(*bytes.fromhex(colour[1:])) for colour in (one, other))
    return contrast_ratio(first, second)


@pytest.mark.parametrize("scheme", [LIGHT, DARK], ids=["light", "dark"])
def test_text_stands_out_from_its_ground(scheme: dict[str, str]) -> None:
    pairs = inks_on_grounds()
    assert {("ink", "paper"), ("care-ink", "paper"), ("ink-soft", "paper")} <= pairs
    weak = {pair: contrast(scheme[pair[0]], scheme[pair[1]]) for pair in pairs}
    assert {pair: ratio for pair, ratio in weak.items() if ratio < TEXT} == {}


@pytest.mark.parametrize("scheme", [LIGHT, DARK], ids=["light", "dark"])
def test_edges_and_the_focus_stand_out_from_every_ground(scheme: dict[str, str]) -> None:
    found = {
        (edge, ground): contrast(scheme[edge], scheme[ground])
        for edge in edges()
        for ground in GROUNDS
    }
    assert {"focus", "accent", "ink"} <= edges()
    assert {pair: ratio for pair, ratio in found.items() if ratio < SHAPE} == {}


def test_no_control_is_edged_with_the_line_that_separates_rows() -> None:
    for file in STYLES:
        style = on_screen(file.read_text("utf-8"))
        for selector, inside in re.findall(r"([^{}]+)\{([^{}]*)\}", style):
            if re.search(r"button|input|select|\.lb-scheme", selector):
                assert "var(--line)" not in inside, (file.name, selector)


def test_the_chosen_and_the_systems_dark_scheme_are_one() -> None:
    assert BY_SYSTEM == DARK
    assert set(LIGHT) == set(DARK)


def test_screens_have_no_colour_outside_the_palette() -> None:
    for file in STYLES:
        style = on_screen(file.read_text("utf-8"))
        outside = re.sub(r"--[a-z-]+(: #[0-9a-f]{6};|, #[0-9a-f]{6}\))", "", style)
        assert re.findall(r"#[0-9a-f]{3,8}\b|\brgba?\(|\bhsl", outside) == [], file.name


@pytest.mark.parametrize("scheme", [LIGHT, DARK], ids=["light", "dark"])
def test_the_one_ring_stands_out_in_either_scheme(scheme: dict[str, str]) -> None:
    drawings = (templates_folder() / "theme" / "drawings.css").read_text("utf-8")
    assert ".lb-ring, .lb-slot-ring { stroke: var(--ring); }" in drawings
    for ground in ("paper", "shell", "cave"):
        assert contrast(scheme["ring"], scheme[ground]) >= SHAPE, ground
