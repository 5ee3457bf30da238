"""What a shell may complete: ids of the book where a command stands, pins, and findings.

Completion must never fail: without a book there is nothing to offer. Nor must anybody wait for it:
a book's files are listed and not read, and nothing that checks or plans is loaded.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

if TYPE_CHECKING:
    from click.shell_completion import CompletionItem

    from builder.book.listed_names import ListedNames
    from builder.model.words import RecordKind

    _Completer = Callable[[click.Context, click.Parameter, str], list[CompletionItem]]


def completing(*kinds: RecordKind) -> _Completer:
    """Return what completes ids of these kinds, and leads from old ids to those of today."""

    def complete(
        context: click.Context, option: click.Parameter, typed: str
    ) -> list[CompletionItem]:
        return _named(context, typed, kinds)

    return complete


def complete_pins(context: click.Context, option: click.Parameter, typed: str) -> list[str]:
    """Return the pins of the vehicle typed before that start as typed."""
    wanted = ("vehicle", context.params.get("name"))
    files = [file for file in _names(context, ("vehicle",)).files if file.name == wanted]
    pins = _pins_in(files[0].path) if len(files) == 1 else ()
    return [pin for pin in pins if pin.startswith(typed.upper())]


def complete_reasons(
    context: click.Context, option: click.Parameter, typed: str
) -> list[CompletionItem]:
    """Return the findings, jobs and vehicles that start as typed: whatever `why` is asked of."""
    from click.shell_completion import CompletionItem

    found = [CompletionItem(each) for each in _findings(typed)]
    is_id = typed and typed == typed.lower()  # as every record's is
    return found + (_named(context, typed, ("vehicle", "job")) if is_id else [])


def _names(context: click.Context, kinds: tuple[RecordKind, ...]) -> ListedNames:
    from builder.book import BookNotFoundError
    from builder.book.listed_names import ListedNames, listed_names
    from builder.cli.book_here import book_here

    named = context.params.get("book")
    try:
        return listed_names(Path(named) if named else book_here(), kinds)
    except (BookNotFoundError, OSError):
        return ListedNames((), {})


def _named(
    context: click.Context, typed: str, kinds: tuple[RecordKind, ...]
) -> list[CompletionItem]:
    """Return the records of these kinds whose ids start as typed, then those whose old ids do."""
    from click.shell_completion import CompletionItem

    names = _names(context, kinds)
    found = _starting({file.path.stem for file in names.files if file.kind in kinds}, typed)
    led = {
        now: was
        for (kind, was), now in names.renamed.items()
        if typed and kind in kinds and was.startswith(typed) and now not in found
    }
    return [CompletionItem(each) for each in found] + _led(led)


def _led(led: Mapping[str, str]) -> list[CompletionItem]:
    """The names of today that old ones lead to, each with a sentence that says so."""
    if not led:
        return []
    from click.shell_completion import CompletionItem

    from builder.pipeline.checking.old_names import now_called

    return [CompletionItem(now, help=now_called(was, now)) for now, was in led.items()]


def _starting(words: Iterable[str], typed: str) -> list[str]:
    return sorted(word for word in words if word.startswith(typed) and word.isprintable())


def _pins_in(file: Path) -> tuple[str, ...]:
    """The pins of a vehicle's file as "A.4"; of an unfinished record those that can be read."""
    from builder.loading import load_taken, take_file

    data = load_taken(take_file(file), file.name).data or {}
    return tuple(
        f"{plug.get('id')}.{pin.get('cavity')}"
        for plug in _mappings(data.get("plugs"))
        for pin in _mappings(plug.get("pins"))
    )


def _mappings(given: object) -> Iterator[dict[str, Any]]:
    if isinstance(given, list):
        yield from (each for each in given if isinstance(each, dict))


def _findings(typed: str) -> list[str]:
    """Return the finding ids, or once a small letter is typed their names, that start so."""
    from builder.cli.finding_names import FINDING_NAMES

    named = _starting(FINDING_NAMES.values(), typed) if typed else []
    return _starting(FINDING_NAMES, typed.upper()) or named
