"""The changes that are still to come whatever is done: a promise that is never too high.

Acts that come one after the other and want a thing to stand differently ask for a change of it
between them. So the dearest chain of such acts says how often a thing has to be moved at least;
where between two of them another thing is moved that wants the first to stand otherwise (a part
near a restraint wants the battery off), it is moved there and back.
"""

from __future__ import annotations

from collections.abc import Collection
from functools import cached_property

from builder.planning.course.model import COUNTED, Needs, Problem, Rank, State


class Promise:
    """What a problem still costs, looked up by what is done and how things stand."""

    def __init__(self, problem: Problem, before: list[frozenset[int]]) -> None:
        self.problem, self.acts = problem, problem.acts
        self._before = _transitive(before)
        self.ranks: dict[str, Rank] = {
            each.what: each.rank for each in problem.changes if each.rank in COUNTED
        }
        set_by_acts = {what for act in self.acts for what in act.does}
        self._moved = [what for what in self.ranks if what not in set_by_acts]

    def least(self, state: State, pending: Collection[int]) -> dict[Rank, int]:
        """Return how many changes of each kind are still to come at least."""
        counts: dict[Rank, int] = dict.fromkeys(COUNTED, 0)
        now: Needs = {each: frozenset({value}) for each, value in state.items()}
        for what in self._moved:
            counts[self.ranks[what]] += self._of(what, now, pending)
        return counts

    def _of(self, what: str, now: Needs, pending: Collection[int]) -> int:
        tails, alike = self._tails[what], self._alike
        longest: dict[int, int] = {}
        for at in pending:
            if at in tails:
                longest[alike[at]] = max(tails[at], longest.get(alike[at], 0))
        found = (
            self._between(what, now, self.acts[at].needs) + tail for at, tail in longest.items()
        )
        return max(self._between(what, now, self.problem.ends), *found, 0)

    @cached_property
    def _alike(self) -> list[int]:
        """For each act the first that needs the same."""
        first: dict[object, int] = {}
        return [
            first.setdefault(frozenset(act.needs.items()), at) for at, act in enumerate(self.acts)
        ]

    @cached_property
    def _tails(self) -> dict[str, dict[int, int]]:
        """For each thing, what each act that wants it leaves to be changed after it."""
        return {what: self._tails_of(what) for what in self._moved}

    def _tails_of(self, what: str) -> dict[int, int]:
        asking = [at for at, act in enumerate(self.acts) if what in act.needs]
        asking.sort(key=lambda at: -len(self._before[at]))
        tails: dict[int, int] = {}
        for at in asking:
            needs = self.acts[at].needs
            later = (other for other in tails if at in self._before[other])
            tails[at] = max(
                self._between(what, needs, self.problem.ends),
                *(self._between(what, needs, self.acts[o].needs) + tails[o] for o in later),
                0,
            )
        return tails

    def _between(self, what: str, one: Needs, other: Needs) -> int:
        """The changes of a thing between two states of affairs, one after the other."""
        first, then = one.get(what), other.get(what)
        if first is None or then is None:
            return 0
        if first.isdisjoint(then):
            return 1
        home = self.problem.ends.get(what, first)
        if not first <= home or not then <= home:
            return 0
        return 2 if any(_apart(each, one, other) for each in self._wanting[what]) else 0

    @cached_property
    def _wanting(self) -> dict[str, list[str]]:
        """Of each thing, those that can only be moved while it stands as it does not at the end."""
        found: dict[str, list[str]] = {what: [] for what in self._moved}
        for what in self._moved:
            home = self.problem.ends.get(what)
            for other in self._moved:
                changes = [each for each in self.problem.changes if each.what == other]
                if home and all(home.isdisjoint(each.needs.get(what, home)) for each in changes):
                    found[what].append(other)
        return found


def _apart(moved: str, one: Needs, other: Needs) -> bool:
    """Whether a thing has to be moved between two states of affairs."""
    before, after = one.get(moved), other.get(moved)
    return before is not None and after is not None and before.isdisjoint(after)


def _transitive(before: list[frozenset[int]]) -> list[frozenset[int]]:
    """Everything that comes before each act, however far."""
    found: dict[int, frozenset[int]] = {}

    def of(at: int) -> frozenset[int]:
        if at not in found:
            found[at] = frozenset()  # a circle among constraints is entered once
            found[at] = before[at].union(*(of(each) for each in before[at]))
        return found[at]

    return [of(at) for at in range(len(before))]
