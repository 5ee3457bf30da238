"""The facts of a record, read from its built page by a reader who knows neither side's code."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any
from xml.etree.ElementTree import Element

import pytest
from read_page import (
    Row,
    every,
    has_figure,
    headings,
    items,
    labelled,
    read_page,
    the_table,
    under,
    words,
)
from record_words import (
    FUNCTIONS,
    LOADS,
    SIDES,
    SIGNS,
    STATES,
    UNITS,
    figure,
    plain,
    read_record,
    wire,
)
from shipped_book import PINOUTS

CARS = (
    "brantmoor/brantmoor-leto-2019-wagon-mid",
    "cindral/cindral-osier-2018",
    "cindral/cindral-teasel-2023",
    "wexlow/wexlow-quern-2018-late",
    "hesper/hesper-moor-2009",
    "hesper/hesper-tarn-2022-hybrid",
    "mirdle/mirdle-cutter-1996",
    "ostrel/ostrel-brindle-2020",
    "ostrel/ostrel-tansy-2017-hatch-base",
    "quillan/quillan-lovage-2021-mid",
    "torvane/torvane-gannet-2011-van",
    "torvane/torvane-rook-2016-pickup",
    "veldane/veldane-lorne-2012-rhd",
)
STRIP = {
    "Constant": ("constant",),
    "Switched": ("retained", "accessory", "run"),
    "Ground": ("ground",),
    "Turn-on": ("amplifier_on",),
    "Illumination": ("illumination",),
}
FIGURES = {"battery_v": "V", "from_v": "V", "minutes": "min", "lasts_s": "s", "tone_hz": "Hz"}
Record = dict[str, Any]
Car = tuple[Record, Element]


@pytest.fixture(scope="module", params=CARS, ids=[car.partition("/")[2] for car in CARS])
def car(site: Path, request: pytest.FixtureRequest) -> Car:
    record = read_record(PINOUTS / "vehicles" / f"{request.param}.yaml")
    return record, read_page(site / "vehicles" / f"{record['id']}.html")


def pins_of(record: Record) -> Iterator[tuple[str, Record]]:
    for plug in record["plugs"]:
        for pin in plug["pins"]:
            yield f"{plug['id']}.{pin['cavity']}", pin


def printed_pins(car: Car) -> Iterator[tuple[Record, Row]]:
    """Each pin of the record with its row, both in the record's order."""
    record, page = car
    for plug in record["plugs"]:
        if not plug["pins"]:
            continue
        table = the_table(under(page, f"Pins of plug {plug['id']}"))
        places = [f"{plug['id']}.{pin['cavity']}" for pin in plug["pins"]]
        assert [row["Cavity"] for row, _ in table] == places
        yield from zip(plug["pins"], table, strict=True)


def test_every_plug_says_where_it_is_and_what_it_looks_like(car):
    record, page = car
    for plug in record["plugs"]:
        said = " ".join(map(words, under(page, f"Plug {plug['id']}: {plug['name']}")[:1]))
        assert plug["location"] in said
        assert all(colour in said for colour in plug["shell_colours"])
        empty = ", ".join(plug["empty"]) or "none stated"
        assert f"Empty cavities: {empty}." in said, plug["id"]
        assert plain(plug["unit"]) in said
        tells = [line for like in plug["look_alikes"] for line in like["tell"]]
        if tells:
            printed = items(under(page, f"Plug {plug['id']}: {plug['name']}"))
            assert set(tells) <= set(printed)


def test_every_pin_has_function_channel_leg_wire_and_fuse(car):
    for pin, (row, _) in printed_pins(car):
        assert FUNCTIONS[pin["function"]] in row["Function"]
        if "channel" in pin:
            leg = f" {SIGNS[pin['leg']]}" if "leg" in pin else ""
            assert f"{plain(pin['channel'])}{leg}" in row["Function"]
        colours = wire(pin)
        size = pin.get("wire", {})
        if "size_mm2" in size:
            colours += ", " + figure(size["size_mm2"], "mm²")
        if "size_awg" in size:
            colours += f", {size['size_awg']} AWG"
        assert row["Wire"] == colours
        fuse = pin.get("fuse")
        if fuse is None:
            assert row["Fuse"] == "–"
        else:
            assert row["Fuse"].startswith(fuse["place"])
            rated = fuse.get("rating_a", "unknown")
            assert rated == "unknown" or has_figure(row["Fuse"], figure(rated, "A"))


def test_what_a_pin_gives_and_for_which_cars_it_holds(car):
    for pin, (row, _) in printed_pins(car):
        if "max_source_ma" in pin and pin["max_source_ma"] != "unknown":
            assert has_figure(row["Function"], figure(pin["max_source_ma"], "mA"))
        if "level_v" in pin:
            assert has_figure(row["Function"], figure(pin["level_v"], "V"))
        for codes in pin.get("only_if", {}).values():
            assert all(code in row["Function"] for code in codes)


def test_every_reading_is_printed_with_all_that_was_typed(car):
    record, page = car
    for pin, (_, below) in printed_pins(car):
        all_printed(record, pin, items(below))
    fuses = items(under(page, "The car"))
    for place in record.get("fuse_positions", ()):
        all_printed(record, place, fuses)


def all_printed(record: Record, place: Record, printed: list[str]) -> None:
    """Hold every reading of a pin or fuse position against the lines; each counts once."""
    sessions = {session["id"]: session for session in record["sessions"]}
    for reading in place.get("readings", ()):
        wanted = said_of(reading, sessions[reading["session"]])
        matching = [line for line in printed if all(has_figure(line, word) for word in wanted)]
        assert matching, f"{wanted} in {printed}"
        printed.remove(matching[0])


def said_of(reading: Record, session: Record) -> list[str]:
    """What one reading's line has to say, in pieces."""
    value, unit = reading["value"], UNITS[reading["quantity"]]
    against = reading.get("against", session["against"])
    if against in ("battery_negative", "body"):
        against = plain(against)
    else:
        against = f"pin {against}" if "." in against else f"cavity {against}"
    wanted = [
        STATES[reading["state"]],
        "open" if value == "open" else figure(value, unit),
        f"against {against}",
        f"{session['by']}, {session['date']}",
    ]
    for key, unit in FIGURES.items():
        wanted += [figure(reading[key], unit)] if key in reading else []
    wanted += [f"step {reading['volume_step']}"] if "volume_step" in reading else []
    wanted += [LOADS[reading["load"]]] if reading.get("load", "none") != "none" else []
    return wanted + ([reading["note"]] if "note" in reading else [])


def test_notes_and_claims_stand_below_their_pin(car):
    for pin, (_, below) in printed_pins(car):
        text = " ".join(map(words, below))
        assert pin.get("note", "") in text
        for claim in pin.get("claims", ()):
            wanted = [claim["by"], claim["date"], FUNCTIONS[claim["says"]], claim.get("source", "")]
            assert any(all(word in line for word in wanted) for line in items(below)), claim


def test_the_answers_on_top_are_the_pins_of_the_record(car):
    record, page = car
    printed = dict(labelled(under(page, "Answers")))
    for label, functions in STRIP.items():
        found = {
            f"{place} {wire(pin)}" for place, pin in pins_of(record) if pin["function"] in functions
        }
        assert leads(printed.pop(label)) == found, label
    pairs: dict[str, set[str]] = {}
    for place, pin in pins_of(record):
        if pin["function"] in ("speaker", "line"):
            kind = "line " if pin["function"] == "line" else ""
            label = f"{kind}{plain(pin['channel'])}".capitalize()
            sign = f"{SIGNS[pin['leg']]} " if "leg" in pin else ""
            pairs.setdefault(label, set()).add(f"{sign}{place} {wire(pin)}")
    assert {label: leads(values) for label, values in printed.items()} == pairs


def leads(values: list[Element]) -> set[str]:
    """The wires of an answer; an answer in words alone has none."""
    return {words(link) for link in every(values, "a")}


def test_the_scope_is_that_of_the_record(car):
    record, page = car
    scope = record["scope"]
    holds = items(under(page, "Holds for"))
    first, last = scope["year_from"], scope["year_to"]
    assert holds[0] == f"model years {first if first == last else f'{first}–{last}'}"
    assert SIDES[scope["drive_side"]] in holds
    for what, key in (("body", "bodies"), ("trim", "trims"), ("market", "markets")):
        if scope[key] == ["unknown"]:
            assert not any(line.startswith(what) for line in holds)
            continue
        every_one = scope[key] == ["all"]
        assert (f"every {what}" if every_one else f"{what} {', '.join(scope[key])}") in holds
    for month in (scope.get("build_from"), scope.get("build_to")):
        assert month is None or any(line.endswith(month) for line in holds)
    if scope["options_any"]:
        assert any(all(code in line for code in scope["options_any"]) for line in holds)
    holds_not = items(under(page, "Does not hold for"))
    for code in scope["options_none"]:
        assert f"cars with option {code}" in holds_not
    for radio in scope["radios"]:
        assert radio in ("all", "unknown") or any(radio in line for line in holds)


def test_years_that_are_far_from_any_measured_car_are_called_claimed_only(car):
    record, page = car
    measured = [int(s["car"]["year"]) for s in record["sessions"] if "year" in s["car"]]
    if not measured:
        assert any(line.startswith("any year") for line in items(under(page, "Not known for")))
        return
    claimed = range(int(record["scope"]["year_from"]), int(record["scope"]["year_to"]) + 1)
    far = [year for year in claimed if all(abs(year - near) > 1 for near in measured)]
    outside = [year for year in far if not min(measured) < year < max(measured)]
    said = [line for line in items(under(page, "Not known for")) if "claimed only" in line]
    named = [int(year) for line in said for year in re.findall(r"\d{4}", line)]
    assert {min(outside), max(outside)} <= set(named) if outside else not said
    assert set(named) <= set(outside)


def test_every_question_that_tells_sisters_apart_is_asked(car):
    record, page = car
    if not record["how_to_tell"]:
        return
    text = " ".join(map(words, under(page, "How to tell")))
    for question in record["how_to_tell"]:
        assert question["question"] in text
        for answer in question["answers"]:
            other = "it is this record" if answer["means"] == "this" else answer["means"]
            lines = items(under(page, "How to tell"))
            assert any(line.startswith(answer["answer"]) and other in line for line in lines)


def test_every_caution_is_printed(car):
    record, page = car
    text = " ".join(map(words, under(page, "Cautions")))
    safety = record["safety"]
    removal = record["radio"].get("removal", {})
    for line in (
        *safety["restraint_zones"], *safety["high_voltage_zones"], *safety["cautions"],
        *removal.get("hazards", ()),
    ):  # fmt: skip
        assert line in text
    wait = safety["restraint_wait_min"]
    if wait != "unknown" and safety["restraint_zones"]:
        assert has_figure(text, figure(wait, "min"))
    radio, has = record["radio"], record["features"]
    # Said of each car whose record does not rule it out, and of no other.
    for title, said in {
        "High": has["hybrid"] != "no" or bool(safety["high_voltage_zones"]),
        "Start-stop": has["start_stop"] != "no",
        "Emergency call": has["emergency_call"] != "no",
        "Noise cancellation": has["noise_cancellation"] != "no",
        "Engine sound": has["engine_sound"] != "no",
        "Battery sensor": record["power"]["battery"]["sensor_on_negative"] != "no",
        "Bridged radio outputs": radio["outputs"] == "bridged",
        "Kind of radio outputs not known": radio["outputs"] == "unknown",
        "The radio checks its loads": radio["open_load_check"] == "yes",
        "Factory amplifier not ruled out": record["factory_amplifier"]["feed"] == "unknown",
    }.items():
        assert (title in text) is said, title


def test_the_car_around_the_plugs(car):
    record, page = car
    facts = {label: words(values[0]) for label, values in labelled(under(page, "The car"))}
    power = record["power"]
    for label, typed, unit in (
        ("Base load, running", power["base_load_a"], "A"),
        ("Base load, key off, radio on", power["base_load_key_off_a"], "A"),
        ("Supply lead to the usual place", power["supply_lead_m"], "m"),
        ("Ground lead", power["ground_lead_m"], "m"),
        ("Battery", power["battery"]["capacity_ah"], "Ah"),
    ):
        assert typed == "unknown" or has_figure(facts[label], figure(typed, unit)), label
    fuses = items(under(page, "The car"))
    for fuse in record.get("fuse_positions", ()):
        wanted = [fuse["position"], fuse["panel"], fuse["label"], FUNCTIONS[fuse["function"]]]
        assert any(all(word in line for word in wanted) for line in fuses), fuse
    for sound in record["protected_sounds"]:
        assert any(sound["sound"] in line for line in fuses)
    for step in record["radio"].get("removal", {}).get("steps", ()):
        assert step in fuses


def test_every_pair_and_everybody_who_measured(car):
    record, page = car
    if record["channels"]:
        table = [row for row, _ in the_table(under(page, "What each pair carries"))]
        assert [row["Pair"] for row in table] == [plain(c["channel"]) for c in record["channels"]]
        for row, channel in zip(table, record["channels"], strict=True):
            assert row["Driven by"] == channel["driven_by"]
            ohm = channel["speaker_ohm"]
            assert ohm == "unknown" or has_figure(row["Speaker"], figure(ohm, "Ω"))
            clean = channel.get("level", {}).get("clean_max_v_rms", "unknown")
            assert clean == "unknown" or f"{float(clean):g} V RMS" in row["Level"]
    lines = items(under(page, "Who measured"))
    for session in record["sessions"]:
        wanted = [session["by"], session["date"], session["car"]["tag"], session["method"]]
        assert any(all(word in line for word in wanted) for line in lines), session["id"]


def test_a_page_shows_no_pin_and_no_plug_of_its_own(car):
    record, page = car
    plugs = [f"Plug {plug['id']}: {plug['name']}" for plug in record["plugs"]]
    assert headings(page, "Plug ") == plugs
