"""Each job of the book with one thing spoilt in its files, and what is then said of it."""

from __future__ import annotations

import copy
import shutil
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
import yaml
from shipped_book import PINOUTS
from shipped_cars import typed_in_one

from builder.book import open_book
from builder.pipeline.answers.packs import MadePack, made_packs
from builder.pipeline.checking.book_check import check_book
from builder.pipeline.checking.records import read_record
from builder.planning.power.wire_gauge import awg_number
from builder.planning.turn_on.loads import WAKES_BY_ITSELF

Data = dict[str, Any]
TABLE = yaml.safe_load(Path(__file__).with_name("spoilt_jobs.yaml").read_text("utf-8"))


class Files:
    """A job and its vehicle as data, and writing them back."""

    def __init__(self, book: Path, made: MadePack) -> None:
        self.book, self.made = book, made
        self._files = {file.path.stem: file for file in open_book(book).files()}
        self.job = self.record(made.pack.job)
        self.car = self.record(made.parts.vehicle.id)

    def record(self, name: str) -> Data:
        data = read_record(self._files[name]).data
        assert data is not None
        return copy.deepcopy(data)

    def write(self) -> None:
        for data in (self.job, self.car):
            self._files[data["id"]].path.write_text(as_yaml(data), "utf-8")


def as_yaml(data: Data) -> str:
    return str(yaml.safe_dump(data, sort_keys=False, allow_unicode=True))


def settled_book(folder: Path) -> Path:
    """A copy of the book in which the job that asks for a reading has been given it."""
    book = folder / "book"
    shutil.copytree(PINOUTS, book)
    typed_in_one(book)  # a wire goes with what was read on it
    for made in packs_of(book).values():
        if made.pack.kind == "probe_plan":
            files = Files(book, made)
            for channel in files.car["channels"]:
                if channel.get("delay_ms"):
                    channel["delay_ms"] = 0.03
            files.job["accept"] = [a for a in files.job["accept"] if a["rule"] != "TOP120"]
            files.write()
    return book


def packs_of(book: Path) -> dict[str, MadePack]:
    return {made.pack.job: made for made in made_packs(check_book(open_book(book)))}


@pytest.fixture(scope="module")
def whole(tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, dict[str, MadePack]]:
    book = settled_book(tmp_path_factory.mktemp("whole"))
    return book, packs_of(book)


# -- what is spoilt ---------------------------------------------------------------------------


def without_switched_wire(files: Files) -> None:
    turn_on = files.made.pack.plan.turn_on
    if turn_on.kind in WAKES_BY_ITSELF:
        _use_deaf_converter(files)
        return
    assert turn_on.path is not None
    listed: Any = files.car
    for step in turn_on.path[:-1]:
        listed = listed[step]
    here = listed[turn_on.path[-1]] if len(listed) > turn_on.path[-1] else {}
    if turn_on.cavity in (None, str(here.get("cavity"))):  # two jobs of one car lose one wire
        del listed[turn_on.path[-1]]


def _use_deaf_converter(files: Files) -> None:
    """The same converter, but one that no bias wakes."""
    data = files.record(files.job["converter"])
    data["id"] += "-deaf"
    data["turn_on"]["offset_wake"] = "no"
    place = files.book / "converters" / f"{data['id']}.yaml"
    place.write_text(as_yaml(data), "utf-8")
    files.job["converter"] = data["id"]


def with_pair_inverted(files: Files) -> None:
    first = files.made.pack.plan.feeds[0].channel
    next(c for c in files.car["channels"] if c["channel"] == first)["polarity"] = "inverted"


def with_half_the_conductor(files: Files) -> None:
    _set_gauge(files, thinner=3)  # three sizes are half the area


def with_twice_the_length(files: Files) -> None:
    """Twice the way through the car, on the conductor that did for the way as it was."""
    _set_gauge(files, thinner=0)
    files.job["supply"]["supply_lead_m"] *= 2
    for route in files.job["routes"]:
        route["length_m"] *= 2


def _set_gauge(files: Files, thinner: int) -> None:
    power = files.made.pack.power
    assert power is not None
    size = awg_number(power.runs[0].conductor.split()[0]) + thinner
    files.job["supply"]["size_awg"] = size if size > 0 else "1/0"


def with_a_dispute(files: Files) -> None:
    """A second meter that saw no bias on the first leg the job uses, or one where none was."""
    _, plug, _, pin = files.made.pack.plan.feeds[0].path
    sessions = files.car["sessions"]
    if any(each["id"] == "zz" for each in sessions):
        return  # two jobs are of one car
    other = copy.deepcopy(sessions[0]) | {"id": "zz", "by": "other-bay"}
    other["car"]["tag"] = "other-car"
    sessions.append(other)
    readings = files.car["plugs"][plug]["pins"][pin]["readings"]
    biased = any(each["state"] == "radio_on_zero" and each["value"] > 2 for each in readings)
    readings.append(
        {"session": "zz", "state": "radio_on_zero", "quantity": "dc_v",
         "value": 0.0 if biased else 12.4, "battery_v": 12.5}
    )  # fmt: skip


DAMAGES: dict[str, Callable[[Files], None]] = {
    "without its switched wire": without_switched_wire,
    "with a pair inverted": with_pair_inverted,
    "with half the conductor": with_half_the_conductor,
    "with twice the length": with_twice_the_length,
    "with a dispute": with_a_dispute,
}


@pytest.mark.parametrize("damage", DAMAGES)
def test_every_job_spoilt(
    damage: str, whole: tuple[Path, dict[str, MadePack]], tmp_path: Path
) -> None:
    book, before = whole
    shutil.copytree(book, tmp_path / "book")
    for made in before.values():
        files = Files(tmp_path / "book", made)
        DAMAGES[damage](files)
        files.write()
    after = packs_of(tmp_path / "book")
    assert {job: outcome(before[job], made) for job, made in after.items()} == TABLE[damage]
    for job, made in after.items():
        assert (made.pack.plan, made.pack.power) != (before[job].pack.plan, before[job].pack.power)


def outcome(before: MadePack, after: MadePack) -> Data:
    """What is left of a plan, what switches it on, and the rules that did not speak before."""
    was, now = ({found.rule_id for found in made.findings} for made in (before, after))
    turn_on = after.pack.plan.turn_on.kind
    return {"kind": after.pack.kind, "turn_on": turn_on, "rules": sorted(now - was)}
