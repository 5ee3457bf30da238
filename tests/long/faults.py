"""Which line of the bay sheet finds each single fault of each job, and what none finds.

    .venv/bin/python tests/long/faults.py              shipped jobs, then all sketches
    .venv/bin/python tests/long/faults.py --jobs-only

Every single fault is put into the job as far as it is joined when a line is read. Prints a row a
job: faults, those found before trim goes home, how many of these while everything is dead, those
that nothing finds by their reason. Then the sketches of each vehicle together. Exit code 1 where a
fault is neither found nor has a reason; each such fault is named.
"""

from __future__ import annotations

import argparse
import os
import sys
from collections import Counter
from collections.abc import Iterator, Sequence
from pathlib import Path

TESTS = Path(__file__).resolve().parents[1]
sys.path[:0] = [str(TESTS), str(TESTS / "unit" / "planning")]
os.environ["LOOMBOOK_LONG"] = "1"  # before `samples` is imported

from comeback_jobs import TAP_PLANS, causes_in  # noqa: E402
from pack_jobs import HOUSE, unadvised_pack  # noqa: E402
from test_customer_lines import checked, sketched_parts  # noqa: E402

from builder.planning.bay.line import DEAD  # noqa: E402
from builder.planning.comeback.caught import UNCAUGHT_WORDS, Catch, catches  # noqa: E402
from builder.planning.comeback.causes import Causes  # noqa: E402
from builder.planning.comeback.handed_over import HandedOver  # noqa: E402

HOLE = "no reason"
COLUMNS = ("faults", "in time", "while dead", *UNCAUGHT_WORDS, HOLE)


def counted(found: Sequence[Catch]) -> Counter[str]:
    """How many faults of a job, by what becomes of them."""
    count: Counter[str] = Counter({"faults": len(found)})
    for each in found:
        if each.in_time and each.line:
            count["in time"] += 1
            count["while dead"] += each.line.state in DEAD or each.line.state == "step"
        else:
            count[each.because or HOLE] += 1
    return count


def row(name: str, count: Counter[str]) -> str:
    """One row of the table."""
    return f"{name:42}" + "".join(f"{count[each]:>{len(each) + 2}}" for each in COLUMNS)


def holes(name: str, found: Sequence[Catch]) -> Iterator[str]:
    """What is neither found nor has a reason."""
    for each in found:
        if not each.in_time and each.because is None:
            yield f"{name}: {each.fault.id}: {each.fault.what}"


def jobs() -> Iterator[str]:
    """A row for each shipped job; its holes."""
    for name in TAP_PLANS:
        found = catches(causes_in(name))
        print(row(name, counted(found)))
        yield from holes(name, found)


def every_sketch() -> Iterator[str]:
    """A row for each vehicle with all its sketches; their holes."""
    for vehicle in checked()[1]:
        total: Counter[str] = Counter()
        for parts in sketched_parts(vehicle):
            pack = unadvised_pack(parts)
            if pack.circuit is not None:
                found = catches(Causes(HandedOver(parts, pack, HOUSE)))
                total.update(counted(found))
                with_parts = [parts.converter.id, *(x.id for x in parts.amplifiers.values())]
                yield from holes(f"{vehicle.id} {' '.join(with_parts)}", found)
        print(row(vehicle.id, total), flush=True)


def main() -> int:
    asked = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    asked.add_argument("--jobs-only", action="store_true")
    print(" " * 42 + "".join(f"  {each}" for each in COLUMNS))
    said = list(jobs())
    if not asked.parse_args().jobs_only:
        said += every_sketch()
    print(*said, sep="\n", end="\n" if said else "")
    return bool(said)


if __name__ == "__main__":
    sys.exit(main())
