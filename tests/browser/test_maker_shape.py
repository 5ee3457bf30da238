"""The validator of the record page against the schemgenerated from, on the same records."""

from __future__ import annotations

import copy
import json
from collections import Counter
from typing import Any

import pytest
from hypothesis import HealthCheck, Phase, given, settings
from hypothesis import strategies as st
from jsonschema import Draft202012Validator, FormatChecker
from maker_records import KINDS, RECORDS, Record, data_of, example_records, shipped_records
from referencing import Registry
from referencing.jsonschema import DRAFT202012
from shipped_book import FULL_RECORDS

from builder.loading import load_file
from builder.schema_check import check_shape
from builder.schema_check.schemas import SHARED, read_schema, schema_name, validator

pytestmark = pytest.mark.browser
DRAWN = 500


@pytest.fixture(scope="module")
def maker(chromium: Any, address: str) -> Any:
    chromium.open(f"{address}/record-maker.html")
    return chromium


_WORDS = st.sampled_from(
    [
        *("", " ", "unknown", "none", "open", "no", "4", "B.4", "A1", "a-b", "a-b\n", "2024-02-30"),
        *("2024-02-29", "2016-13", "1/0", "front-left", "x" * 121, "é" * 120, "𝄞" * 120, "٣", "\t"),
    ]
)
_SCALARS = st.one_of(
    st.none(), st.booleans(), st.integers(-5, 300), _WORDS, st.sampled_from([0.05, 2.0, 1e9, -0.0])
)
_VALUES = st.recursive(
    _SCALARS,
    lambda inner: st.one_of(
        st.lists(inner, max_size=3),
        st.dictionaries(st.sampled_from(["base", "id", "cavity", "x", "__proto__"]), inner),
    ),
    max_leaves=5,
)


def places(data: Any, at: tuple[Any, ...] = ()) -> list[tuple[Any, ...]]:
    steps: Any = data.items() if isinstance(data, dict) else ()
    steps = enumerate(data) if isinstance(data, list) else steps
    return [at, *(place for step, value in steps for place in places(value, (*at, step)))]


def changed(draw: Any, data: Any) -> Any:
    data = copy.deepcopy(data)
    place = draw(st.sampled_from(places(data)[1:]))
    target: Any = data
    for step in place[:-1]:
        target = target[step]
    how = draw(st.sampled_from(["value", "value", "drop", "add"]))
    if how == "drop":
        del target[place[-1]]
    elif how == "add" and isinstance(target[place[-1]], dict):
        keys = ["channel", "lowpass_hz", "size_awg", "minutes", "location", "hidden", "load"]
        target[place[-1]][draw(st.sampled_from(keys))] = draw(_VALUES)
    elif how == "add" and isinstance(target[place[-1]], list):
        target[place[-1]].append(draw(_VALUES))
    else:
        target[place[-1]] = draw(_VALUES)
    return data


def drawn_records() -> list[Record]:
    bases = {kind: data_of(RECORDS / "valid" / kind / "small.yaml") for kind in KINDS}
    full = data_of(FULL_RECORDS / "vehicle.yaml")
    found: list[Record] = []

    @settings(
        max_examples=DRAWN,
        derandomize=True,
        database=None,
        deadline=None,
        phases=[Phase.generate],
        suppress_health_check=list(HealthCheck),
    )
    @given(st.data())
    def collect(data: Any) -> None:
        kind, base = data.draw(
            st.sampled_from([("vehicle", full), *((k, bases[k]) for k in KINDS)])
        )
        for _ in range(data.draw(st.integers(1, 2))):
            base = changed(data.draw, base)
        found.append((kind, base))

    collect()
    return found


def other_validator(kind: str) -> Draft202012Validator:
    shared = read_schema(SHARED)
    registry: Registry[Any] = Registry().with_resource(
        schema_name(SHARED), DRAFT202012.create_resource(shared)
    )
    return Draft202012Validator(
        read_schema(kind), registry=registry, format_checker=FormatChecker(["date"])
    )


def test_the_generated_validator_says_what_the_schemas_say(maker: Any) -> None:
    records = [*example_records(), *shipped_records(), *drawn_records()]
    said = maker.run(
        "return JSON.parse(arguments[0]).map(one =>"
        " window.loombookShape.violations(one[0], one[1]).length === 0)",
        json.dumps(records),
    )
    others = {kind: other_validator(kind) for kind in KINDS}
    wrong = [
        (kind, data, on_page)
        for (kind, data), on_page in zip(records, said, strict=True)
        if not on_page == validator(kind).is_valid(data) == others[kind].is_valid(data)
    ]
    assert wrong == []
    assert min(Counter(said).values()) > 50
    assert len(set(said)) == 2


def test_each_broken_record_has_the_same_findings_on_the_page(maker: Any) -> None:
    paths = sorted(RECORDS.glob("invalid/vehicle/*.yaml"))
    loaded = [load_file(p, p.name) for p in paths if not p.name.endswith(".expected.yaml")]
    broken = [one for one in loaded if one.data is not None]
    said = maker.run(
        "return arguments[0].map(one => window.loombookShapeWords.shapeFindings('vehicle', one)"
        ".map(f => [f.id, f.path, f.message, f.help]))",
        [one.data for one in broken],
    )
    for one, found in zip(broken, said, strict=True):
        python = check_shape("vehicle", one.data, one.source_map, "")
        assert Counter(f[0] for f in found) == Counter(f.rule_id for f in python), found
        assert all(f[2] and f[3] for f in found), found
    assert len(broken) > 20
