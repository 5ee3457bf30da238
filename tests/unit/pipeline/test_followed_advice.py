"""Advice under a refusal is followed: what "would do instead" does, through the same gate."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from dataclasses import replace

import pytest
from pytest import MonkeyPatch
from shipped_cars import CARS, read_car

from builder.model.job import Job
from builder.model.vehicle import Vehicle
from builder.pipeline.answers.packs import MadePack, made_packs
from builder.pipeline.answers.sketching import Asked, sketched_of
from builder.pipeline.checking.book_check import CheckedBook
from builder.pipeline.checking.deciding import decide_plan
from builder.pipeline.checking.job_parts import job_parts
from builder.pipeline.checking.jobs import decide_job
from builder.pipeline.checking.records import ReadRecord, read_record
from builder.planning.course import make_course
from builder.planning.course.model import Course, Problem
from builder.planning.course.search import shortest
from builder.planning.job.make_pack import unasked
from builder.planning.plan import Reason
from builder.planning.work_pack import WorkPack

ADVICE = re.compile(r"(.+) would do instead|.*; (.+) has fewer and would do")


def named(checked: CheckedBook, reasons: Iterable[Reason]) -> Iterator[str]:
    """The ids of the converters that reasons send to."""
    by_name = {each.name: each.id for each in checked.shelf.converters.values()}
    for reason in reasons:
        for text in (reason.decision, reason.because):
            found = ADVICE.fullmatch(text)
            if found:
                yield by_name[found[1] or found[2]]


@pytest.fixture(scope="module")
def cars() -> list[tuple[ReadRecord, Vehicle]]:
    reads = [read_car(name) for name in CARS]
    return [(read, read.record) for read in reads if isinstance(read.record, Vehicle)]


@pytest.fixture(scope="module")
def packs(shipped: CheckedBook) -> list[MadePack]:
    return list(made_packs(shipped))


@pytest.mark.parametrize("treatment", ["auto", "addon", "intercept"])
def test_a_converter_named_under_a_refused_plan_gives_a_tap_plan(
    treatment: str, shipped: CheckedBook, cars: list[tuple[ReadRecord, Vehicle]]
) -> None:
    gate, shelf = shipped.gate(), shipped.shelf
    followed = 0
    for read, car in cars:
        for converter in shelf.converters.values():
            plan = decide_plan(read, car, converter, shelf, gate, treatment).plan
            assert plan.kind != "tap_plan" or plan.alternatives == ()
            for other in named(shipped, plan.alternatives):
                instead = shelf.converters[other]
                tried = decide_plan(read, car, instead, shelf, gate, treatment).plan
                assert (tried.kind, tried.refusals) == ("tap_plan", ()), (car.id, other)
                followed += 1
    assert followed > 5  # the book has refusals with a way out


def test_a_converter_named_under_a_refused_sketch_gives_a_tap_plan(
    shipped: CheckedBook, cars: list[tuple[ReadRecord, Vehicle]]
) -> None:
    made: dict[tuple[str, str], WorkPack] = {}
    for number, (_, car) in enumerate(cars):
        amplifier = ("amn-600", "amn-4")[number % 2]  # a subwoofer, the doors
        for converter in shipped.shelf.converters:
            asked = Asked(car.id, converter, (amplifier,))
            made[car.id, converter] = sketched_of(shipped, car, asked).pack
    ways = [
        (car, other)
        for (car, _), pack in made.items()
        for other in named(shipped, pack.alternatives)
    ]
    kinds = [pack.kind for pack in made.values()]
    assert kinds.count("tap_plan") < len(kinds) - 20 and len(ways) > 20
    assert {made[way].kind for way in ways} == {"tap_plan"}
    assert {made[way].refusals for way in ways} == {()}


@pytest.mark.parametrize("converter", [None, "cvn-2a", "cvn-4a", "cvn-6s", "ok-4r", "tsm-2g"])
def test_a_converter_named_in_a_job_gives_a_tap_plan(
    converter: str | None, shipped: CheckedBook, packs: list[MadePack]
) -> None:
    """Every written job, with its own converter and with others put in its place."""
    gate, followed = shipped.gate(), 0
    for made in packs:
        file = next(f for f in shipped.book.files() if f.name == ("job", made.pack.job))
        read = read_record(file)
        assert isinstance(read.record, Job)
        job = replace(read.record, converter=converter or read.record.converter)
        parts = job_parts(job, shipped.shelf, made.parts.vehicle)
        assert parts is not None
        pack = decide_job(read, parts, gate).pack
        for other in named(shipped, pack.alternatives):
            again = job_parts(replace(job, converter=other), shipped.shelf, made.parts.vehicle)
            assert again is not None
            tried = decide_job(read, again, gate, would_do=unasked).pack
            assert (tried.kind, tried.refusals) == ("tap_plan", ()), (job.id, other)
            followed += 1
    assert followed


def test_other_converters_are_tried_without_putting_their_work_into_order(
    shipped: CheckedBook, packs: list[MadePack], monkeypatch: MonkeyPatch
) -> None:
    """Seeking the order takes longer than all the rest; only the job's own is sought, once."""
    sought: list[Problem] = []

    def noting(problem: Problem) -> Course:
        sought.append(problem)
        return shortest(problem)

    monkeypatch.setattr(make_course, "shortest", noting)
    (made,) = [each for each in packs if each.pack.job == "tansy-subwoofer"]
    file = next(f for f in shipped.book.files() if f.name == ("job", made.pack.job))
    pack = decide_job(read_record(file), made.parts, shipped.gate()).pack
    assert len(list(named(shipped, pack.alternatives))) > 2
    assert len(sought) == 1


def test_a_refusal_advises_no_other_turn_on_that_nobody_tried(packs: list[MadePack]) -> None:
    for made in packs:
        if made.pack.kind != "tap_plan":
            assert not any("could also be" in one.decision for one in made.pack.alternatives)
