"""Visits that say something else than at a git revision: they are written once."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from pathlib import Path
from typing import Any, Final

from builder.book import FOLDER_OF, TEMPLATE, Book, Name, RecordFile, shown_path
from builder.book.revisions import NoSuchRevisionError, text_at
from builder.findings import CatalogueEntry, DataPath, Fault, Finding, Severity
from builder.loading import load_text
from builder.pipeline.checking.old_names import old_names, with_new_names
from builder.pipeline.checking.records import read_record

ALTERED = CatalogueEntry(
    id="BOK129",
    slug="visit-altered",
    title="A visit that was changed or deleted after it was written",
    severity=Severity.FIX,
    what="A visit whose figures, places, day, car or contributor are others than at the revision "
    "that the book is compared with, or whose file is gone. Only `check --changed-since` looks. "
    "Turning and withdrawing are no such changes, nor are comments, layout and new names.",
    why="Others have graded and planned by what was measured. Who types over it or deletes it "
    "takes the trace of a mistake away, and nobody learns that a plan rested on it.",
    example="value: 12.4   # 12.1 when the visit came into the book",
    fix="Put back what stood there: git checkout REVISION -- FILE. Then take the visit back with "
    "loombook visit withdraw, and write what is right into a new one.",
)
_TURNED: Final = "turned"
_WITHDRAWN: Final = "withdrawn"


def altered_visits(book: Book, revision: str, changed: Sequence[Path]) -> Iterator[Finding]:
    """Yield each visit among changed files that says something else than at a revision."""
    files = {file.path.resolve(): file for file in book.every_file() if file.kind == "visit"}
    for path in changed:
        if not _is_visit(book, path):
            continue
        try:
            old = text_at(path, revision)
        except NoSuchRevisionError:
            continue  # it was not there then
        file = files.get(path) or _moved(files.values(), path)
        if file is not None:
            yield from _altered(file, old, book.renamed)
        else:
            yield _gone(path, revision)


def _is_visit(book: Book, path: Path) -> bool:
    folders = [root.folder.resolve() / FOLDER_OF["visit"] for root in book.own_roots]
    named = path.suffix in (".yaml", ".yml") and path.stem != TEMPLATE
    return named and any(path.is_relative_to(folder) for folder in folders)


def _moved(files: Iterable[RecordFile], path: Path) -> RecordFile | None:
    """The visit of that name in another folder: its vehicle was renamed or merged."""
    return next((file for file in files if file.path.name == path.name), None)


def _altered(file: RecordFile, old: bytes, renamed: Mapping[Name, str]) -> Iterator[Finding]:
    then, read = load_text(old, "").data, read_record(file)
    if then is None or not read.data:
        return  # what cannot be read says so itself
    then = with_new_names(then, old_names("visit", then, renamed))
    for path in _differences(then, read.data):
        told = "this visit says something else than when it was written"
        if path and path[0] in (_TURNED, _WITHDRAWN):
            told = f"{path[0]} of this visit was taken back or typed over"
        entry = ALTERED
        yield read.locate(Fault(path, told, entry.fix), entry.id, entry.slug, entry.severity)
        return  # the first place tells enough


def _differences(then: Mapping[str, Any], now: Mapping[str, Any]) -> Iterator[DataPath]:
    """Yield the places where a visit says otherwise; what was added later may only grow."""
    for key in dict.fromkeys((*then, *now)):
        if key == _TURNED and key in now:
            was = then.get(key, [])
            if now[key][: len(was)] != was:
                yield (key,)
        elif key == _WITHDRAWN and key not in then:
            continue
        elif then.get(key) != now.get(key):
            yield from _first(then.get(key), now.get(key), (key,))


def _first(was: Any, now: Any, path: DataPath) -> Iterator[DataPath]:
    """Yield the innermost place of the first difference."""
    if isinstance(was, dict) and isinstance(now, dict):
        pairs = [(key, was.get(key), now.get(key)) for key in dict.fromkeys((*was, *now))]
    elif isinstance(was, list) and isinstance(now, list) and len(was) == len(now):
        pairs = [(at, *two) for at, two in enumerate(zip(was, now, strict=True))]
    else:
        yield path
        return
    for step, one, other in pairs:
        if one != other:
            yield from _first(one, other, (*path, step))
            return


def _gone(path: Path, revision: str) -> Finding:
    entry = ALTERED
    return Finding(
        shown_path(path), 1, 1, entry.severity, entry.id, entry.slug,
        f"this visit was there at {revision} and is not any more", entry.fix,
    )  # fmt: skip
