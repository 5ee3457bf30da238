"""One gate: what build refuses, no command, page, data file, sketch or job plans."""

from __future__ import annotations

import json
import re
from pathlib import Path
from typing import Any

import pytest
from damaged_books import DAMAGES, Damage
from evidence_book import JOB, TANSY, small_book
from shipped_book import loombook
from whole_plans import whole_plans

from builder.book import open_book
from builder.pipeline.answers.packs import made_packs
from builder.pipeline.checking.book_check import CheckedBook, check_book
from builder.pipeline.site.building import build_site

PLAN = ("plan", TANSY, "--converter", "cvn-2a")
SKETCH = (*PLAN, "--amplifier", "amn-600")
WRITTEN = ("plan", JOB)
CHANNELS = {"plan": PLAN, "sketch": SKETCH, "job": WRITTEN}
JOINED_KEYS = (
    "feeds", "insulate", "conductors", "cut_list", "labels", "steps", "revert", "customer",
    "parts", "gains", "tests", "readings", "turn_on_draws", "wiring", "joints", "circuit",
)  # fmt: skip
JOINED_WORDS = (
    "TAP PLAN", "Tap plan", "Feeds", "Insulate", "input 1", "Cores and", "Cut list", "retained",
    "STEPS IN ORDER", "BAY TEST SHEET", "BACK TO STOCK", "PARTS LIST", "A.7", "solder",
)  # fmt: skip
PLACES = ("plug", "cavity", "fuse_position", "pair", "rung", "draw_ma", "capacity_ma")


@pytest.fixture(scope="module")
def books(tmp_path_factory: pytest.TempPathFactory) -> dict[str, Path]:
    """A small book for each damage, and one without."""
    made = {"none": small_book(tmp_path_factory.mktemp("whole") / "book")}
    for name, damage in DAMAGES.items():
        made[name] = small_book(tmp_path_factory.mktemp("damaged") / "book")
        damage.edit(made[name])
    return made


def joined(data: dict[str, Any]) -> list[str]:
    """What somebody could join by a plan or pack as JSON."""
    found = [key for key in JOINED_KEYS if data.get(key)]
    turn_on = data.get("turn_on") or {}
    found += [f"turn_on.{place}" for place in PLACES if turn_on.get(place) is not None]
    found += [f"ladder {rung}" for rung in data.get("ladder", ()) if rung["verdict"] == "chosen"]
    return [*found, *(["hold_up"] if data.get("hold_up") else [])]


def applies(damage: Damage, channel: str) -> bool:
    return channel == "job" or damage.reach != "job"


CASES = [
    pytest.param(name, channel, id=f"{name}, {channel}")
    for name, damage in DAMAGES.items()
    for channel in CHANNELS
    if applies(damage, channel)
]


@pytest.mark.parametrize("channel", CHANNELS)
def test_without_damage_everything_is_joined(channel: str, books: dict[str, Path]) -> None:
    done = loombook(*CHANNELS[channel], "--book", books["none"])
    assert done.exit_code == 0 and "TAP PLAN" in done.output
    data = json.loads(
        loombook(*CHANNELS[channel], "--book", books["none"], "--format", "json").output
    )
    assert data["kind"] == "tap_plan" and {"feeds", "turn_on.cavity"} <= set(joined(data))


@pytest.mark.parametrize("name", DAMAGES)
def test_check_and_build_refuse_each_damage(name: str, books: dict[str, Path]) -> None:
    done = loombook("check", books[name])
    assert done.exit_code == 1
    assert re.search(
        rf"{re.escape(DAMAGES[name].file)}:\d+:\d+: \w+ {DAMAGES[name].rule}", done.output
    )


@pytest.mark.parametrize(("name", "channel"), CASES)
def test_a_refused_plan_joins_nothing_in_a_terminal(
    name: str, channel: str, books: dict[str, Path]
) -> None:
    done = loombook(*CHANNELS[channel], "--book", books[name])
    assert done.exit_code == 1, done.output
    assert "NO PLAN" in done.output
    assert [word for word in JOINED_WORDS if word in done.output] == []
    names(DAMAGES[name], done.output)


@pytest.mark.parametrize(("name", "channel"), CASES)
def test_a_refused_plan_joins_nothing_in_json(
    name: str, channel: str, books: dict[str, Path]
) -> None:
    done = loombook(*CHANNELS[channel], "--book", books[name], "--format", "json")
    assert done.exit_code == 1, done.output
    data = json.loads(done.output)
    assert data["kind"] == "no_plan"
    assert joined(data) == []
    names(DAMAGES[name], " ".join(f"{r['decision']}: {r['because']}" for r in data["refusals"]))


@pytest.mark.parametrize("name", DAMAGES)
def test_a_refused_job_has_no_netlist(name: str, books: dict[str, Path]) -> None:
    done = loombook(*WRITTEN, "--book", books[name], "--format", "spice")
    assert (done.exit_code, done.stdout) == (1, "")
    assert "only a tap plan has a circuit" in done.stderr


def names(damage: Damage, said: str) -> None:
    """A refusal names rule, message and file:line:col."""
    said = " ".join(said.split())
    place = rf"{re.escape(damage.file)}:\d+:\d+[:.] (?:\w+ )?{damage.rule}\w*:? \w+"
    assert re.search(place, said), said


def pages(checked: CheckedBook, site: Path) -> dict[str, str]:
    """Plan and job of a built site as pages, and as data."""
    build_site(checked, site)
    places = {
        "plan page": site / "plans" / f"{TANSY}--cvn-2a.html",
        "job page": site / "jobs" / f"{JOB}.html",
        "vehicle data": site / "data" / "vehicles" / f"{TANSY}.json",
        "job data": site / "data" / "jobs" / f"{JOB}.json",
        "jobs": site / "jobs" / "index.html",
    }
    return {name: place.read_text("utf-8") for name, place in places.items() if place.exists()}


@pytest.mark.parametrize("name", ["cavity used twice", "setting unknown", "fix nobody accepts"])
def test_a_page_made_of_a_refused_record_joins_nothing(
    name: str, books: dict[str, Path], tmp_path: Path
) -> None:
    """`build` writes no such page; whoever writes one all the same gets no plan on it."""
    made = pages(check_book(open_book(books[name])), tmp_path / "site")
    assert set(made) == {"plan page", "job page", "vehicle data", "job data", "jobs"}
    for page in ("plan page", "job page"):
        text = re.sub(r"<[^>]+>", " ", made[page])
        assert "No plan." in made[page] and "Tap plan" not in text
        assert [word for word in ("Cut list", "input 1", "Steps in order") if word in text] == []
        names(DAMAGES[name], text)
        assert str(books[name]) not in made[page]
    for plan in whole_plans(json.loads(made["vehicle data"])["computed"]):
        assert plan["kind"] != "tap_plan" and joined({**plan, "tests": []}) == []
        assert str(books[name]) not in json.dumps(plan)
    pack = json.loads(made["job data"])["computed"]["pack"]
    assert pack["kind"] == "no_plan" and joined(pack) == []
    assert "Tap plan" not in made["jobs"]


@pytest.mark.parametrize("name", DAMAGES)
def test_every_pack_of_a_damaged_book_is_refused(name: str, books: dict[str, Path]) -> None:
    checked = check_book(open_book(books[name]))
    assert [made.pack.kind for made in made_packs(checked) if made.pack.kind == "tap_plan"] == []
    assert [job.pack for job in checked.jobs if job.pack == "tap_plan"] == []


@pytest.mark.parametrize("name", [name for name in DAMAGES if DAMAGES[name].reach == "car"])
def test_no_other_command_speaks_of_a_tap_plan(name: str, books: dict[str, Path]) -> None:
    for command in (("show", TANSY), ("why", TANSY, "A.7"), ("next",), ("find", "tansy")):
        said = loombook(*command, "--book", books[name]).output.casefold()
        assert "tap plan" not in said and "tap_plan" not in said, command


def test_a_thin_record_still_gets_its_probe_plan(books: dict[str, Path]) -> None:
    done = loombook("plan", "ostrel-brindle-2020", "--converter", "cvn-2p", "--book", books["none"])
    assert done.exit_code == 1
    assert done.output.startswith("PROBE PLAN") and "[ ] A." in done.output
