"""What a pin should read, in words: read back, each phrase gives the band it was made from."""

from __future__ import annotations

import re

import pytest

from builder.model.house_defaults import HouseDefaults
from builder.proof.signatures.of_pins import kinds
from builder.proof.signatures.shapes import Bound, Expected
from builder.rendering.pages.expected import reads

KINDS = kinds(HouseDefaults())
UNITS = {"dc_v": "V DC", "ac_v": "V AC", "ohm": "Ω", "hz": "Hz", "duty_percent": "% duty"}
WHERE = {"ground": "", "other_leg": "across the pair", "elsewhere": "against another cavity"}
Band = tuple[Bound | None, Bound | None]


def limit(words: str) -> Bound:
    """ "battery − 0.3" as (1, -0.3), "5000" as (0, 5000)."""
    number = words.replace("−", "-").replace("battery", "").replace("+", "").replace(" ", "")
    number = number.removesuffix("V")
    return (1.0 if "battery" in words else 0.0, float(number or 0))


def band(words: str) -> Band:
    """The band that a person understands from the words."""
    if found := re.fullmatch(r"at most (.+) either way", words):
        _, most = limit(found[1])
        return (0.0, -most), (0.0, most)
    if found := re.fullmatch(r"at most (.+)", words):
        return None, limit(found[1])
    if found := re.fullmatch(r"(.+) or more", words):
        return limit(found[1]), None
    low, _, high = words.partition(" to ")
    return limit(low), limit(high)


def understood(row: Expected) -> Band:
    said = reads(row).partition(", under ")[0]
    where, _, rest = said.rpartition(", ")
    assert where == WHERE[row.against]
    assert f" {UNITS[row.quantity]}" in rest or (row.needs_battery and rest.count(" V") == 2)
    return band(rest.replace(f" {UNITS[row.quantity]}", ""))


@pytest.mark.parametrize("name", KINDS)
def test_a_line_read_back_gives_its_band(name: str) -> None:
    for row in KINDS[name].rows:
        assert understood(row) == (row.low, row.high), reads(row)


@pytest.mark.parametrize("name", KINDS)
def test_a_load_is_named_where_one_is_asked(name: str) -> None:
    named = {"lamp_0.4a": "0.4 A lamp", "1a": "1 A load", "50ma": "50 mA", "5ma": "5 mA"}
    for row in KINDS[name].rows:
        asked = () if "none" in row.loads else row.loads
        said = reads(row).partition(", under ")[2]
        assert bool(said) == bool(asked)
        assert all(named[load] in said for load in asked)
