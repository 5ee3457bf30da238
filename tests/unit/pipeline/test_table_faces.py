"""A table whose numbers were counted on the other face is the record that a hand would type."""

from __future__ import annotations

import json
from copy import deepcopy
from pathlib import Path
from typing import Any

import pytest
from shipped_book import loombook
from test_faces import RECORDS, VISITS, filed, tidy

from builder.editing import write_record
from builder.editing.tabular import Imported, csv_rows, from_tables, rows_of
from builder.loading import load_text
from builder.spreadsheets import NewSheet, read_tables, write_csv, write_xlsx

CAR = {
    "make": "Zorvex", "model": "Wold", "variant": "hatch, base", "year from": "2018",
    "year to": "2021", "drive side": "left", "data": "invented", "hybrid": "no",
    "factory amplifier": "none", "restraint zones": "steering wheel", "protected sounds": "none",
    "plug A housing": "two-row-20-latch-top", "plug A shell colours": "grey",
    "plug A read from": "wire_side",
}  # fmt: skip
HEADS = (
    "plug", "cavity", "function", "channel", "polarity", "colour",
    "who", "date", "car tag", "read from", "battery V", "asleep V", "asleep min",
    "radio on tone AC V to other leg", "radio on tone Hz", "radio on tone volume step",
    "reading state", "reading quantity", "reading value", "reading against", "reading tone Hz",
    "reading volume step", "claim by", "claim date", "claim from", "claim says", "claim channel",
    "claim polarity", "claim read from",
)  # fmt: skip
Row = dict[str, str]
PINS: list[Row] = [
    dict(zip(("cavity", "function", "channel", "polarity", "colour"), cells, strict=True))
    for cells in (
        ("1", "speaker", "front-left", "positive", "white"),
        ("2", "speaker", "front-left", "negative", "white/black"),
        ("7", "constant", "", "", "yellow/red"),
        ("9", "speaker", "rear-left", "positive", "green"),
        ("10", "speaker", "rear-left", "negative", "green/black"),
        ("4", "mute", "", "", "brown"),
    )
]
"""In this shell of two rows of ten, 1 stands where 10 is on the other face, and 7 where 4 is."""


def visit(cavity: int, face: str, **cells: str) -> Row:
    who = {"who": "north", "date": "2024-05-13", "car tag": "k7m2", "battery V": "12.6"}
    more = {key.replace("_", " "): text for key, text in cells.items()}
    return {"cavity": str(cavity), **who, "read from": face, **more}


def claim(cavity: int, face: str, *said: str) -> Row:
    who = {"claim by": "south", "claim date": "2024-05-14", "claim from": "paper"}
    heads = ("claim says", "claim channel", "claim polarity")
    told = dict(zip(heads, said, strict=False))
    return {"cavity": str(cavity), **who, "claim read from": face, **told}


def cells(*evidence: Row) -> list[list[str]]:
    rows = [[f"#{label}", text] for label, text in CAR.items()]
    filled = [{"plug": "A", **row} for row in (*PINS, *evidence)]
    assert all(set(row) <= set(HEADS) for row in filled)
    return [*rows, [*HEADS], *([row.get(head, "") for head in HEADS] for row in filled)]


def counted(face: str, asleep: int, tone: tuple[int, int], claimed: int) -> list[list[str]]:
    spelt = {"reading_quantity": "ac_v", "reading_value": "2.4", "reading_against": str(tone[1])}
    return cells(
        visit(asleep, face, asleep_V="12.6", asleep_min="65"),
        visit(tone[0], face, reading_state="radio_on_tone", reading_tone_Hz="60",
              reading_volume_step="20", **spelt),
        claim(claimed, face, "speaker", "front-left", "positive"),
    )  # fmt: skip


OWN = counted("wire_side", 7, (1, 2), 1)
OTHER = counted("mating_side", 4, (10, 9), 10)


def table(rows: list[list[str]], end: str, folder: Path) -> Path:
    """The file; in a workbook the car stands on a sheet of its own."""
    place, car = folder / f"car.{end}", len(CAR)
    if end == "csv":
        place.write_bytes(write_csv(rows))
    else:
        named = [[row[0].lstrip("#"), row[1]] for row in rows[:car]]
        place.write_bytes(write_xlsx([NewSheet("car", named), NewSheet("pins", rows[car:])]))
    return place


def imported(book: Path, rows: list[list[str]], end: str) -> dict[str, Any]:
    done = loombook("import", table(rows, end, book.parent), "--into", book, "--as-is")
    place = book / "vehicles" / "zorvex" / "zorvex-wold-2018-hatch-base.yaml"
    assert place.exists(), done.output
    return dict(load_text(place.read_bytes(), place.name).data or {})


def said_of(book: Path) -> tuple[str, str, list[Any]]:
    name = "zorvex-wold-2018-hatch-base"
    found = json.loads(loombook("check", book, "--format", "json").output)["findings"]
    mine = [(one["rule"], one["message"]) for one in found if name in one["file"]]
    shown = loombook("show", name, "-b", book)
    data = loombook("show", name, "-b", book, "--format", "json")
    assert shown.exit_code == 0 and data.exit_code == 0, shown.output
    return shown.output, data.output, mine


def by_hand() -> dict[str, Any]:
    """What somebody types who counted on the other face."""
    asleep = {"state": "asleep", "quantity": "dc_v", "value": 12.6, "minutes": 65}
    tone = {"state": "radio_on_tone", "quantity": "ac_v", "value": 2.4, "against": 9,
            "tone_hz": 60, "volume_step": 20}  # fmt: skip
    said = {"by": "south", "date": "2024-05-14", "method": "paper", "says": "speaker",
            "channel": "front-left", "leg": "positive", "read_from": "mating_side"}  # fmt: skip
    return {
        "4": {"readings": [{"session": "s1", **asleep, "battery_v": 12.6}]},
        "10": {"readings": [{"session": "s1", **tone, "battery_v": 12.6}], "claims": [said]},
    }


@pytest.mark.parametrize("end", ["csv", "xlsx"])
def test_import_check_show_treat_a_table_of_the_other_face_as_a_record_typed_so(small_book, end):
    own = imported(small_book, OWN, end)
    typed = deepcopy(own)
    typed["sessions"][0]["read_from"] = "mating_side"
    for pin in typed["plugs"][0]["pins"]:
        for key in ("readings", "claims"):
            pin.pop(key, None)
        pin.update(by_hand().get(str(pin["cavity"]), {}))
    place = small_book / "vehicles" / "zorvex" / "zorvex-wold-2018-hatch-base.yaml"
    of_own = said_of(small_book)
    place.write_text(write_record(typed, "vehicle"), "utf-8")
    of_typed = said_of(small_book)
    place.unlink()
    data = imported(small_book, OTHER, end)
    assert data == typed
    assert said_of(small_book) == of_typed
    assert sorted(of_typed[2]) == sorted(of_own[2]) and "PIN124" not in str(of_typed[2])
    assert grades(of_typed[1]) == grades(of_own[1])


def grades(shown: str) -> list[Any]:
    found = json.loads(shown)["computed"]["grades"]
    assert len(found) == len(PINS)
    return [(one["cavity"], one["grade"], one["score"]) for one in found]


LEGS = [
    (name, session)
    for name, session in VISITS
    for plug in RECORDS[name]["plugs"]
    if any(
        reading["session"] == session and pin.get("leg") and "against" in reading
        for pin in plug["pins"]
        for reading in pin.get("readings", ())
    )
]


@pytest.mark.parametrize(("name", "session"), LEGS)
def test_legs_read_on_the_other_face_come_back_from_a_table_as_typed(name, session):
    record = tidy(filed(RECORDS[name], session, said=True))
    back = from_tables(read_tables(write_csv(csv_rows(rows_of(record))), "a.csv"))
    assert [one for one in back.faults if one.code not in ("TAB104", "TAB112")] == []
    assert readings(back.data) == readings(record)


def readings(record: dict[str, Any]) -> list[Any]:
    return sorted(
        (plug["id"], str(pin["cavity"]), sorted((key, str(word)) for key, word in reading.items()))
        for plug in record["plugs"]
        for pin in plug["pins"]
        for reading in pin.get("readings", ())
    )


def read(*evidence: Row) -> Imported:
    return from_tables(read_tables(write_csv(cells(*evidence)), "car.csv"))


def faults(found: Imported) -> list[tuple[str, str]]:
    return [(one.code, one.message) for one in found.faults if one.code != "TAB112"]


def test_the_other_leg_of_a_row_counted_on_the_other_face_is_not_taken_from_the_row():
    """At 10 stands rear-left in this plug; what was counted as 10 is front-left."""
    tone = {
        "radio on tone AC V to other leg": "2.4",
        "radio on tone Hz": "60",
        "radio on tone volume step": "20",
    }
    own = read({**visit(1, "wire_side"), **tone})
    assert faults(own) == []
    assert own.data["plugs"][0]["pins"][0]["readings"][0]["against"] == 2
    (fault,) = faults(read({**visit(10, "mating_side"), **tone}))
    assert fault == ("TAB108", "A 10 was counted on the other face of the plug")


def test_a_claim_counted_on_the_other_face_says_itself_what_it_claims():
    own = read(claim(7, "wire_side"))
    assert own.data["plugs"][0]["pins"][2]["claims"][0]["says"] == "constant"
    ((code, message),) = faults(read(claim(4, "mating_side")))
    assert code == "TAB111" and "does not say its function" in message
    part = read(claim(10, "mating_side", "speaker")).data["plugs"][0]["pins"][4]["claims"][0]
    assert "channel" not in part and "leg" not in part
