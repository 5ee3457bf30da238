"""A command loads what it uses: help and completion next to nothing, a question no site builder."""

from __future__ import annotations

import os
import subprocess
import sys

import pytest
from shipped_book import PINOUTS

TANSY = "ostrel-tansy-2017-hatch-base"
OTHERS = ("yaml", "jsonschema_rs", "jinja2", "openpyxl", "sqlite3", "mkdocs", "numpy", "scipy",
          "markdown", "segno", "http.server", "multiprocessing")  # fmt: skip
READS = {"yaml", "jsonschema_rs", "sqlite3", "multiprocessing", "jinja2"}
"""What reading a record takes. The commands' texts are templates as the pages' are."""
CASES = (
    (("--help",), {}, set()),
    (("find", "--help"), {}, set()),
    (
        ("show", "-"),
        {"COMP_WORDS": "loombook show ostr", "COMP_CWORD": "2"},
        {"yaml", "jsonschema_rs"},
    ),
    (("why", "PIN101"), {}, READS),
    (("show", TANSY), {}, READS),
    (("find", "tansy switched"), {}, READS),
    (("which", "ostrel", "tansy"), {}, READS),
    (("plan", TANSY, "--converter", "cvn-2a"), {}, READS),
)
WORDS_OF_HELP = ("builder.planning.comeback", "builder.planning.comeback.words")
"""What the help of `comeback` lists: words, and nothing that plans."""
LISTS = """
import sys
from builder.cli.main import main
try:
    main(sys.argv[1:], prog_name="loombook")
except SystemExit:
    pass
print("\\n" + " ".join(sys.modules))
"""


def loaded(words: tuple[str, ...], more: dict[str, str]) -> set[str]:
    """The modules that are loaded when a command has ended, in a process of its own."""
    completing = {"_LOOMBOOK_COMPLETE": "bash_complete"} if more else {}
    done = subprocess.run(
        [sys.executable, "-c", LISTS, *(() if more else words)],
        env={**os.environ, **more, **completing},
        cwd=PINOUTS.parent,
        capture_output=True,
        text=True,
        check=True,
    )
    return set(done.stdout.splitlines()[-1].split())


@pytest.mark.parametrize(("words", "more", "may"), CASES, ids=lambda case: str(case)[:40])
def test_a_command_loads_what_it_uses(
    words: tuple[str, ...], more: dict[str, str], may: set[str]
) -> None:
    found = loaded(words, more)
    assert "builder.cli.main" in found
    assert {name for name in OTHERS if name in found} <= may
    assert not {name for name in found if name.startswith("builder.pipeline.site")}
    assert not {name for name in found if name.startswith("builder.pipeline.changing")}


def test_help_and_completion_read_no_record_and_know_no_rule() -> None:
    for words, more, _ in CASES[:3]:
        found = loaded(words, more)
        rooms = ("builder.rules", "builder.planning", "builder.proof", "builder.rendering")
        loaded_rooms = {name for name in found if name.startswith(rooms)}
        assert loaded_rooms <= {"builder.planning", *WORDS_OF_HELP}
