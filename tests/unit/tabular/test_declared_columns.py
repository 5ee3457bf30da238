"""Columns of tables are made of declarations: no key of a car is without one, old headings stay."""

from __future__ import annotations

import pytest

from builder.declaring import fields_of, figure, listed, part, record, text, word
from builder.editing.tabular import NOT_HELD, from_tables, rows_of
from builder.editing.tabular.car_fields import FIELDS, GROUPS, field_in_group, field_of
from builder.editing.tabular.columns import COLUMNS
from builder.editing.tabular.declared import held_keys, lists_in
from builder.editing.tabular.headings import column_of
from builder.model.vehicle import Vehicle
from builder.spreadsheets import read_tables


@record
class Fan:
    """A part in a part."""

    blades: int = figure("How many.", "blades", 3)
    speed_hz: float = figure("How fast.", "Hz", 20, column=("turns", "rpm"))


@record
class Thing:
    """A record with a key of each sort."""

    id: str = text("Its name.", "a")
    lead_size_mm2: float = figure("A size.", "mm²", 4)
    lead_m: float = figure("A length.", "m", 2)
    at_step: int = figure("A step.", "step", 2)
    own: str = text("Named otherwise.", "x", column=("of its own", "own thing"))
    fan: Fan = part({"blades": 3, "speed_hz": 20})
    cooler: Fan = part({"blades": 3, "speed_hz": 20}, column=("",))
    colours: tuple[str, ...] = listed("Texts.", ["a"])
    fans: tuple[Fan, ...] = listed("Records.", [])
    sort: str = word("A word.", "a")


def test_the_heading_is_the_words_of_the_key_with_its_unit_or_what_is_declared():
    assert [held.heading for held in held_keys(Thing)] == [
        *("id", "lead size (mm²)", "lead (m)", "at step", "of its own"),
        *("fan blades", "fan turns (Hz)", "blades", "turns (Hz)", "colours", "sort"),
    ]


def test_other_names_are_those_behind_the_declared_heading():
    others = {held.path: held.others for held in held_keys(Thing)}
    assert others["own",] == ("own thing",)
    assert others["fan", "speed_hz"] == ("rpm",)
    assert others["id",] == ()


def test_lists_of_records_are_named_and_those_with_rows_gone_through():
    assert list(lists_in(Thing, frozenset())) == [("fans",)]
    assert list(lists_in(Thing, frozenset({"fans"}))) == []


def leaves(cls, path=()):
    """Every key of a vehicle that holds no record, and every list of records, by its path."""
    for each in fields_of(cls):
        here = (*path, each.key)
        if each.inner and here not in NOT_HELD:
            yield from leaves(each.inner, (*here, 0) if each.item else here)
        elif not each.inner:
            yield here


def test_every_key_of_a_vehicle_has_a_place_in_the_table():
    there = {field.at for field in FIELDS} | {column.at for column in COLUMNS}
    named = {(items, 0, key) for items, key, _ in GROUPS.values() if key}
    of_row = {("plugs", 0, "pins", 0, "readings", 0, "session"), ("schema",)}
    assert set(leaves(Vehicle)) - there == (named | of_row) - there


def test_headings_that_tables_had_before_are_read():
    for heading in ("wire color", "colour", "color", "fuse rating a", "meter mohm", "claim leg",
                    "only if trims", "wire size mm2", "base color", "lasts s"):  # fmt: skip
        assert column_of(heading) is not None, heading
    assert field_in_group("visit", "by") == field_in_group("visit", "who")
    shades = {field_in_group("plug", f"{word} {end}") for word in ("shell", "housing")
              for end in ("colour", "colours", "color", "colors")}  # fmt: skip
    assert len(shades) == 1 and None not in shades
    assert field_of("scope year from") == field_of("first year")


@pytest.mark.parametrize("typed", ["A4", "a4"])
def test_a_cavity_is_a_capital_however_it_was_typed(typed):
    table = f"plug,cavity,function\na,{typed},run\n"
    plug = from_tables(read_tables(table.encode(), "a.csv")).data["plugs"][0]
    assert (plug["id"], plug["pins"][0]["cavity"]) == ("A", "A4")


def test_a_key_that_was_never_listed_comes_back_from_its_row():
    feed = b"#factory amplifier feed,analogue_fixed\n#factory amplifier rail (V),32\nplug,cavity\n"
    data = from_tables(read_tables(feed, "a.csv")).data
    assert data["factory_amplifier"]["rail_v"] == 32
    assert ("factory amplifier rail (V)", 32) in rows_of(data).car
