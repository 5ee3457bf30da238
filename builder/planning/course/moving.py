"""How a state is brought about: which changes lead to it, what stands in their way moved first."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator

from builder.planning.course.model import Change, Needs, Problem, State, done_by, holds
from builder.planning.words import HowItStands

_DEEPEST = 12
"""Changes that need changes that need changes: more is a circle in the record."""
_TRIES = 3
"""So often a wanted value may be lost again on the way to another."""


class StuckError(Exception):
    """No change leads to the state that is wanted."""


class Moving:
    """The changes of a problem, by what they move."""

    def __init__(self, problem: Problem) -> None:
        self._by: dict[str, list[Change]] = defaultdict(list)
        for change in problem.changes:
            self._by[change.what].append(change)
        self._at = {what: at for at, what in enumerate(problem.order)}

    def to(self, state: State, wanted: Needs, deep: int = 0) -> tuple[State, tuple[Change, ...]]:
        """Return the state in which what is wanted holds, and the changes that lead there.

        Raises:
            StuckError: none do.
        """
        if deep > _DEEPEST:
            raise StuckError
        moves: list[Change] = []
        for _ in range(_TRIES):
            if holds(state, wanted):
                return state, tuple(moves)
            for what in sorted(wanted, key=self._place):
                state, more = self._turned(state, what, wanted[what], deep)
                moves += more
        raise StuckError

    def _place(self, what: str) -> int:
        return self._at.get(what, len(self._at))

    def _turned(
        self, state: State, what: str, among: frozenset[HowItStands], deep: int
    ) -> tuple[State, list[Change]]:
        """One thing brought to one of some values; what its changes need is brought about first."""
        moves: list[Change] = []
        for change in self._way(what, state[what], among):
            state, first = self.to(state, change.needs, deep + 1)
            moves += first
            if state[what] in among:
                break
            if state[what] in change.begins:
                state = done_by(state, change)
                moves.append(change)
        return state, moves

    def _way(self, what: str, now: HowItStands, among: frozenset[HowItStands]) -> Iterator[Change]:
        """The fewest changes of one thing by itself, found ring by ring."""
        if now in among:
            return
        ways: dict[HowItStands, tuple[Change, ...]] = {now: ()}
        ring = [now]
        while ring:
            following: list[HowItStands] = []
            for value in ring:
                for change in self._by[what]:
                    if value in change.begins and change.to not in ways:
                        ways[change.to] = (*ways[value], change)
                        following.append(change.to)
            found = [value for value in following if value in among]
            if found:
                yield from ways[found[0]]
                return
            ring = following
        raise StuckError
