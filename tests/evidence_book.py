"""A small book of its own, and bay sheets for it, for tests that bring evidence back."""

from __future__ import annotations

import shutil
from pathlib import Path
from typing import Any

from shipped_book import FOLDERS_OF_PARTS, PINOUTS
from shipped_cars import copy_makers

TANSY, JOB = "ostrel-tansy-2017-hatch-base", "tansy-subwoofer"
BRINDLE = "ostrel-brindle-2020"
SESSION = """\
session:
  by: third-bay
  date: 2025-11-02
  car: {tag: zz1, year: 2020}
  method: meter
  read_from: wire_side
  against: battery_negative
"""


def small_book(folder: Path) -> Path:
    """Copy the shipped parts, the cars of one maker and one job."""
    for kind in FOLDERS_OF_PARTS:
        shutil.copytree(PINOUTS / kind, folder / kind)
    copy_makers(folder, "ostrel")
    (folder / "jobs").mkdir()
    shutil.copy(PINOUTS / "jobs" / f"{JOB}.yaml", folder / "jobs")
    return folder


def vehicle_file(book: Path, name: str) -> Path:
    return book / "vehicles" / "ostrel" / f"{name}.yaml"


def job_file(book: Path) -> Path:
    return book / "jobs" / f"{JOB}.yaml"


def sheet_file(place: Path, head: str, *readings: str, results: tuple[str, ...] = ()) -> Path:
    """Write a sheet: lines of its head, then readings and results, each as on one line."""
    lines = ["schema: 1", head, SESSION.rstrip(), "readings:", *(f"  - {one}" for one in readings)]
    if not readings:
        lines[-1] = "readings: []"
    if results:
        lines += ["results:", *(f"  - {one}" for one in results)]
    place.write_text("\n".join(lines) + "\n", "utf-8")
    return place


def texts(book: Path) -> dict[str, Any]:
    """Every record of a book, by its file."""
    return {path.name: path.read_bytes() for path in sorted(book.rglob("*.yaml"))}
