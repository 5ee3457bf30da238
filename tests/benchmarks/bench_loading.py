"""Time the loader beside PyYAML's own loaders on the same text; prints, never asserts.

Run: python tests/benchmarks/bench_loading.py [rounds]
"""

from __future__ import annotations

import gc
import sys
import time
from collections.abc import Callable
from pathlib import Path

import yaml

from builder.loading import EventSource, load_text

TEMPLATE = Path(__file__).parents[2] / "pinouts" / "vehicles" / "TEMPLATE.yaml"


def make_record(pins: int = 24) -> str:
    """An invented record of about ten thousand bytes without comments, dense as real ones are."""
    head = "schema: 1\nid: bench-car\nmake: Example\nplugs:\n  - id: A\n    pins:\n"
    pin = (
        "      - cavity: {n}\n"
        "        function: speaker\n"
        "        channel: front-left\n"
        "        wire: {{base: white, stripe: violet, size_mm2: 0.5}}\n"
        "        readings:\n"
        "          - {{session: s1, state: radio_on_zero, quantity: dc_v, value: 6.{n:02}, "
        "battery_v: 12.4, load: none}}\n"
        "          - {{session: s2, state: asleep, quantity: dc_v, value: 0.02, "
        "battery_v: 12.1, load: none, minutes: 75}}\n"
        '        note: "seen from the wire side, {n} from the left"\n'
    )
    return head + "".join(pin.format(n=number) for number in range(1, pins + 1))


def best_ms(load: Callable[[str], object], text: str, rounds: int) -> float:
    """The quickest of `rounds` runs in milliseconds: the least disturbed by other work."""
    times = []
    for _ in range(rounds):
        started = time.perf_counter()
        load(text)
        times.append(time.perf_counter() - started)
    return min(times) * 1000


def main() -> None:
    """Print milliseconds for a record and the ratio to CSafeLoader."""
    rounds = int(sys.argv[1]) if len(sys.argv) > 1 else 30
    loaders: dict[str, Callable[[str], object]] = {
        "ours, libyaml": lambda text: load_text(text, "f", EventSource.LIBYAML),
        "yaml.CSafeLoader": lambda text: yaml.load(text, yaml.CSafeLoader),
        "ours, pure Python": lambda text: load_text(text, "f", EventSource.PYTHON),
        "yaml.SafeLoader": lambda text: yaml.load(text, yaml.SafeLoader),
    }
    gc.disable()  # as the check does while it loads
    for name, text in (("generated", make_record()), ("template", TEMPLATE.read_text("utf-8"))):
        print(f"{name}: {len(text.encode())} bytes, {text.count(chr(10))} lines")
        times = {label: best_ms(load, text, rounds) for label, load in loaders.items()}
        for label, milliseconds in times.items():
            ratio = milliseconds / times["yaml.CSafeLoader"]
            print(f"  {label:18} {milliseconds:8.2f} ms   {ratio:6.2f} x CSafeLoader")


if __name__ == "__main__":
    main()
