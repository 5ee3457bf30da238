"""What the command prints of a hostile book: text as typed, one finding a line, no command run."""

from __future__ import annotations

import re
import unicodedata

import pytest
from hostile_book import INERT, TANSY, HostileBook
from shipped_book import loombook

from builder.findings import Finding, Severity
from builder.reporting import as_annotations


@pytest.mark.parametrize("text", [*INERT, "two\n::error file=y::lines", "\r::stop-commands::x"])
def test_an_annotation_is_one_line_and_names_the_file_of_its_finding(text: str) -> None:
    finding = Finding("a,b.yaml", 3, 1, Severity.WARN, "PIN101", "slug", text, text)
    command, _summary = as_annotations([finding], 1).splitlines()
    _, head, message = command.split("::", 2)
    assert head.startswith("warning file=a%2Cb.yaml,line=3,col=1,title=")
    plain = message.replace("%0A", "\n").replace("%0D", "\r").replace("%25", "%")
    assert plain == f"{text}\n{text}".strip()


@pytest.mark.parametrize(
    "arguments",
    [
        ("show", TANSY),
        ("find", "tansy switched"),
        ("plan", TANSY, "--converter", "cvn-2a"),
        ("check",),
    ],
    ids=lambda arguments: arguments[0],
)
def test_a_terminal_is_sent_nothing_it_would_obey(
    book: HostileBook, arguments: tuple[str, ...]
) -> None:
    command, *rest = arguments
    named = [str(book.folder)] if command == "check" else ["--book", str(book.folder)]
    done = loombook(command, *rest, *named)
    assert done.exception is None or isinstance(done.exception, SystemExit)
    assert re.search(r" q\d+q", done.output), done.output
    found = {unicodedata.category(one) for one in done.output if one not in "\n"}
    assert not found & {"Cc", "Cf", "Cs", "Zl", "Zp"}
