"""No check fails for a pin that nobody proved, so no plan may build on one: all are tried."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from shipped_book import PINOUTS

from builder.book import open_book
from builder.model.book import Shelf
from builder.model.vehicle import Vehicle
from builder.pipeline.checking.book_check import check_book
from builder.pipeline.checking.records import as_counted, read_record
from builder.planning.feeds.tap_plan import make_plan, serves
from builder.planning.plan import Plan

Places = frozenset[tuple[str | None, str | None]]


def without_evidence(vehicle: Vehicle, places: Places) -> Vehicle:
    return replace(
        vehicle,
        plugs=tuple(
            replace(
                plug,
                pins=tuple(
                    replace(pin, readings=(), claims=()) if (plug.id, pin.cavity) in places else pin
                    for pin in plug.pins
                ),
            )
            for plug in vehicle.plugs
        ),
    )


def groups(plan: Plan) -> Iterator[Places]:
    """What a plan uses: the legs of each pair, and where it takes its turn-on."""
    for channel in dict.fromkeys(feed.channel for feed in plan.feeds):
        yield frozenset((f.plug, f.cavity) for f in plan.feeds if f.channel == channel)
    if plan.turn_on.cavity is not None:
        yield frozenset({(plan.turn_on.plug, plan.turn_on.cavity)})


def uses(plan: Plan) -> Places:
    return frozenset(place for group in groups(plan) for place in group)


def tap_plans() -> Iterator[tuple[Vehicle, str, Shelf, Plan]]:
    checked = check_book(open_book(PINOUTS))
    for file in checked.book.files():
        if file.kind == "vehicle" and not file.is_template:
            vehicle = as_counted(read_record(file), checked.shelf).record
            assert isinstance(vehicle, Vehicle)
            for name, converter in checked.shelf.converters.items():
                if serves(vehicle, converter, checked.shelf.defaults)[0]:
                    plan = make_plan(vehicle, converter, defaults=checked.shelf.defaults)
                    if plan.kind == "tap_plan":
                        yield vehicle, name, checked.shelf, plan


def test_a_pin_without_any_evidence_is_in_no_tap_plan() -> None:
    tried, built_on = 0, []
    for vehicle, name, shelf, plan in tap_plans():
        for group in groups(plan):
            bare = without_evidence(vehicle, group)
            again = make_plan(bare, shelf.converters[name], defaults=shelf.defaults)
            tried += 1
            if again.kind == "tap_plan" and group & uses(again):
                built_on.append((vehicle.id, name, sorted(map(str, group))))
    assert tried > 150
    assert built_on == []
