"""A small book with something of every kind, and the changes that people make to one."""

from __future__ import annotations

import random
import re
import shutil
from pathlib import Path

from shipped_book import PINOUTS

JOB = "tansy-subwoofer"
VISITED = "cindral-osier-2018"
CAR = Path("vehicles/ostrel/ostrel-tansy-2017-hatch-base.yaml")


def furnished(small_book: Path) -> Path:
    """The book with sisters of one maker, a job, a private folder, visits, and the examples."""
    for folder in ("jobs", "vehicles/cindral", "private/housings"):
        (small_book / folder).mkdir(parents=True)
    shutil.copy(PINOUTS / "jobs" / f"{JOB}.yaml", small_book / "jobs")
    shutil.copy(PINOUTS / "vehicles" / "TEMPLATE.yaml", small_book / "vehicles")
    shutil.copy(PINOUTS / "vehicles/cindral" / f"{VISITED}.yaml", small_book / "vehicles/cindral")
    shutil.copytree(PINOUTS / "visits" / VISITED, small_book / "visits" / VISITED)
    roots = "roots:\n  - {path: ., visibility: shared}\n"
    roots += "  - {path: private, visibility: private}\n"
    (small_book / "book.yaml").write_text(f"schema: 1\nsite_name: Ours\n{roots}", "utf-8")
    return small_book


def texts(book: Path) -> list[Path]:
    return sorted(p for p in book.rglob("*.yaml") if p.name != "book.yaml")


def edit(book: Path, chance: random.Random, kept: dict[Path, bytes]) -> None:
    """One change of a kind that a person makes, or that goes wrong while one is made."""
    path = chance.choice(texts(book))
    text = path.read_text("utf-8")
    what = chance.choice(
        ("figure", "figure", "figure", "line", "twice", "word", "copy", "gone", "name", "back")
    )
    lines = text.splitlines(keepends=True)
    figures = [*re.finditer(r"(?<=[ {\[])\d+(\.\d+)?(?=[,}\]\n])", text)]
    if what == "figure" and figures:
        one = chance.choice(figures)
        new = chance.choice(("0", "1", "2", "12", "0.4", "9000"))
        path.write_text(text[: one.start()] + new + text[one.end() :], "utf-8")
    elif what in ("line", "twice") and lines:
        at = chance.randrange(len(lines))
        lines[at : at + 1] = [] if what == "line" else [lines[at], lines[at]]
        path.write_text("".join(lines), "utf-8")
    elif what == "word":
        old, new = chance.choice((("yes", "no"), ("no", "yes"), ("speaker", "constant"),
                                  ("wire_side", "mating_side"), ("alder", "elder")))  # fmt: skip
        path.write_text(text.replace(old, new, 1), "utf-8")
    elif what == "copy":
        new_name = f"copy-{chance.randrange(3)}"
        path.with_name(f"{new_name}.yaml").write_text(text.replace(path.stem, new_name), "utf-8")
    elif what == "gone":
        path.unlink()
    elif what == "name":
        path.rename(path.with_name(f"name-{chance.randrange(3)}.yaml"))
    elif what == "back":
        for each, raw in chance.sample(sorted(kept.items()), 3):
            each.write_bytes(raw)
