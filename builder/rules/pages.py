"""A rule's module docstring, taken apart into the page that the site publishes."""

from __future__ import annotations

import textwrap
from dataclasses import dataclass

from builder.findings import CatalogueEntry
from builder.rules.read_off import asked_for
from builder.rules.rule import Rule

HEADINGS = ("What it catches", "Why it matters in the bay", "Example", "How to mend it", "Source")
"""The headings of every page, in their order; each is underlined with hyphens."""
_FAILS, _PASSES = "Fails::", "Passes::"


@dataclass(frozen=True, slots=True)
class RulePage:
    """The text of one page. Paragraphs are separated by an empty line; snippets are YAML."""

    summary: str
    what: str
    why: str
    failing: str
    passing: str
    fix: str
    source: str


def parse_page(docstring: str) -> RulePage:
    """Return the page that a rule's docstring holds.

    Raises:
        ValueError: a heading or one of the two snippets is missing, unknown or out of order.
    """
    summary, sections = _sections(textwrap.dedent(docstring))
    if tuple(sections) != HEADINGS:
        raise ValueError(f"headings are {list(sections)}, expected {list(HEADINGS)}")
    what, why, example, fix, source = (_body(sections[name]) for name in HEADINGS)
    failing, passing = _snippets(example)
    return RulePage(summary, what, why, failing, passing, fix, source)


def catalogue_entry(rule: Rule, docstring: str) -> CatalogueEntry:
    """Return the page in the shape shared with findings that are no rules.

    What mends a finding is asked for, where it is read off a car: nobody shall copy it.
    """
    page = parse_page(docstring)
    passing = asked_for(page.passing, page.failing)
    example = f"# found\n{page.failing}\n\n# in order\n{passing}"
    return CatalogueEntry(
        rule.id,
        rule.slug,
        rule.title,
        rule.severity,
        page.what,
        page.why,
        example,
        page.fix,
        page.source,
    )


def _sections(text: str) -> tuple[str, dict[str, list[str]]]:
    summary: list[str] = []
    sections: dict[str, list[str]] = {}
    current, lines = summary, text.splitlines()
    for index, line in enumerate(lines):
        if _is_heading(lines, index):
            current = sections.setdefault(line, [])
        elif index == 0 or not _is_heading(lines, index - 1):
            current.append(line)
    return _body(summary), sections


def _is_heading(lines: list[str], index: int) -> bool:
    if index + 1 >= len(lines):
        return False
    line, under = lines[index], lines[index + 1]
    return bool(line) and line[0] != " " and len(under) == len(line) and set(under) == {"-"}


def _body(lines: list[str]) -> str:
    return "\n".join(lines).strip("\n")


def _snippets(example: str) -> tuple[str, str]:
    before, fails, rest = example.partition(_FAILS)
    failing, passes, passing = rest.partition(_PASSES)
    if before.strip() or not fails or not passes or not failing.strip() or not passing.strip():
        raise ValueError(f"an example needs {_FAILS} and then {_PASSES}, each with YAML below")
    return textwrap.dedent(failing).strip("\n"), textwrap.dedent(passing).strip("\n")
