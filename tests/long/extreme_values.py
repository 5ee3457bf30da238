"""Every number of every shipped record at its schema's least and greatest value, and just inside.

    .venv/bin/python tests/long/extreme_values.py            all of them: about an hour
    .venv/bin/python tests/long/extreme_values.py --part 3/8 every eighth, from the third

Each is checked, planned and printed. What ends in a traceback, in a fault of our own or not at all
is printed, and the exit code is 1.
"""

from __future__ import annotations

import argparse
import copy
import json
import math
import sys
import tempfile
from collections.abc import Iterator
from pathlib import Path
from typing import Any, NamedTuple

sys.path[:0] = [str(Path(__file__).resolve().parents[1]), str(Path(__file__).resolve().parents[2])]

from record_bench import Bench, within_limits  # noqa: E402

from builder.book import RecordFile  # noqa: E402
from builder.loading.scalars import SMALLEST_FRACTION  # noqa: E402
from builder.schema_check.schemas import schema_at  # noqa: E402

Place = tuple[str | int, ...]
WIDE = 1e9
"""Stands for a bound that the schema does not give."""


class Extreme(NamedTuple):
    """A value to put in the place of a number."""

    file: RecordFile
    path: Place
    value: float


def numbers(value: Any, path: Place = ()) -> Iterator[Place]:
    """The place of every number."""
    if isinstance(value, dict | list):
        for key, inner in value.items() if isinstance(value, dict) else enumerate(value):
            yield from numbers(inner, (*path, key))
    elif isinstance(value, int | float) and not isinstance(value, bool):
        yield path


def extremes_of(schema: dict[str, Any]) -> list[float]:
    """Least, greatest, and the values just inside them that a double can hold or a person type."""
    whole = schema.get("type") == "integer"
    low = schema.get("minimum", schema.get("exclusiveMinimum", -WIDE))
    high = schema.get("maximum", schema.get("exclusiveMaximum", WIDE))
    if whole:
        return sorted({low, low + 1, high - 1, high})
    step = (high - low) / 1e6
    smallest = {SMALLEST_FRACTION} if low < SMALLEST_FRACTION < high else set()
    inside = smallest | {
        math.nextafter(low, high),
        low + step,
        high - step,
        math.nextafter(high, low),
    }
    ends = {low} if "minimum" in schema else set()
    ends |= {high} if "exclusiveMaximum" not in schema else set()
    return sorted(inside | ends)


def every_extreme(bench: Bench) -> Iterator[Extreme]:
    """All there are, in an order that does not change."""
    for file in bench.files:
        for path in numbers(bench.data[file.path]):
            for value in extremes_of(schema_at(file.kind, path)):
                yield Extreme(file, path, value)


def changed(data: Any, path: Place, value: Any) -> str:
    """The record's text with another value at one place."""
    data = copy.deepcopy(data)
    inner = data
    for key in path[:-1]:
        inner = inner[key]
    inner[path[-1]] = value
    return json.dumps(data, ensure_ascii=False)


def run(bench: Bench, wanted: list[Extreme]) -> list[str]:
    """Try them and return what went wrong, a line each."""
    faults = []
    for extreme in wanted:
        text = changed(bench.data[extreme.file.path], extreme.path, extreme.value)
        outcome = bench.try_text(extreme.file, text)
        if outcome.fault:
            at = ".".join(map(str, extreme.path))
            faults.append(f"{extreme.file.shown} {at} = {extreme.value!r}: {outcome.fault}")
            print(faults[-1], flush=True)
    return faults


def main() -> int:
    """The command."""
    options = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    options.add_argument("--part", default="1/1", help="such as 3/8")
    part, parts = map(int, options.parse_args().part.split("/"))
    with tempfile.TemporaryDirectory() as folder, within_limits():
        bench = Bench(Path(folder))
        wanted = list(every_extreme(bench))[part - 1 :: parts]
        faults = run(bench, wanted)
    print(f"{len(wanted)} values tried, {len(faults)} faults")
    return 1 if faults else 0


if __name__ == "__main__":
    raise SystemExit(main())
