"""Time the catalogue on a vehicle of sixty measured pins; prints, never asserts.

Run: python tests/benchmarks/bench_rules.py [rounds]
"""

from __future__ import annotations

import sys
import time
from copy import deepcopy
from pathlib import Path
from typing import Any

sys.path.insert(0, str(Path(__file__).parents[1] / "rules"))

from case_files import vehicle_data

from builder.model.book import Shelf
from builder.model.vehicle import Vehicle
from builder.parsing import parse_vehicle
from builder.rules.grades import grades_of
from builder.rules.registry import rules_for
from builder.rules.rule import Rule, Scope

COPIES = 6
CHANNELS = (
    ("front-left", "front-right"),
    ("rear-left", "rear-right"),
    ("centre", "sub"),
    ("front-left-tweeter", "front-right-tweeter"),
    ("rear-left-woofer", "rear-right-woofer"),
    ("rear-left-tweeter", "rear-right-tweeter"),
)


def sixty_pins() -> dict[str, Any]:
    """The base record of the rule cases with its ten measured pins six times over."""
    data = vehicle_data({})
    plug = data["plugs"][0]
    plug["pins"].pop()  # nobody measured the last one
    data["plugs"] = [_copied(plug, number) for number in range(COPIES)]
    data["channels"] = [
        {"channel": name, "driven_by": "radio", "speaker_ohm": 4, "band": "full"}
        for two in CHANNELS
        for name in two
    ]
    return data


def _copied(plug: dict[str, Any], number: int) -> dict[str, Any]:
    copy = deepcopy(plug)
    copy["id"] = f"P{number}"
    for pin in copy["pins"]:
        if pin["function"] == "speaker":
            pin["channel"] = CHANNELS[number][pin["channel"] == "front-right"]
    return copy


def run(rules: tuple[Rule, ...], *subjects: object) -> int:
    """Run the rules and count their faults."""
    return sum(len(rule.run(*subjects)) for rule in rules)


def main(rounds: int) -> None:
    """Print the median time of the grades, of the rules beside them, and the fault count."""
    data, shelf = sixty_pins(), Shelf()
    grading, judging, faults = [], [], 0
    for _ in range(rounds):
        vehicle: Vehicle = parse_vehicle(data)
        start = time.perf_counter()
        grades_of(vehicle, shelf)
        middle = time.perf_counter()
        faults = run(rules_for(Scope.RECORD), vehicle) + run(
            rules_for(Scope.VEHICLE), vehicle, shelf
        )
        grading.append(middle - start)
        judging.append(time.perf_counter() - middle)
    middle_of = rounds // 2
    print(f"grades  {sorted(grading)[middle_of] * 1e3:.2f} ms")
    print(f"rules   {sorted(judging)[middle_of] * 1e3:.2f} ms, {faults} faults")


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 100)
