"""Pads, listening inputs and speaker leads as circuits."""

from __future__ import annotations

from collections.abc import Callable
from math import log10

import pytest

from builder.model.house_defaults import HouseDefaults
from builder.planning.cables.speaker_leads import LeadDemand, judge_lead, lead_ohm
from builder.planning.feeds.parallel_tap import loaded_ohm
from builder.planning.levels.level_pad import pad_resistor_ohm
from builder.planning.levels.line_gain import pad_ratio
from builder.planning.levels.speaker_loads import side_by_side_ohm
from builder.planning.power.conductors import awg

HOUSE = HouseDefaults()
CLOSE = 0.005
Measure = Callable[[str], dict[str, float]]


@pytest.mark.parametrize(
    ("source", "limit", "input_ohm"),
    [(24.5, 20, 10_000), (20, 20, 10_000), (12, 10, 100), (28, 20, 47_000)],
)
def test_pad_and_input(simulate: Measure, source: float, limit: float, input_ohm: float) -> None:
    pad = pad_resistor_ohm(source, limit, input_ohm, 3.0)
    found = simulate(
        f"V1 p n {source}\nRp p ip {pad}\nRin ip in {input_ohm}\nRn n in {pad}\nRref n 0 1k\n"
        ".control\nop\nlet seen = v(ip)-v(in)\nprint seen\n.endc"
    )
    assert source * pad_ratio(input_ohm, pad) == pytest.approx(found["seen"], rel=CLOSE)
    assert 20 * log10(limit / found["seen"]) >= 3


@pytest.mark.parametrize(("speaker", "tap"), [(4.0, 100.0), (4.0, 10_000.0), (2.0, 47.0)])
def test_parallel_tap(simulate: Measure, speaker: float, tap: float) -> None:
    found = simulate(
        f"V1 out 0 8\nRs out 0 {speaker}\nRt out 0 {tap}\n"
        ".control\nop\nlet ohm = -8/i(v1)\nprint ohm\n.endc"
    )
    assert loaded_ohm(speaker, tap) == pytest.approx(found["ohm"], rel=CLOSE)
    assert side_by_side_ohm([speaker, tap]) == pytest.approx(found["ohm"], rel=CLOSE)


@pytest.mark.parametrize(
    ("size", "length", "speaker", "existing_m"),
    [("18", 4.6, 4.0, 4.5), ("16", 4.0, 4.0, 0.0), ("10", 1.0, 1.0, 0.0)],
)
def test_speaker_lead(
    simulate: Measure, size: str, length: float, speaker: float, existing_m: float
) -> None:
    existing = lead_ohm(existing_m, awg("20"), HOUSE) if existing_m else 0.0
    lead = judge_lead(LeadDemand(speaker, 100, length, "door", existing), awg(size), HOUSE)
    one_way = length * 1e-3 * {"18": 20.9482, "16": 13.1745, "10": 3.2771}[size]
    found = simulate(
        f"V1 a 0 10\nRp a b {one_way}\nRe b c {existing or 1e-9}\nRs c d {speaker}\n"
        f"Rn d 0 {one_way}\n.control\nop\nlet seen = v(c)-v(d)\nprint seen\n.endc"
    )
    assert lead.whole_loss_db == pytest.approx(20 * log10(found["seen"] / 10), abs=0.005)


@pytest.mark.parametrize(("size", "length", "speaker"), [("10", 1.0, 1.0), ("16", 4.0, 4.0)])
def test_damping(simulate: Measure, size: str, length: float, speaker: float) -> None:
    # What the cone pushes back meets lead and amplifier in a row: 1 A into them reads their ohms.
    lead = judge_lead(LeadDemand(speaker, 100, length, "door"), awg(size), HOUSE)
    found = simulate(
        f"I1 0 cone 1\nRw cone amp {lead.wire_ohm}\nRo amp 0 {HOUSE.amplifier_output_ohm}\n"
        ".control\nop\nprint v(cone)\n.endc"
    )
    assert lead.damping == pytest.approx(speaker / found["v(cone)"], rel=CLOSE)
