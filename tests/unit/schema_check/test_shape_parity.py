"""Two independent validators say the same of every record, whole or broken in one place.

The fast one decides at run time; editors and other people's tools use others.
"""

from __future__ import annotations

import copy
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from jsonschema import Draft202012Validator, FormatChecker
from referencing import Registry
from referencing.jsonschema import DRAFT202012
from samples import some

from builder.loading import load_file
from builder.schema_check.schemas import KINDS, SHARED, read_schema, schema_name, validator

RECORDS = Path(__file__).parents[2] / "records"

ODD_VALUES: tuple[Any, ...] = (
    None, True, 0, 1, -1, 2.5, 200, 1e12, "", " ", "a", "A", "unknown", "unknown\n", "a-b\n", "٣",
    "é", "2024-02-30", "2024-02-29\n", "2016-13", "1/0\n", "no", "none", "open", [], [1, 1], {},
)  # fmt: skip


def other_validator(kind: str) -> Draft202012Validator:
    shared = read_schema(SHARED)
    registry: Registry[Any] = Registry().with_resource(
        schema_name(SHARED), DRAFT202012.create_resource(shared)
    )
    return Draft202012Validator(
        read_schema(kind), registry=registry, format_checker=FormatChecker(["date"])
    )


def records() -> list[Any]:
    found = []
    for path in sorted(RECORDS.glob("*valid/*/*.yaml")):
        if not path.name.endswith(".expected.yaml"):
            loaded = load_file(path, path.name)
            if loaded.data is not None:
                id_ = f"{path.parent.parent.name}/{path.parent.name}/{path.stem}"
                found.append(pytest.param(path.parent.name, loaded.data, id=id_))
    return found


def places(data: Any, seen: set[tuple[Any, ...]], at: tuple[Any, ...] = ()) -> Iterator[Any]:
    """One path for each kind of place: of several entries of a list, the first."""
    shape = tuple("*" if isinstance(step, int) else step for step in at)
    if shape not in seen:
        seen.add(shape)
        yield at
    if not isinstance(data, dict | list):
        return
    for step, value in data.items() if isinstance(data, dict) else enumerate(data):
        yield from places(value, seen, (*at, step))


def with_value(data: Any, path: tuple[Any, ...], value: Any) -> Any:
    changed = copy.deepcopy(data)
    target = changed
    for step in path[:-1]:
        target = target[step]
    target[path[-1]] = value
    return changed


@pytest.mark.parametrize(("kind", "data"), records())
def test_both_say_the_same_of_an_example(kind: str, data: Any) -> None:
    assert validator(kind).is_valid(data) == other_validator(kind).is_valid(data)


@pytest.mark.parametrize("kind", KINDS)
def test_both_say_the_same_of_a_record_with_one_odd_value(kind: str) -> None:
    path = RECORDS / "valid" / kind / "small.yaml"
    data = load_file(path, path.name).data
    fast, other = validator(kind), other_validator(kind)
    answers = set()
    for at, place in enumerate(places(data, set())):
        if not place:
            continue
        for value in some(ODD_VALUES, at):
            changed = with_value(data, place, value)
            answer = fast.is_valid(changed)
            assert answer == other.is_valid(changed), (place, value)
            answers.add(answer)
    assert answers == {True, False}
