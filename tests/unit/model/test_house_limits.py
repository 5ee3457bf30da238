"""The limits of the house defaults: no sense is refused, what a shop may mean is taken."""

from __future__ import annotations

from each_case import each

from builder.declaring import fields_of
from builder.model.house_defaults import HouseDefaults
from builder.schema_check.schemas import validator


def is_taken(name: str, value: float) -> bool:
    return validator("book").is_valid({"schema": 1, "house_defaults": {name: value}})


@each(
    "name, legal, senseless",
    [
        ("weight_full", 1, 1.01),
        ("supply_match_v", 60, 61),
        ("class_d_efficiency", 1, 1.01),
        ("music_divisor_heavy", 1, 0.99),
        ("cca_resistance_factor", 1, 0.99),
        ("asleep_proved_min", 10080, 10081),
        ("fuse_ceiling_awg_1_0_a", 1000, 1001),
        ("tie_spacing_m", 0.01, 0),
        ("speaker_dc_max_share", 1.2, 2.1),
        ("body_open_ohm", 1_000_000, 1_000_001),
    ],
)
def test_a_default_lies_between_its_limits(name, legal, senseless):
    assert is_taken(name, legal)
    assert not is_taken(name, senseless)


@each("default", fields_of(HouseDefaults), ids=lambda default: default.key)
def test_half_and_twice_of_what_a_default_usually_is_can_be_chosen(default):
    """But for shares and ratios, which cannot be more, or less, than the whole."""
    usual, limits = default.spec.examples[0], default.spec.limits
    assert is_taken(default.key, usual)
    assert is_taken(default.key, usual / 2) or limits["minimum"] == 1
    assert is_taken(default.key, usual * 2) or limits["maximum"] == 1
