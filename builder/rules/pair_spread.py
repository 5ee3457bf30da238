"""The legs of a pair are far apart.

What it catches
---------------
The positive and negative leg of one channel in different plugs, or more than three cavities
apart **(house default)** in the drawing of the housing, when neither pin carries a note.

Why it matters in the bay
-------------------------
Factories put the two legs side by side. Legs far apart usually belong to two different
speakers, and a converter across them gives hum or nothing.

Example
-------
Fails::

    pins:
      - {cavity: 1, function: speaker, channel: front-left, leg: positive}
      - {cavity: 16, function: speaker, channel: front-left, leg: negative}

Passes::

    pins:
      - {cavity: 1, function: speaker, channel: front-left, leg: positive}
      - {cavity: 2, function: speaker, channel: front-left, leg: negative}

How to mend it
--------------
Measure the ohms across the two. If they are a pair, say so in `note` of one of them.

Source
------
Common practice, no source. In the plug order associated with ISO 10487 each positive is
followed by its own negative (second hand).
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.figures import shown
from builder.findings import Fault, Severity
from builder.model.book import Shelf
from builder.model.housing import Housing
from builder.model.vehicle import Vehicle
from builder.rules.house import prints
from builder.rules.rule import Scope, rule
from builder.rules.wiring import Site, wiring_of
from builder.rules.wording import called


@prints("pair_spread_cavities")
def check(vehicle: Vehicle, shelf: Shelf) -> Iterator[Fault]:
    """Yield pairs whose legs do not sit together."""
    for pair in wiring_of(vehicle).pairs:
        if len(pair.positives) == 1 and len(pair.negatives) == 1:
            positive, negative = pair.positives[0], pair.negatives[0]
            apart = _apart(positive, negative, shelf)
            if apart and not (positive.pin.note or negative.pin.note):
                yield Fault(
                    (*negative.pin.path, "cavity"),
                    f"{called(positive)} and {called(negative)} are {apart}: "
                    "legs that far apart often belong to two speakers",
                    "measure the ohms across the two, then correct one or say so in note",
                )


def _apart(positive: Site, negative: Site, shelf: Shelf) -> str:
    """What is odd about where the two sit, or ""."""
    if positive.plug.id != negative.plug.id:
        return "in different plugs"
    housing = shelf.housings.get(positive.plug.housing)
    if housing is None:
        return ""
    limit = shelf.defaults.pair_spread_cavities
    one, other = _place(positive.pin.cavity, housing), _place(negative.pin.cavity, housing)
    if one is None or other is None:
        return ""
    distance = max(abs(one[0] - other[0]), abs(one[1] - other[1]))
    return f"{distance} cavities apart (limit {shown(limit)})" if distance > limit else ""


def _place(cavity: str, housing: Housing) -> tuple[int, int] | None:
    for row, names in enumerate(housing.rows):
        if cavity in names:
            return row, names.index(cavity)
    return None


RULE = rule("PIN114", Severity.WARN, Scope.VEHICLE, check)
