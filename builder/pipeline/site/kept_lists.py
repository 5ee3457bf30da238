"""Pages and files that rest on many records: made again only when what they rest on is another.

A group says by digests what it rests on. One that rests on the whole book may be made of groups
that each rest on a part of it: those are looked up only when the whole is another.
"""

from __future__ import annotations

import json
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from typing import Any

from builder.pipeline.checking.kept import Kept, as_line
from builder.pipeline.site.page_sources import state_of_pages
from builder.pipeline.site.site_writer import ListedPages, SiteWriter, WrittenPages
from builder.rendering.page import BuildInfo, Page
from builder.rendering.site_links import LinkedPages
from builder.rendering.writing import WrittenFile, make_folders
from builder.store import as_plain, reader_of

_pages, _files = reader_of(ListedPages), reader_of(list[WrittenFile])
Files = Iterable[tuple[str, bytes]]


@dataclass(frozen=True, slots=True)
class PageGroup:
    """Pages that rest on the same, or groups of such. `rests_on` differs whenever they may."""

    name: str
    rests_on: tuple[str, ...]
    make: Callable[[], Iterable[Page | PageGroup]]


@dataclass(frozen=True, slots=True)
class FileGroup:
    """Files that are no pages and rest on the same: each its URL and its content."""

    name: str
    rests_on: tuple[str, ...]
    make: Callable[[], Files]


_Group = PageGroup | FileGroup


class KeptLists:
    """What is known of such pages and files of a book from before."""

    def __init__(self, kept: Kept, writer: SiteWriter, info: BuildInfo) -> None:
        self._kept, self._writer, self._info = kept, writer, info
        if kept.is_on:
            marks = repr((sorted(info.private), sorted(info.borrowed.items())))
            self._state = (state_of_pages(info, writer.shell), marks)

    def pages(self, groups: Sequence[PageGroup]) -> list[Page]:
        """Write the pages of these groups, or take them over; return what each is found by."""
        return _joined(self._written(groups)).found_by

    def _written(self, groups: Sequence[PageGroup]) -> list[ListedPages]:
        keys = [self._key("lists", group) for group in groups]
        known: dict[str, ListedPages] = self._recall("lists", groups, keys, _pages)
        found = []
        for key, group in zip(keys, groups, strict=True):
            one = known.get(key)
            if one is None or not self._writer.take_over(one.pages):
                one = self._made(group)
                self._keep(key, one)
            found.append(one)
        return found

    def _made(self, group: PageGroup) -> ListedPages:
        found = [*group.make()]
        inner = [each for each in found if isinstance(each, PageGroup)]
        pages = [self._info.marked(each) for each in found if isinstance(each, Page)]
        return _joined([*self._written(inner), self._writer.write_pages(pages)])

    def files(self, groups: Sequence[FileGroup]) -> None:
        """Write the files of these groups, or take them over."""
        keys = [self._key("files", group) for group in groups]
        known: dict[str, list[WrittenFile]] = self._recall("files", groups, keys, _files)
        for key, group in zip(keys, groups, strict=True):
            if not self._taken_over(known.get(key)):
                self._keep(key, self._writer.write_files(group.make()))

    def _taken_over(self, files: Sequence[WrittenFile] | None) -> bool:
        if files is None:
            return False
        writer = self._writer
        make_folders(writer.folder, (file.url for file in files))
        there = writer.standing.take(files, writer.folder)
        writer.take_in(files if there else ())
        return there

    def _key(self, work: str, group: _Group) -> str:
        if not self._kept.is_on:
            return ""
        return self._kept.key(work, *self._state, group.name, *group.rests_on)

    def _recall(
        self, work: str, groups: Sequence[_Group], keys: Sequence[str], read: Callable[[Any], Any]
    ) -> dict[str, Any]:
        if not self._kept.is_on or not groups:
            return {}
        name = f"{work} from {groups[0].name}"
        return self._kept.recall(name, keys, lambda lines: read(json.loads(lines[0])))

    def _keep(self, key: str, made: Any) -> None:
        if key:
            self._kept.keep(key, {}, as_line(as_plain(made)))


def _joined(listed: Sequence[ListedPages]) -> ListedPages:
    """Pages that were written one after another, as one."""
    links = [each.pages.links for each in listed]
    joined = LinkedPages(
        tuple(name for each in links for name in each.names),
        tuple(asked for each in links for asked in each.asked),
        tuple(bad for each in links for bad in each.bad),
    )
    files = [file for each in listed for file in each.pages.files]
    return ListedPages(WrittenPages(files, joined), [w for each in listed for w in each.words])
