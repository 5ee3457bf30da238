"""What the store of a book keeps of a check, and what of it still stands.

A row is found by a key, made of the state of the tool, of the book's settings and of the bytes that
were read; it counts while all that was asked for beside those is still answered the same.
"""

from __future__ import annotations

import json
from collections.abc import Callable, Iterable, Mapping, Sequence
from typing import Any, TypeVar

from builder.book import Book, RecordFile
from builder.findings import Finding
from builder.pipeline.checking.asked import Answers, Note, Sources
from builder.pipeline.checking.own_fault import OWN_FAULT
from builder.pipeline.checking.shelf import Shelves
from builder.store import as_plain, reader_of, sum_of, tool_state

Found = TypeVar("Found")
_Row = tuple[Answers, Found]
"""What a row rests on, and what it holds."""

BOOK, EXAMPLES, PUBLIC = "book", "examples", "public"
"""The shelves of a book by the names that they are asked by."""

_SOURCES, _SUMS = "sources", "sums of files"
"""What a process has in mind from look to look beside rows."""
_SumOfFile = tuple[list[Any], str]

_PHOTOS = '.photos"'
"""What a question for a photo has in it; one that looks so and is none does no harm."""
_WRITTEN_AT_ONCE = 500
"""Rows; each time takes some milliseconds."""

_finding = reader_of(Finding)


class Kept:
    """The rows about one book as it was opened, and what can be asked of that book."""

    def __init__(self, book: Book, shelves: Shelves) -> None:
        self._store = book.store
        self._shelves = shelves
        self._new: dict[str, bytes] = {}
        self.looked_at_anew = 0
        self.sources = Sources()
        self.photos: dict[str, str] = {}  # what checks rest on beside records, with its digest
        self._sums: dict[Any, _SumOfFile] = self._store.memory.setdefault(_SUMS, {})
        if self.is_on:
            self._state = sum_of(_state_of(book, shelves))
            self.sources = self._sources_since()
            self.sources.add_shelf(BOOK, shelves.book)
            self.sources.add_shelf(EXAMPLES, shelves.with_templates)
            if shelves.public is not None:
                self.sources.add_shelf(PUBLIC, shelves.public)

    def _sources_since(self) -> Sources:
        """The sources, with what the last look of this process knows of the same ones."""
        if not self._store.remembers:
            return Sources()
        memory = self._store.memory.get(_SOURCES, {})
        sources = Sources(memory.get(self._state))
        self._store.memory[_SOURCES] = {self._state: sources}
        return sources

    @property
    def is_on(self) -> bool:
        """Whether anything is kept; else nothing needs to be noted."""
        return self._store.is_kept

    def key(self, work: str, *words: str) -> str:
        """The key of what a piece of work came to, from what it was given."""
        return sum_of((self._state, work, *words))

    def sum_of_file(self, file: RecordFile) -> str:
        """What differs whenever anything does that a file and its visits say to who reads them."""
        stand = [
            (each.path, each.taken, each.begun, each.visibility, each.lender, each.replaces)
            for each in _with_visits(file)
        ]
        known = self._sums.get(file.path)
        if known is None or known[0] != stand:
            known = self._sums[file.path] = (stand, sum_of(words_of_file(file)))
        return known[1]

    def noted_shelves(self, note: Note) -> Shelves:
        """The shelves of the book, telling what is asked of them."""
        public = self._shelves.public and self.sources.noted_shelf(PUBLIC, note)
        book, examples = (self.sources.noted_shelf(each, note) for each in (BOOK, EXAMPLES))
        return Shelves(book, examples, public)

    def find(self, keys: Sequence[str]) -> dict[str, list[bytes]]:
        """Return, by key, the lines of each row that still stands."""
        return self._standing(self._rows(keys))

    def recall(
        self, work: str, keys: Sequence[str], read: Callable[[list[bytes]], Found]
    ) -> dict[str, Found]:
        """Return, by key, what is made of the lines of each row that still stands.

        A process that looks at its book again and again makes it once: of a piece of work it has
        in mind what it asked for last.
        """
        memory: dict[str, _Row[Found]] = self._store.memory.get(work, {})
        known = {key: memory[key] for key in keys if key in memory}
        new = self._rows([key for key in keys if key not in known])
        known |= {key: (answers, read(lines)) for key, (answers, lines) in new.items()}
        if self._store.remembers:
            self._store.memory[work] = known
        return self._standing(known)

    def _rows(self, keys: Sequence[str]) -> dict[str, _Row[list[bytes]]]:
        rows = {}
        for key, row in self._store.get(keys).items():
            asked, *lines = row.split(b"\n")
            rows[key] = (json.loads(asked) or {}, lines)  # an older row that rests on nothing: []
        return rows

    def _standing(self, rows: Mapping[str, _Row[Found]]) -> dict[str, Found]:
        found = {}
        for key, (answers, one) in rows.items():
            if self.sources.still(answers):
                self._note_photos(answers)
                found[key] = one
        return found

    def keep(self, key: str, asks: Answers, *lines: bytes) -> None:
        """Keep lines under a key, with what was asked for them."""
        self._note_photos(asks)
        self._new[key] = b"\n".join((as_line(asks), *lines))
        if len(self._new) >= _WRITTEN_AT_ONCE:  # a check that is ended midway was not in vain
            self.write()

    def _note_photos(self, answers: Answers) -> None:
        self.photos |= {ask: told for ask, told in answers.items() if _PHOTOS in ask}

    def write(self) -> None:
        """Put what is new into the store."""
        self._store.put(self._new)
        self._new = {}


def _state_of(book: Book, shelves: Shelves) -> Iterable[str]:
    yield tool_state()
    yield repr(book.defaults)
    yield book.as_of
    yield repr(sorted(book.renamed.items()))
    yield repr(shelves.public is None)


def _with_visits(file: RecordFile) -> tuple[RecordFile, ...]:
    return (file, *file.visits)


def words_of_file(file: RecordFile) -> Iterable[str]:
    """Yield all that a file says to who reads it, and those of its visits."""
    for each in _with_visits(file):
        yield f"{each.kind}/{each.path.parent.name}/{each.path.name}"
        yield f"{each.visibility} {each.lender}/{each.replaces}"
        yield each.content.state
        yield each.begun.state if each.begun else ""


def as_line(plain: Any) -> bytes:
    """Return plain data as one line."""
    return json.dumps(plain, ensure_ascii=False, separators=(",", ":")).encode(
        "utf-8", "surrogatepass"
    )


def names_of(file: RecordFile) -> list[str]:
    """The names that findings of a record stand under: of its own file, and of its visits."""
    return [file.shown, *(visit.shown for visit in file.visits)]


def is_own_fault(findings: Iterable[Finding]) -> bool:
    """Whether loombook failed on something: that is tried again, and never kept."""
    return any(finding.rule_id == OWN_FAULT.id for finding in findings)


def plain_findings(findings: Iterable[Finding], file: RecordFile) -> list[list[Any]]:
    """The findings of a record in their plain form, each with the number of its file.

    Raises:
        NotPlainError: one holds what has no plain form.
        ValueError: one is in no file of the record.
    """
    names = names_of(file)
    return [numbered(as_plain(each), names) for each in findings]


def read_findings(plain: Iterable[list[Any]], file: RecordFile) -> list[Finding]:
    """The findings again, named as their files are shown today."""
    names = names_of(file)
    return [_finding([names[at], *rest]) for at, *rest in plain]


def numbered(plain: list[Any], names: Sequence[str]) -> list[Any]:
    """A plain form that begins with a file, with the number of that file in its place."""
    return [names.index(plain[0]), *plain[1:]]
