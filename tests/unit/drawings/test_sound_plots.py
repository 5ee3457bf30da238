"""The page about a recording: each curve in grey and as a table, and nothing made up."""

from __future__ import annotations

import re
from xml.etree import ElementTree

import pytest

from builder.rendering.drawings.line_plot import Axis, Curve, line_plot
from builder.rendering.drawings.sound_plots import sound_plots
from builder.rendering.sound_page import sound_page
from builder.sound.delay import refused_relation
from builder.sound.levels import StepLevels
from builder.sound.pairs import PairsFacts
from builder.sound.reading import PairFacts, SoundFacts
from builder.sound.results import Measured, Refused

NO = Refused("for a test")
SHAPE = ((50.0, Measured(-3.0, 0.1)), (500.0, NO), (5000.0, Measured(0.4, 0.1)))


def pair(channel):
    steps = tuple(StepLevels(n, 40.0, NO, NO, NO, Measured(0.004 * n, 0.0)) for n in (1, 2))
    bass = ((1, Measured(6.0, 0.1)), (2, NO))
    return PairFacts(channel, NO, None, NO, NO, NO, NO, SHAPE, bass, steps, NO, "left", NO, (), "")


TWO = PairsFacts(1, 2, "alike", refused_relation("for a test"), (), NO, SHAPE, NO, SHAPE)
FACTS = SoundFacts(Measured(12.0, 0.02), (pair(1), pair(2)), (TWO,), ())


def test_each_plot_has_its_numbers_as_a_table_and_refusals_as_words():
    plots = list(sound_plots(FACTS))
    response, bass, distortion, joined, late = plots
    assert late.heads == ("Hz", "channel 2 against 1") and late.rows[0] == ("50", "-3.00")
    assert response.heads == ("Hz", "channel 1", "channel 2")
    assert response.rows == (
        ("50", "-3.0", "-3.0"), ("500", "not said", "not said"), ("5000", "0.4", "0.4"),
    )  # fmt: skip
    assert bass.rows == (("1", "6.0", "6.0"), ("2", "not said", "not said"))
    assert distortion.rows == (("1", "0.4", "0.4"), ("2", "0.8", "0.8"))
    assert joined.heads == ("Hz", "channels 1 and 2")


def test_one_pair_alone_has_no_plot_of_a_sum():
    assert len(list(sound_plots(SoundFacts(Measured(0, 0.1), (pair(1),), (), ())))) == 3


def paths(drawing):
    found = ElementTree.fromstring(str(drawing))
    return [each for each in found.iter("path") if each.get("class") == "lb-curve"]


def test_curves_are_told_apart_by_their_dashes_in_legend_and_plot():
    drawing = next(iter(sound_plots(FACTS))).drawing
    dashes = [each.get("stroke-dasharray") for each in paths(drawing)]
    assert dashes == [None, "7 3", None, None, "7 3", "7 3"]  # a gap makes two pieces of each


@pytest.mark.parametrize(("hz", "share"), [(20, 0), (200, 1 / 3), (20_000, 1), (5, 0), (90_000, 1)])
def test_an_axis_by_ratios_has_equal_steps_for_equal_ratios(hz, share):
    axis = Axis("Hz", 20, 20_000, (), by_ratio=True)
    assert axis.share(hz) == pytest.approx(share)


def test_what_is_too_high_stays_at_the_edge_and_what_is_too_low_is_left_out():
    up, across = Axis("dB", -10, 10, ()), Axis("step", 0, 3, ())
    points = ((0.0, -9.0), (1.0, 99.0), (2.0, -11.0), (3.0, None))
    drawing = line_plot([Curve("<one>", points)], across, up, "k", "t", "d")
    (_, curve) = paths(drawing)
    heights = [float(y) for y in re.findall(r" ([\d.]+)", curve.get("d"))]
    assert len(heights) == 2 and heights[0] - heights[1] == pytest.approx(0.95 * 120)
    assert "&lt;one&gt;" in drawing


def test_a_curve_of_which_nothing_is_known_is_named_and_not_drawn():
    flat = Axis("dB", 0, 1, ())
    drawing = line_plot([Curve("one", ((0.0, None),))], flat, flat, "k", "t", "d")
    assert len(paths(drawing)) == 1 and "one: not said" in drawing


def test_the_page_holds_all_of_it_and_needs_nothing_else():
    page = sound_page(FACTS, "a <b>.wav", ["channel 1 & 2"])
    assert page.count("<svg") == 5 and page.count("<table>") == 5
    assert "a &lt;b&gt;.wav" in page and "channel 1 &amp; 2" in page
    assert not re.search(r"(?:src|href)=", page)


def test_the_page_itself_says_how_each_of_its_shapes_is_drawn():
    page = sound_page(FACTS, "a.wav", [])
    style = page[page.index("<style>") : page.index("</style>")]
    shapes = re.findall(r'<(?:path|rect|line)\b[^>]*class="([^"]*)"', page)
    unsaid = [each for each in shapes if not re.search(rf"\.({'|'.join(each.split())})\b", style)]
    assert {"lb-curve", "lb-grid"} <= set(shapes) and unsaid == []
