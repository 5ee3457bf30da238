"""The scripts of "Take down a car" against the Python they stand in for, on the same records."""

from __future__ import annotations

import re
from collections import Counter
from dataclasses import replace
from typing import Any

import pytest
from maker_records import data_of, shipped_records
from rules.case_files import HERE, patched, read_cases, read_yaml, vehicle_changes, vehicle_data
from sample_shells import SAMPLES
from shipped_book import PINOUTS

from builder.declaring import read
from builder.editing import write_record
from builder.loading import load_text
from builder.loading.characters import hidden_characters
from builder.model.house_defaults import HouseDefaults
from builder.model.housing import Housing
from builder.model.vehicle import Vehicle
from builder.model.words import View
from builder.parsing import parse_vehicle
from builder.parsing.reading_figures import ReadingTextError
from builder.parsing.reading_text import read_reading
from builder.pipeline.checking.book_check import CheckedBook
from builder.proof.judging import Outcome, against_of, judge
from builder.proof.signatures.of_pins import kinds_of_function
from builder.rendering.drawings.plug_geometry import face_of
from builder.rendering.pages.record_maker import CHECKED_HERE, housing_data
from builder.rules.registry import BY_ID
from builder.rules.rule import Scope
from builder.rules.wiring import wiring_of

pytestmark = pytest.mark.browser


@pytest.fixture(scope="module")
def maker(chromium: Any, address: str) -> Any:
    chromium.open(f"{address}/record-maker.html")
    return chromium


# -- the text ------------------------------------------------------------------------------------
def plain_figures(data: Any) -> Any:
    """The data as a page holds it: one kind of number."""
    if isinstance(data, dict):
        return {key: plain_figures(value) for key, value in data.items()}
    if isinstance(data, list):
        return [plain_figures(value) for value in data]
    return int(data) if isinstance(data, float) and data.is_integer() else data


def test_the_text_of_a_record_is_that_of_the_command(maker: Any) -> None:
    records = [(kind, plain_figures(data)) for kind, data in shipped_records()]
    texts = maker.run(
        "return arguments[0].map(one => window.loombookYaml.writeRecord(one[1], one[0]))", records
    )
    for (kind, data), text in zip(records, texts, strict=True):
        assert text == write_record(data, kind), data["id"]
        assert load_text(text, "").data == data


ODD = [
    "yes", "no", "true", "null", "~", "12", "1_000", "0x1F", "12:30", "2024-05-13", "1e3", "a, b",
    "a: b", "a #b", "- a", "{a}", "[a]", "'a'", '"a"', "a'", "ü", "Ω", "a\\b", "*a", "&a", "!a",
    "%a", "@a", "`a", "a ", " a", "one\ntwo", "?", "007", ".5", "-", "é, è", "漢字", "½", "x² y°",
]  # fmt: skip


def test_odd_words_are_quoted_as_the_command_quotes_them(maker: Any) -> None:
    records = [{"id": "a", "name": word, "rows": [[word, 1]]} for word in ODD]
    texts = maker.run(
        "return arguments[0].map(one => window.loombookYaml.writeRecord(one, 'housing'))", records
    )
    for record, text in zip(records, texts, strict=True):
        assert text == write_record(record, "housing"), record["name"]


def test_what_nobody_can_see_is_taken_out_as_it_is_refused(maker: Any) -> None:
    points = [*range(0x3200), *range(0xFDC0, 0xFE20), *range(0xFEF0, 0x10000), 0x1BCA1, 0xE0041]
    points = [code for code in points if not 0xD800 <= code < 0xE000]
    text = "".join(f"{chr(code)}," for code in points if code != 0x0D)
    hidden = {chr(code) for code in points if code != 0x0D and any(hidden_characters(chr(code)))}
    shown = maker.run("return window.loombookYaml.visible(arguments[0])", text)
    assert shown == "".join(letter for letter in text if letter not in hidden)
    assert len(hidden) > 60


# -- the rules -----------------------------------------------------------------------------------
def case_vehicles() -> list[tuple[dict[str, Any], dict[str, Any]]]:
    """The records and housings of the cases of the rules that the page applies."""
    base = read_yaml(HERE / "base_housings.yaml")
    return [
        (vehicle_data(change), patched(base, case.data.get("housings", {}), []))
        for rule_id in sorted(CHECKED_HERE)
        for case in read_cases(rule_id)
        for change in vehicle_changes(case)
    ]


def faults_of(vehicle: Vehicle, shelf: Any) -> list[list[Any]]:
    found = []
    for rule_id in CHECKED_HERE:
        rule = BY_ID[rule_id]
        if "vehicle" not in rule.kinds:
            continue
        subjects = (vehicle,) if rule.scope is Scope.RECORD else (vehicle, shelf)
        for fault in rule.run(*subjects):
            if rule_id != "PIN108" or fault.path[0] != "how_to_tell":
                severity = rule.severity if fault.severity is None else fault.severity
                found.append([rule_id, list(fault.path), fault.message, severity.name.lower()])
    return sorted(found, key=str)


RUN_RULES = """
  return arguments[0].map(function (one) {
    const shells = new Map(one[1].map(shell => [shell.id, shell]));
    return window.loombookRules.ruleFindings(one[0], shells)
      .map(f => [f.id, f.path, f.message, f.severity]);
  });
"""


def shell_of(data: dict[str, Any]) -> dict[str, Any]:
    housing = read(Housing, data)
    return {
        "id": housing.id,
        "rows": [list(row) for row in housing.rows],
        "blocked": list(housing.blocked),
        "mates_with": list(housing.mates_with),
    }


def contradictions(vehicle: Vehicle) -> list[list[Any]]:
    """Every reading that no kind of its pin's function can give, with the sentence of the first."""
    wiring, found = wiring_of(vehicle), []
    for site, reading in wiring.measured:
        mates = frozenset(
            (other.plug.id, other.pin.cavity)
            for other in wiring.sites
            if site.pin.channel and other.pin.channel == site.pin.channel
            and other.pin.leg != site.pin.leg
        )  # fmt: skip
        against = against_of(reading.against, site.plug.id, mates)
        kinds = kinds_of_function(site.pin.function, HouseDefaults())
        said = [judge(reading, kind, against) for kind in kinds]
        if said and all(one.outcome is Outcome.CONTRADICTED for one in said):
            found.append([list(reading.path), said[0].sentence])
    return sorted(found, key=str)


def test_the_rules_say_on_the_page_what_they_say_in_the_command(
    maker: Any, shipped: CheckedBook
) -> None:
    vehicles = [data for kind, data in shipped_records() if kind == "vehicle"]
    template = data_of(PINOUTS / "housings" / "TEMPLATE.yaml")
    housings = {h["id"]: h for kind, h in shipped_records() if kind == "housing"}
    cases = [(data, housings | {template["id"]: template}) for data in vehicles]
    cases += case_vehicles()
    sent = [[data, [shell_of(one) for one in shells.values()]] for data, shells in cases]
    told = maker.run(RUN_RULES, sent)
    fired: Counter[str] = Counter()
    for (data, shells), found in zip(cases, told, strict=True):
        vehicle = parse_vehicle(data)
        shelf = replace(
            shipped.shelf, housings={key: read(Housing, one) for key, one in shells.items()}
        )
        rules = sorted((one for one in found if one[0] != "reading"), key=str)
        assert rules == faults_of(vehicle, shelf), data["id"]
        readings = [
            [one[1], re.sub(r"^[^()]*\([^()]*\): ", "", one[2])]
            for one in found
            if one[0] == "reading"
        ]
        assert sorted(readings, key=str) == contradictions(vehicle), data["id"]
        fired.update(one[0] for one in found)
    missing = {*CHECKED_HERE, "reading"} - {"PIN119"} - set(fired)
    assert missing == set(), fired


def test_a_housing_contradicts_itself_on_the_page_as_in_the_command(maker: Any) -> None:
    base = read_yaml(HERE / "base_housings.yaml")
    records = [
        housing
        for case in read_cases("PIN119")
        for housing in patched(base, case.data.get("housings", {}), []).values()
    ]
    told = maker.run(
        "return arguments[0].map(one => window.loombookRules.housingFindings(one)"
        ".map(f => [f.path, f.message]))",
        records,
    )
    for record, found in zip(records, told, strict=True):
        faults = BY_ID["PIN119"].run(read(Housing, record))
        assert sorted(found, key=str) == sorted(
            ([list(f.path), f.message] for f in faults), key=str
        )
    assert any(told)


# -- a reading in one line -----------------------------------------------------------------------
LINES = [
    "asleep 0.03 V battery 12.6 minutes 65", "ACC 12,4v battery 12,5", "door open 0.1 V",
    "unplugged 3.3 ohm against 4", "unplugged open against body", "plug pulled ol", "key on 12.1",
    "radio tone 2.4 vac load lamp", "battery off 0.4 k ohm", "run 300 mA", "lights 45 %",
    "tuner 11.9 V load 50 against B.4", "locked 12.6", "run 3 ohm", "asleep", "", "nonsense 12 V",
    "run 124 V", "run 12.4 V battery", "run 12.4 V battery 12 battery 13", "run 12 V colour red",
    "unplugged 12", "run 12 parsecs", "run 12 V load 3a", "run 12 V against the moon!", "run −3 V",
    "run 12.4 V minutes 30000", "run 12 V battery twelve", "retained 12 V, battery 12.3, load 5ma",
    "unplugged 1 megohm", "run .5 V", "cranking 9.1 V", "restart 8.9V battery 8.9",
]  # fmt: skip


def python_reads(line: str) -> Any:
    try:
        reading = read_reading(line)
    except ReadingTextError as error:
        return re.sub(r"[“”]", '"', error.slip.message)
    return [
        reading.state,
        reading.quantity,
        reading.value,
        reading.against,
        reading.battery_v,
        reading.load,
        reading.minutes,
    ]


def test_a_line_is_read_as_identify_reads_it(maker: Any) -> None:
    told = maker.run(
        """return arguments[0].map(function (line) {
          try {
            const r = window.loombookReading.readReading(line, "pair");
            const or = (value, other) => value === undefined ? other : value;
            return [r.state, r.quantity, r.value === "open" ? null : r.value,
              String(or(r.against, "battery_negative")), or(r.battery_v, null),
              or(r.load, "none"), or(r.minutes, null)];
          } catch (slip) { return slip.message.replace(/[“”]/g, '"'); }
        });""",
        LINES,
    )
    for line, page in zip(LINES, told, strict=True):
        expected = python_reads(line)
        assert page == (pytest.approx(expected) if isinstance(expected, list) else expected), line
    assert {type(one) for one in told} == {list, str}


# -- the drawing ---------------------------------------------------------------------------------
VIEWS: tuple[View, ...] = ("wire_side", "mating_side")


FACES = """
return (arguments[0] || window.loombookMakerData.housings).map(h => [h.id,
  ['wire_side', 'mating_side'].map(v => { const f = window.loombookFace.faceOf(h, v);
    return [f.width, f.height, f.latch, f.corner, f.lettering, ...f.shell, ...f.latchBox,
      ...f.cells.flatMap(c => [c.name, c.row, c.x, c.y, c.w, c.h])]; })]);
"""


def drawn_by_pages(housing: Housing, view: View) -> list[Any]:
    face = face_of(housing, view)
    found = [face.width, face.height, face.latch, face.keyed_corner, face.lettering]
    found += [*face.shell, *face.latch_box]
    return found + [x for c in face.cells for x in (c.name, c.row, c.x, c.y, c.w, c.h)]


def assert_drawn(faces: list[list[Any]], housing: Housing) -> None:
    for view, page in zip(VIEWS, faces, strict=True):
        expected = drawn_by_pages(housing, view)
        assert len(page) == len(expected)
        for one, other in zip(page, expected, strict=True):
            exact = not isinstance(other, float)
            assert one == (other if exact else pytest.approx(other)), (housing.id, view)


def test_a_plug_is_drawn_where_the_pages_draw_it(maker: Any, shipped: CheckedBook) -> None:
    told = maker.run(FACES, None)
    assert {one[0] for one in told} == set(shipped.shelf.housings)
    for housing_id, faces in told:
        assert_drawn(faces, shipped.shelf.housings[housing_id])


def test_a_shell_of_any_latch_is_turned_over_as_the_pages_turn_it(maker: Any) -> None:
    told = maker.run(FACES, [housing_data(one) for one in SAMPLES])
    assert len(told) == len(SAMPLES)
    for housing, (_, faces) in zip(SAMPLES, told, strict=True):
        assert_drawn(faces, housing)
