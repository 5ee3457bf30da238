"""Figures that somebody reads off a car: what an example may not offer for copying."""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import cache

from builder.declaring import fields_of
from builder.model.job import Job
from builder.model.vehicle import Vehicle

READ_IT = "<read it>"
"""What stands in the place of a figure that mends a finding; it is no number and is refused."""


@cache
def read_off_keys() -> frozenset[str]:
    """The keys of records whose figures are read or measured: no example of theirs is a number."""
    return frozenset({*_keys(Vehicle), *_keys(Job)})


def _keys(cls: type) -> Iterator[str]:
    for each in fields_of(cls):
        if None in each.spec.examples:
            yield each.key
        if each.inner is not None:
            yield from _keys(each.inner)


def figures_in(text: str) -> tuple[str, ...]:
    """Every such key with its figure in a text, "battery_v: 12.4"."""
    return tuple(found[0] for found in _figure().finditer(text))


def asked_for(passing: str, failing: str) -> str:
    """An example in order, asking for each such figure that the one found does not show."""
    there = set(figures_in(failing))
    return _figure().sub(
        lambda found: found[0] if found[0] in there else f"{found[1]}: {READ_IT}", passing
    )


@cache
def _figure() -> re.Pattern[str]:
    return re.compile(
        rf"\b({'|'.join(sorted(read_off_keys()))}): *-?[0-9](?:[0-9.]*[0-9])?(?=\W|$)"
    )
