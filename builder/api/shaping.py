"""From what the pipeline answers to the values of the interface."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import Final

from builder import findings as inner
from builder.api.answers import (
    Answer,
    Answers,
    Finding,
    FoundPin,
    JobPack,
    Pin,
    Plan,
    Reason,
    SeverityWord,
    Vehicle,
)
from builder.finder import search
from builder.finder.entries import NO_WIRE, wire_words
from builder.finder.forgiven import said_of
from builder.model import vehicle as model
from builder.model.job import Job
from builder.pipeline.answers.answering import DescribedVehicle, Found
from builder.pipeline.answers.packs import MadePack
from builder.pipeline.answers.planned import Planned
from builder.planning import plan
from builder.rendering.pages.cautions import cautions_of

_WORDS: Final[dict[inner.Severity, SeverityWord]] = {
    inner.Severity.STOP: "stop",
    inner.Severity.FIX: "fix",
    inner.Severity.WARN: "warn",
    inner.Severity.NOTE: "note",
}


def finding_of(found: inner.Finding) -> Finding:
    """Return a finding as a program gets it."""
    return Finding(
        found.file,
        found.line,
        found.column,
        _WORDS[found.severity],
        found.rule_id,
        found.slug,
        found.message,
        found.help,
        found.accepted,
        found.says,
    )


def answers_of(found: Found) -> Answers:
    """Return the answers to a question."""
    read_as = tuple(said_of([one]) for one in found.read_as)
    return Answers(found.question, tuple(map(_answer_of, found.answers)), read_as, found.missed)


def _answer_of(answer: search.Answer) -> Answer:
    entry = answer.entry
    pins = tuple(FoundPin(**row._asdict()) for row in answer.rows)
    notes = (*answer.notes, *filter(None, [entry.no_switched]))
    return Answer(entry.id, entry.title, pins, notes)


def vehicle_of(described: DescribedVehicle) -> Vehicle:
    """Return a vehicle with what was computed of it."""
    car = described.vehicle
    return Vehicle(
        id=car.id,
        make=car.make,
        model=car.model,
        variant=car.variant,
        year_from=car.scope.year_from,
        year_to=car.scope.year_to,
        cautions=_cautions(car),
        pins=tuple(_pins_of(described)),
        findings=tuple(map(finding_of, described.findings)),
        private=described.private,
        record=described.data,
    )


def _pins_of(described: DescribedVehicle) -> Iterator[Pin]:
    for plug in described.vehicle.plugs:
        for pin in plug.pins:
            proof, wire = described.proofs[pin.path], wire_words(pin)
            yield Pin(
                plug.id,
                pin.cavity,
                pin.function,
                "" if wire == NO_WIRE else wire,
                proof.band,
                proof.score,
                proof.why,
                proof.raise_by,
            )


def _cautions(car: model.Vehicle, job: Job | None = None) -> tuple[str, ...]:
    return tuple(f"{each.word}: {each.title}. {each.text}" for each in cautions_of(car, job))


def plan_of(made: Planned) -> Plan:
    """Return the plan of a vehicle and a converter."""
    return Plan(
        kind=made.plan.kind,
        vehicle=made.vehicle.id,
        converter=made.converter.id,
        cautions=_cautions(made.vehicle),
        refusals=_reasons(made.plan.refusals),
        findings=tuple(map(finding_of, made.decided.findings)),
        private=made.private,
        data=made.as_data(),
    )


def pack_of(made: MadePack) -> JobPack:
    """Return the work pack of a job."""
    return JobPack(
        kind=made.pack.kind,
        job=made.pack.job,
        cautions=_cautions(made.parts.vehicle, made.parts.job),
        refusals=_reasons(made.pack.refusals),
        assumed=_reasons(made.pack.assumed),
        findings=tuple(map(finding_of, made.findings)),
        private=made.private,
        data=made.as_data(),
    )


def _reasons(reasons: Iterable[plan.Reason]) -> tuple[Reason, ...]:
    return tuple(Reason(each.decision, each.because, each.source) for each in reasons)
