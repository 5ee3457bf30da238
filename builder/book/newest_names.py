"""What an old name is called today."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping
from typing import Protocol

from builder.book.record_files import Name
from builder.model.words import CONTRIBUTOR


class OldAndNew(Protocol):
    """A line of a table of old names."""

    @property
    def old(self) -> Name:
        """What it renames, by kind and old id."""

    @property
    def now(self) -> str:
        """The id that it has today."""


def newest_names(renamings: Iterable[OldAndNew], standing: Collection[Name]) -> dict[Name, str]:
    """Return what each old name is called today, over as many lines as that takes.

    What stands in the book by that name today is no old name. A line that leads back to itself, or
    to a record that does not stand, renames nothing. Of two lines for one name the last counts.
    """
    steps = {one.old: one.now for one in renamings if one.old not in standing}
    led = {old: last_name(old, steps) for old in steps}
    return {
        old: now[1]
        for old, now in led.items()
        if now is not None and (now in standing or now[0] == CONTRIBUTOR)
    }


def last_name(old: Name, steps: Mapping[Name, str]) -> Name | None:
    """Return where the lines lead from an old name on, None when that is back to it."""
    now, passed = old, {old}
    while now in steps:
        now = (old[0], steps[now])
        if now in passed:
            return None
        passed.add(now)
    return now
