"""A shop's own book beside a shared one, its private records full of words found nowhere else."""

from __future__ import annotations

import re
import shutil
from pathlib import Path

from shipped_book import FOLDERS_OF_PARTS, PINOUTS
from shipped_cars import copy_makers, typed_text

MARK = "zq"
"""Begins every word of the private records that must not come out; no shared text holds it."""
TANSY = "ostrel-tansy-2017-hatch-base"
OWN_CAR, OWN_JOB = "zqcar-one", "zqjob-one"
SETTINGS = """schema: 1
site_name: North bay
roots: [{{path: shared, visibility: shared}}{private}]
house_defaults: {{supply_match_v: 0.31}}
"""
PRIVATE_ROOT = ", {path: zqfolder, visibility: private}"


def marked(text: str, *changes: tuple[str, str]) -> str:
    """The text with each of the changes made wherever its old words stand."""
    for old, new in changes:
        assert old in text, old
        text = text.replace(old, new)
    return text


def shop_book(folder: Path, private: bool = True) -> Path:
    """Make the shop's book in `folder`; without `private` its settings know no private root."""
    for kind in FOLDERS_OF_PARTS:
        shutil.copytree(PINOUTS / kind, folder / "shared" / kind)
    copy_makers(folder / "shared", "ostrel")
    (folder / "shared" / "jobs").mkdir()
    shutil.copy(PINOUTS / "jobs" / "tansy-subwoofer.yaml", folder / "shared" / "jobs")
    root = PRIVATE_ROOT if private else ""
    (folder / "book.yaml").write_text(SETTINGS.format(private=root), "utf-8")
    if private:
        _write_private(folder / "zqfolder")
    return folder


def _write_private(root: Path) -> None:
    _put(root / "vehicles" / "zqmaker" / f"{OWN_CAR}.yaml", own_car())
    _put(root / "vehicles" / "zqmaker" / f"{TANSY}.yaml", stand_in())
    _put(root / "jobs" / f"{OWN_JOB}.yaml", own_job())
    for kind, part, name in (
        ("housings", "two-row-20-latch-top", "zqhousing"),
        ("converters", "cvn-2a", "zqconverter"),
        ("amplifiers", "amn-600", "zqamplifier"),
        ("cables", "twin-16", "zqcable"),
        ("looms", "straight-16", "zqloom"),
        ("interfaces", "ok-7n", "zqinterface"),
        ("contributors", "kesta-dunn", "zqcontributor"),
    ):
        text = (PINOUTS / kind / f"{part}.yaml").read_text("utf-8")
        text = re.sub(r"^(id|name|maker): .*$", rf"\1: {name}", text, flags=re.M)
        _put(root / kind / f"{name}.yaml", text)


def _put(place: Path, text: str) -> None:
    place.parent.mkdir(parents=True, exist_ok=True)
    place.write_text(text, "utf-8")


def own_car() -> str:
    """A car that only the shop has: a word of its own in each kind of free text."""
    return marked(
        typed_text(TANSY),
        (f"id: {TANSY}", f"id: {OWN_CAR}"),
        ("make: Ostrel", "make: Zqmake"),
        ("model: Tansy", "model: Zqmodel"),
        ("variant: hatch, base", "variant: hatch, zqvariant"),
        ("generation: second", "generation: zqgeneration"),
        ("name: main plug", "name: zqplug plug"),
        ("alder-pit-audio", "zqby-audio"),
        ("tag: plum-9", "tag: zqtag-9"),
        ("label: socket", "label: zqlabel"),
        ("undo the four screws, top pair first", "undo the zqstep first"),
        ("the right luggage trim hides", "the zqcaution hides"),
        ("housing: two-row-20-latch-top", "housing: zqhousing"),
        ("dead on the USB socket", "dead on the zqnote socket"),
        ("note: engine on", "note: zqreading on"),
        ("tansy-plug-a-wires.png", "zqphoto.png"),
        ("accept: []", "accept:\n  - {rule: PIN120, at: A, reason: zqreason of ours, who: zqwho}"),
    )


def stand_in() -> str:
    """The shop's own record of a shared car."""
    reason = f"replaces: {{id: {TANSY}, reason: zqreplaced by ours}}\nmake: Ostrel"
    return marked(typed_text(TANSY), ("make: Ostrel", reason), ("alder-pit-audio", "zqhand-audio"))


def own_job() -> str:
    """A customer's job."""
    text = (PINOUTS / "jobs" / "tansy-subwoofer.yaml").read_text("utf-8")
    return marked(
        text,
        ("id: tansy-subwoofer", f"id: {OWN_JOB}"),
        ("title: add a subwoofer", "title: zqtitle a subwoofer"),
        ("vehicle: ostrel-tansy-2017-hatch-base", f"vehicle: {OWN_CAR}"),
        ("tag: moss-4", "tag: zqcustomer-4"),
        ("wanted: more bass", "wanted: zqwanted bass"),
        ("converter: cvn-2a", "converter: zqconverter"),
        ("sub amp", "zqamp"),
        ("part: amn-600", "part: zqamplifier"),
        ("cables: [twin-16,", "cables: [zqcable,"),
        ("alder-pit-audio", "zqtester-audio"),
    )
