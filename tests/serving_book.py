"""A small book to serve: what of its site rests on which record."""

from __future__ import annotations

import shutil
from pathlib import Path

from shipped_book import PINOUTS
from shipped_cars import copy_car

TANSY = "ostrel-tansy-2017-hatch-base"
CAR = f"vehicles/ostrel/{TANSY}.yaml"
PAGE, PLAN, JOB = (
    f"vehicles/{TANSY}.html",
    f"plans/{TANSY}--cvn-2a.html",
    "jobs/tansy-subwoofer.html",
)
STANDING = "vehicles/cindral-teasel-2023.html"
OTHER_CAR = "vehicles/cindral/cindral-teasel-2023.yaml"


def serving_book(folder: Path) -> Path:
    """One car with its plan and job, one that shares nothing with it, and their parts."""
    for kind in ("housings", "amplifiers", "cables"):
        shutil.copytree(PINOUTS / kind, folder / kind)
    for car in (CAR, OTHER_CAR):
        copy_car(folder, Path(car).stem)
    for place in ("converters/cvn-2a.yaml", f"jobs/{Path(JOB).stem}.yaml"):
        (folder / place).parent.mkdir(parents=True, exist_ok=True)
        shutil.copy(PINOUTS / place, folder / place)
    (folder / "book.yaml").write_text("schema: 1\nsite_name: Ours\n", "utf-8")
    return folder
