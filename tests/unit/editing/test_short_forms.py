"""What a record says in short is written out as it was meant, asked back, or left as it is."""

from __future__ import annotations

import copy
from collections.abc import Iterator
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from said_in_lines import bare, pin_line, plain, reading_line, sayable
from shipped_book import FULL_RECORDS, PINOUTS

from builder.editing.short_forms import written_out
from builder.editing.short_lines import lines_of
from builder.loading import load_file
from builder.schema_check import check_shape
from builder.source_map import Node, Position, SourceMap

NOWHERE = SourceMap(Node(Position(1, 1)))
RECORDS = sorted(PINOUTS.glob("vehicles/*/*.yaml"))
VISITS = sorted(PINOUTS.glob("visits/*/*.yaml"))
SMALL = PINOUTS.parent / "tests" / "records" / "valid" / "vehicle" / "small.yaml"


def data_of(path: Any) -> dict[str, Any]:
    loaded = load_file(path, path.name)
    assert loaded.data is not None
    return loaded.data


@pytest.mark.parametrize("path", RECORDS, ids=lambda path: path.stem)
def test_each_pin_of_a_shipped_car_reads_back_from_a_line(path: Any) -> None:
    whole = data_of(path)
    for plug in whole["plugs"]:
        plug["pins"] = [pin for each in plug["pins"] if sayable(pin := bare(each))]
    short = copy.deepcopy(whole)
    for plug in short["plugs"]:
        plug["pins"] = [pin_line(pin) for pin in plug["pins"]]
    written, told = written_out("vehicle", short)
    assert written == whole
    assert {each.rule_id for each in told} <= {"SCH117"}
    assert len(told) == sum(len(plug["pins"]) for plug in whole["plugs"]) > 0


def test_each_plain_reading_of_the_shipped_cars_reads_back_from_a_line() -> None:
    tried = 0
    for path in VISITS:
        whole = data_of(path)
        for place in whole["places"]:
            place["readings"] = [one for one in place["readings"] if plain(one)]
            tried += len(place["readings"])
        short = copy.deepcopy(whole)
        for place in short["places"]:
            place["readings"] = [reading_line(one) for one in place["readings"]]
        assert written_out("visit", short)[0] == whole
    assert tried > 300


def test_each_plain_reading_of_a_vehicle_reads_back_from_a_line() -> None:
    whole = data_of(FULL_RECORDS / "vehicle.yaml")
    for pin in (pin for plug in whole["plugs"] for pin in plug["pins"]):
        pin["readings"] = [one for one in pin.get("readings", []) if plain(one)]
    short = copy.deepcopy(whole)
    for pin in (pin for plug in short["plugs"] for pin in plug["pins"]):
        pin["readings"] = [reading_line(one) for one in pin["readings"]]
    assert short != whole and written_out("vehicle", short)[0] == whole


def test_a_visit_takes_lines_too_and_need_not_name_itself() -> None:
    whole = data_of(VISITS[0])
    place = whole["places"][0]
    place["readings"] = [one for one in place["readings"] if plain(one)]
    short = copy.deepcopy(whole)
    names = [session["id"] for session in whole["sessions"]]
    assert len(names) == 1
    short["places"][0]["readings"] = [
        reading_line(one).removeprefix(f"{names[0]} ") for one in place["readings"]
    ]
    assert place["readings"] and written_out("visit", short)[0] == whole


# ---- keys that are left out ---------------------------------------------------------------------
def keys_in(value: Any, path: tuple[Any, ...] = ()) -> Iterator[tuple[Any, ...]]:
    items = value.items() if isinstance(value, dict) else enumerate(value)
    for key, inner in items if isinstance(value, dict | list) else ():
        if isinstance(value, dict):
            yield (*path, key)
        if isinstance(inner, dict | list):
            yield from keys_in(inner, (*path, key))


def without(data: Any, path: tuple[Any, ...]) -> Any:
    data = copy.deepcopy(data)
    holder = data
    for step in path[:-1]:
        holder = holder[step]
    del holder[path[-1]]
    return data


def words_in(value: Any) -> set[Any]:
    if isinstance(value, dict):
        return set().union(*map(words_in, value.values()))
    if isinstance(value, list):
        return set().union(*map(words_in, value)) if value else {"[]"}
    return {value}


def test_a_key_that_is_left_out_is_unknown_or_missing_and_never_none() -> None:
    whole = data_of(SMALL)
    filled = set()
    for path in keys_in(whole):
        short = without(whole, path)
        written, told = written_out("vehicle", short)
        if not told:
            assert written == short
            continue
        value = written
        for step in path:
            value = value[step]
        assert words_in(value) == {"unknown"}, path
        assert check_shape("vehicle", written, NOWHERE, "x") == []
        filled.add(path[-1])
    assert {"feed", "hybrid", "restraint_zones", "high_voltage_zones", "safety", "power"} <= filled
    assert {"outputs", "band", "protected_sounds", "read_from", "radios"} <= filled
    assert filled.isdisjoint({"make", "trims", "options_any", "how_to_tell", "plugs", "driven_by"})


def test_a_misspelt_key_is_not_taken_for_one_that_is_left_out() -> None:
    data = data_of(SMALL)
    data["features"]["hybird"] = data["features"].pop("hybrid")
    written, told = written_out("vehicle", data)
    assert (written, told) == (data, ())
    (found,) = check_shape("vehicle", data, NOWHERE, "x")
    assert "hybrid" in found.help


def test_what_is_written_out_leaves_the_given_data_alone() -> None:
    data = data_of(SMALL)
    del data["safety"]
    data["plugs"][0]["pins"][-1] = "5 ground"
    before = copy.deepcopy(data)
    written_out("vehicle", data)
    assert data == before


# ---- lines that nobody can read -----------------------------------------------------------------
WORDS = st.sampled_from(
    [
        *(
            "4",
            "A4",
            "B 4",
            "pin four",
            "acc",
            "fl+",
            "fl",
            "+",
            "bl",
            "gr",
            "br",
            "yel/red",
            "0.75",
        ),
        *("empty", "nothing in it", "?", "only sport", "sport only", "{", "[", ":", "1,5", "awg"),
        *("s1", "asleep", "12", "V", "battery", "minutes", "", "\u00b2", "\U0001d7d8", "0", "999"),
    ]
)
LINES = st.lists(WORDS, min_size=1, max_size=6).map(" ".join) | st.text(max_size=30)


@given(LINES, LINES)
def test_any_line_is_read_or_told_of(pin: str, reading: str) -> None:
    data = data_of(SMALL)
    pins = data["plugs"][0]["pins"]
    pins.append(pin)
    pins[0]["readings"] = [reading]
    written, told = written_out("vehicle", data)
    assert len(told) == bool(pin.strip()) + bool(reading.strip())
    lines = list(lines_of("vehicle", data))
    assert [line.entry is None for line in lines] == [t.rule_id == "SCH116" for t in told]
    faults = check_shape("vehicle", written, NOWHERE, "x")
    read = {line.path for line in lines if line.entry is not None}
    assert not [each for each in faults if any(each.path[: len(p)] == p for p in read)], faults


@pytest.mark.parametrize(
    ("line", "why"),
    [
        ("4 acc bl", "could be black or blue"),
        ("4 acc gr", "could be grey or green"),
        ("4 acc br", "could be brown or another colour"),
        ("4 camera ylw", "could be camera_supply or camera_signal"),
        ("4 fl wht", "which leg of front-left"),
        ("4 frobnicate red", '"frobnicate" is no function'),
        ("B 4 acc red", "names plug B, and stands under A"),
        ("acc red", "is not complete"),
        ("4 empty", "says that a cavity is empty"),
    ],
)
def test_a_line_that_could_mean_more_is_asked_back(line: str, why: str) -> None:
    data = data_of(SMALL)
    data["plugs"][0]["pins"].append(line)
    written, (told,) = written_out("vehicle", data)
    assert written["plugs"][0]["pins"][-1] == line
    assert told.rule_id == "SCH116" and why in told.fault.message
