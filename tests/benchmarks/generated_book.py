"""A large book made from the shipped one: each copy is another make, so that scopes stay apart."""

from __future__ import annotations

import re
import shutil
from pathlib import Path

SHIPPED = Path(__file__).resolve().parents[2] / "pinouts"


def make_book(folder: Path, vehicles: int) -> Path:
    """Write a book of `vehicles` vehicles, and all shipped parts, into `folder`; return it."""
    parts = ("housings", "converters", "amplifiers", "cables", "looms", "interfaces")
    for kind in (*parts, "contributors"):
        shutil.copytree(SHIPPED / kind, folder / kind)
    sources = [_texts_of(path) for path in sorted((SHIPPED / "vehicles").glob("*/*.yaml"))]
    for number in range(vehicles):
        copy, at = divmod(number, len(sources))
        _write_copy(folder, sources[at], copy)
    return folder


def _texts_of(car: Path) -> dict[Path, str]:
    """The texts of a vehicle and its visits, by their places in the book; the vehicle first."""
    files = [car, *sorted((SHIPPED / "visits" / car.stem).glob("*.yaml"))]
    return {path.relative_to(SHIPPED): path.read_text("utf-8") for path in files}


def _write_copy(folder: Path, texts: dict[Path, str], copy: int) -> None:
    """Write a vehicle and its visits as copy number `copy`; ids inside are renamed with it."""
    make = re.search(r"^make: *(\S+)", next(iter(texts.values())), re.M)
    assert make is not None
    old = make[1].lower()
    for place, typed in texts.items():
        text = re.sub(r"^make: *\S+", f"make: {make[1]}{copy}", typed, count=1, flags=re.M)
        text = re.sub(rf"\b{old}-(?=[a-z])", f"{old}{copy}-", text)
        text = re.sub(r"\btag: *[\w-]+", rf"\g<0>-{copy}", text)  # another car was before the meter
        kind, car, name = place.parts
        if kind == "visits":  # a visit is named for its car, and no two of a book are named alike
            text = re.sub(rf"^id: *{place.stem}", rf"\g<0>-{copy}", text, count=1, flags=re.M)
            name = f"{place.stem}-{copy}{place.suffix}"
        car, name = (re.sub(rf"^{old}(?=-|$)", f"{old}{copy}", part) for part in (car, name))
        new = folder / kind / car / name
        new.parent.mkdir(parents=True, exist_ok=True)
        new.write_text(text, "utf-8")
