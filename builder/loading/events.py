"""Where YAML events come from: libyaml when it is there, pure Python otherwise.

`CParser` is a half-private name of PyYAML, so nothing may depend on it being there; both
sources give the same event classes, and the same tests run on both. Two differences are
known: the style of a plain scalar is "" in libyaml and None in Python, and Python refuses
a tab between a colon and a value, which libyaml takes for a space.
"""

from __future__ import annotations

import importlib
from collections.abc import Callable
from enum import Enum
from typing import Any

import yaml

NextEvent = Callable[[], Any]
"""Gives the next `yaml.events` event, the last a StreamEndEvent; raises YAMLError."""


def _find_libyaml() -> Any:
    try:
        return importlib.import_module("yaml._yaml").CParser
    except (ImportError, AttributeError):
        return None


_LIBYAML_PARSER = _find_libyaml()


class EventSource(Enum):
    """The two parsers that can be asked for."""

    LIBYAML = "libyaml"
    PYTHON = "python"


def available_sources() -> list[EventSource]:
    """The sources this installation has, the quickest first."""
    if hasattr(_LIBYAML_PARSER, "get_event"):
        return [EventSource.LIBYAML, EventSource.PYTHON]
    return [EventSource.PYTHON]


def open_events(text: str, source: EventSource | None = None) -> NextEvent:
    """Start reading `text` with the given source, or with the quickest there is.

    Raises:
        yaml.YAMLError: the text holds a character YAML forbids.
    """
    if source is None:
        source = available_sources()[0]
    return _libyaml_events(text) if source is EventSource.LIBYAML else _python_events(text)


def _libyaml_events(text: str) -> NextEvent:
    get_event: NextEvent = _LIBYAML_PARSER(text).get_event
    return get_event


def _python_events(text: str) -> NextEvent:
    loader: Any = yaml.BaseLoader(text)

    def next_event() -> Any:
        try:
            return loader.get_event()
        except (ValueError, OverflowError) as error:  # chr() of an escape beyond U+10FFFF
            raise yaml.MarkedYAMLError(
                problem="found invalid Unicode character escape code",
                problem_mark=loader.get_mark(),
            ) from error

    return next_event
