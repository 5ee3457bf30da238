"""Parts that come off and ways through a bulkhead have rows of their own in a table of a car."""

from __future__ import annotations

from builder.editing.tabular import from_tables, rows_of
from builder.spreadsheets import read_tables

PINS = "plug,cavity,function\nA,1,ground\n"


def read(*rows: str):
    return from_tables(read_tables(("\n".join(rows) + "\n" + PINS).encode(), "car.csv"))


def missing(*rows: str) -> list[str]:
    """What is not said of a part or a passage."""
    said = [fault.message for fault in read(*rows).faults if fault.code == "TAB111"]
    return [each for each in said if each.startswith(("part ", "passage "))]


def test_a_part_is_read_from_its_rows():
    table = read(
        "#part 1 name,trim ring",
        "#part 1 kind,panel",
        "#part 1 uncovers,radio; screen",
        "#part 1 restraint,no",
        "#part 1 minutes,1.5",
        "#part 2 name,seat",
        "#part 2 kind,seat",
        "#part 2 uncovers,under the seat",
        "#part 2 travel mm,210",
    )
    ring, seat = table.data["access"]
    assert ring == {"name": "trim ring", "kind": "panel", "uncovers": ["radio", "screen"],
                    "restraint": "no", "minutes": 1.5}  # fmt: skip
    assert (seat["name"], seat["travel_mm"]) == ("seat", 210)


def test_what_a_part_or_a_way_must_say_is_asked_for():
    assert missing("#part 1 name,trim ring", "#part 1 kind,panel") == [
        "part 1 uncovers is not said"
    ]
    said = missing("#passage 1 name,grommet", "#passage 1 where,low", "#passage 1 grommet,own")
    assert said == ["passage 1 between is not said"]


def test_steps_with_commas_come_back_as_they_were():
    steps = ["two screws, then the clips", "lift it out, slowly; it is heavy"]
    part = {"name": "trim", "kind": "panel", "uncovers": ["radio"], "steps": steps}
    record = {"access": [part], "plugs": []}
    (text,) = [value for label, value in rows_of(record).car if label == "part 1 steps"]
    assert text == "\n".join(steps)


def test_the_fasteners_of_a_part_are_named_as_lost():
    part = {"name": "trim", "fasteners": [{"head": "clip", "count": 2}]}
    assert rows_of({"access": [part], "plugs": []}).lost == ["access.fasteners"]
