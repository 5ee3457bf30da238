"""The signature table: complete, unambiguous, and as wide as the stated common practice."""

from __future__ import annotations

import json

import pytest
from proof_cars import channel, pin, speaker, vehicle

from builder.model.house_defaults import HouseDefaults
from builder.model.names import STATE_NAMES
from builder.model.words import FUNCTIONS, STATES, Quantity, State
from builder.proof.band import TINY, Band, limit_at, where_in
from builder.proof.signatures.of_pins import (
    kinds,
    kinds_of_function,
    kinds_of_pin,
)
from builder.proof.signatures.page_table import table_for_page
from builder.proof.signatures.shapes import Against
from builder.proof.signatures.table import SIGNATURES, STATE_COST

HOUSE = HouseDefaults()
TABLE = kinds(HOUSE)


def test_every_known_function_has_a_signature() -> None:
    assert {signature.function for signature in SIGNATURES} == set(FUNCTIONS) - {"unknown"}
    assert kinds_of_function("unknown", HOUSE) == ()


def test_every_state_has_words_and_a_cost() -> None:
    assert set(STATE_NAMES) == set(STATE_COST) == set(STATES)


@pytest.mark.parametrize("kind", TABLE.values(), ids=TABLE)
def test_no_reading_is_judged_by_two_lines(kind) -> None:  # type: ignore[no-untyped-def]
    for (state, quantity), rows in kind.cells.items():
        for index, row in enumerate(rows):
            for other in rows[index + 1 :]:
                clash = row.against == other.against and (
                    not row.loads or not other.loads or set(row.loads) & set(other.loads)
                )
                assert not clash, (kind.id, state, quantity)


@pytest.mark.parametrize("kind", TABLE.values(), ids=TABLE)
def test_every_defining_state_can_be_proved(kind) -> None:  # type: ignore[no-untyped-def]
    provable = {name for row in kind.rows for name in row.proves}
    if kind.partner and "bias" in provable:
        provable.add("other_bias")
    assert set(kind.defining) <= provable
    assert provable - {"other_bias"} <= set(kind.defining)


@pytest.mark.parametrize("kind", TABLE.values(), ids=TABLE)
def test_every_load_of_a_line_is_allowed_on_the_kind(kind) -> None:  # type: ignore[no-untyped-def]
    for row in kind.rows:
        if row.proves:
            assert set(row.loads) - {"none", "5ma", "50ma"} <= set(kind.loads)


# Bands of common practice without a published source: (kind, state, load, low, high) at 12.6 V.
PRACTICE = [
    ("constant", "asleep", "none", 12.3, 12.9),
    ("constant", "run", "1a", 12.1, 12.9),
    ("constant_sleeps", "asleep", "none", -0.5, 1.0),
    ("accessory", "accessory", "none", 12.1, 12.9),
    ("accessory", "retained", "none", -0.5, 0.5),
    ("accessory", "crank", "none", -0.5, 1.0),
    ("run", "accessory", "none", -0.5, 0.5),
    ("retained", "retained", "none", 12.1, 12.9),
    ("illumination_steady", "lights_on", "none", 2.0, 12.9),
    ("ground", "run", "1a", -0.1, 0.1),
    ("speaker_bridged", "radio_on_zero", "none", 5.0, 8.0),
    ("speaker_amplifier", "radio_on_zero", "none", 5.0, 14.0),
    ("speaker_common_signal", "radio_on_zero", "none", -0.1, 0.1),
    ("amplifier_on_12v", "tuner", "none", 9.0, 12.9),
    ("amplifier_on_logic", "tuner", "none", 2.8, 5.5),
    ("camera_supply", "radio_on_zero", "none", 5.0, 8.0),
    ("microphone", "accessory", "none", 2.0, 9.0),
    ("data_single", "accessory", "none", 6.0, 11.0),
]


@pytest.mark.parametrize(("kind", "state", "load", "low", "high"), PRACTICE)
def test_bands_are_those_of_common_practice(
    kind: str, state: str, load: str, low: float, high: float
) -> None:
    found = [
        row
        for row in TABLE[kind].rows
        if state in row.states
        and row.quantity == "dc_v"
        and row.against == "ground"
        and (not row.loads or load in row.loads)
    ]
    (band,) = [[limit_at(end, 12.6) for end in (row.band.low, row.band.high)] for row in found]
    assert band == pytest.approx([low, high])
    assert found[0].source == "common practice, no source"


# Between the two wires of a pair, and to the body: (kind, state, quantity, against, what passes
# and what does not at either end). Common practice, no source: 20 mV is about the least that a hand
# meter tells from nothing (memory); 40 V RMS are 400 W into 4 Ω, over any factory output. A
# capacitor of some microfarads reads open to an ohmmeter: past 1 kΩ nobody reads a coil.
ACROSS = [
    ("speaker_bridged", "radio_on_tone", "ac_v", "other_leg", [0.02, 40.0], [0.019, 40.1]),
    ("speaker_common_signal", "radio_on_tone", "ac_v", "other_leg", [0.02, 40.0], [0.019, 40.1]),
    ("line_balanced", "radio_on_tone", "ac_v", "other_leg", [0.02, 5.0], [0.019, 5.1]),
    ("speaker_amplifier", "radio_on_zero", "dc_v", "other_leg", [-0.25, 0.25], [-0.26, 0.26]),
    ("speaker_bridged", "unplugged", "ohm", "other_leg", [1.0, 8.5], [0.9, 8.6, None]),
    ("speaker_bridged", "unplugged", "ohm", "ground", [10_000, None], [9_990]),
    ("speaker_bridged_capacitor", "unplugged", "ohm", "other_leg", [1_000, None], [999, 4.0]),
    ("speaker_common_signal", "unplugged", "ohm", "ground", [1.0, 8.5], [0.9, 8.6]),
    ("speaker_common_return", "unplugged", "ohm", "ground", [0.0, 1.0], [1.1, None]),
    ("speaker_common_signal_capacitor", "unplugged", "ohm", "ground", [1_000, None], [999]),
    ("wheel_keys", "unplugged", "ohm", "ground", [100, 10_000], [99, 10_000.5, None]),
]


@pytest.mark.parametrize(("kind", "state", "quantity", "against", "good", "bad"), ACROSS)
def test_what_is_read_between_two_wires_passes_up_to_its_limits(
    kind: str,
    state: State,
    quantity: Quantity,
    against: Against,
    good: list[float | None],
    bad: list[float | None],
) -> None:
    (row,) = [row for row in TABLE[kind].cells[state, quantity] if row.against == against]
    assert [where_in(row.band, value, None) for value in good] == ["in"] * len(good)
    assert "in" not in [where_in(row.band, value, None) for value in bad]


@pytest.mark.parametrize(
    ("value", "where"), [(-2e-9, "low"), (-TINY, "in"), (0, "in"), (TINY, "in"), (2e-9, "high")]
)
def test_float_noise_pushes_no_figure_off_either_limit(value: float, where: str) -> None:
    assert where_in(Band((0, 0.0), (0, 0.0)), value, None) == where


def test_a_house_default_moves_its_band() -> None:
    wide = kinds(HouseDefaults(supply_drop_v=1.0))["accessory"]
    row = next(row for row in wide.rows if "accessory" in row.states)
    assert limit_at(row.band.low, 12.6) == pytest.approx(11.6)


def ids(car, wire) -> list[str]:  # type: ignore[no-untyped-def]
    return [kind.id for kind in kinds_of_pin(car, wire, HOUSE)]


def test_what_the_record_says_of_the_radio_narrows_a_speaker_pin() -> None:
    wire = speaker("3", "positive")
    radio = (channel(),)
    assert ids(vehicle(wire, channels=radio), wire) == ["speaker_bridged"]
    assert ids(vehicle(wire, channels=radio, outputs="common_ground"), wire) == [
        "speaker_common_signal"
    ]
    assert ids(vehicle(wire, channels=radio, outputs="unknown"), wire) == [
        "speaker_bridged",
        "speaker_common_signal",
    ]
    amplified = (channel(driven_by="amplifier", in_line=("series_capacitor",)),)
    assert ids(vehicle(wire, channels=amplified), wire) == ["speaker_amplifier_capacitor"]
    assert "speaker_amplifier" in ids(vehicle(wire, feed="unknown"), wire)


def test_the_stated_level_narrows_a_turn_on() -> None:
    assert ids(vehicle(), pin("1", "amplifier_on", level_v=3.3)) == ["amplifier_on_logic"]
    assert ids(vehicle(), pin("1", "amplifier_on", level_v=12.0)) == ["amplifier_on_12v"]
    assert len(ids(vehicle(), pin("1", "amplifier_on"))) == 2


def test_the_page_gets_the_whole_table_as_json() -> None:
    table = json.loads(json.dumps(table_for_page(HOUSE), allow_nan=False))
    assert [kind["id"] for kind in table["kinds"]] == list(TABLE)
    never = {kind["id"] for kind in table["kinds"] if kind["never_loaded"]}
    assert never == {kind.id for kind in TABLE.values() if not kind.loads}
    constant = table["kinds"][0]["rows"][0]
    assert (constant["low"], constant["high"]) == ([1.0, -0.3], [1.0, 0.3])
    assert constant["proves_from_min"] == 60
