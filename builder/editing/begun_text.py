"""What a begun job is given in its record: by whom, when, and what is joined; no file."""

from __future__ import annotations

from typing import Any

from builder.declaring import fields_of
from builder.editing.splicing import insert_key
from builder.model.job import Begun


def with_begun(text: str, begun: Begun) -> str:
    """Return a job's text with `begun` in its place.

    Raises:
        UneditableError: the text has no place for it, or has it already.
    """
    return insert_key(text, (), "begun", data_of(begun), "job")


def data_of(record: Any) -> dict[str, Any]:
    """Return a declared record as it is typed: what says nothing is left out.

    >>> from builder.model.job import FittedLoom
    >>> data_of(FittedLoom(record="through-8", plug="A"))
    {'record': 'through-8', 'plug': 'A'}
    """
    said = {each.key: _value(getattr(record, each.attribute)) for each in fields_of(type(record))}
    optional = {each.key for each in fields_of(type(record)) if each.spec.optional}
    return {
        key: value
        for key, value in said.items()
        if key not in optional or value not in (None, "", [], "no")
    }


def _value(value: Any) -> Any:
    if isinstance(value, tuple):
        return [_value(each) for each in value]
    if isinstance(value, bool):
        return "yes" if value else "no"
    return value if value is None or isinstance(value, str | int | float) else data_of(value)
