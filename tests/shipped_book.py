"""The shipped book and the command, for tests that need either."""

from __future__ import annotations

from pathlib import Path

from click.testing import CliRunner, Result

from builder.cli import main

ROOT = Path(__file__).resolve().parents[1]
PINOUTS = ROOT / "pinouts"
FULL_RECORDS = ROOT / "tests" / "records" / "full"
"""A vehicle and a job with readings, all invented, for tests: no template shows any."""
FOLDERS_OF_PARTS = (
    *("housings", "converters", "amplifiers", "cables", "looms", "interfaces", "contributors"),
)


def loombook(*arguments: str | Path, typed: str | None = None) -> Result:
    """Run the command in this process; `typed` is what it is answered, line by line."""
    return CliRunner().invoke(main, [str(argument) for argument in arguments], input=typed)
