"""Records are shown, compared and hashed as dataclasses are, by methods that they all share."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Any

import pytest

from builder.declaring import answer, record
from builder.declaring.records import _frozen


class Plain:
    """A class before anything is made of it."""

    first: int
    beside: str = field(default="", compare=False)
    hidden: str = field(default="", repr=False)
    looked_up: tuple[int, ...] = field(default=(), hash=False)


class Single:
    """One attribute: a value and not a tuple of one is what a getter of one returns."""

    only: float = 0.0


class Nothing:
    """No attribute."""


VALUES: list[dict[str, Any]] = [
    {"first": 1},
    {"first": 2},
    {"first": 1, "beside": "b"},
    {"first": 1, "hidden": "h"},
    {"first": 1, "looked_up": (3,)},
]
NAN = float("nan")
SINGLE: list[dict[str, Any]] = [{}, {"only": 1.0}, {"only": NAN}, {"only": NAN}]


@pytest.mark.parametrize("cls, values", [(Plain, VALUES), (Single, SINGLE), (Nothing, [{}, {}])])
def test_they_are_as_dataclass_makes_them(cls: type, values: list[dict[str, Any]]) -> None:
    ours = _frozen(_bare(cls))
    theirs = dataclass(frozen=True, slots=True)(_bare(cls))
    mine, own = [ours(**each) for each in values], [theirs(**each) for each in values]
    assert [*map(repr, mine)] == [*map(repr, own)]
    assert [*map(hash, mine)] == [*map(hash, own)]
    assert [[a == b for a in mine] for b in mine] == [[a == b for a in own] for b in own]
    assert mine[0] != own[0] and mine[0].__eq__(1) is NotImplemented


def _bare(cls: type) -> type:
    kept = {k: v for k, v in vars(cls).items() if k not in ("__dict__", "__weakref__")}
    return type(cls.__name__, (), kept)


def test_a_method_of_its_own_stays() -> None:
    def of_its_own(self: object) -> int:
        return 7

    made = record(type("Own", (), {"__hash__": of_its_own, "__annotations__": {}}))
    assert hash(made()) == 7


def test_answers_and_records_have_them() -> None:
    for how in (record, answer):
        made = how(type("Made", (), {"__annotations__": {}}))
        assert made() == made() and repr(made()).endswith("Made()") and len({made(), made()}) == 1
