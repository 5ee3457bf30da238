"""A question of several lines takes its option once for each line, or all lines in one."""

from __future__ import annotations

from click.testing import CliRunner

from builder.cli.main import main

ENDS = (
    "radio end, two-row-16-latch-bottom, radio, wire_side",
    "car end, two-row-16-inline-socket, car, wire_side",
)


def drafted(*ends: str) -> str:
    said = [part for end in ends for part in ("--end", end)]
    options = ["--name", "Straight", "--data", "invented", "--made", "bench", "--branch", "none",
               "--wire", "1-16, black, 0.75 mm2", "--dry-run", "-b", "pinouts"]  # fmt: skip
    return CliRunner().invoke(main, ["new", "loom", *options, *said]).output


def test_lines_in_one_option_are_lines() -> None:
    assert drafted("\n".join(ENDS)) == drafted(*ENDS)
    assert "name: car end" in drafted("\n".join(ENDS))


def test_help_says_that_it_is_given_again() -> None:
    said = " ".join(CliRunner().invoke(main, ["new", "loom", "--help"]).output.split())
    assert said.count("given again for each") == 3
