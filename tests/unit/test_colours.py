"""Colour where somebody looks, and the same words everywhere."""

from __future__ import annotations

import os
import re

import click
import pytest
from click.testing import CliRunner
from identify_sessions import Terminal

from builder.cli import main
from builder.cli.colours import painted
from builder.findings import Severity

COLOUR = re.compile(r"\x1b\[[0-9;]*m")


@pytest.fixture
def seen(small_book):
    path = small_book / "amplifiers" / "amn-4.yaml"
    path.write_text(path.read_text("utf-8").replace("min_v: 9.0", "min_v: 9.0 V"), "utf-8")
    return small_book


def test_a_terminal_shows_the_weight_of_a_finding_in_colour(seen, monkeypatch) -> None:
    monkeypatch.delenv("NO_COLOR", raising=False)
    monkeypatch.setenv("TERM", "xterm")
    terminal = Terminal("check", str(seen))
    terminal.until_printed("records checked")
    assert terminal.close() == 1
    plain = CliRunner().invoke(main, ["check", str(seen)]).output
    assert "\x1b" not in plain
    assert "\x1b[31m\x1b[1mstop\x1b[0m" in terminal.seen
    assert " stop SCH" in COLOUR.sub("", terminal.seen) and " stop SCH" in plain


@pytest.mark.parametrize(("name", "value"), [("NO_COLOR", "1"), ("TERM", "dumb")])
def test_nobody_who_does_not_want_it_gets_it(name, value, monkeypatch) -> None:
    monkeypatch.delenv("NO_COLOR", raising=False)
    monkeypatch.setenv("TERM", "xterm")
    assert painted("stop", Severity.STOP) != "stop"
    monkeypatch.setenv(name, value)
    assert painted("stop", Severity.STOP) == "stop"


def test_no_word_is_lost_by_it(monkeypatch) -> None:
    monkeypatch.setitem(os.environ, "NO_COLOR", "")
    monkeypatch.setenv("TERM", "xterm")
    for severity in Severity:
        assert click.unstyle(painted(severity.word, severity)) == severity.word
