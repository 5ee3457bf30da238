"""The wiring picture of a plan: all that it joins, from cavity to terminal; nothing invented."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from functools import cache
from itertools import product
from typing import NamedTuple

from drawing_samples import BOOK, outside, overlapping
from each_case import each
from hypothesis import given, settings
from hypothesis import strategies as st
from plan_cars import converter, doors_car, retained
from samples import many, some
from test_customer_lines import checked, sketched_parts
from test_pack_scenarios import split_car
from test_plan_properties import CONVERTERS, cars
from test_wiring_picture import ROWS, check_generated
from wiring_drawn import wiring_picture, wiring_pieces
from wiring_samples import every_id, housings
from wiring_svg import Drawn, crossings, on_each_other, struck

from builder.book import open_book
from builder.model.house_defaults import HouseDefaults
from builder.model.parts import Converter
from builder.model.vehicle import Vehicle
from builder.model.wire import Wire
from builder.pipeline.checking.records import as_counted, read_record
from builder.planning.circuit.model import Circuit
from builder.planning.feeds.tap_plan import Treatment, make_plan
from builder.planning.job.plan_circuit import THE_AMPLIFIER, plan_circuit, plan_parts
from builder.planning.plan import Plan
from builder.planning.turn_on.loads import WAKES_BY_ITSELF
from builder.planning.work_pack import JobParts

HOUSE = HouseDefaults()
TREATMENTS: tuple[Treatment, ...] = ("auto", "addon", "intercept")
PAGE = 390 - 32


class Planned(NamedTuple):
    """A tap plan with its circuit."""

    name: str
    plan: Plan
    circuit: Circuit
    parts: JobParts

    @property
    def whole(self) -> Drawn:
        return Drawn(wiring_picture(self.circuit, self.parts))

    @property
    def pieces(self) -> list[Drawn]:
        return [Drawn(piece.drawing) for piece in wiring_pieces(self.circuit, self.parts)]


def planned(vehicle: Vehicle, device: Converter, treatment: Treatment) -> Planned | None:
    shelf = replace(checked()[0], housings=housings())
    interfaces = tuple(shelf.interfaces.values())
    plan = make_plan(vehicle, device, defaults=HOUSE, treatment=treatment, interfaces=interfaces)
    parts = plan_parts(vehicle, device, shelf)
    circuit = plan_circuit(plan, parts)
    assert (circuit is not None) == (plan.kind == "tap_plan")
    name = f"{vehicle.id} {device.id} {treatment}"
    return None if circuit is None else Planned(name, plan, circuit, parts)


def measured() -> Iterator[Vehicle]:
    """The cars of the book with the readings of their visits."""
    for file in open_book(BOOK).files():
        if file.kind == "vehicle":
            record = as_counted(read_record(file), checked()[0]).record
            assert isinstance(record, Vehicle)
            yield record


@cache
def shipped_plans() -> tuple[Planned, ...]:
    """Every plan of the book that may be built from, each joined in one way once."""
    shelf, _ = checked()
    found: dict[str, Planned] = {}
    for vehicle, device, how in product(measured(), shelf.converters.values(), TREATMENTS):
        one = planned(vehicle, device, how)
        if one is not None:
            found.setdefault(repr((vehicle.id, device.id, one.plan.feeds)), one)
    return tuple(found.values())


def check_joined(one: Planned) -> None:
    """Every terminal of the plan is joined to what the plan says, and every other one is needed by
    nothing."""
    circuit, plan = one.circuit, one.plan
    linked = {end for link in circuit.links for end in (link.begins, link.finishes)}
    assert {each.id for each in circuit.terminals if each.needed} <= linked
    device = one.parts.converter.name
    ends = {link.finishes: link for link in circuit.links if link.carries == "speaker_level"}
    for feed in plan.feeds:
        sign = "+" if feed.leg == "positive" else "−"
        link = ends[f"{device} in {feed.converter_input} {sign}"]
        assert link.begins == f"{feed.plug}.{feed.cavity}"
    switched = [link for link in circuit.links if link.finishes == f"{device} turn-on in"]
    asked = plan.turn_on.kind not in (*WAKES_BY_ITSELF, "none")
    assert bool(switched) == (asked and one.parts.converter.remote_in is not None)
    cut = {feed.channel for feed in plan.feeds if feed.treatment == "intercept"}
    amplified = [link for link in circuit.links if link.carries == "amplified"]
    assert {link.channel for link in amplified} == cut
    assert all(link.begins.startswith(THE_AMPLIFIER) for link in amplified)


def check_nothing_invented(circuit: Circuit) -> None:
    """What follows from the amplifier alone has no figure."""
    own = [w for w in circuit.wires if not w.stays]
    assert [w.id for w in own if w.length_m is not None or w.cable] == []
    main = next(each for each in circuit.elements if each.id == "main fuse")
    assert (main.value, main.rating) == (0.0, "? A")
    trunk = next(w for w in own if w.id == f"supply of {THE_AMPLIFIER}")
    assert trunk.size is None and trunk.wire is None


def check_drawn(one: Planned) -> None:
    """What holds of the picture of any plan: whole, no two wires cross, no words meet."""
    drawn, pieces = one.whole, one.pieces
    assert every_id(one.circuit) == drawn.shown()
    assert {each.end for each in one.circuit.open_ends} == drawn.opened()
    assert every_id(one.circuit) - set().union(*(piece.shown() for piece in pieces)) == set()
    assert crossings(drawn.lines()) == []
    for picture in (drawn, *pieces):
        assert ROWS not in [words for words, _ in picture.words()]
        assert overlapping(picture.words()) == []
        assert struck(picture) == []
        assert on_each_other(picture.lines()) == []
        assert outside(picture.svg, picture.words()) == []
    assert all(piece.size[0] <= PAGE for piece in pieces)


@each("one", shipped_plans, ids=lambda one: one.name)
def test_a_plan_s_circuit_joins_what_the_plan_says_and_invents_nothing(one: Planned) -> None:
    check_joined(one)
    check_nothing_invented(one.circuit)


@each("one", lambda: some(shipped_plans(), 2), ids=lambda one: one.name)
def test_the_picture_of_every_shipped_plan_is_whole_and_clear(one: Planned) -> None:
    check_drawn(one)


def test_the_shipped_book_has_plans_of_each_way_to_join() -> None:
    found = shipped_plans()
    assert len(found) > 100
    assert {feed.treatment for one in found for feed in one.plan.feeds} == {"addon", "intercept"}
    kinds = {unit.kind for one in found for unit in one.circuit.units}
    assert {"plug", "fuse_position", "interface", "battery", "body", "amplifier"} <= kinds
    assert "resistor" in {part.kind for one in found for part in one.circuit.elements}


@settings(max_examples=many(150), deadline=None)
@given(cars(), st.sampled_from(CONVERTERS), st.sampled_from(TREATMENTS))
def test_the_picture_of_any_plan_is_whole_and_clear(
    vehicle: Vehicle, identity: str, treatment: Treatment
) -> None:
    one = planned(vehicle, converter(identity), treatment)
    if one is not None:
        check_joined(one)
        check_nothing_invented(one.circuit)
        check_drawn(one)


@each("parts", lambda: some([p for v in checked()[1] for p in sketched_parts(v)]),
      ids=lambda parts: f"{parts.vehicle.id} {parts.job.title}")  # fmt: skip
def test_the_picture_of_every_sketch_is_whole_and_clear(parts: JobParts) -> None:
    check_generated(parts)


def test_a_plan_that_joins_nothing_has_no_circuit() -> None:
    car = doors_car([retained(9)])
    parts = plan_parts(car, converter(), checked()[0])
    plan = make_plan(car, converter(), defaults=HOUSE)
    assert plan_circuit(plan, parts) is not None
    for kind in ("probe_plan", "no_plan"):
        assert plan_circuit(replace(plan, kind=kind), parts) is None


def test_woofer_and_tweeter_of_a_corner_are_driven_by_one_output() -> None:
    one = planned(split_car(0.03), converter("cvn-6s"), "intercept")
    assert one is not None
    starts = {link.channel: link.begins for link in one.circuit.links
              if link.carries == "amplified" and link.finishes.endswith("+")}  # fmt: skip
    assert starts["front-left-woofer"] == starts["front-left-tweeter"]
    assert starts["front-left-woofer"] != starts["front-right-woofer"]
    lines = [link for link in one.circuit.links if link.carries == "line"]
    outs = {link.begins for link in lines if not link.begins.endswith("shield")}
    assert (len({feed.converter_input for feed in one.plan.feeds}), len(outs)) == (5, 3)
    check_joined(one)
    check_drawn(one)


def test_what_somebody_typed_stays_words() -> None:
    hostile = '"><script>alert(1)</script>'
    car = doors_car([retained(9)])
    (plug,) = car.plugs
    pins = tuple(replace(pin, wire=Wire(base=hostile, stripe=hostile)) for pin in plug.pins)
    typed = replace(car, id=hostile, plugs=(replace(plug, name=hostile, pins=pins),))
    one = planned(typed, replace(converter("cvn-4a"), id=hostile, name=hostile), "auto")
    assert one is not None
    drawn = wiring_picture(one.circuit, one.parts)
    assert "<script" not in drawn
    assert any(hostile in words for words, _ in Drawn(drawn).words())
    for piece in wiring_pieces(one.circuit, one.parts):
        assert "<script" not in piece.drawing
