"""The plans of a vehicle as its data file has them: what several of them say stands there once."""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
from typing import Any

SHARED_LISTS = (
    "because", "feeds", "insulate", "ladder", "levels", "tests", "losses", "refusals",
)  # fmt: skip


def plans_data(plans: Sequence[Mapping[str, Any]]) -> dict[str, Any]:
    """Return `plans` and `plans_share`, as `schema/data-file.schema.json` describes them.

    `plans` are plans as plain data. In what is returned each of their `SHARED_LISTS` holds places,
    counted from 0, in the list of that name in `plans_share`.
    """
    share: dict[str, list[Any]] = {name: [] for name in SHARED_LISTS}
    places: dict[tuple[str, str], int] = {}

    def place_of(name: str, item: object) -> int:
        place = places.setdefault((name, json.dumps(item)), len(share[name]))
        if place == len(share[name]):
            share[name].append(item)
        return place

    return {
        "plans": [
            {**plan, **{name: [place_of(name, one) for one in plan[name]] for name in SHARED_LISTS}}
            for plan in plans
        ],
        "plans_share": share,
    }
