"""Whatever a record says of a car stands on its page: another value makes another page."""

from __future__ import annotations

from collections.abc import Iterator
from copy import deepcopy
from functools import cache
from itertools import islice
from typing import Any

from each_case import each
from page_samples import page_of, sample_shelf
from shipped_book import FULL_RECORDS, PINOUTS
from shipped_cars import CARS, car_data

from builder.declaring import Field, fields_of
from builder.editing.short_forms import written_out
from builder.loading import load_file
from builder.model.vehicle import Vehicle
from builder.parsing import parse_record

MADE = {"only_if": {}, "replaces": {"id": "sample-base", "reason": "another radio"}}
"""Parts that no shipped record has."""
NAMES = {("id",), ("sessions", "id"), ("plugs", "pins", "readings", "session"), ("plugs", "id"),
         ("fuse_positions", "readings", "session"), ("recordings", "session")}  # fmt: skip
"""What other keys refer to by it: another name alone would leave them without an answer."""
ELSEWHERE = {
    ("schema",): "a word of the file",
    (
        "plugs",
        "pins",
        "claims",
        "read_from",
    ): "the claim stands at the cavity that it was turned to",
}


def keys_of(cls: type, path: tuple[str, ...] = ()) -> Iterator[tuple[tuple[str, ...], Field]]:
    """Every key of a vehicle that holds no record of its own, with the keys that lead to it."""
    for key in fields_of(cls):
        here = (*path, key.key)
        if key.inner is None:
            yield here, key
        else:
            yield from keys_of(key.inner, here)


def holders(data: Any, keys: tuple[str, ...]) -> Iterator[dict[str, Any]]:
    """What in a record can have the last of these keys; a part that is missing is made."""
    if isinstance(data, list):
        for one in data:
            yield from holders(one, keys)
    elif len(keys) == 1:
        yield data
    elif isinstance(data.get(keys[0]), dict | list) or keys[0] in MADE:
        yield from holders(data.setdefault(keys[0], dict(MADE.get(keys[0], {}))), keys[1:])


@cache
def records() -> list[dict[str, Any]]:
    files = (PINOUTS / "vehicles" / "TEMPLATE.yaml", FULL_RECORDS / "vehicle.yaml")
    read = (load_file(file, file.name).data for file in files)  # the second has old notes
    examples = [written_out("vehicle", data)[0] for data in read]
    return sorted(map(car_data, CARS), key=lambda data: len(str(data))) + examples


def another(key: Field, value: Any) -> Any:
    """A value of the same kind that is not this one."""
    if key.item is not None:
        return next(
            one for one in (value and value[1:], *key.spec.examples) if one not in (value, None)
        )
    if key.words and (value is None or isinstance(value, str)):
        return next(word for word in key.words if word not in (value, "unknown"))
    if key.scalar in (int, float) and isinstance(value, int | float):
        return value + 1
    if None in key.spec.examples and value in (None, "unknown"):
        low = key.spec.limits.get("exclusiveMinimum", key.spec.limits.get("minimum", 0))
        return low + 1  # no example shows a figure that somebody reads
    return next(one for one in (*key.spec.examples, f"{value}-2") if one not in (value, "unknown"))


def page(data: dict[str, Any]) -> str:
    return str(page_of(parse_record("vehicle", data), sample_shelf()).body_html)


def changed(path: tuple[str, ...], key: Field) -> Iterator[tuple[dict[str, Any], dict[str, Any]]]:
    """Records, and each with another value of the key; first those that have it."""
    for there in (True, False):
        for data in map(deepcopy, records()):
            at = [(key.key in one) is there for one in holders(data, path)]
            if any(at):
                other = deepcopy(data)
                one = list(holders(other, path))[at.index(True)]
                one[key.key] = another(key, one.get(key.key))
                yield data, other


@each("path, key", lambda: [(p, k) for p, k in keys_of(Vehicle) if p not in NAMES])
def test_another_value_makes_another_page(path: tuple[str, ...], key: Field) -> None:
    told = any(page(data) != page(other) for data, other in islice(changed(path, key), 6))
    assert told == (path not in ELSEWHERE), ".".join(path)
