"""One fault is one finding, whatever is broken; nothing a record holds raises an error."""

from __future__ import annotations

import copy
import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from builder.findings import Severity
from builder.loading import load_text
from builder.model.vehicle import Vehicle
from builder.parsing.vehicle import parse_vehicle
from builder.rules.danger_not_known import dangers
from builder.schema_check import CATALOGUE, KINDS, check_shape
from builder.schema_check.schemas import validator
from builder.schema_check.violations import MOST_VIOLATIONS, find_violations
from builder.schema_check.yaml_words import listed, quoted, typed
from builder.source_map import Node, Position, SourceMap
from builder.speller import nearest

RECORDS = Path(__file__).parents[2] / "records"
NOWHERE = SourceMap(Node(Position(1, 1)))
ODD_SCALARS: tuple[Any, ...] = (None, True, -1, 0, 2.5, 1e12, "", " ", "zzz", "A b\n", "unknown")


def small(kind: str) -> Any:
    return load_text((RECORDS / "valid" / kind / "small.yaml").read_bytes(), "small.yaml").data


def leaves(data: Any, at: tuple[Any, ...] = ()) -> Iterator[tuple[Any, ...]]:
    if isinstance(data, dict | list):
        for step, value in data.items() if isinstance(data, dict) else enumerate(data):
            yield from leaves(value, (*at, step))
    else:
        yield at


def parent(data: Any, path: tuple[Any, ...]) -> Any:
    for step in path[:-1]:
        data = data[step]
    return data


@pytest.mark.parametrize("kind", KINDS)
def test_one_odd_value_is_at_most_one_finding(kind: str) -> None:
    data = small(kind)
    refused = 0
    for path in leaves(data):
        for value in ODD_SCALARS:
            changed = copy.deepcopy(data)
            parent(changed, path)[path[-1]] = value
            findings = check_shape(kind, changed, NOWHERE, "x.yaml")
            assert len(findings) == (not validator(kind).is_valid(changed)), (path, value, findings)
            refused += len(findings)
    assert refused > 0


@pytest.mark.parametrize("kind", KINDS)
def test_one_key_left_out_is_at_most_one_finding(kind: str) -> None:
    data = small(kind)
    for path in leaves(data):
        if isinstance(path[-1], str):
            changed = copy.deepcopy(data)
            del parent(changed, path)[path[-1]]
            findings = check_shape(kind, changed, NOWHERE, "x.yaml")
            assert len(findings) == (not validator(kind).is_valid(changed)), (path, findings)


@pytest.mark.parametrize("kind", KINDS)
def test_one_misspelled_key_is_one_finding_that_names_it(kind: str) -> None:
    data = small(kind)
    for path in leaves(data):
        key = path[-1]
        if isinstance(key, str) and len(key) > 3:
            changed = copy.deepcopy(data)
            holder = parent(changed, path)
            holder[key[0] + key[2:]] = holder.pop(key)
            (finding,) = check_shape(kind, changed, NOWHERE, "x.yaml")
            assert finding.rule_id == "SCH101"
            assert f'did you mean "{key}"?' == finding.help


@pytest.mark.parametrize("kind", KINDS)
@pytest.mark.parametrize("value", [None, 7, "text", [], ["a"], {}, {"zzz": {"zzz": [None]}}])
def test_anything_gives_findings_and_no_error(kind: str, value: Any) -> None:
    findings = check_shape(kind, value, NOWHERE, "x.yaml")
    assert bool(findings) == (not validator(kind).is_valid(value))
    for key in small(kind):
        check_shape(kind, {**small(kind), key: value}, NOWHERE, "x.yaml")


def test_findings_are_stops_with_a_way_out() -> None:
    data = {**small("vehicle"), "make": None, "model": 5, "zzz": 1}
    del data["radio"]
    findings = check_shape("vehicle", data, NOWHERE, "x.yaml")
    assert sorted(f.rule_id for f in findings) == ["SCH101", "SCH102", "SCH103", "SCH110"]
    for finding in findings:
        assert finding.severity is Severity.STOP
        assert finding.file == "x.yaml"
        assert finding.help.endswith((".", "?"))


def test_a_flood_of_faults_is_cut() -> None:
    data = {**small("vehicle"), **{f"zzz{n}": n for n in range(2000)}}
    data["plugs"] = [{"pins": [{} for _ in range(900)]}]
    assert 0 < len(check_shape("vehicle", data, NOWHERE, "x.yaml")) < 4000


def test_a_long_faulty_list_is_looked_at_until_there_is_enough_to_tell() -> None:
    data = small("vehicle")
    good = data["plugs"][0]
    data["plugs"] = [good] * 4000 + [{"a": 1}] * 200 + [good] * 4000
    found = find_violations("vehicle", validator("vehicle"), data)
    assert found.at_least and len(found.found) == MOST_VIOLATIONS
    assert {each.path[:2] for each in found.found} >= {("plugs", 4000), ("plugs", 4001)}
    whole = next(each for each in found.found if each.path == ("plugs",))
    assert len(whole.value) == 8200
    findings = check_shape("vehicle", data, NOWHERE, "x.yaml")
    assert findings[-1].message.startswith("and at least ")
    data["plugs"] = [good] * 4000
    assert [each.rule_id for each in check_shape("vehicle", data, NOWHERE, "x.yaml")] == ["SCH112"]


def test_the_catalogue_is_complete_and_in_order() -> None:
    ids = [entry.id for entry in CATALOGUE]
    assert ids == [f"SCH{number}" for number in range(101, 101 + len(ids))]
    assert len({entry.slug for entry in CATALOGUE}) == len(ids)
    for entry in CATALOGUE:
        for text in (entry.title, entry.what, entry.why, entry.fix, entry.source):
            assert text
        refused, accepted = entry.example.split("Accepted:")
        assert refused.startswith("Refused:")
        assert "```yaml" in refused
        assert "```yaml" in accepted


@pytest.mark.parametrize(
    ("written", "meant"),
    [
        ("swtched", "accessory"),
        ("Ground", "ground"),
        ("front left", "front-left"),
        ("front_left", "front-left"),
        ("GND", "ground"),
        ("acessory", "accessory"),
        ("purple", None),
        ("zzz", None),
        (7, None),
    ],
)
def test_nearest_word(written: object, meant: str | None) -> None:
    assert nearest(written, ["accessory", "ground", "front-left", "run"]) == meant


def test_values_are_shown_as_they_are_typed() -> None:
    value = {"a": ["no", "1a", 2.5, True], "b": "2024-05-13", "c": "6174", "d": "true", "e": "x: y"}
    shown = '{a: [no, "1a", 2.5, true], b: 2024-05-13, c: "6174", d: "true", e: "x: y"}'
    assert typed(value) == shown
    assert load_text(f"v: {shown}", "x.yaml").data == {"v": value}


def test_quoted_values_stay_on_one_short_line() -> None:
    assert quoted("a\nb") == '"a⏎b"'
    assert len(quoted("x" * 500)) == 62
    assert listed([]) == ""
    assert listed(["a"]) == "a"
    assert listed(["a", "b", "c"]) == "a, b or c"


def test_a_danger_that_is_left_out_is_never_answered_for_who_typed_the_record() -> None:
    """What an example says would be typed for a fact: nobody looked is what is shown."""
    tried = 0
    for path, each, _ in dangers(parse_vehicle(small("vehicle")), Vehicle, ()):
        data = small("vehicle")
        if each.key not in parent(data, path):
            continue
        del parent(data, path)[each.key]
        for finding in check_shape("vehicle", data, NOWHERE, "x.yaml"):
            opened = re.match(r"add \w+: (\[unknown\]|unknown|<)", finding.help)
            assert opened, (path, finding.help)
            tried += 1
    assert tried > 8
