"""What each course of the book moves, and whether every sketch of every vehicle can be carried out.

    .venv/bin/python tests/long/courses.py              shipped jobs, then all sketches
    .venv/bin/python tests/long/courses.py --jobs-only

Prints a line a job: how often battery, plugs, seats, radio and panels change (off and on again are
two), how often the key is turned or the radio set, steps, readings, hours. Then each vehicle's
sketches, of every converter with every amplifier: how many are tap plans, the most of each change
in one of them, and what the simulator says of a course that breaks a law. Exit code 1 for any.
"""

from __future__ import annotations

import argparse
import os
import sys
from collections import Counter
from collections.abc import Iterable, Iterator
from pathlib import Path

TESTS = Path(__file__).resolve().parents[1]
sys.path[:0] = [str(TESTS), str(TESTS / "unit" / "planning")]
os.environ["LOOMBOOK_LONG"] = "1"  # before `samples` is imported

from pack_jobs import SHIPPED, shipped_pack, shipped_parts  # noqa: E402
from test_customer_lines import checked, sketches  # noqa: E402

from builder.model.vehicle import Vehicle  # noqa: E402
from builder.planning.course.simulate import broken  # noqa: E402
from builder.planning.work_pack import WorkPack  # noqa: E402

KINDS = ("battery", "plug", "seat", "radio", "panel", "key")


def changes(pack: WorkPack, vehicle: Vehicle) -> Counter[str]:
    """How often each kind of thing is moved in the steps of a pack."""
    kinds = {part.name: part.kind for part in vehicle.access}
    found: Counter[str] = Counter()
    for step in pack.steps:
        for moved in step.moves:
            found[_kind(moved.what, kinds)] += moved.value != "waited"
    return found


def _kind(what: str, kinds: dict[str, str]) -> str:
    if what.startswith("plug "):
        return "plug"
    if what in ("key", "play"):
        return "key"
    if what in kinds:
        return "seat" if kinds[what] == "seat" else "panel"
    return what


def jobs() -> Iterator[str]:
    """A line for each shipped job, and what is broken in it."""
    for name in SHIPPED:
        pack, parts = shipped_pack(name), shipped_parts(name)
        hours = sum(step.takes_min for step in pack.steps) / 60
        print(
            f"{name:24} {pack.kind:10} {_counts(changes(pack, parts.vehicle))}"
            f"  {len(pack.steps):3} steps {len(pack.tests):3} readings {hours:4.1f} h"
        )
        if pack.circuit is not None:
            yield from broken(pack.steps, pack.tests, pack.circuit, parts)


def every_sketch() -> Iterator[str]:
    """A line for each vehicle, and what is broken in any of its sketches."""
    total: Counter[str] = Counter()
    for vehicle in checked()[1]:
        packs = list(sketches(vehicle))
        whole = [pack for pack in packs if pack.kind == "tap_plan"]
        total.update(sketched=len(packs), whole=len(whole))
        said = [flag.says for pack in packs for flag in pack.flags if flag.kind == "course_broken"]
        most = _most(changes(pack, vehicle) for pack in whole)
        print(f"{vehicle.id:40} {len(packs):3} {len(whole):3} {_counts(most)}  broken {len(said)}")
        yield from said
    print(f"{total['sketched']} sketches, {total['whole']} of them tap plans")


def _most(counted: Iterable[Counter[str]]) -> Counter[str]:
    most: Counter[str] = Counter()
    for each in counted:
        most |= each
    return most


def _counts(found: Counter[str]) -> str:
    return " ".join(f"{kind} {found[kind]:2}" for kind in KINDS)


def main() -> int:
    asked = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    asked.add_argument("--jobs-only", action="store_true")
    said = list(jobs())
    if not asked.parse_args().jobs_only:
        said += every_sketch()
    print(*said, sep="\n", end="\n" if said else "")
    return bool(said)


if __name__ == "__main__":
    sys.exit(main())
