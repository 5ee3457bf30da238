"""The page of a car that comes back: what is read first, and what each answer leads to."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from builder.figures import shown
from builder.planning.comeback.ask import Asking, Comeback, Question, Verdict
from builder.planning.comeback.search import Left
from builder.planning.comeback.visit import Standing
from builder.planning.comeback.words import SYMPTOM_NAMES, Symptom
from builder.rendering.comeback_text import at_words
from builder.rendering.page import BuildInfo, Page
from builder.rendering.pages.bay_lines import bay_band, state_words
from builder.rendering.pages.cautions import cautions_of
from builder.rendering.pages.paper import way_back
from builder.rendering.templates import fill


class Leads(NamedTuple):
    """Where an answer leads: to another reading or to what is done, each by its anchor."""

    words: str
    anchor: str


NOWHERE = Leads("none", "")
"""No single fault reads so."""


class ReadRow(NamedTuple):
    """One reading with where its answers lead."""

    number: int
    anchor: str
    what: str
    state: str
    in_order: str
    minutes: str
    passes: Leads
    low: Leads
    high: Leads


class DoRow(NamedTuple):
    """What is left to do at an end, what it may be, and what is read again."""

    number: int
    anchor: str
    remedy: str
    faults: tuple[str, ...]
    again: str


class SymptomView(NamedTuple):
    """All that follows from what the customer says."""

    id: Symptom
    said: str
    summary: str
    reads: tuple[ReadRow, ...]
    does: tuple[DoRow, ...]


def comeback_url(job_id: str) -> str:
    """Where the questions for a job stand that comes back."""
    return f"comebacks/{job_id}.html"


def comeback_page(back: Comeback, info: BuildInfo, foot: str) -> Page:
    """Return the page of a job's comebacks; `foot` is what stands under its work pack."""
    job, vehicle = back.job.parts.job, back.job.parts.vehicle
    views = [_view(back, symptom) for symptom, faults in back.by_symptom.items() if faults]
    never = [SYMPTOM_NAMES[each] for each, faults in back.by_symptom.items() if not faults]
    url = comeback_url(job.id)
    body = fill(
        "comeback.html", job=job, vehicle=vehicle, info=info, views=views, never=never,
        cautions=cautions_of(vehicle, job), way_back=way_back(info, url),
    )  # fmt: skip
    title = f"The car is back: {job.title}, {vehicle.title}"
    what = f"{title}. Which reading next, until one thing is left to do."
    return Page(url, title, what, body, foot)


def _view(back: Comeback, symptom: Symptom) -> SymptomView:
    walk = _Walk(back.asking(symptom), symptom)
    walk.lead(walk.asking.every, back.visit.start)
    reads, does = tuple(walk.reads[at] for at in sorted(walk.reads)), tuple(walk.does)
    said = f"{len(does)} thing{'' if len(does) == 1 else 's'} to do at the end of {len(reads)}"
    summary = f"{said} reading{'' if len(reads) == 1 else 's'}"
    return SymptomView(symptom, SYMPTOM_NAMES[symptom], summary, reads, does)


class _Walk:
    """One walk through all questions of a symptom; they are numbered as they come."""

    def __init__(self, asking: Asking, symptom: Symptom) -> None:
        self.asking, self.symptom = asking, symptom
        self.reads: dict[int, ReadRow] = {}
        self.does: list[DoRow] = []
        self._count = 0

    def lead(self, left: Left, standing: Standing) -> Leads:
        """Put down what follows from here, and return where that stands."""
        found = self.asking.next(left, standing)
        return self._end(found) if isinstance(found, Verdict) else self._read(found)

    def _read(self, asked: Question) -> Leads:
        self._count += 1
        number, test = self._count, asked.reading.test
        answers = {where: self.lead(part, asked.standing) for where, part in asked.answers}
        leads = [answers.get(where, NOWHERE) for where in ("in", "low", "high")]
        anchor = f"{self.symptom}-read-{number}"
        self.reads[number] = ReadRow(
            number, anchor, test.what + at_words(asked.reading), state_words(test.state),
            bay_band(test),
            shown(asked.minutes), *leads,
        )  # fmt: skip
        return Leads(f"read {number}", anchor)

    def _end(self, verdict: Verdict) -> Leads:
        number = len(self.does) + 1
        anchor = f"{self.symptom}-do-{number}"
        again = ", ".join(str(test.number) for test in self.asking.again(verdict))
        faults = tuple(_faults(verdict))
        self.does.append(DoRow(number, anchor, verdict.causes[0].remedy, faults, again))
        return Leads(f"do {number}", anchor)


def _faults(verdict: Verdict) -> Iterator[str]:
    """What it may be, with the place, the likeliest first; each said once."""
    faults = [fault for cause in verdict.causes for fault in cause.faults]
    yield from dict.fromkeys(f"{fault.place}: {fault.what}" for fault in faults)
