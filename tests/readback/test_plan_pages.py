"""The terminals of plans, read from their pages, against the plan as data and the car's record."""

from __future__ import annotations

import json
from itertools import groupby
from pathlib import Path
from typing import Any
from xml.etree.ElementTree import Element

import pytest
from read_page import every, has_figure, items, read_page, rows, the_table, under, words
from record_words import SIGNS, STATES, plain, read_record, wire
from shipped_book import PINOUTS, loombook

JOBS = ("tansy-subwoofer", "leto-four-doors", "rook-two-amplifiers")


def pack_of(site: Path, job: str) -> dict[str, Any]:
    data = json.loads((site / "data" / "jobs" / f"{job}.json").read_text("utf-8"))
    pack: dict[str, Any] = data["computed"]["pack"]
    return pack


def pins_of(vehicle: str) -> dict[str, dict[str, Any]]:
    (path,) = (PINOUTS / "vehicles").rglob(f"{vehicle}.yaml")
    return {
        f"{plug['id']}.{pin['cavity']}": pin
        for plug in read_record(path)["plugs"]
        for pin in plug["pins"]
    }


def agree(page: Element, plan: dict[str, Any]) -> None:
    """Hold each line of the terminals against its feed, and against the pin in the record."""
    table = [row for row, _ in the_table(under(page, "Terminals"))]
    assert len(table) == len(plan["feeds"]) > 0
    pins = pins_of(plan["vehicle"])
    for row, feed in zip(table, plan["feeds"], strict=True):
        assert row["Converter"] == f"Input {feed['converter_input']} {SIGNS[feed['leg']]}"
        assert row["Pin"] == f"{feed['plug']}.{feed['cavity']}"
        assert row["Wire"] == feed["wire"] == wire(pins[row["Pin"]])
        assert row["Channel"] == f"{plain(feed['channel'])}, {feed['leg']}"
        assert row["Treatment"].startswith(feed["treatment"].replace("addon", "add-on"))
        assert row["Grade"] == feed["grade"]
        pin = pins[row["Pin"]]
        assert (pin["channel"], pin["leg"]) == (feed["channel"], feed["leg"])


@pytest.mark.parametrize("job", JOBS)
def test_the_terminals_of_a_job_are_those_of_its_data_and_its_car(site, job):
    pack = pack_of(site, job)
    page = read_page(site / "jobs" / f"{job}.html")
    agree(page, pack)
    chosen = [rung for rung in pack["ladder"] if rung["verdict"] == "chosen"]
    said = " ".join(map(words, under(page, "What switches it on")))
    assert all(rung["where"] in said and rung["because"] in said for rung in chosen)
    listed = items(under(page, INSULATE))
    for end in pack["insulate"]:
        # What a new amplifier's wire is joined to is no end that stays open.
        stays = not end["because"].startswith("open until the new amplifier's wire")
        assert any(item.startswith(end["what"]) for item in listed) == stays, end


INSULATE = "Insulate, each end on its own"


@pytest.mark.parametrize("job", JOBS)
def test_the_plan_of_the_same_car_and_converter_says_what_the_command_says(site, job):
    pack = pack_of(site, job)
    vehicle, converter = pack["vehicle"], pack["converter"]
    done = loombook("plan", vehicle, "-c", converter, "-b", PINOUTS, "--format", "json")
    plan = json.loads(done.stdout)
    page = read_page(site / "plans" / f"{vehicle}--{converter}.html")
    agree(page, plan)
    for loss in plan["losses"]:
        assert loss in items(under(page, "What changes for the customer"))
    tables = every(under(page, "Measure before a joint is made"), "table")
    lines = [row for table in tables for row, _ in rows(table)]
    assert len(lines) == len(plan["tests"]) > 0
    for test in plan["tests"]:
        (line,) = [each for each in lines if asks_for(each, test)]
        lines.remove(line)
        assert all(has_figure(line["Must read"], limit) for limit in limits(test))


def asks_for(line: dict[str, str], test: dict[str, Any]) -> bool:
    """Whether a row, of whatever place in its table, is that of a reading: pin, state, way."""
    way = test["how"].partition(": ")[2].rpartition(": ")[0]
    return (
        f" {test['plug']}.{test['cavity']}, " in line["Test"]
        and state_of(line) == STATES[test["state"]]
        and f": {way}" in line["Test"]
    )


def state_of(line: dict[str, str]) -> str:
    """The longest words of a state in a row: "not yet asleep" is not asleep."""
    return max((said for said in STATES.values() if said in line["State"]), key=len)


@pytest.mark.parametrize("job", JOBS)
def test_a_plan_asks_for_each_state_once(site: Path, job: str) -> None:
    plan = pack_of(site, job)
    page = read_page(site / "plans" / f"{plan['vehicle']}--{plan['converter']}.html")
    (table,) = every(under(page, "Measure before a joint is made"), "table")
    states = [row["State"] for row, _ in rows(table)]
    assert [state for state, _ in groupby(states)] == list(dict.fromkeys(states))
    assert states[-1] == STATES["unplugged"]
    for body in table.iter("tbody"):
        head, *mine = body.iter("tr")
        said = {list(row)[1].text for row in mine}
        assert len(mine) > 0 and len(said) == 1 and words(head).startswith(said.pop() or "?")


def limits(test: dict[str, Any]) -> list[str]:
    """The figures of a band as a person would write them, large resistances in kilohms."""
    keys = ("low", "high", "low_from_battery_v", "high_from_battery_v")
    bounds = [abs(test[key]) for key in keys if test[key] is not None]
    thousands = test["quantity"] == "ohm" and bounds == [test["low"]] and test["low"] >= 1000
    return [f"{bound / 1000:g} kΩ" if thousands else f"{bound:.10g}" for bound in bounds]
