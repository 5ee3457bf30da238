"""The names of findings that a shell completes are those that the findings have."""

from __future__ import annotations

import os
from collections.abc import Iterator
from itertools import groupby

from shipped_book import ROOT

from builder.pipeline.answers.explanations import every_explanation

FILE = ROOT / "builder" / "cli" / "finding_names.py"
HEAD = '''"""Every finding by id, and its name: what a shell completes after `loombook why`.

Held equal to the rules and catalogues by a test, which also writes it. Asking them would load all
that checks and plans, and who pressed the tab key would wait for that.
"""

from __future__ import annotations

from typing import Final

# fmt: off
FINDING_NAMES: Final = {
'''


def _lines() -> Iterator[str]:
    """Two findings a line, each family on lines of its own."""
    by_family = groupby(every_explanation(), lambda each: each.id[:3])
    for _, family in by_family:
        said = [f'"{each.id}": "{each.slug}",' for each in family]
        yield from (f"    {' '.join(said[at : at + 2])}\n" for at in range(0, len(said), 2))


def test_the_list_is_that_of_the_rules_and_catalogues() -> None:
    text = HEAD + "".join(_lines()) + "}\n"
    if os.environ.get("LOOMBOOK_FREEZE"):
        FILE.write_text(text, "utf-8")
    assert FILE.read_text("utf-8") == text, (
        "a finding is new or has another name: LOOMBOOK_FREEZE=1 .venv/bin/python -m pytest "
        "tests/unit/test_finding_names.py writes the list"
    )
