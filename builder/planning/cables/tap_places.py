"""Where a pair is joined: at the plug where it was proved, or somewhere along its wires."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from builder.model.job import Route
from builder.model.plugs import Plug
from builder.model.words import Channel
from builder.planning.car.doubt_readings import place_readings
from builder.planning.car.pairs import Pair
from builder.planning.objections import Objection, object_to
from builder.planning.tables import COMMON_PRACTICE


def tap_place_objections(
    pairs: Mapping[Channel, Pair], ways: Iterable[tuple[Channel, Route]]
) -> list[Objection]:
    """Return what has to be read before a pair is joined elsewhere than where its pins are proved.

    `ways` are the signal route of each pair. A colour repeats along a car, and a wire changes it at
    a plug on the way: what holds at the radio is a guess at the side trim.
    """
    return [
        _prove_there(pairs[channel], route)
        for channel, route in ways
        if route.proved_there is None and not is_at_plug(route, pairs[channel].positive.plug)
    ]


def is_at_plug(route: Route, plug: Plug) -> bool:
    """Whether a route begins where a plug is: at its unit, its place, or the plug by name."""
    unit = "factory amplifier" if plug.unit == "amplifier" else plug.unit.replace("_", " ")
    names = (unit, plug.location, f"plug {plug.id}")
    return route.from_place.lower() in {name.lower() for name in names}


def _prove_there(pair: Pair, route: Route) -> Objection:
    place, plug = route.from_place, pair.positive.plug
    because = (
        f"its pins are proved at plug {plug.id} ({plug.location}); at {place} nobody showed which "
        "wires they are: find them by colour, then read them through to the plug, and say in the "
        "route who did (proved_there)"
    )
    return object_to(
        f"prove the {pair.named} wires at {place} first", because, COMMON_PRACTICE,
        settled_by=place_readings(pair, place),
    )  # fmt: skip
