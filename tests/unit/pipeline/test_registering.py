"""Registering who measured: the handles of a whole book in one go."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest
import yaml
from shipped_book import FOLDERS_OF_PARTS, PINOUTS, loombook
from shipped_cars import copy_car, typed_in_one

from builder.book import open_book
from builder.pipeline.answers.explaining import explained_pin
from builder.pipeline.checking.book_check import check_book
from builder.pipeline.checking.every_vehicle import vehicles
from builder.proof.grading.grade import grade_pin

TEASEL = "cindral-teasel-2023"
LETO = "brantmoor-leto-2019-wagon-mid"


@pytest.fixture
def unregistered(tmp_path: Path) -> Path:
    """Two shipped cars and all parts, as a book that has never heard of contributors."""
    book = tmp_path / "book"
    for folder in FOLDERS_OF_PARTS:
        if folder != "contributors":
            shutil.copytree(PINOUTS / folder, book / folder)
    for name in (TEASEL, LETO):
        copy_car(book, name)
    typed_in_one(book, TEASEL)
    return book


def grades(book: Path) -> dict[str, list[str]]:
    opened = open_book(book)
    return {
        vehicle.id: [
            grade_pin(vehicle, pin, opened.defaults).label
            for plug in vehicle.plugs
            for pin in plug.pins
        ]
        for _, vehicle in vehicles(opened)
    }


def rules(book: Path) -> dict[str, int]:
    found = [f.rule_id for f in check_book(open_book(book)).findings]
    return {rule: found.count(rule) for rule in ("EVD110", "EVD111")}


def test_a_book_without_contributors_stays_valid_and_no_pin_of_it_is_proven(unregistered: Path):
    checked = check_book(open_book(unregistered))
    assert [f for f in checked.findings if f.fails_check] == []
    handles = {"hollow-lane-garage", "tinroof-sound", "canal-street-fitting"}
    noted = {f.message.split('"')[1] for f in checked.findings if f.rule_id == "EVD110"}
    assert handles <= noted
    said = [label for labels in grades(unregistered).values() for label in labels]
    assert said and not any("proven" in label for label in said)
    shipped = {name: labels for name, labels in grades(PINOUTS).items() if name in (TEASEL, LETO)}
    assert any("proven" in label for labels in shipped.values() for label in labels)


def test_registering_all_gives_every_grade_back(unregistered: Path):
    done = loombook("new", "contributors", "-b", unregistered)
    assert done.exit_code == 0, done.output
    assert done.output.count(" is written") == len(list((unregistered / "contributors").iterdir()))
    assert rules(unregistered) == {"EVD110": 0, "EVD111": 0}
    shipped = {name: labels for name, labels in grades(PINOUTS).items() if name in (TEASEL, LETO)}
    assert grades(unregistered) == shipped
    again = loombook("new", "contributors", "-b", unregistered)
    assert "every handle of this book is registered already" in again.output


def test_a_dry_run_writes_nothing(unregistered: Path):
    done = loombook("new", "contributors", "-b", unregistered, "--dry-run")
    assert done.exit_code == 0 and not (unregistered / "contributors").exists()
    record = done.stdout.split("\n\n")[1]
    assert yaml.safe_load(record)["data"] == "invented"


def test_neither_of_two_that_look_alike_is_registered(unregistered: Path):
    car = unregistered / "vehicles" / "cindral" / f"{TEASEL}.yaml"
    car.write_text(
        car.read_text("utf-8").replace("by: tinroof-sound", "by: tin-rof-sound"), "utf-8"
    )
    done = loombook("new", "contributors", "-b", unregistered)
    assert done.exit_code == 3
    assert "tin-rof-sound is not registered: it looks like tinroof-sound" in done.output
    written = {path.stem for path in (unregistered / "contributors").iterdir()}
    assert written and not written & {"tin-rof-sound", "tinroof-sound"}
    only = loombook("new", "contributors", "-b", unregistered)
    assert only.exit_code == 1  # nothing else is left, and nothing was written


def test_who_measured_private_cars_alone_is_registered_there(unregistered: Path):
    private = unregistered / "private" / "vehicles" / "cindral"
    private.mkdir(parents=True)
    (unregistered / "vehicles" / "cindral" / f"{TEASEL}.yaml").rename(private / f"{TEASEL}.yaml")
    settings = (
        "schema: 1\nroots: [{path: ., visibility: shared}, {path: private, visibility: private}]\n"
    )
    (unregistered / "book.yaml").write_text(settings, "utf-8")
    assert loombook("new", "contributors", "-b", unregistered).exit_code == 0
    own = {path.stem for path in (unregistered / "private" / "contributors").iterdir()}
    shared = {path.stem for path in (unregistered / "contributors").iterdir()}
    assert "hollow-lane-garage" in own and "canal-street-fitting" in shared and not own & shared


def test_why_says_which_handles_count_as_one(unregistered: Path):
    opened = open_book(unregistered)
    (car,) = [vehicle for _, vehicle in vehicles(opened) if vehicle.id == LETO]
    said = [
        " ".join(explained_pin(opened, LETO, f"{plug.id}.{pin.cavity}").as_data()["why"])
        for plug in car.plugs
        for pin in plug.pins
    ]
    assert any("handles that nobody registered: they count as one contributor" in w for w in said)
