"""Numbers at the ends of what their schema allows: the planner takes what the schema takes.

The short form of tests/long/extreme_values.py, which tries every number of every shipped record.
"""

from __future__ import annotations

import json
import random
import sys
from pathlib import Path
from typing import Any

import pytest
from record_bench import Bench

sys.path.append(str(Path(__file__).resolve().parents[1] / "long"))
import extreme_values


@pytest.fixture(scope="module")
def bench(tmp_path_factory: pytest.TempPathFactory) -> Bench:
    return Bench(tmp_path_factory.mktemp("extremes"))


FOUND: list[tuple[str, tuple[Any, ...], float]] = [
    ("jobs/rook-two-amplifiers", ("supply", "supply_lead_m"), 0),
    ("jobs/cutter-fronts", ("speakers", 0, "lead", "length_m"), 0),
    ("jobs/tansy-subwoofer", ("supply", "parked_ma"), 5e-324),
    ("cables/twin-16", ("on_reel_m",), 0),
    ("converters/cvn-6s", ("input", "max_v_rms"), 5e-324),
    ("converters/cvn-4a", ("remote_out", "max_ma"), 5e-324),
]


@pytest.mark.parametrize(("record", "path", "value"), FOUND, ids=str)
def test_what_once_ended_in_a_traceback(
    bench: Bench, record: str, path: tuple[Any, ...], value: float
) -> None:
    file = next(f for f in bench.files if f.path.as_posix().endswith(f"{record}.yaml"))
    outcome = bench.try_text(file, extreme_values.changed(bench.data[file.path], path, value))
    assert outcome.fault == ""


DEFAULTS = [
    *(("clean_level_v_rms", 0), ("charging_v", 0), ("class_d_efficiency", 0)),
    *(("class_ab_efficiency", 0), ("music_divisor_heavy", 0), ("music_divisor_light", 0)),
    *(("alternator_idle_share", 0), ("amplifier_output_ohm", 0), ("tie_spacing_m", 0)),
    *(("margin_thin_db", 1000), ("hot_conductor_c", 1000)),
]


@pytest.mark.parametrize(("key", "value"), DEFAULTS)
def test_a_default_that_nothing_can_be_divided_by_is_refused(
    bench: Bench, key: str, value: float
) -> None:
    settings = next(f for f in bench.files if f.kind == "book")
    text = json.dumps({"schema": 1, "house_defaults": {key: value}})
    outcome = bench.try_text(settings, text)
    assert outcome.fault == "" and outcome.refused


def test_a_few_of_all_the_extremes(bench: Bench) -> None:
    every = list(extreme_values.every_extreme(bench))
    assert len(every) > 30_000
    assert extreme_values.run(bench, random.Random(1).sample(every, 60)) == []
