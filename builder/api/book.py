"""A book that a program has opened, and what it may be asked."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from datetime import date
from functools import cached_property
from os import PathLike
from pathlib import Path

from builder import book as inner
from builder.api.answers import Answers, Finding, JobPack, Plan, Vehicle
from builder.api.errors import told_as_ours
from builder.api.shaping import answers_of, finding_of, pack_of, plan_of, vehicle_of
from builder.model.words import RecordKind
from builder.pipeline.answers.answering import answers, described_of
from builder.pipeline.answers.packs import packed_of
from builder.pipeline.answers.planned import planned_of
from builder.pipeline.answers.sketching import Asked, sketched_in
from builder.pipeline.checking.book_check import CheckedBook, check_book
from builder.planning.feeds.tap_plan import Treatment


def open_book(folder: str | PathLike[str], *, public: bool = False, as_of: str = "") -> Book:
    """Return the book in a folder, all of it as it is now.

    What is saved later is another state, for which it is opened again.

    Args:
        folder: Where its settings or its folders of records are.
        public: Leave the private folders out, as if they were not there.
        as_of: The day to look at it from, as YYYY-MM-DD: what is dated after it is a fault, and
            ages are counted to it. "" is the newest date in the book.

    Raises:
        NoBookError: there is no such folder, or no book in it.
        ValueError: `as_of` is no day.

    >>> book = open_book("pinouts")
    >>> book.ids("converter")[:2]
    ('cvn-2a', 'cvn-2p')
    """
    day = date.fromisoformat(as_of).isoformat() if as_of else ""
    with told_as_ours():
        return Book(replace(inner.open_book(Path(folder), public), as_of=day))


class Book:
    """A book as it was when it was opened. `open_book` makes it.

    It is checked at the first question that needs it, which takes about a second for sixty
    vehicles; after that a plan takes as long as the planner does. What nothing changes may be asked
    from several threads, at worst twice.
    """

    def __init__(self, opened: inner.Book) -> None:
        self._book = opened

    @cached_property
    def _checked(self) -> CheckedBook:
        """The checked book, without judging packs that nobody asked for."""
        return check_book(self._book, jobs=())

    def ids(self, kind: RecordKind) -> tuple[str, ...]:
        """Return the ids of all records of a kind, in order: "vehicle", "job", "converter" ...

        >>> "tansy-subwoofer" in book.ids("job")
        True
        """
        files = (file for file in self._book.files() if not file.is_template)
        return tuple(sorted(file.path.stem for file in files if file.kind == kind))

    def find(self, question: str) -> Answers:
        """Answer a question such as "quern 2018 switched", as `loombook find` does.

        >>> found = book.find("tansy green/black rear left")
        >>> [(pin.plug, pin.cavity) for pin in found.answers[0].pins]
        [('A', '11 + / 12 −')]
        """
        return answers_of(answers(self._book, question))

    def vehicle(self, name: str) -> Vehicle:
        """Return the vehicle of an id, of a part of only one, or that alone a question fits.

        Raises:
            NoSuchRecordError: none or several could be meant.
            RefusedRecordError: its file cannot be read as a vehicle.

        >>> book.vehicle("ostrel-tansy-2017-hatch-base").make
        'Ostrel'
        """
        with told_as_ours():
            return vehicle_of(described_of(self._checked, name))

    def plan(self, vehicle: str, converter: str, *, treatment: Treatment = "auto") -> Plan:
        """Return what a vehicle and a converter come to, as `loombook plan --converter` does.

        Args:
            vehicle: Its id, or what `Book.vehicle` takes.
            converter: The id of a converter.
            treatment: "addon" taps beside the factory speakers, "intercept" breaks the lines,
                "auto" leaves it to the planner.

        Raises:
            NoSuchRecordError: there is no such vehicle or converter.
            RefusedRecordError: there is, and it cannot be used.

        >>> plan = book.plan("ostrel-tansy-2017-hatch-base", "cvn-2a")
        >>> plan.kind, plan.data["feeds"][0]["cavity"]
        ('tap_plan', '11')
        """
        with told_as_ours():
            return plan_of(planned_of(self._checked, vehicle, converter, treatment))

    def job_pack(self, job: str) -> JobPack:
        """Return the work pack of a job, by its id or a part of only one.

        Raises:
            NoSuchRecordError: none or several could be meant.
            RefusedRecordError: the job, or what it names, cannot be used.

        >>> pack = book.job_pack("tansy-subwoofer")
        >>> pack.kind, pack.refusals
        ('tap_plan', ())
        """
        with told_as_ours():
            return pack_of(packed_of(self._checked, job))

    def sketch(
        self,
        vehicle: str,
        converter: str,
        amplifiers: Sequence[str],
        *,
        treatment: Treatment = "auto",
    ) -> JobPack:
        """Return the work pack of a job that nobody has written; `assumed` says what was taken.

        Raises:
            NoSuchRecordError: the vehicle, the converter or an amplifier is not in the book.
            RefusedRecordError: it is, and cannot be used.
            CannotSketchError: the amplifiers cannot do what the treatment asks.

        >>> pack = book.sketch("ostrel-tansy-2017-hatch-base", "cvn-2a", ["amn-600"])
        >>> len(pack.assumed) > 0
        True
        """
        asked = Asked(vehicle, converter, tuple(amplifiers), treatment)
        with told_as_ours():
            return pack_of(sketched_in(self._checked, asked))

    def findings(self) -> tuple[Finding, ...]:
        """Return all that `loombook check` finds in the book, by place.

        Every job is planned for it: some seconds for the shipped book.

        >>> any(finding.fails for finding in book.findings())
        False
        """
        return tuple(map(finding_of, check_book(self._book).findings))
