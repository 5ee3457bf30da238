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
    sources = sorted(path for path in (SHIPPED / "vehicles").glob("*/*.yaml"))
    texts = [path.read_text("utf-8") for path in sources]
    for number in range(vehicles):
        copy, at = divmod(number, len(sources))
        _write_copy(folder / "vehicles", sources[at].stem, texts[at], copy)
    return folder


def _write_copy(folder: Path, record_id: str, text: str, copy: int) -> None:
    """Write one record as copy number `copy`; ids inside it are renamed with it."""
    make = re.search(r"^make: *(\S+)", text, re.M)
    assert make is not None
    old = make[1].lower()
    text = re.sub(r"^make: *\S+", f"make: {make[1]}{copy}", text, count=1, flags=re.M)
    text = re.sub(rf"\b{old}-(?=[a-z])", f"{old}{copy}-", text)
    name = re.sub(rf"^{old}-", f"{old}{copy}-", record_id)
    place = folder / f"{old}{copy}"
    place.mkdir(parents=True, exist_ok=True)
    (place / f"{name}.yaml").write_text(text, "utf-8")
