"""Which reading next: the one with the least expected minutes to the cause.

Nothing here knows a car: causes are numbers with odds and a remedy, readings are numbers with an
answer to each cause and a way there. Few causes are searched to the end. With many, the readings
that look best by the minutes that a bit of knowledge costs are each followed to the end, greedily,
and the cheapest of those is asked.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Hashable, Iterator, Sequence
from dataclasses import dataclass
from math import inf, log2
from typing import Generic, TypeVar

from builder.proof.band import Where

Place = TypeVar("Place", bound=Hashable)
Left = frozenset[int]

_Parts = tuple[tuple[Where, Left], ...]
_Split = tuple[int, _Parts, frozenset[Left]]
"""A reading with what each answer leaves, and that without the answers."""

EXACT_CAUSES = 4
"""Up to so many causes are searched to the end."""
_FOLLOWED = 6
"""So many readings are followed where there are more."""


@dataclass(frozen=True, slots=True)
class Puzzle(Generic[Place]):
    """Causes and readings. `way` gives where one stands after a reading and its minutes, or None
    where nobody can get there."""

    odds: Sequence[float]
    remedies: Sequence[str]
    answers: Sequence[Sequence[Where]]  # by reading, then by cause
    way: Callable[[Place, int], tuple[Place, float] | None]


@dataclass(frozen=True, slots=True)
class Option(Generic[Place]):
    """A reading that can be taken, and what it leaves after each answer."""

    reading: int
    place: Place
    minutes: float
    parts: _Parts


class Search(Generic[Place]):
    """The best next reading for any set of causes that are left."""

    def __init__(self, puzzle: Puzzle[Place]) -> None:
        self.puzzle = puzzle
        self._masks = [_by_answer(answers) for answers in puzzle.answers]
        self._known: dict[int, Left] = {}
        self._weight: dict[Left, float] = {}
        self._open: dict[Left, float] = {}
        self._exact: dict[tuple[Left, Place], float] = {}
        self._greedy: dict[tuple[Left, Place], float] = {}
        self._splits: dict[Left, list[_Split]] = {}

    def done(self, left: Left) -> bool:
        """Whether one remedy mends whatever is left."""
        return len({self.puzzle.remedies[cause] for cause in left}) < 2

    def best(self, left: Left, place: Place) -> Option[Place] | None:
        """Return what to read next; None where one remedy is left or no reading tells more."""
        options = self.options(left, place)
        if not options:
            return None
        if len(left) <= EXACT_CAUSES:
            return min(options, key=lambda each: self._minutes(left, each, self.exact))
        rate = self._rate(left, options)
        likely = sorted(options, key=lambda each: self._score(left, each, rate))[:_FOLLOWED]
        return min(likely, key=lambda each: self._minutes(left, each, self.greedy))

    def options(self, left: Left, place: Place) -> list[Option[Place]]:
        """Return the readings that tell some of the causes apart, one for each thing they tell."""
        if self.done(left):
            return []
        found: dict[tuple[object, Place], Option[Place]] = {}
        for reading, parts, told in self._split(left):
            way = self.puzzle.way(place, reading)
            if way is not None:
                key = (told, way[0])
                if key not in found or way[1] < found[key].minutes:
                    found[key] = Option(reading, way[0], way[1], parts)
        return list(found.values())

    def _split(self, left: Left) -> list[_Split]:
        if left not in self._splits:
            mask = sum(1 << cause for cause in left)
            every = ((at, self._parts(mask, at)) for at in range(len(self._masks)))
            self._splits[left] = [
                (at, parts, frozenset(part for _, part in parts)) for at, parts in every if parts
            ]
        return self._splits[left]

    def _parts(self, mask: int, reading: int) -> _Parts:
        """Which causes of a set each answer to a reading leaves, by the first of them; () where it
        tells none apart."""
        found = [(mask & of, answer) for answer, of in self._masks[reading] if mask & of]
        if len(found) < 2:
            return ()
        found.sort(key=lambda part: part[0] & -part[0])
        return tuple((answer, self._left(part)) for part, answer in found)

    def _left(self, mask: int) -> Left:
        if mask not in self._known:
            self._known[mask] = frozenset({at for at in range(mask.bit_length()) if mask >> at & 1})
        return self._known[mask]

    def exact(self, left: Left, place: Place) -> float:
        """Return the least expected minutes to one remedy, by looking at every order. [min]"""
        key = (left, place)
        if key not in self._exact:
            options = self.options(left, place)
            minutes = (self._minutes(left, each, self.exact) for each in options)
            self._exact[key] = min(minutes, default=0.0)
        return self._exact[key]

    def greedy(self, left: Left, place: Place) -> float:
        """Return the expected minutes when what looks best is read each time. [min]"""
        key = (left, place)
        if key not in self._greedy:
            options = self.options(left, place)
            rate = self._rate(left, options)
            first = min(options, key=lambda each: self._score(left, each, rate), default=None)
            self._greedy[key] = self._minutes(left, first, self.greedy) if first else 0.0
        return self._greedy[key]

    def _minutes(
        self, left: Left, option: Option[Place], after: Callable[[Left, Place], float]
    ) -> float:
        """Expected minutes of a reading and of what follows it."""
        whole = self._odds(left)
        return option.minutes + sum(
            self._odds(part) / whole * after(part, option.place) for _, part in option.parts
        )

    def _odds(self, left: Left) -> float:
        if left not in self._weight:
            self._weight[left] = sum(self.puzzle.odds[cause] for cause in left)
        return self._weight[left]

    def _score(self, left: Left, option: Option[Place], rate: float) -> float:
        return option.minutes - rate * self._gain(left, option)

    def _rate(self, left: Left, options: Sequence[Option[Place]]) -> float:
        """The least minutes that a bit of knowledge costs now. [min]"""
        gains = ((each.minutes, self._gain(left, each)) for each in options)
        rate = min((minutes / gain for minutes, gain in gains if gain > 0), default=inf)
        return 0.0 if rate == inf else 2 * rate

    def _gain(self, left: Left, option: Option[Place]) -> float:
        """What a reading tells of the remedy. [bit]"""
        whole = self._odds(left)
        after = sum(self._odds(part) / whole * self._bits(part) for _, part in option.parts)
        return self._bits(left) - after

    def _bits(self, left: Left) -> float:
        """What is not known yet of the remedy. [bit]"""
        if left not in self._open:
            self._open[left] = -sum(share * log2(share) for share in self._shares(left))
        return self._open[left]

    def _shares(self, left: Left) -> Iterator[float]:
        whole = self._odds(left)
        by_remedy: dict[str, float] = defaultdict(float)
        for cause in left:
            by_remedy[self.puzzle.remedies[cause]] += self.puzzle.odds[cause]
        return (odds / whole for odds in by_remedy.values())


def _by_answer(answers: Sequence[Where]) -> list[tuple[Where, int]]:
    """The causes that give each answer, one bit a cause: thousands of sets are split by each."""
    found: dict[Where, int] = {}
    for cause, answer in enumerate(answers):
        found[answer] = found.get(answer, 0) | 1 << cause
    return list(found.items())
