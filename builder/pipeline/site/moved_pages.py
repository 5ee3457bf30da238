"""Pages at the old addresses of what was renamed: a bookmark or a printed code still leads home."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping
from itertools import product
from typing import NamedTuple

from builder.book import FOLDER_OF
from builder.book.record_files import Name
from builder.model.words import RecordKind
from builder.rendering.pages.moved import moved_document
from builder.rendering.pages.wording import plan_url


class _Called(NamedTuple):
    """An address, and what its page is about."""

    url: str
    name: str


def moved_pages(renamed: Mapping[Name, str], urls: Iterable[str]) -> Iterator[tuple[str, bytes]]:
    """Yield a document for each old address, as (relative path, content).

    `urls` are the addresses of the site. What has no page now, as a record that a public book
    leaves out, gets none at its old address either: that would give its name away.
    """
    there = frozenset(urls)
    for was, now in (*_records(renamed), *_plans(renamed, there)):
        if now.url in there and was.url not in there:
            target = now.url.rpartition("/")[2]
            yield was.url, moved_document(was.name, now.name, target).encode()


def _records(renamed: Mapping[Name, str]) -> Iterator[tuple[_Called, _Called]]:
    for (kind, was), now in sorted(renamed.items()):
        if kind in FOLDER_OF:
            yield _of_record(kind, was), _of_record(kind, now)


def _plans(renamed: Mapping[Name, str], urls: Iterable[str]) -> Iterator[tuple[_Called, _Called]]:
    """Every plan by each pair of names that its vehicle and its converter have or had."""
    old: defaultdict[Name, list[str]] = defaultdict(list)
    for (kind, was), now in sorted(renamed.items()):
        old[kind, now].append(was)
    for url in sorted(url for url in urls if url.startswith("plans/")):
        car, parting, part = url[len("plans/") : -len(".html")].partition("--")
        of_car, of_part = old.get(("vehicle", car), ()), old.get(("converter", part), ())
        if parting and (of_car or of_part):
            for pair in product((car, *of_car), (part, *of_part)):
                yield _of_plan(*pair), _of_plan(car, part)


def _of_record(kind: RecordKind, name: str) -> _Called:
    return _Called(f"{FOLDER_OF[kind]}/{name}.html", name)


def _of_plan(vehicle: str, converter: str) -> _Called:
    return _Called(plan_url(vehicle, converter), f"{vehicle} with {converter}")
