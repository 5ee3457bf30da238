"""The course found has the fewest changes there are: compared with every order of small jobs."""

from __future__ import annotations

import heapq
import os
from itertools import count
from random import Random

import pytest

from builder.planning.course.model import (
    COUNTED,
    Act,
    Before,
    Change,
    Course,
    HowItStands,
    Needs,
    Problem,
    Said,
    among,
    done_by,
    holds,
)
from builder.planning.course.search import shortest

MANY = 400 if os.environ.get("LOOMBOOK_LONG") else 60
OFF, ON = among("off"), among("on")
SAID = Said("")


def change(what: str, begins: str, to: HowItStands, rank: str, needs: Needs) -> Change:
    return Change(what, frozenset(begins.split()), to, rank, SAID, needs, minutes=1.0)  # type: ignore[arg-type]


def small_car(guarded: bool) -> list[Change]:
    """A battery, two panels one behind the other, the radio behind the second, one plug, a key."""
    off: Needs = {"key": OFF}
    near: Needs = {"battery": among("waited")} if guarded else {}
    dead: Needs = {"radio": among("pulled"), "battery": among("off", "waited")}
    rows = [
        ("battery", "on", "off", "battery", off),
        ("battery", "off", "waited", "job", {}),
        ("battery", "off waited", "on", "battery", {**off, "plug": among("home")}),
        ("one", "on", "off", "panel", off),
        ("one", "off", "on", "panel", {**off, "two": ON}),
        ("two", "on", "off", "panel", {**off, **near, "one": OFF}),
        ("two", "off", "on", "panel", {**off, **near, "radio": among("fitted")}),
        ("radio", "fitted", "pulled", "radio", {**off, "two": OFF}),
        ("radio", "pulled", "fitted", "radio", {**off, "plug": among("home")}),
        ("plug", "home", "off", "plug", dead),
        ("plug", "off", "home", "plug", dead),
        ("key", "off", "run", "key", {"battery": ON}),
        ("key", "run", "off", "key", {}),
    ]  # fmt: skip
    return [change(*row) for row in rows]  # type: ignore[arg-type]


BEGINS: dict[str, HowItStands] = {
    "battery": "on", "one": "on", "two": "on", "radio": "fitted", "plug": "home", "key": "off",
}  # fmt: skip
ORDER = ("one", "two", "radio", "plug", "battery", "key")
WANTED: tuple[Needs, ...] = (
    {"key": among("run"), "battery": ON},
    {"key": among("run"), "battery": ON, "radio": among("pulled"), "plug": among("home")},
    {"battery": among("off", "waited"), "plug": OFF},
    {"battery": among("off", "waited"), "one": OFF},
    {"battery": ON, "two": OFF},
    {"battery": among("waited")},
    {"key": among("run"), "battery": ON, "one": ON, "two": ON, "radio": among("fitted")},
)


def problem(seed: int) -> Problem:
    """A few acts that want random states, some before others."""
    drawn = Random(seed)
    acts = tuple(
        Act(f"act {at}", "before", SAID, drawn.choice(WANTED), frozenset({f"tag {at}"}))
        for at in range(drawn.randint(2, 5))
    )
    trade = tuple(
        Before(f"tag {one}", f"tag {then}", "")
        for one in range(len(acts))
        for then in range(one + 1, len(acts))
        if drawn.random() < 0.3
    )
    ends: Needs = {what: among(value) for what, value in BEGINS.items()}
    changes = tuple(small_car(drawn.random() < 0.5))
    return Problem(BEGINS, ends, acts, changes, trade, ORDER)


def counted(course: Course) -> tuple[int, ...]:
    return tuple(course.count(rank) for rank in COUNTED)


def best_of_all(asked: Problem) -> tuple[int, ...]:
    """Every change and every act at every moment, the cheapest first; no rule of thumb."""
    before = {
        act.id: {
            other.id for other in asked.acts for row in asked.trade
            if row.first in other.tags and row.then in act.tags
        }
        for act in asked.acts
    }  # fmt: skip
    number = count()
    nothing = tuple(0 for _ in COUNTED)
    heap: list[tuple[tuple[int, ...], int, dict[str, HowItStands], frozenset[str]]] = [
        (nothing, next(number), dict(asked.begins), frozenset())
    ]
    seen: set[object] = set()
    while heap:
        cost, _, state, done = heapq.heappop(heap)
        key = (frozenset(state.items()), done)
        if key in seen:
            continue
        seen.add(key)
        if len(done) == len(asked.acts) and holds(state, asked.ends):
            return cost
        for act in asked.acts:
            if act.id not in done and before[act.id] <= done and holds(state, act.needs):
                heapq.heappush(heap, (cost, next(number), done_by(state, act), done | {act.id}))
        for each in asked.changes:
            if state[each.what] in each.begins and holds(state, each.needs):
                more = tuple(n + (each.rank == rank) for n, rank in zip(cost, COUNTED, strict=True))
                heapq.heappush(heap, (more, next(number), done_by(state, each), done))
    raise AssertionError("no order at all")


def walked(asked: Problem, course: Course) -> None:
    """Every move is possible when its turn comes, and the end is as wanted."""
    state = dict(asked.begins)
    for move in course.moves:
        assert holds(state, move.needs), move
        if isinstance(move, Change):
            assert state[move.what] in move.begins
        state = done_by(state, move)
    assert holds(state, asked.ends)
    assert sorted(move.id for move in course.moves if isinstance(move, Act)) == sorted(
        act.id for act in asked.acts
    )


@pytest.mark.parametrize("seed", range(MANY))
def test_no_order_has_fewer_changes(seed: int) -> None:
    asked = problem(seed)
    course = shortest(asked)
    walked(asked, course)
    assert not course.missing
    assert counted(course) == best_of_all(asked)


def test_what_no_state_allows_is_said_and_the_rest_is_done() -> None:
    asked = problem(1)
    never = Act("never", "before", SAID, {"key": among("crank")})
    course = shortest(
        Problem(asked.begins, asked.ends, (*asked.acts, never), asked.changes, (), ORDER)
    )
    assert [act.id for act in course.missing] == ["never"]
    done = {move.id for move in course.moves if isinstance(move, Act)}
    assert done == {act.id for act in asked.acts}
