"""Small books to try a changed record in: checked, planned and printed as the commands do.

For each shipped record, a book of what it needs: a vehicle its housings and jobs, a job its
vehicle and parts, a part the jobs that use it. A whole book a time would take weeks.
"""

from __future__ import annotations

import json
import resource
import signal
import tempfile
import time
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import asdict, dataclass, field
from pathlib import Path
from typing import Any, NamedTuple

from shipped_book import PINOUTS

from builder.book import RecordFile, open_book
from builder.loading import load_file
from builder.model.house_defaults import HouseDefaults
from builder.model.vehicle import Vehicle
from builder.pipeline.answers.packs import made_packs
from builder.pipeline.checking.book_check import CheckedBook, check_book
from builder.pipeline.checking.deciding import plans_of
from builder.pipeline.checking.records import as_counted, read_record
from builder.planning.plan_json import plan_as_json
from builder.rendering.pack_text import pack_text
from builder.rendering.page import BuildInfo
from builder.rendering.pages.looms import loom_page
from builder.rendering.terminal import plan_text

LONGEST_S = {"book": 20}
"""More than the settings of a book with four jobs may take; for one record it is:"""
LONGEST_OF_A_RECORD_S = 5
MOST_BYTES = 1 << 30
OWN_FAULT = "BOK106"
PARTS = ("housing", "converter", "amplifier", "cable", "loom", "interface", "contributor")
HOUSE = HouseDefaults()
INFO = BuildInfo("loombook", "0.1.0", "2024-05-13")
SETTINGS = RecordFile("book", PINOUTS / "book.yaml", "book.yaml")
USED = ("ostrel-tansy-2017-hatch-base", "tansy-subwoofer")
"""What is planned to try the parts that no job uses."""
BUSY_JOBS = ("tansy-subwoofer", "rook-two-amplifiers", "ullin-split-fronts", "leto-four-doors")
"""What is planned to try the settings: between them they ask for nearly every default."""
CONVERTERS = ("cvn-2a", "cvn-4a")
"""Planned with every vehicle: an active one of two channels and one of four."""


class HangError(BaseException):
    """A record took longer than allowed; no handler of the program catches it."""


class Outcome(NamedTuple):
    """What came of one record: what was wrong with the program, "" when nothing was."""

    fault: str
    seconds: float
    refused: bool  # whether the record had findings of loading or shape


def shipped_files() -> list[RecordFile]:
    """Every shipped record, templates included, by its place."""
    return sorted(open_book(PINOUTS).files(), key=lambda file: file.path.as_posix())


@contextmanager
def within_limits() -> Iterator[None]:
    """Keep this process to a gigabyte of memory."""
    before = resource.getrlimit(resource.RLIMIT_AS)
    resource.setrlimit(resource.RLIMIT_AS, (MOST_BYTES, before[1]))
    try:
        yield
    finally:
        resource.setrlimit(resource.RLIMIT_AS, before)


@dataclass
class Bench:
    """A folder of small books, made when they are first asked for."""

    folder: Path
    data: dict[Path, Any] = field(default_factory=dict)
    books: dict[Path, tuple[Path, Path]] = field(default_factory=dict)

    def __post_init__(self) -> None:
        self.files = shipped_files()
        self.data = {file.path: load_file(file.path, file.shown).data for file in self.files}
        self.files.append(SETTINGS)
        defaults = {key: list(v) if isinstance(v, tuple) else v for key, v in asdict(HOUSE).items()}
        self.data[SETTINGS.path] = {"schema": 1, "house_defaults": defaults}

    def try_text(self, file: RecordFile, text: str) -> Outcome:
        """Put `text` in the place of a record, and do with its book what the commands do."""
        book, place = self._book_of(file)
        place.write_text(text, "utf-8")
        longest_s = LONGEST_S.get(file.kind, LONGEST_OF_A_RECORD_S)
        began = time.process_time()
        try:
            with at_most(longest_s):
                checked = check_book(open_book(book))
                fault = _own_fault(checked) or plan_all(checked)
        except HangError:
            fault = f"took longer than {longest_s} s"
        except Exception as error:
            fault = f"{type(error).__name__}: {error}"[:300]
        refused = any(f.rule_id.startswith(("YML", "SCH")) for f in checked_of(locals()))
        return Outcome(fault, time.process_time() - began, refused)

    def _book_of(self, file: RecordFile) -> tuple[Path, Path]:
        if file.path not in self.books:
            book = Path(tempfile.mkdtemp(dir=self.folder))
            (book / "book.yaml").write_text("schema: 1\n", "utf-8")
            for needed in self._needed(file):
                place = book / self._place(needed)
                place.parent.mkdir(parents=True, exist_ok=True)
                place.write_text(json.dumps(self.data[needed.path]), "utf-8")
            self.books[file.path] = (book, book / self._place(file))
        return self.books[file.path]

    def _place(self, file: RecordFile) -> Path:
        """Where a record stands in its small book; a template as a record: it is planned."""
        place = file.path.relative_to(PINOUTS)
        if not file.is_template:
            return place
        data = self.data[file.path]
        folder = place.parent / data["vehicle"] if file.kind == "visit" else place.parent
        return folder / f"{data['id']}.yaml"

    def _needed(self, file: RecordFile) -> list[RecordFile]:
        """A record, a vehicle and two jobs that name it, and everything that these name."""
        name, ids = self._id(file), {each.path: self._id(each) for each in self.files}
        using = [f for f in self.files if f.kind in ("job", "vehicle") and f.path != file.path]
        using = [each for each in using if name in _words(self.data[each.path])]
        most = 1 if file.kind in ("vehicle", "housing") else 2
        using = [] if file.kind == "job" else sorted(using, key=lambda each: each.kind)[:most]
        if file.kind == "book":
            using = [each for each in self.files if ids[each.path] in BUSY_JOBS]
        if not using and file.kind not in ("job", "vehicle"):
            using = [each for each in self.files if ids[each.path] in USED]
        chosen = {each.path: each for each in [file, *using]}
        for kinds in (("vehicle",), tuple(PARTS)):  # a job names a vehicle, a vehicle its housings
            of_cars = ("job", "visit")
            naming = [
                p for p, each in chosen.items() if each.kind in of_cars or "vehicle" not in kinds
            ]
            named = {word for path in naming for word in _words(self.data[path])} | {*CONVERTERS}
            found = [f for f in self.files if f.kind in kinds and ids[f.path] in named]
            chosen |= {each.path: each for each in found}
        cars = {ids[path] for path, each in chosen.items() if each.kind == "vehicle"}
        visits = [each for each in self.files if each.kind == "visit"]
        chosen |= {v.path: v for v in visits if self.data[v.path].get("vehicle") in cars}
        return list(chosen.values())

    def _id(self, file: RecordFile) -> str:
        return str(self.data[file.path].get("id"))


def checked_of(names: dict[str, Any]) -> tuple[Any, ...]:
    """The findings of a check that came to its end; of none, none."""
    checked = names.get("checked")
    return checked.findings if isinstance(checked, CheckedBook) else ()


def plan_all(checked: CheckedBook) -> str:
    """Plan every vehicle and job and print what came of it; return our own fault, "" for none."""
    gate = checked.gate()
    for loom in checked.shelf.looms.values():
        loom_page(loom, [], INFO, checked.shelf.housings)
    for made in made_packs(checked):
        json.dumps(made.as_data(), allow_nan=False)
        pack_text(made.pack, made.parts, made.findings)
    for file in checked.book.files():
        read = read_record(file) if file.kind == "vehicle" else None
        if read is None or not isinstance(read.record, Vehicle) or file.is_template:
            continue
        read = as_counted(read, checked.shelf)
        for decided in plans_of(read, read.record, checked.shelf, gate):
            if any(f.rule_id == OWN_FAULT for f in decided.findings):
                return "; ".join(f.message for f in decided.findings)
            converter = checked.shelf.converters[decided.plan.converter]
            json.dumps(plan_as_json(decided.plan), allow_nan=False)
            plan_text(decided.plan, read.record, converter)
    return ""


def _own_fault(checked: CheckedBook) -> str:
    return "; ".join(f"{f.file}: {f.message}" for f in checked.findings if f.rule_id == OWN_FAULT)


@contextmanager
def at_most(seconds: float) -> Iterator[None]:
    """Raise HangError in whatever takes more of a processor; or waits, ten times as long.

    Others share the machine, so the hands of a clock say little about one record.
    """

    def end(*_: object) -> None:
        raise HangError

    clocks = (
        (signal.ITIMER_PROF, signal.SIGPROF, seconds),
        (signal.ITIMER_REAL, signal.SIGALRM, 10 * seconds),
    )
    before = [signal.signal(number, end) for _, number, _ in clocks]
    for timer, _, most_s in clocks:
        signal.setitimer(timer, most_s)
    try:
        yield
    finally:
        for (timer, number, _), handler in zip(clocks, before, strict=True):
            signal.setitimer(timer, 0)
            signal.signal(number, handler)


def _words(value: Any) -> set[str]:
    if isinstance(value, dict):
        return set().union(*map(_words, value.values())) if value else set()
    if isinstance(value, list):
        return set().union(*map(_words, value)) if value else set()
    return {value} if isinstance(value, str) else set()
