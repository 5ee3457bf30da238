"""However a record is damaged, a check ends with findings and never with a traceback."""

from __future__ import annotations

import copy
import json
import shutil
import sys
from pathlib import Path
from typing import Any

import pytest
from hostile_book import INERT, KINDS, put
from hypothesis import HealthCheck, example, given, settings
from hypothesis import strategies as st
from shipped_book import FULL_RECORDS, PINOUTS, loombook

from builder.loading import load_text

sys.path.append(str(Path(__file__).resolve().parents[1] / "long"))
import fuzz_records
from record_bench import Bench

SOURCES = {kind: PINOUTS / kind / "TEMPLATE.yaml" for kind in KINDS}
SOURCES["vehicles"] = FULL_RECORDS / "vehicle.yaml"  # the example says little: nobody looked yet
RECORDS: dict[str, Any] = {
    kind: load_text(SOURCES[kind].read_text("utf-8"), kind).data for kind in KINDS
}
_READING = {"state": "run", "quantity": "dc_v", "value": 12.3, "battery_v": 12.4}
RECORDS["visits"]["places"] = [
    {"plug": "A", "cavity": 1, "readings": [{"session": "s1", **_READING}]},
    {"plug": "A", "cavity": 3, "readings": [{"session": "s1", **_READING, "against": 4}]},
    {"panel": "cabin", "fuse_position": "F14", "readings": [{"session": "s1", **_READING}]},
]
RECORDS["visits"]["sessions"][0]["id"] = "s1"
RECORDS["visits"]["turned"] = [{"date": "2024-06-01", "plugs": ["B"]}]
"""The template of a visit measures nothing: no figure is there to copy."""
ODD = st.one_of(
    st.none(),
    st.booleans(),
    st.sampled_from([0, -1, 1e308, -1e-308, 2**63, 10**400, "", " ", "unknown", "none", "all"]),
    st.integers(),
    st.floats(allow_nan=False, allow_infinity=False),
    st.sampled_from(INERT),
    st.text(max_size=12),
    st.just([]),
    st.just({}),
    st.lists(st.integers(), max_size=2),
    st.dictionaries(st.sampled_from(["id", "v", "radio", "x"]), st.integers(), max_size=2),
)


def places(value: Any, path: tuple[Any, ...] = ()) -> list[tuple[Any, ...]]:
    """The place of every value inside `value`."""
    inner = value.items() if isinstance(value, dict) else enumerate(value)
    found = []
    for key, one in inner:
        found.append((*path, key))
        if isinstance(one, (dict, list)):
            found += places(one, (*path, key))
    return found


def at(value: Any, path: tuple[Any, ...]) -> Any:
    for key in path:
        value = value[key]
    return value


@st.composite
def damaged(draw: st.DrawFn) -> tuple[str, Any]:
    """A record with one to three of its values replaced, moved, doubled or taken out."""
    kind = draw(st.sampled_from(["vehicles", "vehicles", "jobs", *KINDS]))
    record = copy.deepcopy(RECORDS[kind])
    for _ in range(draw(st.integers(1, 3))):
        place = draw(st.sampled_from(places(record)))
        how = draw(st.sampled_from(["replace", "replace", "copy", "double", "drop"]))
        parent = at(record, place[:-1])
        if how == "replace":
            put(record, place, draw(ODD))
        elif how == "copy":
            put(record, place, copy.deepcopy(at(record, draw(st.sampled_from(places(record))))))
        elif how == "double" and isinstance(parent, list):
            parent.append(copy.deepcopy(at(record, place)))
        else:
            del parent[place[-1]]
    return kind, record


@pytest.fixture(scope="module")
def book(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("fuzzed")
    for kind in KINDS:
        file = file_of(folder, kind)
        file.parent.mkdir(parents=True)
        shutil.copy(SOURCES[kind], file)
    file_of(folder, "visits").write_text(json.dumps(RECORDS["visits"]), "utf-8")
    return folder


def file_of(book: Path, kind: str) -> Path:
    record = RECORDS[kind]
    folder = book / kind / record["vehicle"] if kind == "visits" else book / kind
    return folder / f"{record['id']}.yaml"


def test_the_undamaged_book_passes(book: Path) -> None:
    done = loombook("check", book)
    assert done.exit_code == 0, done.output


@given(damaged())
@example(("converters", RECORDS["converters"] | {"inputs": 2.0}))
@settings(
    max_examples=150,
    deadline=None,
    suppress_health_check=[HealthCheck.too_slow, HealthCheck.function_scoped_fixture],
)
def test_a_damaged_record_ends_in_findings(book: Path, found: tuple[str, Any]) -> None:
    kind, record = found
    file = file_of(book, kind)
    before = file.read_text("utf-8")
    try:
        file.write_text(json.dumps(record), "utf-8")
        done = loombook("check", book)
    finally:
        file.write_text(before, "utf-8")
    assert done.exception is None or isinstance(done.exception, SystemExit), done.exception
    assert done.exit_code in (0, 1)
    assert "Traceback" not in done.output and "BOK106" not in done.output


FOUND = {
    ("amplifiers", "amn-600"): {("supply", "fuse_a"): 0.06, ("turn_on", "draw_ma"): 0},
    ("cables", "five-core-18"): {("on_reel_m",): 0},
}


@pytest.mark.parametrize("part", FOUND, ids=lambda part: part[1])
def test_what_the_full_run_once_found_stays_mended(tmp_path: Path, part: tuple[str, str]) -> None:
    """An input of 0 mA to hold up over a restart; an empty reel."""
    bench = Bench(tmp_path)
    shelf, name = part
    (file,) = (one for one in bench.files if one.shown.endswith(f"/{shelf}/{name}.yaml"))
    record = copy.deepcopy(bench.data[file.path])
    for place, value in FOUND[part].items():
        assert at(record, place) != value
        put(record, place, value)
    outcome = bench.try_text(file, json.dumps(record))
    assert not outcome.fault and not outcome.refused


def test_seeded_damage_of_shipped_records_ends_in_findings(tmp_path: Path) -> None:
    """The short form of tests/long/fuzz_records.py: other seeds than those of its full run."""
    faults, counts = fuzz_records.run(Bench(tmp_path), range(1_000_001, 1_000_041))
    assert not faults and counts["judged and planned"] > 3
