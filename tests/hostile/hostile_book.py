"""A book whose every free-text field holds something that does harm where it is not text.

The fields are found through the schemas: each string that a schema calls a line, a sentence or a
note. The same word gets the same harmful text all over the book, so that names still match.
"""

from __future__ import annotations

import copy
import json
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from typing import Any

import yaml
from shipped_book import PINOUTS, ROOT
from shipped_cars import car_data

from builder.loading import load_text

PAYLOADS = yaml.safe_load((Path(__file__).parent / "payloads.yaml").read_text("utf-8"))
INERT: list[str] = PAYLOADS["inert"].splitlines()
HIDDEN: list[str] = PAYLOADS["hidden"]
FREE = {"line", "sentence", "note"}
KINDS = {
    "vehicles": "vehicle",
    "housings": "housing",
    "converters": "converter",
    "amplifiers": "amplifier",
    "cables": "cable",
    "looms": "loom",
    "interfaces": "interface",
    "contributors": "contributor",
    "jobs": "job",
    "visits": "visit",
}
TANSY = "ostrel-tansy-2017-hatch-base"
COPIED = (
    *("vehicles/ostrel", "housings", "converters", "amplifiers", "cables"),
    *("looms", "interfaces", "contributors"),
)
TYPED_IN_ONE = "ostrel-brindle-2020"
"""The car whose visits stand in its own record, as they may."""
JOBS = ("tansy-subwoofer",)
_SESSION = {
    "id": "x", "by": "kesta-dunn", "date": "2024-12-01", "car": {"tag": "x1", "year": 2018},
    "method": "meter", "read_from": "wire_side", "against": "battery_negative",
}  # fmt: skip
_READING = {"session": "x", "state": "run", "quantity": "dc_v", "value": 6.2, "battery_v": 12.4}
VISITS: tuple[dict[str, Any], ...] = (
    {
        "id": "visit-turned",
        "places": [{"plug": "A", "cavity": 11, "readings": [{**_READING, "note": "a slip"}]}],
        "turned": [{"date": "2024-12-02", "plugs": ["C"], "because": "a photo shows it"}],
    },
    {
        "id": "visit-withdrawn",
        "places": [],
        "withdrawn": {"date": "2024-12-02", "because": "the meter was found broken"},
    },
)
"""Visits to the car of the book, with each of their free texts."""
# Places of a route that every car has: the words of a free-text field that mean something.
KEPT = {"radio", "factory amplifier", "fuse panel", "battery", "converter", "distribution block"}
# A place half-way that no record names: what stands for it must be near to no name, else it is
# taken for a slip of the pen.
HALF_WAY = {"luggage trim": "-half-way-where-nothing-has-a-name-of-its-own"}
SETTINGS = {
    "schema": 1,
    "site_name": INERT[0],
    "data_licence": INERT[5],
    "site_address": "https://pins.example/book/",
    "report_address": "mailto:book@shop.example?subject={title}&body={body}",
}
Place = tuple[str | int, ...]


@cache
def schema(name: str) -> Any:
    return json.loads((ROOT / "schema" / name).read_text("utf-8"))


def free_text(rule: Any, of: str, value: Any, path: Place = ()) -> Iterator[tuple[Place, str]]:
    """Every string of `value` that the schema says is free text, with its place."""
    if not isinstance(rule, dict):
        return
    if "$ref" in rule:
        file, _, fragment = rule["$ref"].partition("#")
        named = fragment.rpartition("/")[2]
        if named in FREE and isinstance(value, str):
            yield path, value
        target: Any = schema(file or of)
        for key in fragment.strip("/").split("/"):
            target = target[key]
        yield from free_text(target, file or of, value, path)
    for word in ("allOf", "anyOf", "oneOf"):
        for part in rule.get(word, ()):
            yield from free_text(part, of, value, path)
    for word in ("if", "then", "else"):
        yield from free_text(rule.get(word), of, value, path)
    if isinstance(value, dict):
        for key, inner in value.items():
            below = rule.get("properties", {}).get(key, rule.get("additionalProperties"))
            yield from free_text(below, of, inner, (*path, key))
    if isinstance(value, list):
        for at, inner in enumerate(value):
            yield from free_text(rule.get("items"), of, inner, (*path, at))


def free_places(kind: str, record: Any) -> list[tuple[Place, str]]:
    """Place and text of every free-text field of a record, each once."""
    name = f"{kind}.schema.json"
    return sorted(dict(free_text(schema(name), name, record)).items(), key=repr)


def put(record: Any, place: Place, value: Any) -> None:
    for key in place[:-1]:
        record = record[key]
    record[place[-1]] = value


class HostileBook:
    """`folder` is the book; `texts` the harmful text by its place, `file: key.key`."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self.of_word: dict[str, str] = {}
        self.texts: dict[str, str] = {}
        for kind in COPIED:
            for file in sorted((PINOUTS / kind).glob("*.yaml")):
                self._copy(file)
        for file in sorted((PINOUTS / "visits" / TANSY).glob("*.yaml")):
            self._copy(file)
        self._write(car_data(TYPED_IN_ONE), Path("vehicles/ostrel"))
        for file in sorted(PINOUTS.glob("*/TEMPLATE.yaml")):
            self._copy(file)
        for job in JOBS:
            self._copy(PINOUTS / "jobs" / f"{job}.yaml")
        for visit in VISITS:
            head = {"schema": 1, "data": "invented", "vehicle": TANSY, "sessions": [_SESSION]}
            self._write(copy.deepcopy({**head, **visit}), Path("visits"))
        (folder / "book.yaml").write_text(yaml.safe_dump(SETTINGS), "utf-8")

    def _copy(self, file: Path) -> None:
        record: Any = load_text(file.read_text("utf-8"), file.name).data
        self._write(record, file.relative_to(PINOUTS).parent)

    def _write(self, record: Any, folder: Path) -> None:
        for place, word in free_places(KINDS[folder.parts[0]], record):
            if word not in KEPT:
                put(record, place, self._harmful(word))
                self.texts[f"{record['id']}: {'.'.join(map(str, place))}"] = self.of_word[word]
        if folder.parts == ("visits",):
            folder = folder / record["vehicle"]
        target = self.folder / folder / f"{record['id']}.yaml"
        target.parent.mkdir(parents=True, exist_ok=True)
        target.write_text(json.dumps(record, ensure_ascii=False, indent=1), "utf-8")

    def _harmful(self, word: str) -> str:
        """One of the payloads, with a number by which it can be found again."""
        at = len(self.of_word)
        text = f"{INERT[at % len(INERT)]} q{at}q{HALF_WAY.get(word, '')}"
        return self.of_word.setdefault(word, text)
