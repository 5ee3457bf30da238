"""The table of how a book grows: read as it is written, resumed, and its exponents right."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest

BENCHMARKS = str(Path(__file__).parent / "benchmarks")
sys.path[:0] = [BENCHMARKS]

import growth  # noqa: E402
from growth import Row, Size, exponent, measure, read, text_of  # noqa: E402
from measured_runs import Ran  # noqa: E402

A = Size("1a", (Row("check", 1.0, 50, 60, "10 records"), Row("build", 8.0, 90, 120, "")))
B = Size("1b", (Row("check", 2.0, 50, 60, ""),))
C = Size("1b", (Row("check", 4.0, 50, 240, ""),))


def test_a_table_is_read_as_it_was_written() -> None:
    sizes = {1000: B, 100: A, 2000: C}
    assert read(text_of(sizes)) == sizes
    assert text_of(read(text_of(sizes))) == text_of(sizes)


def test_exponents_are_of_all_sizes_that_have_a_step() -> None:
    text = text_of({1000: B, 500: A, 2000: C})
    assert "| check | 3 | 1.00 | 1.00 |" in text.split("## Exponents")[1]
    assert "build" not in text.split("## Exponents")[1]
    assert exponent([(10, 5), (100, 5), (1000, 5)]) == 0
    assert str(exponent([(10, 0), (100, 5)])) == "nan"


def test_it_goes_on_where_it_was_ended(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    taken: list[str] = []

    def step(name: str) -> object:
        return lambda bench: taken.append(name) or Ran(1.0, 2.0, 3.0, bench.folder.name)

    names = ("one", "two", "generic schema check")
    monkeypatch.setattr(growth, "STEPS", {name: step(name) for name in names})
    first = next(measure(30, None, "1a", tmp_path, 1000))
    *_, whole = measure(30, first, "1a", tmp_path, 1000)
    assert taken == [*names] and [row.step for row in whole.rows] == [*names]
    assert list(measure(30, whole, "1a", tmp_path, 1000)) == []
    taken.clear()
    *_, other = measure(30, whole, "1b", tmp_path, 20)
    assert taken == ["one", "two"] and other.state == "1b"
    taken.clear()
    assert list(measure(30, other, "1b", tmp_path / "elsewhere", 20)) and taken == ["one", "two"]


_MEASURED = """
import sys
sys.path.insert(0, sys.argv[1])
from measured_runs import ran
for words in sys.argv[2:]:
    one = ran(sys.executable, "-c", words)
    print(one.code, one.largest_mb, one.together_mb)
"""


def test_memory_of_a_process_and_of_its_child_is_added_up() -> None:
    """Measured by a process of its own: what these tests have would count."""
    alone = "import time; held = bytearray(60_000_000); time.sleep(1)"
    child = f"subprocess.run([sys.executable, '-c', {alone!r}])"
    both = f"import subprocess, sys; held = bytearray(60_000_000); {child}"
    given = [sys.executable, "-c", _MEASURED, BENCHMARKS, alone, both]
    told = subprocess.run(given, capture_output=True, text=True, check=True).stdout.split()
    code, largest, together, other_code, other_largest, of_both = map(float, told)
    assert code == other_code == 0
    assert 60 < largest < 120 and 60 < other_largest < 120
    assert of_both > together + 50
