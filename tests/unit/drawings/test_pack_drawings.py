"""The drawings of a work pack: gains, supply, cables across, labels."""

from __future__ import annotations

import math
import re
from dataclasses import replace
from typing import Any
from xml.etree.ElementTree import Element

import pytest
from drawing_samples import drawings_in, outside, overlapping, rect_box, text_boxes, words_in
from markupsafe import Markup
from pack_samples import (
    BRANCHED,
    RUNGS,
    chain,
    gain,
    labels,
    power,
    run,
    sample_pack,
)

from builder.planning.sheet_rows import ConductorRow, Label
from builder.planning.work_pack import WorkPack
from builder.rendering.drawings import gain_ladder, jacket_section, label_strip, power_tree

LONG = "the long name of a very long thing that nobody would want to read " * 4
HOSTILE = "</title></svg><script>alert(1)</script>\" onload='x'"


@pytest.fixture(scope="module")
def pack() -> WorkPack:
    return sample_pack()


def only(markup: Markup) -> Element:
    (drawing,) = drawings_in(markup)
    return drawing


def assert_laid_out(*drawings: Element) -> None:
    for drawing in drawings:
        boxes = text_boxes(drawing)
        assert overlapping(boxes) == []
        assert outside(drawing, boxes) == []


# -- gains ----------------------------------------------------------------------------------


def rungs_of(pack: WorkPack, **changed: Any) -> WorkPack:
    """The pack with one speaker, its chain and rungs changed."""
    rungs = changed.pop("rungs", RUNGS)
    one = chain("left door", "front-left", **changed)
    return replace(
        pack, levels=(one,), gains=(replace(gain(1, "left door", "front-left"), rungs=rungs),)
    )


def test_speakers_with_equal_figures_share_a_drawing(pack: WorkPack) -> None:
    assert len(drawings_in(gain_ladder(pack))) == 1
    louder = (replace(pack.levels[0], set_v_rms=17.9), *pack.levels[1:])
    assert len(drawings_in(gain_ladder(replace(pack, levels=louder)))) == 2
    said = " ".join(words_in(only(gain_ladder(pack))))
    for level in pack.levels:
        assert level.speaker in said


def test_every_rung_says_volts_limit_and_margin(pack: WorkPack) -> None:
    said = " ".join(words_in(only(gain_ladder(rungs_of(pack)))))
    assert "radio, loudest clean 8.94 V" in said
    assert "converter input 8.94 V takes 20 V, +7.0 dB" in said
    assert "converter output 3.6 V can give 5 V, +2.9 dB" in said
    assert "amplifier input 3.6 V takes 0.25 to 4 V, +0.9 dB" in said
    assert "speaker 14.1 V can give 15.4 V, +0.8 dB" in said
    assert "gain 0.402 of 0.05 to 1" in said
    assert "Play 1 kHz at full scale (0 dBFS), read 14.1 V" in said


def place_of(drawing: Element, label: str) -> tuple[float, str]:
    found = next(t for t in drawing.iter("text") if t.text == label)
    return float(found.get("x", "nan")), found.get("text-anchor", "start")


def bars_of(drawing: Element) -> list[tuple[float, float, float, float]]:
    return [rect_box(r) for r in drawing.iter("rect") if r.get("class") == "lb-solid"]


def test_a_limit_inside_a_bar_stands_in_a_gap_of_it(pack: WorkPack) -> None:
    drawing = only(gain_ladder(rungs_of(pack)))
    ticks = [p.get("d", "") for p in drawing.iter("path") if p.get("class") == "lb-limit"]
    at = [tuple(map(float, re.findall(r"[\d.]+", d)[:2])) for d in ticks]
    assert at
    for x, top in at:
        mine = [box for box in bars_of(drawing) if top < box[1] < top + 17]
        assert [box for box in mine if box[0] - 2 < x < box[0] + box[2] + 2] == []
    assert len({y for _, y, _, _ in bars_of(drawing)}) < len(bars_of(drawing))


def test_bars_and_limits_stand_on_one_logarithmic_scale(pack: WorkPack) -> None:
    drawing = only(gain_ladder(rungs_of(pack)))
    low, high = place_of(drawing, "0.1 V")[0], place_of(drawing, "100 V")[0]
    one, ten = place_of(drawing, "1 V")[0], place_of(drawing, "10 V")[0]
    decade = ten - one
    assert (high - low) / 3 == pytest.approx(decade, abs=0.2)
    ends = {y: x + w for x, y, w, _ in sorted(bars_of(drawing))}
    volts = [8.94, 8.94, 3.6, 3.6, 14.14]
    assert [ends[y] for y in sorted(ends)] == [
        pytest.approx(one + decade * math.log10(v), abs=0.2) for v in volts
    ]
    ticks = [p.get("d", "") for p in drawing.iter("path") if p.get("class") == "lb-limit"]
    at = {float(re.findall(r"[\d.]+", d)[0]) for d in ticks}
    for limit in (12.9, 20.0, 5.0, 4.0, 0.25, 15.49):
        assert any(abs(x - (one + decade * math.log10(limit))) < 0.2 for x in at), limit


def test_sums_pads_and_fixed_gains_are_said(pack: WorkPack) -> None:
    fixed = {"converter_gain": 0.2, "gain_min": 0.2, "gain_max": 0.2}
    changed = rungs_of(pack, sources_summed=2, pad_ohm_per_leg=4700.0, **fixed)
    said = " ".join(words_in(only(gain_ladder(changed))))
    assert "2 sources summed, fixed gain 0.2" in said
    assert "pad: 4.7 kΩ in each leg" in said


def test_a_chain_that_was_not_worked_out_shows_what_there_is(pack: WorkPack) -> None:
    open_chain = chain("sub", "sub", converter_target_v_rms=None, converter_gain=None)
    drawing = only(gain_ladder(replace(pack, levels=(open_chain,), gains=())))
    said = " ".join(words_in(drawing))
    assert "converter input 8.94 V takes 20 V, +7.0 dB" in said
    assert "amplifier input" not in said
    assert_laid_out(drawing)


@pytest.mark.parametrize("volts", [0.02, 0.1, 9.99, 10.0, 63.2, 1000.0])
def test_words_of_a_gain_ladder_never_collide(pack: WorkPack, volts: float) -> None:
    loud = tuple(replace(rung, v_rms=volts, max_v_rms=volts * 2) for rung in RUNGS)
    for changed in (rungs_of(pack, rungs=loud), rungs_of(pack, tone_note=LONG, limited_by=LONG)):
        assert_laid_out(only(gain_ladder(changed)))
    assert_laid_out(*drawings_in(gain_ladder(pack)))


# -- supply ---------------------------------------------------------------------------------


def fuses(drawing: Element) -> int:
    return sum(r.get("class") == "lb-fuse" for r in drawing.iter("rect"))


def test_the_tree_has_the_main_fuse_and_one_fuse_a_branch(pack: WorkPack) -> None:
    assert fuses(only(power_tree(pack))) == 1
    branched = replace(pack, power=power(*BRANCHED, main_fuse_a=175.0))
    drawing = only(power_tree(branched))
    assert fuses(drawing) == 3
    said = " ".join(words_in(drawing))
    assert "main fuse 175 A, maxi" in said
    assert branched.power is not None and branched.power.main_fuse_at in said
    assert "distribution block" in said
    for supply in BRANCHED:
        assert f"{supply.conductor}, {supply.length_m:g} m out and back" in said
        assert f"{supply.cumulative_drop_v:.3f} V from the battery" in said


def test_the_amplifiers_are_named_and_each_has_a_ground(pack: WorkPack) -> None:
    drawing = only(power_tree(replace(pack, power=power(*BRANCHED))))
    said = words_in(drawing)
    assert {"sub", "doors", "battery"} <= set(said)
    assert sum(p.get("class") == "lb-body" for p in drawing.iter("path")) == 1
    assert "doors" in words_in(only(power_tree(pack)))


def test_each_branch_has_a_conductor_and_a_fuse_of_its_own_at_the_block(pack: WorkPack) -> None:
    drawing = only(power_tree(replace(pack, power=power(*BRANCHED))))
    block = next(rect_box(r) for r in drawing.iter("rect") if rect_box(r)[3] == 26)
    lower = [
        (rect_box(r)[0] + rect_box(r)[2] / 2, rect_box(r)[1])
        for r in drawing.iter("rect")
        if r.get("class") == "lb-fuse" and rect_box(r)[1] > block[1]
    ]
    down = [p.get("d", "") for p in drawing.iter("path") if "V" in p.get("d", "")]
    runs = [tuple(map(float, re.findall(r"[\d.]+", d))) for d in down if d.endswith("H110")]
    assert len(lower) == len(runs) == len(BRANCHED) - 1
    for x, top, _, _ in runs:
        assert top == block[1] + block[3]
        assert [fx for fx, fy in lower if abs(fx - x) < 0.1 and top < fy < top + 20]
    rightmost_first = [x for x, _, _, _ in sorted(runs, key=lambda run: run[2])]
    assert rightmost_first == sorted(rightmost_first, reverse=True)


def test_a_main_fuse_that_no_size_fits_is_crossed(pack: WorkPack) -> None:
    drawing = only(power_tree(replace(pack, power=power(main_fuse_a=None))))
    assert "main fuse: no standard size fits" in words_in(drawing)
    assert any("lb-mark-no" in g.get("class", "") for g in drawing.iter("g"))


def test_words_of_a_supply_never_collide(pack: WorkPack) -> None:
    long = tuple(replace(one, name=f"branch to {LONG}", conductor=LONG) for one in BRANCHED)
    for runs in ((), BRANCHED, long, (*BRANCHED, *BRANCHED[1:] * 4)):
        tree = power(*runs, fuse_family=LONG if runs is long else "maxi")
        drawing = only(power_tree(replace(pack, power=tree)))
        assert_laid_out(drawing)
        boxes = [("box", rect_box(r)) for r in drawing.iter("rect")]
        assert outside(drawing, boxes) == []


def test_no_supply_draws_nothing(pack: WorkPack) -> None:
    assert power_tree(replace(pack, power=None)) == ""
    assert power_tree(replace(pack, power=replace(power(), runs=()))) == ""
    assert gain_ladder(replace(pack, levels=())) == ""
    assert jacket_section(()) == ""
    assert label_strip(()) == ""


# -- cables ---------------------------------------------------------------------------------


def conductor(at: int, **changed: Any) -> ConductorRow:
    given: dict[str, Any] = {
        "jacket": 1,
        "cable": "c",
        "place": f"pair {(at + 1) // 2} {'positive' if at % 2 else 'negative'}",
        "wire": "brown/black",
        "purpose": f"purpose {at}",
        "demand_class": "signal",
        "from_end": "radio",
        "to_end": "converter",
        "piece": "cable 1",
        "from_joint": "A.1",
        "to_joint": "in 1 +",
    }
    return ConductorRow(**(given | changed))


SPARE = {"demand_class": "spare", "purpose": "spare: insulate at both ends"}


def circles(drawing: Element, css: str) -> list[tuple[float, float, float]]:
    found = [c for c in drawing.iter("circle") if c.get("class") == css]
    return [(float(c.get("cx", 0)), float(c.get("cy", 0)), float(c.get("r", 0))) for c in found]


def test_every_conductor_is_drawn_named_and_numbered_once(pack: WorkPack) -> None:
    rows = [row for row in pack.conductors if row.jacket == 1]
    drawing = only(jacket_section(rows, "5C cable", "cut 4.6 m"))
    said = words_in(drawing)
    for at, row in enumerate(rows, 1):
        assert said.count(str(at)) == 2  # in the section and in the list
        assert said.count(row.wire) == 1
        assert row.purpose in " ".join(said)
    assert {"cut 4.6 m", "5C cable: radio to doors"} <= set(said)
    assert len(circles(drawing, "lb-core")) == len(rows)


def test_a_spare_is_told_from_a_used_one_without_colour() -> None:
    rows = [conductor(1), conductor(2), conductor(3, **SPARE)]
    drawing = only(jacket_section(rows))
    assert len(circles(drawing, "lb-core")) == 2
    assert len(circles(drawing, "lb-spare")) == 1
    spare = next(c for c in drawing.iter("circle") if c.get("class") == "lb-spare")
    assert spare.get("fill") == "none"
    assert spare.get("stroke-dasharray")
    assert "spare: insulate at both ends" in " ".join(words_in(drawing))


def test_only_whole_pairs_are_tied_together() -> None:
    drawing = only(jacket_section([conductor(1), conductor(2), conductor(3, place="single 1")]))
    assert sum(p.get("class") == "lb-pair-tie" for p in drawing.iter("path")) == 1


@pytest.mark.parametrize("count", [1, 2, 3, 5, 7, 9, 12, 18])
def test_conductors_lie_in_the_jacket_and_beside_each_other(count: int) -> None:
    drawing = only(jacket_section([conductor(at) for at in range(1, count + 1)]))
    ((jx, jy, jr),) = circles(drawing, "lb-jacket")
    cores = circles(drawing, "lb-core")
    assert len(cores) == count
    for at, (x, y, r) in enumerate(cores):
        assert math.hypot(x - jx, y - jy) + r < jr
        for other_x, other_y, other_r in cores[at + 1 :]:
            assert math.hypot(x - other_x, y - other_y) > r + other_r - 0.2
    assert_laid_out(drawing)


def test_long_words_of_a_jacket_wrap_and_stay_whole() -> None:
    purpose = "front left woofer and tweeter together, to the converter, positive"
    drawing = only(jacket_section([conductor(1, purpose=purpose), conductor(2, **SPARE)], LONG))
    assert purpose in " ".join(words_in(drawing))
    assert_laid_out(drawing)


# -- labels ---------------------------------------------------------------------------------


@pytest.mark.parametrize("bands", [1, 2, 5, 9, 24])
def test_as_many_bands_are_drawn_as_the_hand_shall_feel(bands: int) -> None:
    label = Label("cable 1", "mid-way", "cable 1, signal: from radio, to doors", bands)
    drawing = only(label_strip([label]))
    solid = [rect_box(r) for r in drawing.iter("rect") if r.get("class") == "lb-solid"]
    assert len(solid) == bands
    assert len({x for x, _, _, _ in solid}) == bands
    cable = next(rect_box(r) for r in drawing.iter("rect") if r.get("class") == "lb-cable")
    assert all(cable[0] <= x and x + w <= cable[0] + cable[2] for x, _, w, _ in solid)
    assert_laid_out(drawing)


def test_a_jackets_labels_are_strips_to_cut_out() -> None:
    mine = [label for label in labels() if label.jacket == "cable 3"]
    drawing = only(label_strip(mine))
    cut = [rect_box(r) for r in drawing.iter("rect") if r.get("class") == "lb-cut"]
    assert len(cut) == len(mine) == 3
    assert overlapping([("strip", box) for box in cut]) == []
    said = " ".join(words_in(drawing))
    for label in mine:
        assert label.text in said
        assert label.end in said
    assert_laid_out(drawing, only(label_strip([replace(mine[0], text=LONG, end=LONG)])))


# -- all ------------------------------------------------------------------------------------


def everything(pack: WorkPack, word: str) -> Markup:
    whole = rungs_of(pack, tone_note=word, limited_by=word)
    whole = replace(whole, levels=(replace(whole.levels[0], speaker=word),), job=word)
    whole = replace(whole, power=power(run(word, conductor=word), fuse_family=word))
    rows = [conductor(1, wire=word, purpose=word, cable=word, from_end=word)]
    strip = label_strip([Label(word, word, word, 2)])
    return Markup("").join([gain_ladder(whole), power_tree(whole), jacket_section(rows), strip])


def test_records_stay_text_and_every_drawing_is_titled(pack: WorkPack) -> None:
    tame = [element for d in drawings_in(everything(pack, "x")) for element in d.iter()]
    tags, names = {one.tag for one in tame}, {name for one in tame for name in one.attrib}
    assert not names & {"style", "href", "onload"}
    for drawing in drawings_in(everything(pack, HOSTILE)):
        assert {element.tag for element in drawing.iter()} <= tags
        assert {name for element in drawing.iter() for name in element.attrib} <= names
        title, desc = drawing.find("title"), drawing.find("desc")
        assert title is not None and title.text
        assert desc is not None and desc.text
        assert drawing.get("aria-labelledby") == f"{title.get('id')} {desc.get('id')}"


def test_drawings_of_one_page_have_ids_of_their_own(pack: WorkPack) -> None:
    shown = Markup("").join(
        [
            gain_ladder(pack),
            power_tree(pack),
            *(jacket_section([r for r in pack.conductors if r.jacket == at]) for at in range(1, 5)),
            *(label_strip([x for x in labels() if x.jacket == f"cable {at}"]) for at in (1, 2)),
        ]
    )
    ids = re.findall(r'\sid="([^"]*)"', shown)
    assert len(ids) == len(set(ids)) > 10


def test_the_name_of_an_output_without_a_limit_beside_it_is_written_in_full_size(
    pack: WorkPack,
) -> None:
    behind = tuple(
        replace(each, driven_by="amplifier", square_wave_v=None) for each in pack.plan.levels
    )
    moved = replace(pack, plan=replace(pack.plan, levels=behind))
    drawn = str(gain_ladder(rungs_of(moved)))
    (size,) = set(
        re.findall(r'<text[^>]*font-size="([\d.]+)"[^>]*>factory amplifier, loudest', drawn)
    )
    assert float(size) == 12
