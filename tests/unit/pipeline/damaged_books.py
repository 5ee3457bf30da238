"""A small book with one thing wrong, each damage a different way for a plan to be unsafe."""

from __future__ import annotations

import re
from collections.abc import Callable
from pathlib import Path
from typing import NamedTuple

from evidence_book import TANSY, job_file, vehicle_file
from shipped_cars import typed_text

Edit = Callable[[Path], None]


class Damage(NamedTuple):
    """What is done to a book, the rule that finds it, and what a refusal must name."""

    edit: Edit
    rule: str
    file: str  # where the finding stands, by the end of its name
    reach: str = "car"  # every plan of the car, those with one "converter", one "job"


def replaced(file: Path, old: str, new: str) -> None:
    text = file.read_text("utf-8")
    assert old in text, old
    file.write_text(text.replace(old, new, 1), "utf-8")


def cavity_used_twice(book: Path) -> None:
    """A cavity that no plan of this car uses: bars on pins alone would let the plan through."""
    twice = "      - {cavity: 6, function: illumination}\n      - cavity: 7\n"
    replaced(vehicle_file(book, TANSY), "      - cavity: 7\n", twice)


def accept_that_accepts_nothing(book: Path) -> None:
    entry = "\naccept:\n  - {rule: PIN103, at: A.6, reason: wrong place, who: me}\n"
    replaced(vehicle_file(book, TANSY), "\naccept: []\n", entry)


def fix_of_a_rule(book: Path) -> None:
    """Described and called empty; nobody accepts it."""
    replaced(vehicle_file(book, TANSY), "    empty: [8,", "    empty: [6, 8,")


def mirrored_sister(name: str) -> Edit:
    """A sister record that says the same of plug A, counted from the other face."""

    def edit(book: Path) -> None:
        text = typed_text(TANSY).replace(f"id: {TANSY}", f"id: {name}", 1)
        head, plug, rest = re.split(r"(?=^  - id: [AB]$)", text, flags=re.M)
        plug = re.sub(r"(?<=cavity: )\d+", _image, plug)
        plug = re.sub(r"(?<=empty: \[)[^]]+", lambda found: re.sub(r"\d+", _image, found[0]), plug)
        head = head.replace("year_from: 2016", "year_from: 2013").replace("2019", "2014", 1)
        vehicle_file(book, name).write_text(head + plug + rest, "utf-8")

    return edit


def _image(cavity: re.Match[str]) -> str:
    """A cavity of two rows of ten, seen from the other face."""
    return str((11 if int(cavity[0]) <= 10 else 31) - int(cavity[0]))


def mirrored_and_a_twin(book: Path) -> None:
    """Of two records that say the same, the rule compares one with the mirrored; both are it."""
    mirrored_sister(AFTER)(book)
    text = typed_text(TANSY).replace(f"id: {TANSY}", f"id: {BEFORE}", 1)
    text = text.replace("year_from: 2016", "year_from: 2010").replace("2019", "2011", 1)
    vehicle_file(book, BEFORE).write_text(text, "utf-8")


def converter_id_used_twice(book: Path) -> None:
    folder = book / "converters" / "old"
    folder.mkdir()
    text = (book / "converters" / "cvn-2a.yaml").read_text("utf-8")
    (folder / "cvn-2a.yaml").write_text(text, "utf-8")


def converter_id_not_its_file(book: Path) -> None:
    place = book / "converters" / "cvn-2a.yaml"
    place.rename(place.with_name("cv-two.yaml"))


def converter_unreadable(book: Path) -> None:
    replaced(book / "converters" / "cvn-2a.yaml", "\nkind:", "\nkindd:")


def housing_inconsistent(book: Path) -> None:
    """The shell of the plug that the plan taps has one cavity twice."""
    place = book / "housings" / "two-row-20-latch-top.yaml"
    replaced(place, "[ 1,  2,  3,", "[ 1,  2,  2,")


def setting_unknown(book: Path) -> None:
    (book / "book.yaml").write_text("schema: 1\nhouse_defaults: {supply_matchh_v: 0.3}\n", "utf-8")


def thin_supply(book: Path) -> None:
    replaced(job_file(book), "supply:\n", "supply:\n  size_awg: 6\n")


AFTER, BEFORE = "ostrel-tansy-2017-hatch-zzz", "ostrel-tansy-2017-hatch-aaa"
DAMAGES = {
    "cavity used twice": Damage(cavity_used_twice, "PIN101", f"{TANSY}.yaml"),
    "mirrored sister found in the other": Damage(mirrored_sister(AFTER), "PIN116", f"{AFTER}.yaml"),
    "mirrored sister found in this": Damage(mirrored_sister(BEFORE), "PIN116", f"{TANSY}.yaml"),
    "mirrored sister of a twin": Damage(mirrored_and_a_twin, "PIN116", f"{AFTER}.yaml"),
    "acceptance of nothing": Damage(accept_that_accepts_nothing, "BOK110", f"{TANSY}.yaml"),
    "fix nobody accepts": Damage(fix_of_a_rule, "PIN103", f"{TANSY}.yaml"),
    "converter id used twice": Damage(
        converter_id_used_twice, "BOK102", "old/cvn-2a.yaml", "converter"
    ),
    "converter id not its file": Damage(
        converter_id_not_its_file, "BOK101", "cv-two.yaml", "converter"
    ),
    "converter unreadable": Damage(converter_unreadable, "SCH", "cvn-2a.yaml", "converter"),
    "housing inconsistent": Damage(housing_inconsistent, "PIN119", "two-row-20-latch-top.yaml"),
    "setting unknown": Damage(setting_unknown, "SCH", "book.yaml"),
    "supply of the job too thin": Damage(thin_supply, "PWR104", "tansy-subwoofer.yaml", "job"),
}
