"""What pages ask beside their records, in mappings that tell what is asked of them."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import replace
from typing import TypeVar

from builder.findings import Finding
from builder.pipeline.checking.asked import Answers, Ask, Note, Sources
from builder.pipeline.checking.gate import Gate
from builder.pipeline.checking.kept import Kept
from builder.rendering.page import BuildInfo
from builder.rendering.shell import Shell
from builder.store import site_state, sum_of

Written = TypeVar("Written")
Noted = tuple[Written, Answers, Sequence[bytes]]
"""What was written of a record, what was asked for that, and its lines in the store, none of what
is not kept."""

_GATE, _PRINTED, _PRIVATE, _BORROWED = "gate of pages", "printed", "private pages", "borrowed pages"


def state_of_pages(info: BuildInfo, shell: Shell) -> str:
    """Return what differs whenever anything does that all pages are made with."""
    return sum_of((site_state(), *_shared_words(info, shell)))


def _shared_words(info: BuildInfo, shell: Shell) -> Iterator[str]:
    yield repr(replace(undated(info), private=frozenset(), borrowed={}))
    yield repr((shell.parts, shell.title_first, shell.imprint))


def add_sources(sources: Sources, info: BuildInfo, gate: Gate) -> None:
    """Let everything be asked for that the two functions below hand out."""
    sources.add(_GATE, gate.on)
    sources.add(_PRINTED, gate.printed)
    sources.add(_PRIVATE, dict.fromkeys(sorted(info.private), True))
    sources.add(_BORROWED, info.borrowed)


def noted_gate(gate: Gate, kept: Kept, note: Note) -> Gate:
    """Return a gate that tells what is asked of it."""
    on, printed = (kept.sources.noted(each, note) for each in (_GATE, _PRINTED))
    return replace(gate, on=on, printed=printed)


def noted_info(info: BuildInfo, kept: Kept, note: Note) -> BuildInfo:
    """Return what a page says of its build, telling what is asked of it."""
    private = kept.sources.noted_names(_PRIVATE, note)
    borrowed = kept.sources.noted(_BORROWED, note)
    return replace(undated(info), private=private, borrowed=borrowed)


def undated(info: BuildInfo) -> BuildInfo:
    """Return what a page may say of its build: the day stands in a file that all share."""
    return replace(info, as_of="")


def noted(
    kept: Kept, write: Callable[[Note], Written], lines_of: Callable[[Written], Sequence[bytes]]
) -> Noted[Written]:
    """Write a record, and note what is asked for that; a finding in its place is not kept."""
    asks: list[Ask] = []
    one = write(asks.append)
    kept_not = one is None or isinstance(one, Finding)
    return one, kept.sources.answered(asks), () if kept_not else lines_of(one)


def keep_each(
    kept: Kept, keys: Sequence[str], found: Iterable[Noted[Written]]
) -> Iterator[Written]:
    """Yield what was written of each record, and keep it under the record's key."""
    for key, (one, answers, lines) in zip(keys, found, strict=True):
        if lines:
            kept.keep(key, answers, *lines)
        yield one
