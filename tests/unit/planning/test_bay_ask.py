"""What rows of a bay sheet ask alike stands once; nothing is lost, and keys stay in their order."""

from __future__ import annotations

import json
from typing import Any

import pytest
from pack_jobs import SHIPPED, shipped_pack

from builder.rendering.pages.bay_ask import Ask, ask_of, asked_alike


def put_together(alike: str, own: str) -> dict[str, Any]:
    """As a script does it."""
    shared, mine = json.loads(alike), json.loads(own)
    facts = {"facts": {**shared["facts"], **mine.get("facts", {})}} if "facts" in shared else {}
    return {**shared, **mine, **facts}


def as_read(ask: Ask) -> dict[str, Any]:
    plain: dict[str, Any] = json.loads(json.dumps(ask))
    return plain


@pytest.mark.parametrize("name", SHIPPED)
@pytest.mark.parametrize("many", [1, 2, 5, 1000])
def test_each_row_asks_what_it_asked(name: str, many: int) -> None:
    asks = [ask_of(test) for test in shipped_pack(name).tests]
    for at in range(0, len(asks), many):
        mine = asks[at : at + many]
        alike, own = asked_alike(mine)
        for ask, rest in zip(mine, own, strict=True):
            found = put_together(alike, rest)
            assert found == as_read(ask)
            assert list(found.get("facts", ())) == list(as_read(ask).get("facts", ()))


def test_what_rows_ask_alike_stands_once() -> None:
    facts = {"plug": "A", "cavity": "1", "quantity": "ohm"}
    first = {"quantity": "ohm", "low": None, "facts": facts}
    alike, own = asked_alike([first, {**first, "facts": {**facts, "cavity": "2"}}])
    assert json.loads(alike)["facts"] == {"plug": "A", "cavity": None, "quantity": "ohm"}
    assert list(map(json.loads, own)) == [{"facts": {"cavity": "1"}}, {"facts": {"cavity": "2"}}]


def test_a_limit_that_only_one_row_has_stays_with_it() -> None:
    alike, own = asked_alike([{"low": 1, "also": []}, {"low": 1.5}])
    assert (json.loads(alike), list(map(json.loads, own))) == (
        {}, [{"low": 1, "also": []}, {"low": 1.5}],
    )  # fmt: skip
