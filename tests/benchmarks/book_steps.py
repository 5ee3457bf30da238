"""What is done with a generated book, step by step, each measured: checks, questions, builds.

A step leaves the book, its store and its site as the next one wants to find them, so that steps are
taken in this order; a first check and a first build begin with nothing.
"""

from __future__ import annotations

import re
import shutil
from collections.abc import Callable
from dataclasses import dataclass
from functools import cached_property
from pathlib import Path

from beside import TOOLS, generic_check, other_generator, plain_write
from generated_book import make_book
from measured_runs import Ran, least_of, ran

TRIES = 3
"""A question is asked so often; the quickest counts."""
_CONVERTER = "cvn-2a"


@dataclass(frozen=True)
class Bench:
    """A generated book with what is made of it, all in one folder."""

    folder: Path
    vehicles: int

    @cached_property
    def book(self) -> Path:
        """The book, made where it is not there yet."""
        book = self.folder / "book"
        return book if book.is_dir() else make_book(book, self.vehicles)

    @property
    def site(self) -> Path:
        """Where its site is built."""
        return self.folder / "site"

    @cached_property
    def cars(self) -> list[Path]:
        """The files of its vehicles."""
        return sorted((self.book / "vehicles").rglob("*.yaml"))

    def asked(self, *words: str | Path) -> Ran:
        """A command of loombook, run once; what it printed is left out.

        Raises:
            RuntimeError: it was used wrongly, or failed: its time would tell nothing.
        """
        done = ran(TOOLS / "loombook", *words)
        if done.code not in (0, 1):  # 1: something was found, or a plan is no tap plan
            raise RuntimeError(f"{words}: exit code {done.code}: {done.said}")
        return done._replace(said="")

    def often(self, *words: str | Path) -> Ran:
        """A question to the book, the quickest of some tries."""
        return least_of([self.asked(*words, "--book", self.book) for _ in range(TRIES)])


def first_check(bench: Bench) -> Ran:
    """Check a book that nobody has checked."""
    shutil.rmtree(bench.book / ".loombook", ignore_errors=True)
    return bench.asked("check", bench.book)


def check(bench: Bench) -> Ran:
    """Check what is checked already."""
    return bench.asked("check", bench.book)


def edited_check(bench: Bench) -> Ran:
    """Check after a line more in one vehicle."""
    car = bench.cars[0]
    car.write_text(car.read_text("utf-8") + "# looked at\n", "utf-8")
    return bench.asked("check", bench.book)


def show(bench: Bench) -> Ran:
    """Show one vehicle."""
    return bench.often("show", bench.cars[0].stem)


def plan(bench: Bench) -> Ran:
    """Plan one vehicle with a converter."""
    return bench.often("plan", bench.cars[0].stem, "--converter", _CONVERTER)


def first_find(bench: Bench) -> Ran:
    """Find a wire, in a book that was checked and never asked."""
    return bench.asked("find", f"{_said(bench, 'model')} switched", "--book", bench.book)


def find(bench: Bench) -> Ran:
    """Find a wire."""
    return bench.often("find", f"{_said(bench, 'model')} switched")


def which(bench: Bench) -> Ran:
    """Ask which record a car is."""
    return bench.often("which", _said(bench, "make"), _said(bench, "model"))


def first_next(bench: Bench) -> Ran:
    """Ask what to measure next, for the first time."""
    return bench.asked("next", bench.book)


def next_again(bench: Bench) -> Ran:
    """Ask that again."""
    return bench.often("next")


def first_build(bench: Bench) -> Ran:
    """Build the site of a book that is checked; how many pages, and how large."""
    shutil.rmtree(bench.site, ignore_errors=True)
    return _with_size(bench, _built(bench))


def build(bench: Bench) -> Ran:
    """Build what is built already."""
    return _built(bench)


def edited_build(bench: Bench) -> Ran:
    """Build after the variant of one vehicle got another name."""
    car = bench.cars[0]
    car.write_text(re.sub("(?m)^variant: ", "variant: New ", car.read_text("utf-8")), "utf-8")
    return _built(bench)


def plain(bench: Bench) -> Ran:
    """Write the same bytes."""
    return plain_write(bench.site, bench.folder / "plain")


def generic(bench: Bench) -> Ran:
    """Check the same vehicles with a generic command."""
    return generic_check(bench.folder, bench.cars)


def other_site(bench: Bench) -> Ran:
    """Make as many pages with a general static-site generator."""
    return other_generator(bench.site, bench.folder / "other-generator")


def _built(bench: Bench) -> Ran:
    return bench.asked("build", bench.book, "--output", bench.site)


def _with_size(bench: Bench, done: Ran) -> Ran:
    files = [path for path in bench.site.rglob("*") if path.is_file()]
    pages, size = sum(f.suffix == ".html" for f in files), sum(f.stat().st_size for f in files)
    told = f"{pages:,} pages, {pages / done.seconds:,.0f} a second, {size / 1e6:,.0f} MB"
    return done._replace(said=f"{told}, {size / 1000 / bench.vehicles:,.0f} kB a vehicle")


def _said(bench: Bench, key: str) -> str:
    found = re.search(rf"(?m)^{key}: *(.+?) *$", bench.cars[0].read_text("utf-8"))
    assert found is not None
    return found[1]


Step = Callable[[Bench], Ran]
STEPS: dict[str, Step] = {
    "check, first": first_check, "check, unchanged": check, "check, one edit": edited_check,
    "show": show, "plan": plan, "find, first": first_find, "find": find, "which": which,
    "next, first": first_next, "next": next_again,
    "build, first": first_build, "build, unchanged": build, "build, one edit": edited_build,
    "plain write of the site": plain,
    "generic schema check": generic, "general site generator": other_site,
}  # fmt: skip
"""Every step by its name, in the order in which they are taken."""
BESIDE_ALONE = ("generic schema check", "general site generator")
"""Steps that are no work of loombook and take long in a large book."""
