"""Names of files with what no name should hold: printed as one line of visible characters."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from pathlib import Path

import pytest
from shipped_book import PINOUTS, loombook

from builder.visible_names import visible_name

NAMES = {
    "line end": ("a\n::error::forged", "a\\n::error::forged"),
    "return": ("a\rforged", "a\\rforged"),
    "escape": ("\x1b[31mred\x1b[0m", "\\x1b[31mred\\x1b[0m"),
    "turned round": ("car\u202elmay", "car\\u202elmay"),
    "hidden": ("ca\u200br", "ca\\u200br"),
    "next line": ("a\x85b\u2028c", "a\\x85b\\u2028c"),
    "backslash": ("a\\nb", "a\\\\nb"),
    "plain": ("änne 2", "änne 2"),
}


@pytest.mark.parametrize("name", NAMES)
def test_a_name_is_shown_in_visible_characters(name: str) -> None:
    given, shown = NAMES[name]
    assert visible_name(given) == shown and shown.isprintable()


def test_no_two_names_are_shown_alike() -> None:
    shown = [visible_name(name) for name in ("a\n", "a\\n", "a\\\\n", "\\a\n")]
    assert len(set(shown)) == len(shown)


@pytest.fixture(params=sorted(set(NAMES) - {"plain", "backslash"}))
def named(request: pytest.FixtureRequest, tmp_path: Path) -> tuple[Path, str, str]:
    """A book with a record of such a name, in a folder of such a name."""
    given, shown = NAMES[request.param]
    folder = tmp_path / "book" / "converters" / f"in {given}"
    folder.mkdir(parents=True)
    text = (PINOUTS / "converters" / "cvn-2a.yaml").read_text("utf-8")
    (folder / f"{given}.yaml").write_text(text + "unheard: of\n", "utf-8")
    (folder / f"{given}-2.yaml").write_text(text, "utf-8")
    return tmp_path / "book", given, shown


COMMANDS = (
    ("check",),
    ("check", "--format", "annotations"),
    ("mend", "--dry-run"),
    ("tidy", "--check"),
)


@pytest.mark.parametrize("command", COMMANDS, ids=" ".join)
def test_no_name_starts_a_line_or_colours_a_terminal(
    named: tuple[Path, str, str], command: tuple[str, ...]
) -> None:
    book, given, shown = named
    done = loombook(*command, book)
    assert done.exception is None or isinstance(done.exception, SystemExit)
    assert given not in done.output
    assert all(line.isprintable() for line in done.output.split("\n"))
    if "check" in command and "--check" not in command:
        assert shown.replace(":", "%3A") in done.output or shown in done.output


def test_json_names_it_as_it_is_shown(named: tuple[Path, str, str]) -> None:
    book, _, shown = named
    found = json.loads(loombook("check", book, "--format", "json").output)["findings"]
    assert found and all(shown in finding["file"] for finding in found)


@pytest.mark.skipif(sys.platform in ("win32", "darwin"), reason="names are text there")
def test_a_name_that_is_no_text_is_shown_too(tmp_path: Path) -> None:
    folder = tmp_path / "converters"
    folder.mkdir()
    with open(os.fsencode(folder) + b"/caf\xe9.yaml", "wb") as stream:  # noqa: PTH123
        stream.write(b"unheard: of\n")
    done = subprocess.run(
        [sys.executable, "-m", "builder", "check", str(tmp_path)],
        capture_output=True,
        check=False,
        timeout=60,
    )
    assert done.returncode == 1 and b"Traceback" not in done.stderr
    assert b"caf\\udce9.yaml:1:1" in done.stdout


def test_what_is_typed_wrongly_is_shown_so_too(tmp_path: Path) -> None:
    done = loombook("check", tmp_path / "no\x1b[31mbook")
    assert done.exit_code == 2 and "\x1b" not in done.output
