"""Commands that are loaded when they are asked for: `find` needs nothing of what `build` needs."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, MutableMapping
from importlib import import_module

import click


class LateCommands(MutableMapping[str, click.Command]):
    """Commands by name, of which each is first a place, `module:attribute`, and loaded once."""

    def __init__(self, places: Mapping[str, str]) -> None:
        self._found: dict[str, str | click.Command] = dict(places)

    def __getitem__(self, name: str) -> click.Command:
        found = self._found[name]
        if isinstance(found, str):
            module, attribute = found.split(":")
            found = self._found[name] = getattr(import_module(module), attribute)
        return found

    def __setitem__(self, name: str, command: click.Command) -> None:
        self._found[name] = command

    def __delitem__(self, name: str) -> None:
        del self._found[name]

    def __contains__(self, name: object) -> bool:
        return name in self._found  # asking whether there is one loads none

    def __iter__(self) -> Iterator[str]:
        return iter(self._found)

    def __len__(self) -> int:
        return len(self._found)
