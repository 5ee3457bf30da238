"""The plan of every job of the book as JSON: of the published shape, with the printed figures."""

from __future__ import annotations

import json
import re
from collections.abc import Iterator
from dataclasses import is_dataclass
from typing import Any

import pytest
from jsonschema import Draft202012Validator
from pack_jobs import SHIPPED, shipped_pack
from site_folder import validator
from test_pack_scenarios import old_pack, pickup_pack, plain_pack, split_pack

from builder.data_files import schema_folder
from builder.declaring import fields_of
from builder.planning import pack_details
from builder.planning.job.make_pack import pack_as_json
from builder.planning.work_pack import WorkPack

SCHEMA = json.loads((schema_folder() / "work-pack.schema.json").read_text(encoding="utf-8"))
CHECK = validator(schema_folder(), "work-pack")
UNITS = (
    "_a", "_ma", "_v", "_v_rms", "_ohm", "_mohm", "_per_leg", "_db", "_m", "_h", "_s", "_hz", "_w",
    "_uf", "_days", "_per_day", "_ms", "_mm", "_min", "_db_per_octave",
)  # fmt: skip
LIMITS = ("minimum", "maximum", "exclusiveMinimum", "exclusiveMaximum")
KEYLESS = (("items",), ("not",))
"""What is told where its key stands."""
BARE = frozenset({
    "rung", "converter_input", "sources_summed", "converter_gain", "gain_min", "gain_max",
    "amplifier_channel", "bridged_with", "damping", "jacket", "bands", "number", "quantity",
    "low", "high", "value", "limit", "share", "least", "most", "of_cable", "joints",
})  # fmt: skip
"""Counts, numbers of lines, ratios, and figures whose unit stands in a key beside them."""


def faults(pack: WorkPack) -> list[str]:
    data = json.loads(json.dumps(pack_as_json(pack)))
    return [f"{list(fault.instance_path)}: {fault.message}" for fault in CHECK.iter_errors(data)]


def test_the_schema_is_valid_and_closed() -> None:
    Draft202012Validator.check_schema(SCHEMA)
    for where, schema in inner(SCHEMA, ()):
        if schema.get("type") == "object":
            assert schema["additionalProperties"] is False, where
            assert set(schema["required"]) <= set(schema["properties"]), where
        if schema.get("type") in ("object", "array", "string") and where[-1:] not in KEYLESS:
            assert schema.get("description"), where


def shape_name(declared: type) -> str:
    return re.sub(r"\B([A-Z])", r"_\1", declared.__name__).lower()


def test_its_limits_are_those_that_are_declared() -> None:
    """The shape that others check a pack with refuses no figure that a plan may print."""
    declared = {
        (shape_name(each), field.key): field.spec.limits
        for each in vars(pack_details).values()
        if isinstance(each, type) and is_dataclass(each) and shape_name(each) in SCHEMA["$defs"]
        for field in fields_of(each)
        if field.scalar in (int, float)
    }
    published = {
        (name, key): {said: limit for said, limit in shape.items() if said in LIMITS}
        for name, schema in SCHEMA["$defs"].items()
        for key, shape in schema["properties"].items()
    }
    both = declared.keys() & published.keys()
    assert len(both) > 40
    assert {each: declared[each] for each in both} == {each: published[each] for each in both}


def inner(schema: Any, where: tuple[str, ...]) -> Iterator[tuple[tuple[str, ...], dict[str, Any]]]:
    if isinstance(schema, dict):
        if "type" in schema and not isinstance(schema["type"], dict):
            yield where, schema
        for key, value in schema.items():
            yield from inner(value, (*where, key))
    elif isinstance(schema, list):
        for value in schema:
            yield from inner(value, where)


def test_there_are_jobs_to_check() -> None:
    assert len(SHIPPED) >= 7
    kinds = {shipped_pack(name).kind for name in SHIPPED}
    assert {"tap_plan", "probe_plan"} <= kinds


@pytest.mark.parametrize("name", SHIPPED)
def test_every_shipped_job(name: str) -> None:
    assert faults(shipped_pack(name)) == []


@pytest.mark.parametrize(
    "pack", [plain_pack(), split_pack(0.12), old_pack(existing=True), pickup_pack()]
)
def test_plans_and_refusals(pack: WorkPack) -> None:
    assert faults(pack) == []


def test_a_wrong_shape_is_found() -> None:
    data = json.loads(json.dumps(pack_as_json(plain_pack())))
    for spoil in ({"kind": "maybe"}, {"feeds": [{}]}, {"extra": 1}):
        assert list(CHECK.iter_errors(data | spoil))


@pytest.mark.parametrize("name", SHIPPED)
def test_every_number_says_its_unit(name: str) -> None:
    for key in number_keys(pack_as_json(shipped_pack(name))):
        assert key in BARE or f"_{key}".endswith(UNITS), key


def number_keys(data: Any, key: str = "") -> Iterator[str]:
    if isinstance(data, dict):
        for name, value in data.items():
            yield from number_keys(value, name)
    elif isinstance(data, list):
        for value in data:
            yield from number_keys(value, key)
    elif isinstance(data, int | float) and not isinstance(data, bool):
        yield key


@pytest.mark.parametrize(
    ("name", "kind", "rung", "fuse", "gains"),
    [
        ("tansy-subwoofer", "tap_plan", 2, 60, [0.546]),
        ("leto-four-doors", "tap_plan", 1, 40, [0.4025] * 4),
        ("teasel-subwoofer", "tap_plan", 4, 60, [0.493]),
        ("cutter-fronts", "tap_plan", 3, 40, [0.2, 0.2]),
        ("rook-two-amplifiers", "tap_plan", 1, 175, [0.4025] * 4 + [0.201]),
        ("ullin-split-fronts", "probe_plan", None, 60, []),
        ("lovage-mid-subwoofer", "tap_plan", 5, 60, [0.356]),
    ],
)
def test_the_figures_of_the_shipped_jobs(
    name: str, kind: str, rung: int | None, fuse: float, gains: list[float]
) -> None:
    data = pack_as_json(shipped_pack(name))
    assert (data["kind"], data["turn_on"]["rung"]) == (kind, rung)
    assert data["power"]["main_fuse_a"] == fuse
    found = [gain["converter_gain"] for gain in data["gains"]]
    assert found == pytest.approx(gains, abs=6e-4)
    channels = [level["channel"] for level in data["levels"]]
    assert len(channels) == len(set(channels))  # one entry a source


def test_a_source_that_feeds_two_outputs_shows_its_own() -> None:
    data = pack_as_json(shipped_pack("rook-two-amplifiers"))
    gains = {level["channel"]: round(level["converter_gain"], 4) for level in data["levels"]}
    assert set(gains.values()) == {0.4025}
    assert [gain["channel"] for gain in data["gains"]][-1] == "sub"
