"""What a piece of work asked for, noted by the asking itself, and whether all answers still stand.

Parts are handed out in mappings that write down each name that is looked up, found or not, and each
walk through all of them. So nothing has to be declared by hand, and nothing can be forgotten.
"""

from __future__ import annotations

import json
from collections.abc import Callable, Iterable, Iterator, Mapping, Set
from dataclasses import fields, replace
from operator import is_
from typing import Any

from builder.model.book import Shelf
from builder.proof.contributors import counted_as
from builder.store import sum_of

Ask = tuple[str, ...]
"""The source that was asked, and the name that it was asked for; without a name for all of it."""
Answers = Mapping[str, str]
"""By a question, written as a JSON list, the digest of what it was answered, "" for nothing."""
Note = Callable[[Ask], None]

_NO_SOURCE = "no such source"
_COUNTED = "counted"


class Noted(Mapping[Any, Any]):
    """A mapping that tells what is asked of it; all else of a mapping rests on these three."""

    __slots__ = ("_inner", "_note", "_source")

    def __init__(self, source: str, inner: Mapping[Any, Any], note: Note) -> None:
        self._source, self._inner, self._note = source, inner, note

    def __getitem__(self, name: Any) -> Any:
        self._note(_ask(self._source, name))
        return self._inner[name]

    def __iter__(self) -> Iterator[Any]:
        self._note((self._source,))
        return iter(self._inner)

    def __len__(self) -> int:
        self._note((self._source,))
        return len(self._inner)


class _NotedContributors(Noted):
    """The contributors; what a handle counts as rests on all of them, and is one answer."""

    __slots__ = ()

    def counted(self, handles: Iterable[str]) -> dict[str, str]:
        """What each of these counts as, those left out that count for themselves."""
        handles = [*handles]
        for handle in handles:
            self._note((f"{self._source}.{_COUNTED}", handle))
        return counted_as(handles, self._inner)


class _NotedIds(Set[str]):
    """A set of names that tells what is asked of it; from none is a set made of it in passing."""

    __slots__ = ("_inner",)

    def __init__(self, inner: Noted) -> None:
        self._inner = inner

    def __contains__(self, name: object) -> bool:
        return name in self._inner

    def __iter__(self) -> Iterator[str]:
        return iter(self._inner)

    def __len__(self) -> int:
        return len(self._inner)


class _Counted(Mapping[str, str]):
    """What each handle counts as, worked out when it is asked for."""

    def __init__(self, shelf: Shelf) -> None:
        self._shelf = shelf

    def __getitem__(self, handle: str) -> str:
        return counted_as((handle,), self._shelf.contributors).get(handle, handle)

    def __iter__(self) -> Iterator[str]:
        raise TypeError("nobody asks what every handle counts as")

    def __len__(self) -> int:
        raise TypeError("nobody asks how many handles there are")


def counts_of(shelf: Shelf, handles: Iterable[str]) -> dict[str, str]:
    """Return what handles count as in a book, as `counted_as` does."""
    known = shelf.contributors
    if isinstance(known, _NotedContributors):
        return known.counted(handles)
    return counted_as(handles, known)


class Sources:
    """All that can be asked of a book at one moment, and the digest of each answer.

    An answer is told from another by its `repr`: those of records are made of all their fields.
    `before` are the same of the moment before, added in the same order: an answer that is the same
    has the digest that it had.
    """

    def __init__(self, before: Sources | None = None) -> None:
        self._sources: dict[str, Mapping[Any, Any]] = {}
        self._shelves: dict[str, Shelf] = {}
        self._before = {**before._sources} if before else {}
        self._digests: dict[str, str] = {**before._digests} if before else {}
        self._passing: list[str] = []  # asks of what is no plain list: it may answer otherwise
        self._forget(before._passing if before else ())

    def add(self, source: str, answers: Mapping[Any, Any]) -> None:
        """Let a source be asked for these."""
        known = self._sources.get(source, self._before.pop(source, None))
        if known is not None and known is not answers:
            self._forget_moved(source, known, answers)
        self._sources[source] = answers

    def _forget_moved(
        self, source: str, known: Mapping[Any, Any], answers: Mapping[Any, Any]
    ) -> None:
        if not (isinstance(known, dict) and isinstance(answers, dict)):
            self._forget(self._passing)
            return
        moved = [n for n in known if n not in answers or not _same(known[n], answers[n])]
        moved += [name for name in answers if name not in known]
        self._forget((_said((source,)), *(_said(_ask(source, name)) for name in moved)))

    def _forget(self, asks: Iterable[str]) -> None:
        for said in asks:
            self._digests.pop(said, None)

    def add_shelf(self, source: str, shelf: Shelf) -> None:
        """Let what stands in a shelf be asked for."""
        self._shelves[source] = shelf
        for name in _NAMED:
            self.add(f"{source}.{name}", getattr(shelf, name))
        self.add(f"{source}.vehicle_ids", dict.fromkeys(sorted(shelf.vehicle_ids), True))
        self.add(f"{source}.contributors.{_COUNTED}", _Counted(shelf))

    def noted(self, source: str, note: Note, instead: Mapping[Any, Any] | None = None) -> Noted:
        """Return what a source answers, in a mapping that tells what is asked of it.

        `instead` holds the things themselves where the source has only digests of them.
        """
        return Noted(source, self._sources[source] if instead is None else instead, note)

    def noted_shelf(self, source: str, note: Note) -> Shelf:
        """Return a shelf that tells what is asked of it, but for defaults and day."""
        named: dict[str, Any] = {n: self.noted(f"{source}.{n}", note) for n in _NAMED}
        of_all = self._sources[f"{source}.contributors"]
        named["contributors"] = _NotedContributors(f"{source}.contributors", of_all, note)
        ids = self.noted_names(f"{source}.vehicle_ids", note)
        return replace(self._shelves[source], **named, vehicle_ids=ids)

    def noted_names(self, source: str, note: Note) -> Set[str]:
        """Return the names that a source answers for, in a set that tells what is asked of it."""
        return _NotedIds(self.noted(source, note))

    def answered(self, asks: Iterable[Ask]) -> dict[str, str]:
        """Return what was asked with the digests of the answers."""
        return {said: self._digest(said) for said in map(_said, dict.fromkeys(asks))}

    def still(self, answers: Answers) -> bool:
        """Whether all of these answers would be given today."""
        known = self._digests  # asked some dozen times for each of ten thousand vehicles
        for ask, digest in answers.items():
            told = known.get(ask)
            if digest != (self._digest(ask) if told is None else told):
                return False
        return True

    def _digest(self, said: str) -> str:
        known = self._digests.get(said)
        if known is None:
            known = self._digests[said] = self._worked_out(*json.loads(said))
        return known

    def _worked_out(self, source: str, *name: str) -> str:
        answers = self._sources.get(source)
        if not isinstance(answers, dict):
            self._passing.append(_said((source, *name)))
        if answers is None:
            return _NO_SOURCE
        if not name:
            return sum_of(f"{each} {self._digest(_said(_ask(source, each)))}" for each in answers)
        try:
            return sum_of((repr(answers[name[0] if len(name) == 1 else name]),))
        except KeyError:
            return ""


def _same(one: Any, other: Any) -> bool:
    """Whether two answers have one digest: of equal ones 1 and 1.0 are told apart."""
    return one is other or _same_things(one, other) or repr(one) == repr(other)


def _same_things(one: Any, other: Any) -> bool:
    """Whether two are lists of the very same things."""
    both = isinstance(one, list) and isinstance(other, list) and len(one) == len(other)
    return both and all(map(is_, one, other))


_NAMED = tuple(each.name for each in fields(Shelf) if "Mapping" in str(each.type))
"""The fields of a shelf that hold something by name."""


def _said(ask: Ask) -> str:
    return json.dumps(ask)


def _ask(source: str, name: object) -> Ask:
    return (source, *name) if isinstance(name, tuple) else (source, str(name))
