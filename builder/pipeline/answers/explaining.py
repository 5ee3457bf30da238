"""`why`: what a finding means, and why a pin is graded as it is."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Any

from builder.book import Book
from builder.model.names import channel_name
from builder.model.plugs import Pin, Plug
from builder.model.vehicle import Vehicle
from builder.pipeline.answers.answering import vehicle_meant
from builder.pipeline.answers.explanations import every_explanation
from builder.pipeline.answers.packs import made_packs
from builder.pipeline.checking.book_check import CheckedBook, check_book
from builder.pipeline.checking.deciding import plans_of
from builder.pipeline.checking.proofs import known_grades
from builder.pipeline.checking.records import ReadRecord
from builder.planning.plan import Plan
from builder.planning.words import PlanKind, UseKind
from builder.proof.grading.grade import Grade, grade_pin
from builder.proof.grading.item import Item
from builder.proof.pin_proof import PinProof, Proofs, prove
from builder.rendering.pages.catalogue import Explained
from builder.rendering.pages.wording import PLAN_KINDS
from builder.speller import nearest, nearest_few

_ID = re.compile(r"[A-Za-z]{3}[- ]?[0-9OoIil]{2,4}")


class NoSuchRuleError(Exception):
    """No finding has that id or name; the message says which are near."""


class NoSuchPinError(Exception):
    """The vehicle describes no such pin; the message lists those it describes."""


def explained_rule(name: str) -> Explained:
    """Return the page of a finding id ("PIN101", in any case) or its slug.

    Raises:
        NoSuchRuleError: there is none.
    """
    known = {key.lower(): each for each in every_explanation() for key in (each.id, each.slug)}
    if name.lower() in known:
        return known[name.lower()]
    meant = _digits_meant(name.lower())
    near = [meant] if meant in known else nearest_few(name, known, 3)
    ids = dict.fromkeys(f"{known[key].id} {known[key].slug}" for key in near)
    said = f"did you mean {' or '.join(ids)}?" if ids else "the site lists them all under Rules"
    raise NoSuchRuleError(f'no finding is called "{name}"; {said}')


def is_like_a_finding(name: str) -> bool:
    """Whether somebody who typed this meant a finding: an id, or nearly the name of one."""
    known = [each.slug for each in every_explanation()]
    return bool(_ID.fullmatch(name) or nearest(name, known, least=0.8))


def _digits_meant(name: str) -> str:
    """An id whose number was typed with letters that look like digits, and nothing between."""
    plain = "".join(letter for letter in name if letter.isalnum())
    return plain[:3] + plain[3:].translate(str.maketrans("oil", "011"))


@dataclass(frozen=True, slots=True)
class Use:
    """A plan or job that relies on a pin, and what for."""

    kind: UseKind
    name: str  # the converter's or the job's id
    plan: PlanKind
    what_for: str

    @property
    def words(self) -> str:
        """The use as one line."""
        with_what = "with" if self.kind == "plan" else "of job"
        return f"{PLAN_KINDS[self.plan]} {with_what} {self.name}: {self.what_for}"


@dataclass(frozen=True, slots=True)
class ExplainedPin:
    """A pin with its grade taken apart, and the plans that rely on it."""

    vehicle: Vehicle
    plug: Plug
    pin: Pin
    proof: PinProof
    grade: Grade
    uses: tuple[Use, ...]
    private: bool = False

    def as_data(self) -> dict[str, Any]:
        """The explanation as plain data; weights and scores are not rounded."""
        grade = self.grade
        counted = {id(item) for item in grade.counted}
        return {
            "vehicle": self.vehicle.id,
            "private": self.private,
            "plug": self.plug.id,
            "cavity": self.pin.cavity,
            "function": self.pin.function,
            "grade": grade.band,
            "score": grade.score,
            "support": grade.support,
            "opposition": grade.opposition,
            "why": list(grade.sentences),
            "items": [_item_data(item, id(item) in counted) for item in grade.items],
            "raise_by": grade.raise_by,
            "missing": list(grade.missing),
            "used_by": [
                {"kind": u.kind, "name": u.name, "plan": u.plan, "for": u.what_for}
                for u in self.uses
            ],
        }


def _item_data(item: Item, counts: bool) -> dict[str, Any]:
    return {
        "by": item.contributor,
        "method": item.method,
        "weight": item.weight,
        "supports": item.supports,
        "counts": counts,
        "set_aside": item.retired,
        "because": item.because,
    }


def explained_pin(
    book: Book, vehicle_name: str, place: str, year: int | None = None
) -> ExplainedPin:
    """Return why a pin ("A.4") of the vehicle that a name means is graded as it is, or as it is for
    a car of model year `year`.

    Raises:
        NoSuchRecordError: none or several vehicles fit.
        NoSuchPinError: the vehicle does not describe that pin, or holds for no car of that year.
    """
    read, vehicle = vehicle_meant(book, vehicle_name)
    plug, pin = _pin_at(vehicle, place)
    scope = vehicle.scope
    if year is not None and not scope.year_from <= year <= scope.year_to:
        raise NoSuchPinError(f"{vehicle.title} holds for no car of {year}: leave --year out")
    checked = check_book(book, jobs=(), about=(read.file.path,))
    proofs = prove(vehicle, book.defaults, checked.shelf.housings)
    uses = (*_plan_uses(checked, read, vehicle, proofs, pin), *_job_uses(checked, vehicle, pin))
    grade = grade_pin(vehicle, pin, book.defaults, year)
    private = read.file.is_private
    return ExplainedPin(vehicle, plug, pin, proofs[pin.path], grade, uses, private)


def _pins(vehicle: Vehicle) -> dict[str, tuple[Plug, Pin]]:
    return {f"{plug.id}.{pin.cavity}": (plug, pin) for plug in vehicle.plugs for pin in plug.pins}


def _pin_at(vehicle: Vehicle, place: str) -> tuple[Plug, Pin]:
    pins = _pins(vehicle)
    found = pins.get(place) or pins.get(place.upper())
    if found is None:
        raise NoSuchPinError(
            f'"{place}" is no described pin of {vehicle.id}; there are: {", ".join(pins)}'
        )
    return found


def _plan_uses(
    checked: CheckedBook, read: ReadRecord, vehicle: Vehicle, proofs: Proofs, pin: Pin
) -> Iterator[Use]:
    grades = known_grades(dict(proofs), checked.shelf.defaults)
    for decided in plans_of(read, vehicle, checked.shelf, checked.gate(), grades):
        yield from _uses("plan", decided.plan.converter, decided.plan, pin)


def _job_uses(checked: CheckedBook, vehicle: Vehicle, pin: Pin) -> Iterator[Use]:
    here = tuple(job for job in checked.jobs if job.job and job.job.vehicle == vehicle.id)
    for made in made_packs(replace(checked, jobs=here)):
        yield from _uses("job", made.pack.job, replace(made.pack.plan, kind=made.pack.kind), pin)


def _uses(kind: UseKind, name: str, plan: Plan, pin: Pin) -> Iterator[Use]:
    what_for = _what_for(plan, pin)
    if what_for:
        yield Use(kind, name, plan.kind, ", ".join(what_for))


def _what_for(plan: Plan, pin: Pin) -> Sequence[str]:
    fed = [
        f"input {feed.converter_input} {feed.leg} ({channel_name(feed.channel)}, {feed.treatment})"
        for feed in plan.feeds
        if feed.path == pin.path
    ]
    fed += [
        "the converter's own ground" if each.function == "ground" else "the converter's own supply"
        for each in plan.supplied_at
        if each.path == pin.path
    ]
    switching = (plan.turn_on.path, *plan.turn_on.relied_on)
    return [*fed, "turn-on"] if pin.path in switching else fed
