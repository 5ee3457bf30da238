"""One reading against one signature, and what load may be put on what."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from proof_cars import ohm, pin, reading
from samples import many

from builder.model.house_defaults import HouseDefaults
from builder.model.plugs import Fuse, Pin, Reading
from builder.model.words import FUNCTIONS
from builder.proof.identify.naming import identify
from builder.proof.judging import Outcome, against_of, judge
from builder.proof.signatures.loads import LOAD_MA, limit_of_pin, load_refusal
from builder.proof.signatures.of_pins import kinds, kinds_of_function
from builder.proof.signatures.shapes import Expected, Kind

HOUSE = HouseDefaults()
TABLE = kinds(HOUSE)


def verdict(kind: str, one: Reading, against: str = "ground") -> str:
    return judge(one, TABLE[kind], against).outcome.value  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("kind", "state", "value", "minutes", "expected"),
    [
        ("constant", "asleep", 12.41, 65, "met"),
        ("constant", "asleep", 12.41, 5, "not informative"),
        ("constant", "asleep", 0.2, 35, "contradicted"),
        ("constant_sleeps", "asleep", 0.2, 35, "met"),
        ("constant_sleeps", "asleep", 12.4, 30, "not informative"),
        ("constant_sleeps", "asleep", 12.4, 60, "contradicted"),
        ("accessory", "asleep", 12.4, 30, "contradicted"),
        ("accessory", "asleep", 12.4, 5, "not informative"),
        ("accessory", "retained", 12.3, None, "contradicted"),
        ("retained", "retained", 12.3, None, "met"),
        ("accessory", "lights_on", 12.3, None, "not informative"),
        ("aerial_on", "other_source", 12.1, None, "not informative"),
        ("aerial_on", "other_source", 0.0, None, "met"),
        ("amplifier_on_12v", "other_source", 0.0, None, "contradicted"),
        ("illumination_steady", "lights_on", 7.9, None, "met"),
    ],
)
def test_volts(kind: str, state: str, value: float, minutes: float | None, expected: str) -> None:
    assert verdict(kind, reading(state, value, minutes=minutes)) == expected


def test_limits_belong_to_the_band() -> None:
    assert verdict("accessory", reading("accessory", 11.9, battery_v=12.4)) == "met"
    assert verdict("accessory", reading("accessory", 11.89, battery_v=12.4)) == "contradicted"
    assert verdict("constant", reading("run", 12.1, battery_v=12.4)) == "met"


def test_without_battery_volts_a_moving_limit_says_nothing() -> None:
    one = reading("accessory", 11.8, battery_v=None)
    assert verdict("accessory", one) == "not informative"
    assert "without battery volts" in judge(one, TABLE["accessory"], "ground").sentence


def test_ohms_count_on_dead_circuits_only() -> None:
    assert verdict("ground", ohm(0.3)) == "met"
    live = reading("run", 0.3, quantity="ohm")
    assert verdict("ground", live) == "not informative"
    assert "dead circuits only" in judge(live, TABLE["ground"], "ground").sentence


def test_open_is_more_than_any_ohms() -> None:
    assert verdict("speaker_bridged", ohm(None)) == "met"
    assert verdict("speaker_bridged", ohm(None, "4"), "other_leg") == "contradicted"
    assert verdict("speaker_bridged_capacitor", ohm(None, "4"), "other_leg") == "met"


def test_the_reason_gives_figures_units_and_limits() -> None:
    said = judge(reading("run", 3.1, load="lamp_0.4a"), TABLE["constant"], "ground")
    assert said.sentence == (
        "run, a 0.4 A lamp: 3.10 V, but a constant supply reads 11.90 V to 12.70 V"
    )


def test_reference_points() -> None:
    mates = frozenset({("A", "4")})
    assert against_of("body", "A", mates) == "ground"
    assert against_of("4", "A", mates) == against_of("A.4", "B", mates) == "other_leg"
    assert against_of("4", "B", mates) == against_of("5", "A", mates) == "elsewhere"


# -- drawn readings -------------------------------------------------------------------------

ROWS = [(kind, row) for kind in TABLE.values() for row in kind.rows]
WIDEST = {"dc_v": 60.0, "ac_v": 100.0, "ohm": 1e6, "hz": 1e5, "duty_percent": 100.0}


def ends(row: Expected, battery_v: float) -> tuple[float, float]:
    low = -WIDEST[row.quantity] if row.low is None else row.low[0] * battery_v + row.low[1]
    high = WIDEST[row.quantity] if row.high is None else row.high[0] * battery_v + row.high[1]
    return (max(low, 0.0) if row.quantity == "ohm" else low, high)


@st.composite
def inside(draw: st.DrawFn, row: Expected) -> Reading:
    battery_v = draw(st.floats(11.8, 14.6))
    low, high = ends(row, battery_v)
    return reading(
        draw(st.sampled_from(row.states)),
        draw(st.floats(low, high)),
        battery_v=battery_v,
        quantity=row.quantity,
        against="battery_negative" if row.against == "ground" else "4",
        load=draw(st.sampled_from(row.loads or tuple(LOAD_MA))),
        minutes=draw(st.floats(60, 600)),
    )


@st.composite
def sets_of_one_kind(draw: st.DrawFn) -> tuple[Kind, list[Reading]]:
    kind = draw(st.sampled_from([*TABLE.values()]))
    rows = draw(st.lists(st.sampled_from(kind.rows), min_size=1, max_size=6))
    return kind, [draw(inside(row)) for row in rows]


@settings(max_examples=many(400), deadline=None)
@given(sets_of_one_kind())
def test_readings_inside_the_bands_name_their_function_or_a_tie(
    drawn: tuple[Kind, list[Reading]],
) -> None:
    kind, readings = drawn
    found = identify(readings, HOUSE)
    assert kind.function in found.tie
    contradicted = [bool(candidate.contradicted) for candidate in found.candidates]
    assert contradicted == sorted(contradicted)
    if len(found.tie) == 1 and len(kinds_of_function(kind.function, HOUSE)) > 1:
        assert kind.name in found.verdict


@settings(max_examples=many(300), deadline=None)
@given(st.data())
def test_readings_outside_a_strict_band_contradict(data: st.DataObject) -> None:
    kind, row = data.draw(st.sampled_from([pair for pair in ROWS if pair[1].strict]))
    good = data.draw(inside(row))
    low, high = ends(row, good.battery_v or 0.0)
    beyond = data.draw(st.floats(0.001, 5.0))
    sides = [
        value for value, bound in ((high + beyond, row.high), (low - beyond, row.low)) if bound
    ]
    value = data.draw(st.sampled_from(sides))
    bad = reading(
        good.state, value, battery_v=good.battery_v, quantity=good.quantity, against=good.against,
        load=good.load, minutes=good.minutes,
    )  # fmt: skip
    assert judge(bad, kind, row.against).outcome is Outcome.CONTRADICTED


# -- loads ------------------------------------------------------------------------------------


def test_never_a_load_on_anything_but_supplies_grounds_and_turn_ons() -> None:
    loadable = {
        name
        for name in FUNCTIONS
        for load in LOAD_MA
        if load != "none" and load_refusal(name, load, open_v=12.0, limit_ma=10_000) is None  # type: ignore[arg-type]
    }
    assert loadable == {
        "constant", "constant_sleeps", "accessory", "run", "retained", "ground",
        "amplifier_on", "aerial_on",
    }  # fmt: skip


def test_open_circuit_comes_first() -> None:
    assert load_refusal("constant", "lamp_0.4a") == "read it open first"
    assert load_refusal("amplifier_on", "5ma") == "read it open first"


def test_a_turn_on_under_nine_volts_gets_five_milliamperes() -> None:
    assert load_refusal("amplifier_on", "50ma", open_v=9.0) is None
    assert "5 mA at most" in (load_refusal("amplifier_on", "50ma", open_v=8.99) or "")
    assert load_refusal("amplifier_on", "5ma", open_v=4.9) is None
    assert load_refusal("amplifier_on", "lamp_0.4a", open_v=12.0)


def test_a_supply_is_loaded_up_to_its_stated_limit() -> None:
    def allowed(wire: Pin) -> list[str]:
        limit = limit_of_pin(wire)
        return [
            load for load in LOAD_MA
            if load_refusal(wire.function, load, open_v=12.4, limit_ma=limit) is None
        ]  # fmt: skip

    assert "1a" in allowed(pin("1", "constant", fuse=Fuse(place="F31", rating_a=15.0)))
    assert allowed(pin("1", "constant", max_source_ma=500.0))[-1] == "lamp_0.4a"
    assert "1a" not in allowed(pin("1", "constant"))
    assert allowed(pin("1", "illumination")) == ["none"]
    assert math.isclose(LOAD_MA["lamp_0.4a"], 400)
