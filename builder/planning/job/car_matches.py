"""Whether the car in the bay is one the record is about: its year and trim, the questions asked."""

from __future__ import annotations

from builder.model.job import JobCar
from builder.model.vehicle import Question, Vehicle
from builder.model.words import ALL, THIS
from builder.planning.car.sources import asked_in_order
from builder.planning.objections import Objection, object_to
from builder.planning.tables import RECORD


def car_objections(car: JobCar, vehicle: Vehicle) -> list[Objection]:
    """Return why nothing of the record may be used on this car, or what must be asked first."""
    return [*_outside_scope(car, vehicle), *_sisters(car, vehicle)]


def _outside_scope(car: JobCar, vehicle: Vehicle) -> list[Objection]:
    scope = vehicle.scope
    found = []
    if car.year is not None and not scope.year_from <= car.year <= scope.year_to:
        found.append(
            f"the car is of {car.year}, the record of {scope.year_from} to {scope.year_to}"
        )
    if car.trim is not None and ALL not in scope.trims and car.trim not in scope.trims:
        found.append(f"the car's trim is {car.trim}, the record holds for {', '.join(scope.trims)}")
    if car.built is not None and scope.build_from is not None and car.built < scope.build_from:
        found.append(f"the car was built in {car.built}, the record begins with {scope.build_from}")
    if car.built is not None and scope.build_to is not None and car.built > scope.build_to:
        found.append(f"the car was built in {car.built}, the record ends with {scope.build_to}")
    return [object_to("this record is about other cars", because, RECORD) for because in found]


def _sisters(car: JobCar, vehicle: Vehicle) -> list[Objection]:
    """The records this car could be, narrowed by every answer; it must come down to this one."""
    possible = {"this", *(a.means for q in vehicle.how_to_tell for a in q.answers)}
    open_questions = []
    for question in vehicle.how_to_tell:
        given = _given(car, question)
        if given is None:
            open_questions.append(question)
            continue
        meant = {a.means for a in question.answers if _same(a.answer, given)}
        if not meant:
            return [_no_such_answer(question, given)]
        possible &= meant
    if THIS not in possible:
        return [_another_record(possible)]
    return [_ask_first(open_questions)] if possible != {THIS} and open_questions else []


def _given(car: JobCar, question: Question) -> str | None:
    told = (each for each in car.answers if _same(each.question, question.question))
    return next((each.answer for each in told), None)


def _same(first: str, second: str) -> bool:
    return first.strip().lower() == second.strip().lower()


def _no_such_answer(question: Question, given: str) -> Objection:
    known = " or ".join(dict.fromkeys(answer.answer for answer in question.answers))
    because = f'"{question.question}" was answered "{given}"; the record knows {known}'
    return object_to("the answer says nothing", because, RECORD)


def _another_record(possible: set[str]) -> Objection:
    names = " or ".join(sorted(possible)) or "a car that no record is about"
    because = f"the answers say that this car is {names}: plan the job with that record"
    return object_to("this is another car", because, RECORD)


def _ask_first(questions: list[Question]) -> Objection:
    because = f"several records could be this car. Ask, cheapest first: {asked_in_order(questions)}"
    return object_to("find out which car this is", because, RECORD)
