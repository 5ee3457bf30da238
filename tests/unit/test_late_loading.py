"""A command loads what it needs: a plain answer does not wait for workbooks and site builders."""

from __future__ import annotations

import subprocess
import sys
from importlib.util import find_spec
from pathlib import Path

import pytest
from shipped_book import PINOUTS

from builder.cli import main
from builder.cli.late_commands import LateCommands
from builder.store import FOLDER

NOT_NEEDED = (
    "openpyxl", "mkdocs", "http.server", "builder.rendering.shell", "numpy", "scipy",
    "importlib.metadata",
)  # fmt: skip
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
    "show": ["show", "ostrel-tansy-2017-hatch-base", "--book", str(PINOUTS)],
    "why": ["why", "ostrel-tansy-2017-hatch-base", "A.7", "--book", str(PINOUTS)],
    "why so": ["why", "PIN101"],
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


def test_the_interface_for_programs_loads_neither() -> None:
    given = "import builder.api, sys; print(*sys.modules)"
    ran = subprocess.run([sys.executable, "-c", given], capture_output=True, text=True, check=True)
    assert set(ran.stdout.split()) & {*NOT_NEEDED, "click"} == set()


def test_the_modules_are_called_so_where_they_are_needed() -> None:
    """Else the test above would look for names that nobody has."""
    assert all(find_spec(name) for name in NOT_NEEDED)
    given = "import builder.cli.serving, sys; print(*sys.modules)"
    ran = subprocess.run([sys.executable, "-c", given], capture_output=True, text=True, check=True)
    assert set(ran.stdout.split()) & set(NOT_NEEDED) == set(NOT_NEEDED) - {
        "mkdocs",  # where nothing is known of the theme
        "openpyxl",
        "numpy",
        "scipy",
        "importlib.metadata",  # asked before a site is built
    }


def test_every_command_is_found_under_its_own_name() -> None:
    assert [main.commands[name].name for name in main.commands] == sorted(main.commands)


def test_asking_whether_there_is_a_command_loads_none() -> None:
    commands = LateCommands({"find": "no.such.module:find"})
    assert "find" in commands and "seek" not in commands and list(commands) == ["find"]
    with pytest.raises(ModuleNotFoundError):
        commands["find"]


MOST_MODULES = 20
"""Modules of loombook that help and completion may load beside the faces of the commands."""
CHECKING_OR_PLANNING = ("builder.pipeline", "builder.planning", "builder.rules", "builder.parsing")
LIGHT = {"builder.planning.comeback.words", "builder.pipeline.checking.old_names"}
_COUNT = """
import os, sys
from builder.__main__ import run
os.environ.update(eval(sys.argv[2]))
sys.argv = ["loombook", *eval(sys.argv[1])]
try:
    run()
except SystemExit as ended:
    assert not ended.code, ended.code
names = [name for name in sys.modules if name.split(".")[0] == "builder"]
print("\\nloaded", *(each for each in names if not each.startswith("builder.cli.faces")))
"""


def _modules(*arguments: str, **environment: str) -> list[str]:
    """The modules of loombook, faces aside, that a process of its own loaded for a command."""
    given = [sys.executable, "-c", _COUNT, repr(list(arguments)), repr(environment)]
    ran = subprocess.run(
        given, cwd=PINOUTS.parent, capture_output=True, text=True, check=True, timeout=60
    )
    return ran.stdout.splitlines()[-1].split()[1:]


def _completed(typed: str) -> list[str]:
    place = str(len(typed.split()) - (not typed.endswith(" ")))
    return _modules(_LOOMBOOK_COMPLETE="bash_complete", COMP_WORDS=typed, COMP_CWORD=place)


def test_help_asks_nobody_what_is_installed() -> None:
    """That takes a third of the time in which help is printed."""
    given = "from builder.cli import main; import sys; main(['-h'], standalone_mode=False)"
    given += "; print(*sys.modules)"
    ran = subprocess.run([sys.executable, "-c", given], capture_output=True, text=True, check=True)
    loaded = set(ran.stdout.splitlines()[-1].split())
    assert not {"importlib.metadata", "yaml", "jinja2", "builder.findings", "json"} & loaded


@pytest.mark.parametrize("command", ["", *main.commands])
def test_help_loads_no_more_than_what_can_be_typed(command: str) -> None:
    assert len(_modules(*command.split(), "--help")) <= MOST_MODULES


@pytest.mark.parametrize("typed", ["loombook ", "loombook check --f", "loombook why PIN"])
def test_completing_commands_options_and_findings_loads_no_more_either(typed: str) -> None:
    assert len(_completed(typed)) <= MOST_MODULES


@pytest.mark.parametrize("typed", ["loombook show ostrel-", f"loombook why {ASKED['plan'][1]} A"])
def test_completing_ids_and_pins_loads_nothing_that_checks_or_plans(typed: str) -> None:
    found = _completed(typed)
    assert "builder.book.listed_names" in found
    heavy = {each for each in found if each.startswith(CHECKING_OR_PLANNING)}
    assert {each for each in heavy if each.count(".") > 2} <= LIGHT


READING = ("builder.loading", "builder.schema_check", "builder.declaring", "builder.book.settings")


def test_completing_ids_of_a_book_whose_settings_are_known_reads_nothing(small_book: Path) -> None:
    (small_book / "book.yaml").write_text("schema: 1\nsite_name: Ours\n", "utf-8")
    (small_book / FOLDER).mkdir()
    first = _completed(f"loombook show --book {small_book} ostrel-")
    again = _completed(f"loombook show --book {small_book} ostrel-")
    assert {*READING} <= {*first}  # else these are the names of nothing
    light = "builder.book.settings_files"
    assert [each for each in again if each.startswith(READING) and each != light] == []
