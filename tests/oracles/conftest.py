"""A general-purpose circuit simulator gives the same answers, or says how to install it."""

from __future__ import annotations

import re
import shutil
import subprocess
from collections.abc import Callable
from pathlib import Path

import pytest

Measure = Callable[[str], dict[str, float]]


@pytest.fixture(scope="session")
def simulate(tmp_path_factory: pytest.TempPathFactory) -> Measure:
    """Run a netlist; return its `.meas` and `print` results by name.

    Fails, rather than skips, where the simulator is missing: an oracle that is silently left out
    proves nothing.
    """
    program, folder = _program(), tmp_path_factory.mktemp("ngspice")

    def run(netlist: str) -> dict[str, float]:
        return _results(program, folder, netlist)

    return run


@pytest.fixture(scope="session")
def run_deck(tmp_path_factory: pytest.TempPathFactory) -> Measure:
    """Run a whole netlist as it is written; no complaint of the simulator is let pass."""
    program, path = _program(), tmp_path_factory.mktemp("decks") / "deck.cir"

    def run(deck: str) -> dict[str, float]:
        path.write_text(deck, encoding="utf-8")
        done = subprocess.run(
            [program, "-b", str(path)], capture_output=True, text=True, check=False, cwd=path.parent
        )
        complaints = re.findall(r"(?im)^.*(?:error|warning|singular|can't).*$", done.stderr)
        assert (done.returncode, complaints) == (0, []), done.stdout + done.stderr
        return _printed(done.stdout)

    return run


def _program() -> str:
    program = shutil.which("ngspice")
    if program is None:
        pytest.fail("ngspice is missing; on Debian: apt install ngspice", pytrace=False)
    return program


def _results(program: str, folder: Path, netlist: str) -> dict[str, float]:
    path = folder / "circuit.cir"
    path.write_text(f"oracle\n{netlist}\n.end\n", encoding="ascii")
    done = subprocess.run(
        [program, "-b", str(path)], capture_output=True, text=True, check=False, cwd=folder
    )
    found = _printed(done.stdout)
    if done.returncode not in (0, 1) or not found:
        pytest.fail(f"the simulator gave no result:\n{done.stdout}\n{done.stderr}", pytrace=False)
    return found


def _printed(output: str) -> dict[str, float]:
    found = re.findall(r"^(\S+)\s*=\s*([-+0-9.eE]+)", output, re.MULTILINE)
    return {name.lower(): float(value) for name, value in found}
