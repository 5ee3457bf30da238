"""A car that came back is led to its cause in few minutes: every fault of every shipped job.

Each fault is put into the circuit, the customer's words are worked out, and whatever is asked is
answered by the circuit with that fault in it, made anew.
"""

from __future__ import annotations

import random
from collections.abc import Iterator
from functools import cache
from itertools import product

import pytest
from comeback_jobs import TAP_PLANS, causes_in

from builder.planning.comeback.ask import Answer, Asking, Comeback, Question, Verdict
from builder.planning.comeback.condition import Condition, Fault
from builder.planning.comeback.search import EXACT_CAUSES, Left, Puzzle, Search
from builder.planning.comeback.symptoms import symptoms_of
from builder.planning.comeback.visit import Standing
from builder.planning.comeback.words import SYMPTOMS, Symptom
from builder.proof.band import Where

Leaf = tuple[list[tuple[Question, Where]], Verdict]


@cache
def comeback_of(name: str) -> Comeback:
    return Comeback(causes_in(name))


def leaves(
    asking: Asking, left: Left, standing: Standing, path: list[tuple[Question, Where]]
) -> Iterator[Leaf]:
    """Every way through the questions, with what stands at its end."""
    asked = asking.next(left, standing)
    if isinstance(asked, Verdict):
        yield path, asked
        return
    for where, part in asked.answers:
        yield from leaves(asking, part, asked.standing, [*path, (asked, where)])


@cache
def all_leaves(name: str, symptom: Symptom) -> list[Leaf]:
    back = comeback_of(name)
    asking = back.asking(symptom)
    return list(leaves(asking, asking.every, back.visit.start, [])) if asking.causes else []


@pytest.mark.parametrize("name", TAP_PLANS)
def test_every_fault_is_led_to_and_one_thing_is_left_to_do(name: str) -> None:
    back = comeback_of(name)
    for symptom in SYMPTOMS:
        led_to: set[str] = set()
        for path, verdict in all_leaves(name, symptom):
            assert verdict.known, (symptom, [cause.remedy for cause in verdict.causes])
            for fault in (fault for cause in verdict.causes for fault in cause.faults):
                standing = injected(back, fault)
                assert [asked.reading.look(standing) for asked, _ in path] == [w for _, w in path]
                led_to.add(fault.id)
        made = {
            fault.id for fault in back.causes.faults
            if symptom in symptoms_of(back.job, injected(back, fault))
        }  # fmt: skip
        assert led_to == made
        print(name, symptom, counted(all_leaves(name, symptom)))


@pytest.mark.parametrize("name", ["sorrel-five-channels", "sedge-fronts"])
def test_what_is_gone_behind_a_loom_is_found_in_few_readings(name: str) -> None:
    """At one wire after another it was up to 21: halves of what is passed on come first."""
    found = all_leaves(name, "sound_gone")
    assert len(found) > 30
    assert max(len(path) for path, _ in found) <= 10


_INJECTED: dict[tuple[str, str], Condition] = {}


def injected(back: Comeback, fault: Fault) -> Condition:
    """The job with a fault put into it, apart from what the questions were made of."""
    key = (back.job.pack.job, fault.id)
    return _INJECTED.setdefault(key, Condition(back.job.healthy, fault))


def counted(found: list[Leaf]) -> str:
    """Faults, things to do, readings and minutes, by how often each fault is the cause."""
    if not found:
        return "no single fault"
    odds = [sum(cause.odds for cause in verdict.causes) for _, verdict in found]
    faults = sum(len(cause.faults) for _, verdict in found for cause in verdict.causes)
    depths = [len(path) for path, _ in found]
    minutes = [sum(asked.minutes for asked, _ in path) for path, _ in found]
    mean, long = (
        sum(o * each for o, each in zip(odds, figures, strict=True)) / sum(odds)
        for figures in (depths, minutes)
    )
    return (
        f"{faults} faults, {len(found)} ends, readings {mean:.1f} (most {max(depths)}), "
        f"minutes {long:.0f} (most {max(minutes):.0f})"
    )


# -- the least minutes -------------------------------------------------------------------------


def brute(puzzle: Puzzle[int], left: Left, place: int) -> float:
    """The least expected minutes, by every reading in every order: no memory, no rule of thumb."""
    if len({puzzle.remedies[cause] for cause in left}) < 2:
        return 0.0
    found = []
    for reading, answers in enumerate(puzzle.answers):
        way = puzzle.way(place, reading)
        parts = [frozenset(c for c in left if answers[c] == w) for w in {answers[c] for c in left}]
        if way is not None and len(parts) > 1:
            whole = sum(puzzle.odds[cause] for cause in left)
            after = sum(
                sum(puzzle.odds[c] for c in part) / whole * brute(puzzle, part, way[0])
                for part in parts
            )
            found.append(way[1] + after)
    return min(found, default=0.0)


def drawn(draw: random.Random, causes: int, readings: int) -> Puzzle[int]:
    """A puzzle as it may come: the way to a reading is short from where the last one was taken."""
    places = [draw.randrange(3) for _ in range(readings)]
    blocked = {at for at in range(readings) if draw.random() < 0.1}
    return Puzzle(
        [draw.choice([0.3, 1.0, 2.0, 4.0]) for _ in range(causes)],
        [draw.choice("abcdef") for _ in range(causes)],
        [[draw.choice(("in", "low", "high")) for _ in range(causes)] for _ in range(readings)],
        lambda place, at: None if at in blocked else (places[at], 1 + 4 * (place != places[at])),
    )


def followed(search: Search[int], left: Left, place: int) -> float:
    """Expected minutes of asking what the search says."""
    option = search.best(left, place)
    if option is None:
        return 0.0
    whole = sum(search.puzzle.odds[cause] for cause in left)
    return option.minutes + sum(
        sum(search.puzzle.odds[c] for c in part) / whole * followed(search, part, option.place)
        for _, part in option.parts
    )


def test_few_causes_are_told_apart_in_the_least_minutes() -> None:
    draw = random.Random(13)
    for _ in range(150):
        puzzle = drawn(draw, EXACT_CAUSES, 5)
        every = frozenset(range(EXACT_CAUSES))
        least = brute(puzzle, every, 0)
        assert Search(puzzle).exact(every, 0) == pytest.approx(least)
        assert followed(Search(puzzle), every, 0) == pytest.approx(least)


def test_more_causes_take_little_longer_than_the_least() -> None:
    """Against brute force, over drawn puzzles: what is given away by not looking at every order."""
    draw = random.Random(31)
    ratios = []
    for _ in range(100):
        puzzle = drawn(draw, 7, 5)
        every = frozenset(range(7))
        least = brute(puzzle, every, 0)
        if least:
            ratios.append(followed(Search(puzzle), every, 0) / least)
    mean = sum(ratios) / len(ratios)
    print(f"more than the least: mean {mean - 1:.2%}, most {max(ratios) - 1:.2%}")
    assert min(ratios) >= 1 - 1e-9
    assert mean < 1.02 and max(ratios) < 1.25


@pytest.mark.parametrize(
    ("name", "symptom"), list(product(("tansy-subwoofer", "cutter-fronts"), SYMPTOMS))
)
def test_shipped_jobs_are_asked_in_the_least_minutes_where_all_orders_can_be_tried(
    name: str, symptom: Symptom
) -> None:
    back = comeback_of(name)
    asking = back.asking(symptom)
    if len(asking.causes) > EXACT_CAUSES or len(asking.readings) > 12:
        return
    search = asking.search
    least = brute(search.puzzle, asking.every, back.visit.start)  # type: ignore[arg-type]
    assert followed(search, asking.every, back.visit.start) == pytest.approx(least)  # type: ignore


# -- answers ------------------------------------------------------------------------------------


def asked_of(asking: Asking, *given: Answer) -> Question | Verdict:
    told = asking.told(given)
    return asking.next(told.left, told.standing)


def test_a_reading_that_cannot_be_taken_is_not_asked_again() -> None:
    asking = comeback_of("tansy-subwoofer").asking("dead")
    skipped: list[Answer] = []
    for _ in range(6):
        asked = asked_of(asking, *skipped)
        assert isinstance(asked, Question)
        assert asked.reading.test.id not in dict(skipped)
        skipped.append((asked.reading.test.id, None))


def test_answers_that_no_single_fault_gives_say_so() -> None:
    asking = comeback_of("tansy-subwoofer").asking("dead")
    impossible = asked_of(asking, ("idle-current", "high"))
    assert isinstance(impossible, Verdict) and not impossible.causes and not impossible.known


def test_what_is_read_at_the_amplifier_is_asked_before_what_lies_behind_the_radio() -> None:
    back = comeback_of("tansy-subwoofer")
    minutes = {}
    for reading in back.readings:
        way = back.visit.to(back.visit.start, reading)
        assert way is not None, reading.test.id
        minutes[reading.test.id] = way.minutes
    assert minutes["sub-amp-ground-rise"] < minutes["contact-radio-a-7-a-7"]
    assert minutes["sub-amp-turn-on-asleep"] > back.job.house.asleep_min


def test_lines_of_the_sheet_that_failed_are_read_again() -> None:
    asking = comeback_of("tansy-subwoofer").asking("dead")
    for path, verdict in all_leaves("tansy-subwoofer", "dead"):
        on_sheet = {t.id for t in asking.again(verdict)}
        failed = {a.reading.test.id for a, where in path if where != "in"}
        lines = {test.id for test in comeback_of("tansy-subwoofer").job.pack.tests}
        assert failed & lines <= on_sheet
