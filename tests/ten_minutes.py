"""What the handbook promises to somebody new: its commands, typed as they are printed."""

from __future__ import annotations

import re
import shutil
import signal
import subprocess
import urllib.request
from pathlib import Path

from shipped_book import ROOT

SECTION = (ROOT / "site_templates" / "handbook" / "ten-minutes.md").read_text("utf-8")
RECORD = "zorvex-wold-2018-hatch-base"


def blocks(language: str) -> list[str]:
    found = re.findall(r"^```(\w*)\n(.*?)^```$", SECTION, re.M | re.S)
    return [text for name, text in found if name == language]


def run(commands: str, folder: Path, typed: str = "") -> tuple[dict[str, int], str]:
    """Run a block in one shell; return the exit code of each line, and all that was said."""
    lines = [f'{line}; echo "exit $? of {line}"' for line in commands.splitlines()]
    done = subprocess.run(
        ["sh", "-c", "\n".join(lines)],
        cwd=folder,
        input=typed,
        capture_output=True,
        text=True,
        timeout=120,
        check=False,
    )
    codes = re.findall(r"^.*?exit (\d+) of (.*)$", done.stdout, re.M)
    assert len(codes) == len(lines), done.stdout + done.stderr
    return {line: int(code) for code, line in codes}, done.stdout + done.stderr


def checkout_in(folder: Path, environment: str | Path) -> Path:
    """A folder that looks like the repository, with the housings and a converter of its book.

    Its `.venv` is the environment given: the one of the tests, or one that a wheel is put into.
    """
    shutil.copytree(ROOT / "pinouts" / "housings", folder / "pinouts" / "housings")
    (folder / "pinouts" / "converters").mkdir()
    shutil.copy(ROOT / "pinouts" / "converters" / "cvn-2a.yaml", folder / "pinouts" / "converters")
    shutil.copytree(ROOT / "schema", folder / "schema")
    (folder / ".venv").symlink_to(environment)
    return folder


def add_the_car(checkout: Path) -> None:
    """Type what the page prints, line by line, and look at what comes of it."""
    first, second = blocks("")
    (answers,), (sheet,) = blocks("text"), blocks("yaml")
    shared = sorted(path for path in checkout.rglob("*") if ".venv" not in path.parts)

    codes, said = run(first, checkout, answers)
    assert set(codes.values()) == {0}, said
    assert said.count("stop (not yet known) EVD101") == 3 and said.count(": stop ") == 3
    book = checkout.parent / "our-book"
    assert (book / "vehicles" / "zorvex" / f"{RECORD}.yaml").is_file()
    assert sorted(p for p in checkout.rglob("*") if ".venv" not in p.parts) == shared

    (book / "first-readings.yaml").write_text(sheet, "utf-8")
    *to_run, serve = second.splitlines()
    at_home = f". {checkout}/.venv/bin/activate"
    codes, said = run("\n".join([at_home, *to_run]), book)
    assert set(codes.values()) == {0}, said
    check = said.split("exit 0 of loombook evidence")[1].split("exit 0 of loombook check")[0]
    mine = re.findall(rf"{RECORD}(?:/\S+)?\.yaml:\d+:\d+: (\w+ \w+)", check)
    assert sorted(mine) == [
        "note EVD103",
        "note EVD110",
        "note SAF114",
        "note SAF118",
        "warn EVD101",
    ]
    assert "nothing to mend" in check
    assert RECORD in shown_by(f"{at_home}; exec {serve} --port 0", book)


def shown_by(command: str, folder: Path) -> str:
    """The car's page, asked for at the address that `serve` prints; then it is ended."""
    # A shell that runs tests in the background has them ignore Ctrl-C, and so what they start.
    before = signal.signal(signal.SIGINT, signal.default_int_handler)
    running = subprocess.Popen(
        ["sh", "-c", command],
        cwd=folder,
        stdout=subprocess.PIPE,
        stderr=subprocess.STDOUT,
        text=True,
    )
    signal.signal(signal.SIGINT, before)
    assert running.stdout
    try:
        for line in running.stdout:
            if found := re.search(r"http://[^\s]+?:\d+", line):
                address = f"{found.group()}/vehicles/{RECORD}.html"
                with urllib.request.urlopen(address, timeout=120) as answer:
                    return str(answer.read().decode())
        raise AssertionError("serve ended without an address")
    finally:
        running.send_signal(signal.SIGINT)
        running.wait(timeout=120)  # it ends what it is building first
        running.stdout.close()
