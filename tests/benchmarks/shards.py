"""A book too large for one machine, tried small: shards by maker, joined to one site.

    python tests/benchmarks/shards.py --vehicles 120 --shards 4 [--write]

Each shard is a book of its own: all parts, and the cars and visits of some makers. It is checked
and built by itself, in a process of its own, with a store of its own. Then their stores are put
into one, their pages into one folder, and the whole book is built on both: cars that stand in the
store are not looked at and their pages not written again, only what crosses shards is made. The
result is compared byte for byte with a build of the whole book from nothing. Exit code 1 where a
byte differs, or where the join looks at or writes a car that no finding across shards is about.

One finding is made to cross: two makers of different shards are spelt nearly alike.
"""

from __future__ import annotations

import argparse
import os
import re
import shutil
import sqlite3
import sys
import tempfile
from collections.abc import Iterator, Sequence
from contextlib import closing
from pathlib import Path
from typing import NamedTuple

from beside import TOOLS
from generated_book import make_book
from measured_runs import Ran, ran

KEPT = Path(__file__).with_name("shards.md")
HEAD = """# Shards by maker, joined

Written by `python tests/benchmarks/shards.py --vehicles {vehicles} --shards {shards} --write`:
a generated book, one command after another on the machine that it was written on; quote ratios.
Memory is the most that all processes of a command had at once.

| what | vehicles | s | ms a vehicle | MB |
|---|--:|--:|--:|--:|
"""
_OF_CARS = ("vehicles/", "plans/", "data/vehicles/", "data/visits/")
_ALIKE = ("Halvemarra", "Halvemara")
"""A maker, and one that is spelt nearly alike: nobody sees it who sees one shard alone."""


class Line(NamedTuple):
    """One piece of the work."""

    what: str
    vehicles: int
    run: Ran

    @property
    def cells(self) -> str:
        """The line as it stands in the table."""
        each_ms = 1000 * self.run.seconds / self.vehicles
        figures = f"{self.run.seconds:.1f} | {each_ms:.0f} | {self.run.together_mb:.0f}"
        return f"| {self.what} | {self.vehicles:,} | {figures} |"


class Result(NamedTuple):
    """What came of it: the table, and what must not be."""

    lines: Sequence[Line]
    faults: Sequence[str]
    said: Sequence[str]


def simulate(folder: Path, vehicles: int, shards: int) -> Result:
    """Build the shards, join them, build the whole book from nothing, and compare."""
    whole = make_book(folder / "whole" / "book", vehicles)
    _misspell(whole)
    parts = list(_sharded(whole, folder, shards))
    built = [
        Line(f"shard {at}: check and build", _cars(p), _build(p)) for at, p in enumerate(parts)
    ]
    _join_stores([part / "book" for part in parts], whole)
    _join_sites([part / "site" for part in parts], folder / "whole" / "site")
    before = _numbers(folder / "whole" / "site")
    check = ran(TOOLS / "loombook", "check", "book", "-v", cwd=folder / "whole")
    joined = _build(folder / "whole")
    alone = ran(
        TOOLS / "loombook", "build", "book", "-o", "alone", "--no-store", cwd=folder / "whole"
    )
    lines = [
        *built,
        Line("join: check of the whole book", vehicles, check),
        Line("join: lists, finder, data, links", vehicles, joined),
        Line("whole book from nothing, one machine", vehicles, alone),
    ]
    return _judged(lines, folder / "whole", before, check)


def _judged(lines: Sequence[Line], whole: Path, before: dict[str, int], check: Ran) -> Result:
    """What must hold: the same bytes, no car looked at anew, and only what crosses written."""
    site, alone = whole / "site", whole / "alone"
    made, wanted = _files(site), _files(alone)
    faults = [f"{url}: not as in the whole build" for url in _differing(made, wanted)]
    anew = re.search(r"(\d+) vehicles and jobs looked at anew", check.output)
    if anew is None or anew[1] != "0":
        faults.append(f"the join looked at {anew[1] if anew else '?'} vehicles anew")
    now = _numbers(site)
    of_cars = [url for url in now if url.startswith(_OF_CARS) and not url.endswith("/index.html")]
    written = [url for url in of_cars if before.get(url) != now[url]]
    makers = {Path(url).name.split("-")[0] for url in written}
    if len(makers) != 1 or not makers <= {name.lower() for name in _ALIKE}:
        faults.append(f"the join wrote cars of {sorted(makers)}, not of the maker spelt alike")
    said = (
        f"{len(wanted):,} files, the same as in a build of the whole book from nothing.",
        f"Of {len(of_cars):,} files of cars the join wrote {len(written)}: those that the finding "
        "between two shards is about.",
    )
    return Result(lines, faults, said)


def _misspell(book: Path) -> None:
    """Give one maker a name that nobody has, and one car of another maker nearly the same."""
    makers = sorted((book / "vehicles").iterdir())
    for maker, name in zip((makers[0], makers[-1]), _ALIKE, strict=True):
        old = maker.name
        for path in [*maker.glob("*.yaml"), *(book / "visits").glob(f"{old}-*/*.yaml")]:
            text = re.sub(r"(?m)^make: *\S+", f"make: {name}", path.read_text("utf-8"), count=1)
            text = re.sub(rf"\b{old}-(?=[a-z])", f"{name.lower()}-", text)
            path.write_text(text, "utf-8")
            path.rename(path.with_name(re.sub(rf"^{old}-", f"{name.lower()}-", path.name)))
        for visits in (book / "visits").glob(f"{old}-*"):
            visits.rename(visits.with_name(re.sub(rf"^{old}-", f"{name.lower()}-", visits.name)))
        maker.rename(maker.with_name(name.lower()))


def _sharded(whole: Path, folder: Path, shards: int) -> Iterator[Path]:
    """Yield the folders of the shards: all parts, and every n-th maker's cars and visits."""
    makers = sorted(path.name for path in (whole / "vehicles").iterdir())
    for at in range(shards):
        part = folder / f"shard-{at}"
        mine = tuple(f"{name}-" for name in makers[at::shards])
        for kind in whole.iterdir():
            if kind.name not in ("vehicles", "visits"):
                shutil.copytree(kind, part / "book" / kind.name)
        for name in makers[at::shards]:
            shutil.copytree(whole / "vehicles" / name, part / "book" / "vehicles" / name)
        for visits in (whole / "visits").iterdir():
            if visits.name.startswith(mine):
                shutil.copytree(visits, part / "book" / "visits" / visits.name)
        yield part


def _build(place: Path) -> Ran:
    """Build from inside the folder: findings then name files alike wherever it stands."""
    done = ran(TOOLS / "loombook", "build", "book", "-o", "site", cwd=place)
    if done.code:
        raise RuntimeError(f"{place.name}: {done.said}")
    return done


def _join_stores(books: Sequence[Path], whole: Path) -> None:
    """Put the rows of all stores into one: a row is found by what it was made of."""
    first, *others = [next((book / ".loombook").glob("*.sqlite3")) for book in books]
    store = whole / ".loombook" / first.name
    shutil.copytree(first.parent, store.parent)
    with closing(sqlite3.connect(store, isolation_level=None)) as rows:
        for other in others:
            rows.execute("ATTACH ? AS other", (str(other),))
            rows.execute("INSERT OR IGNORE INTO kept SELECT * FROM other.kept")
            rows.execute("DETACH other")


def _join_sites(sites: Sequence[Path], whole: Path) -> None:
    """Link the files of all sites into one folder; of those that each has, one stays."""
    for site in sites:
        for path in site.rglob("*"):
            new = whole / path.relative_to(site)
            if path.is_file() and not new.exists():
                new.parent.mkdir(parents=True, exist_ok=True)
                os.link(path, new)


def _cars(place: Path) -> int:
    return sum(1 for _ in (place / "book" / "vehicles").rglob("*.yaml"))


def _files(site: Path) -> dict[str, Path]:
    return {p.relative_to(site).as_posix(): p for p in site.rglob("*") if p.is_file()}


def _differing(made: dict[str, Path], wanted: dict[str, Path]) -> list[str]:
    """The addresses at which two sites do not have the same bytes."""
    either = sorted(made.keys() | wanted.keys())
    return [
        url
        for url in either
        if url not in made
        or url not in wanted
        or made[url].read_bytes() != wanted[url].read_bytes()
    ]


def _numbers(site: Path) -> dict[str, int]:
    """The number of each file on the disk: one that is written anew has another."""
    return {url: path.stat().st_ino for url, path in _files(site).items()}


def text_of(result: Result, vehicles: int, shards: int) -> str:
    """Return the kept text."""
    rows = "".join(f"{line.cells}\n" for line in result.lines)
    told = "\n".join(result.said)
    return HEAD.format(vehicles=vehicles, shards=shards) + f"{rows}\n{told}\n"


def main(words: Sequence[str]) -> int:
    """Simulate, print, keep the table when that is asked for; 1 when something does not hold."""
    asked = argparse.ArgumentParser(description="A book in shards by maker, joined.")
    asked.add_argument("--vehicles", type=int, default=120)
    asked.add_argument("--shards", type=int, default=4)
    asked.add_argument("--write", action="store_true", help="keep the table in shards.md")
    given = asked.parse_args(words)
    with tempfile.TemporaryDirectory() as folder:
        result = simulate(Path(folder).resolve(), given.vehicles, given.shards)
    text = text_of(result, given.vehicles, given.shards)
    print(text, *result.faults, sep="\n")
    if given.write and not result.faults:
        KEPT.write_text(text, "utf-8")
    return 1 if result.faults else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
