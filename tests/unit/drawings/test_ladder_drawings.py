"""The turn-on ladder and the level ladder."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Any
from xml.etree.ElementTree import Element

import pytest
from drawing_samples import (
    LADDER,
    LEVELS,
    drawings_in,
    outside,
    overlapping,
    plan,
    rect_box,
    text_boxes,
    words_in,
)

from builder.rendering.drawings import level_ladder, turn_on_ladder


def rungs(**changed: Any) -> Element:
    return drawings_in(turn_on_ladder(plan(**changed)))[0]


def levels(*checks: Any) -> Element:
    return drawings_in(level_ladder(plan(levels=checks or LEVELS)))[0]


def marks(drawing: Element) -> list[str]:
    classes = [g.get("class", "") for g in drawing.iter("g")]
    return [css.removeprefix("lb-mark lb-mark-") for css in classes if css.startswith("lb-mark")]


def test_each_rung_has_its_verdict_as_word_and_mark() -> None:
    drawing = rungs()
    assert marks(drawing) == ["yes", "absent", "maybe", "no"]
    assert [w for w in words_in(drawing) if w in ("chosen", "absent", "possible", "refused")] == [
        rung.verdict for rung in LADDER
    ]
    assert {"amplifier turn-on output, A.11", "fuse position, F14"} <= set(words_in(drawing))


def test_reasons_are_whole_over_as_many_lines_as_they_need() -> None:
    reason = "no supply of this plug changes with the key and the data pair is never a source " * 2
    said = " ".join(words_in(rungs(ladder=(replace(LADDER[0], because=reason),))))
    assert reason.strip() in said


def test_only_the_chosen_rung_is_thick() -> None:
    widths = [p.get("stroke-width") for p in rungs().iter("path") if p.get("class") == "lb-rung"]
    assert widths == ["4", "1.5", "1.5", "1.5"]


def test_margins_and_volts_are_said() -> None:
    words = words_in(levels())
    assert "8.25 V now (measured), limit 20 V" in words
    assert {"margin +7.7 dB", "margin −3.0 dB"} <= set(words)
    assert marks(levels()) == ["yes", "thin", "no"]


def place_of(drawing: Element, label: str) -> float:
    return next(float(t.get("x", "nan")) for t in drawing.iter("text") if t.text == label)


def bars(drawing: Element) -> list[tuple[float, float]]:
    """Return left and right end of each solid bar."""
    solid = [rect_box(r) for r in drawing.iter("rect") if r.get("class") == "lb-solid"]
    return [(x, x + w) for x, _, w, _ in solid]


def test_bars_end_where_the_scale_says() -> None:
    drawing = levels()
    limit, six = place_of(drawing, "limit"), place_of(drawing, "−6")
    unit_per_db = (limit - six) / 6
    ends = [end for _, end in bars(drawing)]
    assert ends == [
        pytest.approx(limit - 7.7 * unit_per_db, abs=0.2),
        pytest.approx(limit - 0.8 * unit_per_db, abs=0.2),
        pytest.approx(limit, abs=0.2),  # what passes the limit is hatched instead
    ]
    over = [rect_box(r) for r in drawing.iter("rect") if r.get("class") == "lb-over"]
    assert len(over) == 1
    assert over[0][0] + over[0][2] == pytest.approx(limit + 3 * unit_per_db, abs=0.2)


def test_square_wave_stands_at_its_own_level() -> None:
    drawing = levels(replace(LEVELS[0], square_wave_v=20.0))
    dashed = next(p for p in drawing.iter("path") if p.get("class") == "lb-square")
    assert dashed.get("d", "").startswith(f"M{place_of(drawing, 'limit'):.1f}".removesuffix(".0"))


@pytest.mark.parametrize(
    "margin", [-40.0, -13.0, 0.0, 13.0, 31.0, 59.0, 200.0, math.inf, -math.inf]
)
def test_scale_is_wide_enough_for_any_margin(margin: float) -> None:
    drawing = levels(replace(LEVELS[0], converter_margin_db=margin))
    assert "limit" in words_in(drawing)
    assert overlapping(text_boxes(drawing)) == []
    ends = [("bar", (x, 0.0, right - x, 1.0)) for x, right in bars(drawing)]
    assert outside(drawing, text_boxes(drawing) + ends) == []


def test_no_words_collide_or_leave_the_drawing() -> None:
    long = replace(LADDER[0], kind="signal_wake", where="pair front-right-woofer " * 3)
    named = replace(LEVELS[1], channel="rear-right-tweeter", source_v_rms=12.345, verdict="over")
    for drawing in (rungs(), rungs(ladder=(long, *LADDER)), levels(), levels(named, named)):
        assert overlapping(text_boxes(drawing)) == []
        assert outside(drawing, text_boxes(drawing)) == []


def test_nothing_to_show_shows_nothing() -> None:
    assert turn_on_ladder(plan(ladder=())) == ""
    assert level_ladder(plan(levels=())) == ""
