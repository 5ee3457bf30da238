"""What changed between two editions as Markdown, for a proposal's page at a forge.

Plans come first: whoever looks a proposal over asks what would be built otherwise, then why.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence
from typing import Final

from builder.rendering.change_text import Changed, count_of

_KINDS: Final = {
    "plan": "Tap plans",
    "work pack": "Work packs",
    "vehicle": "Cars and their pins",
    "job": "Jobs",
}
"""The order of the parts; every other kind of record is a part behind them."""
_OTHERS: Final = "Parts and other records"
_LONG: Final = 12
"""Of how many facts on a list is folded: trade judgement of what is read at a glance."""
_MOST: Final = 400
"""Facts that are shown of one record; the forge takes a page of at most 1 MiB (its handbook,
from memory)."""
_MOST_BLOCKS: Final = 500
_MARKS: Final = re.compile(
    r"[^\w\s,;=%→Ωµ°²³·×±–—‘’“”.:'()/+-]|_"  # sets type, makes a link, calls
    # … or does so only where it stands: an address, a list, the number of a proposal
    r"|(?<=/)/|:(?=\w)|(?<=www)\.|^[^\w\s]|(?<=^\d)[.)]|(?<=^\d\d)[.)]|(?<=GH)-",
    re.IGNORECASE,
)
"""What may mean something to Markdown, HTML or the forge: written as its number."""


def changes_markdown(changed: Sequence[Changed], notes: Iterable[str] = ()) -> str:
    """The changes of a book; `notes` say what could not be compared."""
    lines = ["## What this changes for pins and plans", ""]
    lines += [f"{_plain(note)}\n" for note in notes]
    lines += [f"{_sentence(changed)}", ""]
    shown = changed[:_MOST_BLOCKS]
    for title in (*_KINDS.values(), _OTHERS):
        lines += _part(title, [each for each in shown if _title(each) == title])
    if len(changed) > _MOST_BLOCKS:
        lines.append(f"{len(changed) - _MOST_BLOCKS} more: `loombook diff` prints all of them.")
    return "\n".join(lines).rstrip("\n") + "\n"


def _sentence(changed: Sequence[Changed]) -> str:
    counted = count_of(changed)
    return f"{counted[0].upper()}{counted[1:]}."


def _title(record: Changed) -> str:
    return _KINDS.get(record.kind, _OTHERS)


def _part(title: str, records: Sequence[Changed]) -> Iterator[str]:
    if records:
        yield from (f"### {title}", "")
    for record in records:
        yield from _block(record)


def _block(record: Changed) -> Iterator[str]:
    came = {True: ": added", False: ": removed", None: ""}[record.came]
    kind = f"{record.kind} " if _title(record) == _OTHERS else ""
    head = f"{kind}{_plain(record.name)}{came}"
    facts = [f"- {_plain(change.words)}" for change in record.changes[:_MOST]]
    if len(record.changes) > _MOST:
        facts.append(f"- {len(record.changes) - _MOST} more")
    if len(facts) <= _LONG:
        yield from (f"**{head}**", "", *facts, "")
    else:
        summary = f"<summary>{head}, {len(record.changes)} changes</summary>"
        yield from (f"<details>{summary}", "", *facts, "", "</details>", "")


def _plain(words: str) -> str:
    """Words of a record so that they say nothing to Markdown, HTML or the forge.

    A name with `@` in front would call whoever has it, `#1` and an address would become links.
    """
    one_line = " ".join(words.split())
    return _MARKS.sub(lambda found: f"&#{ord(found[0])};", one_line)
