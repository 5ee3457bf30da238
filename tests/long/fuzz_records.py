"""Shipped records, damaged at random in value, structure or text, checked, planned and printed.

    .venv/bin/python tests/long/fuzz_records.py                       20,000 records from seed 1
    .venv/bin/python tests/long/fuzz_records.py --records 500 --seed 7

What ends in a traceback, in a fault of our own, after more than five seconds or above a gigabyte
is printed with the seed that makes it again, and the exit code is 1.
"""

from __future__ import annotations

import argparse
import copy
import json
import random
import resource
import sys
import tempfile
from collections import Counter
from collections.abc import Callable, Iterable
from pathlib import Path
from typing import Any

sys.path[:0] = [str(Path(__file__).resolve().parents[1]), str(Path(__file__).resolve().parents[2])]

from record_bench import Bench, Outcome, within_limits  # noqa: E402

from builder.book import RecordFile  # noqa: E402
from builder.schema_check.schemas import schema_at  # noqa: E402

Place = tuple[Any, ...]
ODD: tuple[Any, ...] = (
    *(None, True, False, 0, -1, 1, 0.0, -0.0, 1e308, -1e308, 5e-324, 2**53, 2**63, 10**400),
    *(
        "",
        " ",
        "unknown",
        "none",
        "all",
        "yes",
        "no",
        "A",
        "A.1",
        "0",
        "1e5",
        "é" * 300,
        "x" * 5000,
    ),
    *(
        "\u202e",
        "a\nb",
        "\x1b[31m",
        "<b>",
        "{{ 7 }}",
        "*",
        "&a",
        "!!int",
        "2024-02-30",
        "9999-12-31",
    ),
    *([], {}, [[]], [0], {"id": 1}, [None], {"": ""}),
)
LETTERS = "azAZ09 :-#{}[],&*!|>'\"%@`\n\t\\~?.\u00e9\u200b\u2028\x85"


def places(value: Any, path: Place = ()) -> list[Place]:
    """The place of everything inside a value."""
    inner = value.items() if isinstance(value, dict) else enumerate(value)
    found: list[Place] = []
    for key, one in inner:
        found.append((*path, key))
        if isinstance(one, dict | list):
            found += places(one, (*path, key))
    return found


def at(value: Any, path: Place) -> Any:
    """What stands at a place."""
    for key in path:
        value = value[key]
    return value


def replaced(data: Any, place: Place, dice: random.Random, kind: str) -> None:
    """An odd value in the place of another."""
    at(data, place[:-1])[place[-1]] = dice.choice(ODD)


def another(data: Any, place: Place, dice: random.Random, kind: str) -> None:
    """A value that the schema allows there, as far as it gives a list or a range."""
    schema = schema_at(kind, place)
    words = schema.get("enum") or schema.get("then", {}).get("enum") or ()
    low, high = schema.get("minimum", 0), schema.get("maximum", 100)
    numbers = [low, high, round(dice.uniform(low, high), 3), round(dice.uniform(low, high))]
    if words or "number" in (kinds := schema.get("type", ())) or "integer" in kinds:
        at(data, place[:-1])[place[-1]] = dice.choice([*words, *(() if words else numbers)])


def scaled(data: Any, place: Place, dice: random.Random, kind: str) -> None:
    """A number that slipped."""
    parent, key = at(data, place[:-1]), place[-1]
    if isinstance(parent[key], int | float) and not isinstance(parent[key], bool):
        parent[key] = parent[key] * dice.choice((0, -1, 0.001, 0.1, 0.97, 1.03, 2, 10, 1000))


def moved(data: Any, place: Place, dice: random.Random, kind: str) -> None:
    """A part of the record in the place of another."""
    at(data, place[:-1])[place[-1]] = copy.deepcopy(at(data, dice.choice(places(data))))


def doubled(data: Any, place: Place, dice: random.Random, kind: str) -> None:
    """An entry once more."""
    parent = at(data, place[:-1])
    if isinstance(parent, list):
        parent.insert(place[-1], copy.deepcopy(parent[place[-1]]))


def dropped(data: Any, place: Place, dice: random.Random, kind: str) -> None:
    """An entry or key less."""
    del at(data, place[:-1])[place[-1]]


def renamed(data: Any, place: Place, dice: random.Random, kind: str) -> None:
    """Another key."""
    parent = at(data, place[:-1])
    if isinstance(parent, dict):
        parent[dice.choice((f"{place[-1]}x", "id", "note", ""))] = parent.pop(place[-1])


def shuffled(data: Any, place: Place, dice: random.Random, kind: str) -> None:
    """A list in another order."""
    value = at(data, place)
    if isinstance(value, list):
        dice.shuffle(value)


LIKELY = (another, another, scaled, shuffled)
"""Damages that the schema mostly takes: what is left has to be judged and planned."""
DAMAGES: tuple[Callable[[Any, Place, random.Random, str], None], ...] = (
    *(replaced, another, another, another, scaled, scaled),
    *(moved, doubled, dropped, renamed, shuffled),
)


def damaged_data(data: Any, kind: str, dice: random.Random) -> str:
    """The record with one to four damages, as text."""
    data = copy.deepcopy(data)
    damages = LIKELY if dice.random() < 0.6 else DAMAGES
    for _ in range(dice.randint(1, 4)):
        there = places(data)
        if there:
            dice.choice(damages)(data, dice.choice(there), dice, kind)
    return json.dumps(data, ensure_ascii=dice.random() < 0.5)


def damaged_text(text: str, dice: random.Random) -> str:
    """The text of the file with letters, lines or pieces changed, as a bad save leaves it."""
    for _ in range(dice.randint(1, 5)):
        start = dice.randrange(len(text) + 1)
        end = min(len(text), start + dice.choice((0, 0, 1, 2, 10, 200)))
        piece = dice.choice((dice.choice(LETTERS), "", text[end : end + 80], text[start:end] * 3))
        text = text[:start] + piece + text[end:]
    return text


def one(bench: Bench, files: list[RecordFile], seed: int) -> tuple[RecordFile, Outcome]:
    """Damage one record by a seed and try it."""
    dice = random.Random(seed)
    file = dice.choice(files)
    if dice.random() < 0.25 and file.kind != "book":
        text = damaged_text(file.path.read_text("utf-8"), dice)
    else:
        text = damaged_data(bench.data[file.path], file.kind, dice)
    return file, bench.try_text(file, text)


def run(bench: Bench, seeds: Iterable[int], told: int = 1000) -> tuple[list[str], Counter[str]]:
    """Try a record for each seed; return what went wrong, a line each, and what was counted."""
    files = [f for f in bench.files for _ in range(3 if f.kind in ("vehicle", "job") else 1)]
    faults, counts = [], Counter[str]()
    for number, seed in enumerate(seeds, 1):
        file, outcome = one(bench, files, seed)
        counts["refused by loading or shape" if outcome.refused else "judged and planned"] += 1
        counts["slowest, ms"] = max(counts["slowest, ms"], round(outcome.seconds * 1000))
        if outcome.fault:
            faults.append(f"seed {seed}: {file.shown}: {outcome.fault}")
            print(faults[-1], flush=True)
        if number % told == 0:
            print(f"{number} records, {len(faults)} faults, {dict(counts)}", flush=True)
    return faults, counts


def main() -> int:
    """The command."""
    options = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    options.add_argument("--records", type=int, default=20_000)
    options.add_argument("--seed", type=int, default=1, help="the first of as many seeds")
    given = options.parse_args()
    with tempfile.TemporaryDirectory() as folder, within_limits():
        seeds = range(given.seed, given.seed + given.records)
        faults, counts = run(Bench(Path(folder)), seeds)
    peak_mb = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss // 1024
    print(f"{given.records} records, {len(faults)} faults, {dict(counts)}, at most {peak_mb} MB")
    return 1 if faults else 0


if __name__ == "__main__":
    raise SystemExit(main())
