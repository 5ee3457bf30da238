"""The course with the fewest changes: what a state allows is done in it, then the next is sought.

Courses are compared by their changes, the dearest kind first (`RANKS`), then by minutes. Whatever
can be done where one stands is done at once: an act takes away nothing that another needs, what
must come before it is a constraint. Between two such states every way is tried: to what an act
asks for, and to any one thing that an act still to come or the end asks for, since it may be cheap
to move now. The way that promises the least is followed first (A*), with the changes that are
certain still to come counted as done.
"""

from __future__ import annotations

import heapq
from collections.abc import Iterator
from functools import cached_property
from itertools import count

from builder.planning.course.model import (
    COUNTED,
    RANKS,
    Change,
    Course,
    Move,
    Needs,
    Problem,
    Rank,
    State,
    done_by,
    holds,
)
from builder.planning.course.moving import Moving, StuckError
from builder.planning.course.promise import Promise
from builder.planning.words import HowItStands

_QUICK_MIN = 3.0
"""A turn of the key that takes less is no reason to seek another order. [min]"""
_FREE: tuple[Rank, ...] = ("key", "job")
"""Changes whose number does not matter, only their minutes."""
_Cost = tuple[float, ...]
_Found = tuple[dict[str, HowItStands], frozenset[int], tuple[Move, ...]]
_Node = tuple[_Cost, int, _Cost, _Found]
"""What a way promises, a number that tells equals apart, what it cost so far, where it leads."""


def shortest(problem: Problem) -> Course:
    """Return the course of a problem; acts that no state allows stand in `missing`."""
    return _Search(problem).course()


class _Search:
    def __init__(self, problem: Problem) -> None:
        self.problem = problem
        self.moving = Moving(problem)
        self._count = count()
        self._heap: list[_Node] = []
        self._cheapest: dict[object, _Cost] = {}
        self._ready_after: dict[frozenset[int], tuple[int, ...]] = {}

    @cached_property
    def before(self) -> list[frozenset[int]]:
        """The acts that come before each act."""
        acts = self.problem.acts
        pairs = {(each.first, each.then) for each in self.problem.trade}
        return [
            frozenset(
                other
                for other, first in enumerate(acts)
                if other != at
                and any(one in first.tags and then in act.tags for one, then in pairs)
            )
            for at, act in enumerate(acts)
        ]

    def course(self) -> Course:
        """Find it."""
        best = self._settled(dict(self.problem.begins), frozenset(), ())
        self._reach(best, tuple(0.0 for _ in (*COUNTED, "minutes")), 0)
        while self._heap:
            _, _, cost, found = heapq.heappop(self._heap)
            state, done, moves = found
            if cost > self._cheapest[done, frozenset(state.items())]:
                continue
            if self._ended(state, done):
                return Course(moves)
            best = max(best, found, key=lambda each: len(each[1]))
            for following in self._ways(state, done, moves):
                self._reach(following, cost, len(moves))
        left = (act for at, act in enumerate(self.problem.acts) if at not in best[1])
        return Course(best[2], tuple(left))

    def _reach(self, found: _Found, before: _Cost, known: int) -> None:
        """Keep a way, unless one that is no dearer leads to the same; `before` is what its first
        `known` moves cost."""
        state, done, moves = found
        cost = _plus(before, _cost(moves[known:]))
        key = (done, frozenset(state.items()))
        if key in self._cheapest and self._cheapest[key] <= cost:
            return
        self._cheapest[key] = cost
        promised = _plus(cost, self._to_come(state, done))
        heapq.heappush(self._heap, (promised, next(self._count), cost, found))

    def _to_come(self, state: State, done: frozenset[int]) -> _Cost:
        """The changes and minutes that are still to come whatever is done: never too many."""
        pending = [at for at in range(len(self.problem.acts)) if at not in done]
        counts = self.promise.least(state, pending)
        minutes = sum(self.problem.acts[at].minutes for at in pending)
        return (*(counts[rank] for rank in RANKS if rank not in _FREE), minutes)

    @cached_property
    def promise(self) -> Promise:
        """What is certain still to come."""
        return Promise(self.problem, self.before)

    @cached_property
    def _bound(self) -> frozenset[str]:
        """The things that can be moved only while a dearer one stands in some way: a plug with the
        battery off. Any other is as cheap to move when it is wanted."""
        place = {rank: at for at, rank in enumerate(RANKS)}
        return frozenset(
            each.what
            for each in self.problem.changes
            if any(place[self.promise.ranks.get(x, "job")] < place[each.rank] for x in each.needs)
        ) & frozenset(self.promise.ranks)

    @cached_property
    def _quick(self) -> frozenset[str]:
        """The things that only the key moves."""
        others = {each.what for each in self.problem.changes if each.rank != "key"}
        return frozenset(each.what for each in self.problem.changes) - others

    def _ended(self, state: State, done: frozenset[int]) -> bool:
        return len(done) == len(self.problem.acts) and holds(state, self.problem.ends)

    def _ready(self, done: frozenset[int]) -> tuple[int, ...]:
        """The acts that nothing has to come before any more."""
        if done not in self._ready_after:
            every = range(len(self.problem.acts))
            self._ready_after[done] = tuple(
                at for at in every if at not in done and self.before[at] <= done
            )
        return self._ready_after[done]

    def _settled(
        self, state: dict[str, HowItStands], done: frozenset[int], moves: tuple[Move, ...]
    ) -> _Found:
        """All that can be done here, and with a quick turn of the key, done."""
        while True:
            at = next(
                (at for at in self._ready(done) if holds(state, self.problem.acts[at].needs)), None
            )
            if at is None:
                turned = self._key_turned(state, done)
                if turned is None:
                    return state, done, moves
                state, more = turned
                moves = (*moves, *more)
                continue
            act = self.problem.acts[at]
            state, done, moves = done_by(state, act), done | {at}, (*moves, act)

    def _key_turned(
        self, state: State, done: frozenset[int]
    ) -> tuple[dict[str, HowItStands], tuple[Change, ...]] | None:
        """The state that the next readings want, where only the key has to be turned for it."""
        for at in self._ready(done):
            wanted = self.problem.acts[at].needs
            if not all(w in self._quick or state[w] in among for w, among in wanted.items()):
                continue
            try:
                reached, moves = self.moving.to(state, wanted)
            except StuckError:
                continue
            if all(each.rank == "key" and each.minutes < _QUICK_MIN for each in moves):
                return dict(reached), moves
        return None

    def _ways(
        self, state: State, done: frozenset[int], moves: tuple[Move, ...]
    ) -> Iterator[_Found]:
        """Every state in which something more can be done, or the end."""
        wanted: dict[frozenset[tuple[str, frozenset[HowItStands]]], Needs] = {}
        for at in self._ready(done):
            act = self.problem.acts[at]
            wanted.setdefault(frozenset(act.needs.items()), act.needs)
        for each in (*wanted.values(), *self._single(state, done)):
            try:
                reached, more = self.moving.to(state, each)
            except StuckError:
                continue
            yield self._settled(dict(reached), done, (*moves, *more))

    def _single(self, state: State, done: frozenset[int]) -> Iterator[Needs]:
        """Each one thing that an act to come, or the end, wants to stand otherwise."""
        acts = (act for at, act in enumerate(self.problem.acts) if at not in done)
        asked = dict.fromkeys(
            (what, among)
            for wanted in (*(act.needs for act in acts), self.problem.ends)
            for what, among in wanted.items()
            if what in self._bound and state[what] not in among
        )
        yield from ({what: among} for what, among in asked)
        if len(done) == len(self.problem.acts):
            yield self.problem.ends


def _plus(one: _Cost, other: _Cost) -> _Cost:
    return tuple(map(sum, zip(one, other, strict=True)))


def _cost(moves: tuple[Move, ...]) -> _Cost:
    """The changes of each kind, the dearest first, then the minutes."""
    counts = dict.fromkeys(RANKS, 0)
    for move in moves:
        if isinstance(move, Change):
            counts[move.rank] += 1
    minutes = sum(move.minutes for move in moves)
    return (*(counts[rank] for rank in RANKS if rank not in _FREE), minutes)
