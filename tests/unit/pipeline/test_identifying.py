"""The command that names an unknown wire, on wires of the shipped book whose names are known."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
import yaml
from click.testing import CliRunner
from shipped_book import loombook
from shipped_cars import car_data

from builder.cli import main
from builder.parsing.reading_text import read_reading
from builder.parsing.reading_words import LIMITS
from builder.schema_check.schemas import read_schema

TANSY = "ostrel-tansy-2017-hatch-base"
QUERN = "wexlow-quern-2016-early"
WIRES = [
    pytest.param(TANSY, "A", 10, "constant", id="constant"),
    pytest.param(TANSY, "A", 7, "retained", id="retained"),
    pytest.param(TANSY, "A", 6, "illumination", id="illumination"),
    pytest.param(QUERN, "A", 11, "speaker", id="bridged speaker leg"),
    pytest.param(QUERN, "C", 1, "data_high", id="data"),
]
UNITS = {"dc_v": "V", "ac_v": "V ac", "ohm": "ohm"}


def rows(vehicle: str, plug: str, cavity: int) -> list[dict]:
    (pins,) = [p["pins"] for p in car_data(vehicle)["plugs"] if p["id"] == plug]
    (pin,) = [p for p in pins if p["cavity"] == cavity]
    return [{k: v for k, v in row.items() if k != "session"} for row in pin["readings"]]


def typed(row: dict) -> str:
    """A reading as an installer would type it."""
    value = "open" if row["value"] == "open" else f"{row['value']} {UNITS[row['quantity']]}"
    words = [row["state"].replace("_", " "), value]
    for key, word in (("battery_v", "battery"), ("minutes", "minutes"), ("load", "load")):
        if key in row:
            words.append(f"{word} {row[key]}")
    if "against" in row:
        words.append(f"against {row['against']}")
    return " ".join(words)


def file_of(folder: Path, readings: list[dict]) -> Path:
    path = folder / "wire.yaml"
    path.write_text(yaml.safe_dump({"readings": readings}, sort_keys=False), "utf-8")
    return path


def as_json(*arguments: object) -> dict:
    done = loombook("identify", *map(str, arguments), "--format", "json")
    answer: dict = json.loads(done.output)
    assert done.exit_code == (0 if answer["decided"] else 1)
    return answer


@pytest.mark.parametrize(("vehicle", "plug", "cavity", "function"), WIRES)
def test_options_and_a_file_name_the_wire_alike(tmp_path, vehicle, plug, cavity, function):
    readings = rows(vehicle, plug, cavity)
    options = [part for row in readings for part in ("--reading", typed(row))]
    by_options = as_json(*options)
    assert by_options["fits_best"] == [function]
    assert by_options["decided"] is True
    assert by_options == as_json("--from", file_of(tmp_path, readings))


def test_the_text_gives_reasons_a_next_measurement_and_its_safety_line():
    done = loombook(
        "identify", "-r", "asleep 0.03 V minutes 65", "-r", "accessory 12.4 V battery 12.6"
    )
    assert done.exit_code == 1
    assert "NOT DECIDED: these readings cannot decide between" in done.output
    assert "met: accessory: 12.40 V, as an accessory supply should" in done.output
    assert "ground: accessory: 12.40 V, but a ground reads" in done.output
    following = done.output.split("MEASURE NEXT")[1]
    assert "door open" in following.splitlines()[1]
    assert "no load on a wire that nobody knows" in " ".join(following.split())


def test_one_more_reading_decides_and_the_exit_code_says_so():
    done = loombook(
        "identify", "-r", "asleep 0,03 V minutes 65", "-r", "acc 12.4 battery 12.6",
        "-r", "retained 12.3 V battery 12.5",
    )  # fmt: skip
    assert done.exit_code == 0
    assert "DECIDED: a retained supply fits best" in done.output


def test_a_sleeping_constant_is_not_decided_before_the_hour():
    early = ["-r", "door open 12.44 V battery 12.47", "-r", "asleep 12.55 V battery 12.57 minutes"]
    assert as_json(*early[:-1], f"{early[-1]} 22")["decided"] is False
    assert as_json(*early[:-1], f"{early[-1]} 75")["decided"] is True


def test_one_bad_reading_is_asked_for_again_and_nothing_is_decided():
    good = rows(TANSY, "A", 7)
    bad = [{**row, "value": 0.02} if row["state"] == "accessory" else row for row in good]
    assert bad != good
    answer = as_json(*(part for row in bad for part in ("-r", typed(row))))
    assert answer["decided"] is False
    assert "retained" not in answer["not_ruled_out"]


def test_impossible_readings_are_not_decided():
    answer = as_json("-r", "accessory 40 V battery 12.6", "-r", "run 40 V battery 12.6")
    assert answer["decided"] is False
    assert answer["fits_best"] == []
    assert answer["verdict"].startswith("contradicted everywhere")


def interview(typed_lines: list[str], *options: str):
    return CliRunner().invoke(main, ["identify", *options], input="\n".join(typed_lines) + "\n")


def test_in_a_terminal_it_asks_one_measurement_at_a_time_and_the_list_shrinks():
    done = interview(["12.4", "12.6", "0.1", "12,3 V"])
    assert done.exit_code == 0
    assert done.output.count("MEASURE NEXT") == 3
    assert "kinds of wire left (of" in done.output
    assert "DECIDED: a retained supply fits best" in done.output
    assert done.output.count("no lamp and no load") == 2  # once while asking, once at the end


def test_skip_undo_slips_own_readings_and_done():
    done = interview(
        ["skip", "lights on 7.9 V", "12.6", "aslep 3", "undo", "run 3 ohm", "12.4 battery 12.5",
         "done"]
    )  # fmt: skip
    assert done.exit_code == 1
    assert '"aslep" is no state of the car' in done.output
    assert "type asleep" in done.output
    assert "ohms are read on dead circuits only" in done.output
    assert "UNKNOWN WIRE: 1 reading\n" in done.output


def test_the_end_of_the_input_ends_it_and_json_stays_one_document():
    done = interview(["12.4 battery 12.6"], "--format", "json")
    assert done.exit_code == 1
    assert json.loads(done.stdout)["readings"][0]["battery_v"] == 12.6


@pytest.mark.parametrize(
    ("text", "says", "type_this"),
    [
        ("aslep 0.03 V", '"aslep" is no state', "type asleep"),
        ("run 12.4 battry 12.6", '"battry" is not known here', "type battery and its volts"),
        ("run 12.4 W", '"w" is not known here', "known are"),
        ("run 124 V", "between -20 and 60 V", "slipped decimal point"),
        ("run 3.3 ohm", "dead circuits only", "type unplugged"),
        ("asleep 0.03 V", "asleep since when?", "minutes MINUTES"),
        ("unplugged 3.3", '"3.3" of what?', "3.3 ohm"),
        ("run", "no figure", "run VALUE V"),
        ("12.4 V", "state of the car is missing", "begin with the state"),
        ("run 12.4 load bulb", "no load of the table", "load none, lamp"),
        ("run 12.4 against roof", "no place for the other probe", "battery_negative"),
        ("run 12.4 battery", "nothing stands behind battery", "battery and its volts"),
    ],
)
def test_a_slip_is_wrong_use_and_says_what_to_type(text, says, type_this):
    done = loombook("identify", "-r", "accessory 12.4 V", "-r", text)
    assert done.exit_code == 2
    assert "--reading 2: " in done.output
    assert says in done.output
    assert type_this in done.output


def test_all_slips_are_told_at_once():
    done = loombook("identify", "-r", "aslep 1 minutes 5", "-r", "runn 2")
    assert "--reading 1: " in done.output
    assert "--reading 2: " in done.output


def test_a_file_gets_findings_with_its_lines_and_columns(tmp_path):
    path = tmp_path / "wire.yaml"
    path.write_text(
        "readings:\n"
        "  - {state: asleep, quantity: dc_v, value: 0.03, battery_v: 12.6}\n"
        "  - {state: rn, quantity: dc_v, value: 12.4, battery_v: 12.6}\n",
        "utf-8",
    )
    done = loombook("identify", "--from", path)
    assert done.exit_code == 1
    assert "wire.yaml:2:5: stop SCH108" in done.output
    assert "wire.yaml:3:13: stop SCH104" in done.output
    assert "run" in done.output.split("SCH104")[1]


def test_a_file_that_is_not_there_is_wrong_use():
    assert loombook("identify", "--from", "no-such.yaml").exit_code == 2


def test_house_defaults_of_the_book_count(tmp_path, small_book):
    (small_book / "book.yaml").write_text("house_defaults: {asleep_proved_min: 20}\n", "utf-8")
    early = (
        "-r",
        "door open 12.44 V battery 12.47",
        "-r",
        "asleep 12.55 V battery 12.57 minutes 22",
    )
    assert loombook("identify", *early).exit_code == 1
    assert loombook("identify", *early, "--book", small_book).exit_code == 0


@pytest.mark.parametrize(
    ("text", "state", "quantity", "value", "against"),
    [
        ("Key at run: 12,3V", "run", "dc_v", 12.3, "battery_negative"),
        ("door open 0.1", "door_open", "dc_v", 0.1, "battery_negative"),
        ("unplugged open against B.4", "unplugged", "ohm", None, "B.4"),
        ("unplugged 12 kΩ against body", "unplugged", "ohm", 12_000, "body"),
        ("pulled 3.3 ohm against the pair", "unplugged", "ohm", 3.3, "pair"),
        ("radio-on 120 mV ac", "radio_on_zero", "ac_v", 0.12, "battery_negative"),
        ("lights_dimmed 40 %", "lights_dimmed", "duty_percent", 40, "battery_negative"),
        ("run −0.02 V", "run", "dc_v", -0.02, "battery_negative"),
    ],
)
def test_what_installers_type(text, state, quantity, value, against):
    found = read_reading(text)
    assert (found.state, found.quantity, found.against) == (state, quantity, against)
    assert found.value == (None if value is None else pytest.approx(value))


def test_the_limits_of_typed_readings_are_those_of_the_record_format():
    conditions = read_schema("defs")["$defs"]["reading_rules"]["allOf"]
    limits = {
        quantity: (value["minimum"], value["maximum"])
        for one in conditions
        for quantity in one["if"].get("properties", {}).get("quantity", {}).get("enum", ())
        if "minimum" in (value := one["then"].get("properties", {}).get("value", {}))
    }
    assert limits == {name: (low, high) for name, (low, high, _) in LIMITS.items()}
