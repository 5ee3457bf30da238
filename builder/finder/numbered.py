"""Things stored once and named by number."""

from __future__ import annotations

from collections.abc import Hashable


class Numbered:
    """A list in which nothing stands twice; `all` is the list, in the order of first use."""

    def __init__(self) -> None:
        self.all: list[Hashable] = []
        self._numbers: dict[Hashable, int] = {}

    def number(self, thing: Hashable) -> int:
        """The place of a thing in the list; a new one is added at its end."""
        if thing not in self._numbers:
            self._numbers[thing] = len(self.all)
            self.all.append(thing)
        return self._numbers[thing]
