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
    program = shutil.which("ngspice")
    if program is None:
        pytest.fail("ngspice is missing; on Debian: apt install ngspice", pytrace=False)
    folder = tmp_path_factory.mktemp("ngspice")

    def run(netlist: str) -> dict[str, float]:
        return _results(program, folder, netlist)

    return run


def _results(program: str, folder: Path, netlist: str) -> dict[str, float]:
    path = folder / "circuit.cir"
    path.write_text(f"oracle\n{netlist}\n.end\n", encoding="ascii")
    done = subprocess.run(
        [program, "-b", str(path)], capture_output=True, text=True, check=False, cwd=folder
    )
    found = re.findall(r"^(\S+)\s*=\s*([-+0-9.eE]+)", done.stdout, re.MULTILINE)
    if done.returncode not in (0, 1) or not found:
        pytest.fail(f"the simulator gave no result:\n{done.stdout}\n{done.stderr}", pytrace=False)
    return {name.lower(): float(value) for name, value in found}
