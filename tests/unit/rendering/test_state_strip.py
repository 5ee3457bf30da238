"""The strip of a pin's card: one field a state, only what all its kinds agree on."""

from __future__ import annotations

from builder.model.house_defaults import HouseDefaults
from builder.model.words import FUNCTIONS
from builder.proof.signatures.of_pins import kinds_of_function
from builder.rendering.pages.state_strip import OF_THE_KEY, StripField, state_strip

HOUSE = HouseDefaults()


def strip(function: str) -> tuple[StripField, ...]:
    return state_strip(kinds_of_function(function, HOUSE))  # type: ignore[arg-type]


def test_an_accessory_supply_is_dead_asleep_and_live_with_the_key() -> None:
    fields = strip("accessory")
    assert [field.live for field in fields] == [False, False, True, True, True]
    assert fields[0] == StripField("asleep", "at most 0.5 V", False)
    assert fields[2].state == "accessory"
    low, high = HOUSE.supply_drop_v, HOUSE.supply_match_v
    assert fields[2].reads == f"battery −{low:g} to +{high:g} V"


def test_a_constant_is_live_in_every_state() -> None:
    assert len(strip("constant")) == len(OF_THE_KEY)
    assert all(field.live for field in strip("constant"))


def test_a_pin_that_follows_the_radio_shows_the_radios_states() -> None:
    states = [field.state for field in strip("aerial_on")]
    assert states == ["asleep", "radio off", "radio on, tuner"]
    assert [field.live for field in strip("aerial_on")] == [False, False, True]


def test_kinds_that_disagree_say_nothing() -> None:
    states = [field.state for field in strip("speaker")]
    assert "radio on, volume zero" not in states  # bridged and common-ground legs differ there
    assert "asleep" in states


def test_no_strip_is_longer_than_a_phone_is_wide_and_none_is_of_an_unknown_wire() -> None:
    assert strip("unknown") == ()
    assert all(len(state_strip(kinds_of_function(f, HOUSE))) <= 5 for f in FUNCTIONS)
