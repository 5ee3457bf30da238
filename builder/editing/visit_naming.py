"""What a visit is called: who, when, which car, and a sum of what was read.

Two branches that each add a visit of one contributor to one car on one day write two files, so
that git has nothing to decide; the same readings have the same name on both.
"""

from __future__ import annotations

import hashlib
import json
from collections.abc import Mapping, Sequence
from typing import Any

from builder.model.visit import visit_id

MARK_DIGITS = 6
"""24 bits: of a hundred visits of one contributor, car and day two share a name once in 3,000."""


def name_of_visit(session: Mapping[str, Any], places: Sequence[Mapping[str, Any]]) -> str:
    """Return the name of a visit by its session and its places, as plain data.

    The ids of the session are no part of the sum. A visit in which nothing is read yet has none,
    and draws a mark by lot where it is written.
    """
    mark = _sum(session, places) if places else ""
    return visit_id(session["by"], str(session["date"]), session["car"]["tag"], mark)


def in_session(name: str, places: Sequence[Mapping[str, Any]]) -> list[dict[str, Any]]:
    """Return places as a visit's record has them: each reading says which session took it."""
    return [
        {**place, "readings": [{"session": name, **each} for each in place["readings"]]}
        for place in places
    ]


def _sum(session: Mapping[str, Any], places: Sequence[Mapping[str, Any]]) -> str:
    said = [_without(session, "id"), [_bare(place) for place in places]]
    text = json.dumps(said, sort_keys=True, ensure_ascii=False, default=str)
    return hashlib.sha256(text.encode()).hexdigest()[:MARK_DIGITS]


def _bare(place: Mapping[str, Any]) -> dict[str, Any]:
    return {**place, "readings": [_without(each, "session") for each in place["readings"]]}


def _without(said: Mapping[str, Any], key: str) -> dict[str, Any]:
    return {name: value for name, value in said.items() if name != key}
