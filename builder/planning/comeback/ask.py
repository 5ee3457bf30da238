"""The questions of a comeback: generated from what each single fault of the job would read."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Collection, Hashable, Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property

from builder.planning.comeback.causes import Causes
from builder.planning.comeback.condition import Fault
from builder.planning.comeback.questions import all_readings
from builder.planning.comeback.reading_made import Reading
from builder.planning.comeback.search import Left, Puzzle, Search
from builder.planning.comeback.symptoms import symptoms_of
from builder.planning.comeback.visit import Standing, Visit
from builder.planning.comeback.words import SYMPTOMS, Symptom
from builder.planning.work_pack import BayTest
from builder.proof.band import Where


@dataclass(frozen=True, slots=True)
class Cause:
    """Faults that every reading finds alike and that one remedy mends."""

    remedy: str
    faults: tuple[Fault, ...]

    @property
    def odds(self) -> float:
        """How often it is one of them."""
        return sum(fault.odds for fault in self.faults)


@dataclass(frozen=True, slots=True)
class Verdict:
    """What is left when no reading tells more, the likeliest first; none, if no single one fits."""

    causes: tuple[Cause, ...]

    @property
    def known(self) -> bool:
        """Whether one thing is left to do."""
        return len({cause.remedy for cause in self.causes}) == 1


@dataclass(frozen=True, slots=True)
class Question:
    """What is read next, how long that takes from here, and what follows each answer."""

    reading: Reading
    minutes: float
    answers: tuple[tuple[Where, Left], ...]
    standing: Standing


Answer = tuple[str, Where | None]
"""The id of a reading with where its figure lies; None is one that nobody can take."""


@dataclass(frozen=True, slots=True)
class Told:
    """Which causes are left, and how the car stands."""

    left: Left
    standing: Standing


class Comeback:
    """The comebacks of one job. `asking` one of its symptoms gives the questions."""

    def __init__(self, causes: Causes) -> None:
        self.causes, self.job = causes, causes.job
        self.readings = all_readings(self.job)
        self._found: dict[str, dict[str, Where]] = {}

    def find(self, reading: Reading, fault: Fault) -> Where:
        """Return what a reading finds with a fault in the job."""
        mine = self._found.setdefault(reading.test.id, {})
        if fault.id not in mine:
            mine[fault.id] = self._look(reading, fault)
        return mine[fault.id]

    def _look(self, reading: Reading, fault: Fault) -> Where:
        if reading.test.id in self.causes.looks:
            return self.causes.found(reading.test.id, fault)
        return reading.look(self.causes.standing[fault.id])

    @cached_property
    def visit(self) -> Visit:
        """The hands at the car."""
        return Visit(self.job, self.readings)

    @cached_property
    def by_symptom(self) -> dict[Symptom, tuple[Fault, ...]]:
        """The faults that make each symptom."""
        found: dict[Symptom, list[Fault]] = {symptom: [] for symptom in SYMPTOMS}
        for fault in self.causes.faults:
            for symptom in symptoms_of(self.job, self.causes.standing[fault.id]):
                found[symptom].append(fault)
        return {symptom: tuple(faults) for symptom, faults in found.items()}

    def lines_failing(self, faults: Sequence[Fault]) -> tuple[BayTest, ...]:
        """Return the lines of the bay sheet that any of some faults makes fail, in their order."""
        looks, found = self.causes.looks, self.causes.found
        return tuple(
            test
            for test in self.job.pack.tests
            if test.id in looks and any(found(test.id, fault) != "in" for fault in faults)
        )

    def asking(self, symptom: Symptom) -> Asking:
        """Return the questions for a symptom."""
        return Asking(self, self.by_symptom[symptom], self.readings)


class Asking:
    """The questions that lead from some faults to one; `readings` are those that may be asked."""

    def __init__(
        self, comeback: Comeback, faults: Collection[Fault], readings: Sequence[Reading]
    ) -> None:
        self._comeback, self.visit, self.find = comeback, comeback.visit, comeback.find
        self.readings = [each for each in readings if len({self.find(each, x) for x in faults}) > 1]
        self.causes = tuple(self._alike(faults))
        self.every: Left = frozenset(range(len(self.causes)))
        self.search = self._search_without(frozenset())

    def _alike(self, faults: Collection[Fault]) -> Iterator[Cause]:
        groups: dict[tuple[str, tuple[Where, ...]], list[Fault]] = defaultdict(list)
        for fault in faults:
            found = tuple(self.find(reading, fault) for reading in self.readings)
            groups[fault.remedy, found].append(fault)
        for (remedy, _), mine in groups.items():
            yield Cause(remedy, tuple(sorted(mine, key=lambda fault: -fault.odds)))

    def _search_without(self, unreadable: frozenset[str]) -> Search[Standing]:
        """The search among the readings that can be taken; of those that tell the same causes
        apart, and to which the way is alike, the first."""
        found: dict[Hashable, tuple[Reading, list[Where]]] = {}
        for each in self.readings:
            if each.test.id not in unreadable:
                answers = [self.find(each, cause.faults[0]) for cause in self.causes]
                told = tuple(map(answers.index, answers))
                found.setdefault((told, self.visit.asks_like(each)), (each, answers))
        self._searched = [reading for reading, _ in found.values()]
        return Search(Puzzle(
            [cause.odds for cause in self.causes], [cause.remedy for cause in self.causes],
            [answers for _, answers in found.values()], self._way,
        ))  # fmt: skip

    def _way(self, standing: Standing, at: int) -> tuple[Standing, float] | None:
        way = self.visit.to(standing, self._searched[at])
        return None if way is None else (way.standing, way.minutes)

    def next(self, left: Left, standing: Standing) -> Question | Verdict:
        """Return what to read, with the car standing as it does, or what is left."""
        option = self.search.best(left, standing)
        if option is None:
            return self.verdict(left)
        reading = self._searched[option.reading]
        return Question(reading, option.minutes, option.parts, option.place)

    def verdict(self, left: Left) -> Verdict:
        """Return what is left, the likeliest first."""
        return Verdict(tuple(sorted((self.causes[x] for x in left), key=lambda each: -each.odds)))

    def told(self, answers: Sequence[Answer]) -> Told:
        """Return what is left after some answers, in the order of giving them.

        An answer to what is asked of nobody here changes nothing: it tells no two causes apart.
        """
        unreadable = frozenset(name for name, where in answers if where is None)
        if unreadable:
            self.search = self._search_without(unreadable)
        left, standing = self.every, self.visit.start
        by_name = {reading.test.id: reading for reading in self.readings}
        for name, where in answers:
            reading = by_name.get(name)
            if reading is None or where is None:
                continue
            left = frozenset(x for x in left if self._reads(reading, x) == where)
            way = self.visit.to(standing, reading)
            standing = way.standing if way else standing
        return Told(left, standing)

    def _reads(self, reading: Reading, cause: int) -> Where:
        return self.find(reading, self.causes[cause].faults[0])

    def again(self, verdict: Verdict) -> tuple[BayTest, ...]:
        """Return the lines of the bay sheet that a fault of what is left makes fail: read again."""
        faults = [fault for cause in verdict.causes for fault in cause.faults]
        return self._comeback.lines_failing(faults)
