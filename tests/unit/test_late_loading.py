"""A command loads what it needs: a plain answer does not wait for workbooks and site builders."""

from __future__ import annotations

import subprocess
import sys
from importlib.util import find_spec

import pytest
from shipped_book import PINOUTS

from builder.cli import main
from builder.cli.late_commands import LateCommands

NOT_NEEDED = ("openpyxl", "mkdocs", "http.server", "builder.rendering.shell")
"""Modules that reading, checking and planning have no use for, and that take long to load."""

ASKED = {
    "find": ["find", "tansy switched", "--book", str(PINOUTS)],
    "check": ["check", str(PINOUTS)],
    "plan": [
        "plan",
        "ostrel-tansy-2017-hatch-base",
        "--converter",
        "cvn-2a",
        "--book",
        str(PINOUTS),
    ],
}
_RUN = """
import sys
from builder.cli import main
main(sys.argv[2:], standalone_mode=False)
print("loaded", *[name for name in sys.argv[1].split(",") if name in sys.modules])
"""


def _loaded(*arguments: str) -> str:
    """The last line of a process of its own in which the command ran: what it loaded."""
    given = [sys.executable, "-c", _RUN, ",".join(NOT_NEEDED), *arguments]
    ran = subprocess.run(given, capture_output=True, text=True, check=True, timeout=60)
    return ran.stdout.splitlines()[-1]


@pytest.mark.parametrize("command", ASKED)
def test_a_plain_command_loads_neither_workbooks_nor_the_site_builder(command: str) -> None:
    assert _loaded(*ASKED[command]) == "loaded"


def test_the_modules_are_called_so_where_they_are_needed() -> None:
    """Else the test above would look for names that nobody has."""
    assert all(find_spec(name) for name in NOT_NEEDED)
    loaded = _loaded("serve", "--help").split()[1:]
    assert set(loaded) == set(NOT_NEEDED) - {"openpyxl"}


def test_every_command_is_found_under_its_own_name() -> None:
    assert [main.commands[name].name for name in main.commands] == sorted(main.commands)


def test_asking_whether_there_is_a_command_loads_none() -> None:
    commands = LateCommands({"find": "no.such.module:find"})
    assert "find" in commands and "seek" not in commands and list(commands) == ["find"]
    with pytest.raises(ModuleNotFoundError):
        commands["find"]
