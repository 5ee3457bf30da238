"""What a bay sheet adds to the book, as plain text for a terminal."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any, Protocol

from builder.model.words import GradeBand
from builder.planning.words import PlanKind, UseKind
from builder.proof.grading.grade import shown_score
from builder.rendering.pages.wording import PLAN_KINDS


class _Reading(Protocol):
    @property
    def place(self) -> str:
        """Where it was read."""

    @property
    def words(self) -> str:
        """What was read."""


class _Grade(Protocol):
    @property
    def place(self) -> str:
        """The pin."""

    @property
    def before(self) -> GradeBand:
        """Its band before."""

    @property
    def score_before(self) -> float:
        """Its score before."""

    @property
    def after(self) -> GradeBand:
        """Its band now."""

    @property
    def score_after(self) -> float:
        """Its score now."""

    @property
    def fell(self) -> bool:
        """Whether it is relied on less."""


class _Conflict(Protocol):
    @property
    def place(self) -> str:
        """The pin."""

    @property
    def said(self) -> str:
        """What speaks against the record."""

    @property
    def first(self) -> str:
        """What to rule out before it is a contradiction, or ""."""

    @property
    def decides(self) -> str:
        """The measurement that decides."""

    @property
    def disputed(self) -> bool:
        """Whether the pin is disputed now."""


class _Recalled(Protocol):
    @property
    def kind(self) -> UseKind:
        """A job or a plan."""

    @property
    def name(self) -> str:
        """Its name."""

    @property
    def places(self) -> Sequence[str]:
        """The pins it uses."""

    @property
    def before(self) -> PlanKind:
        """Its kind before."""

    @property
    def after(self) -> PlanKind:
        """Its kind now."""

    @property
    def built(self) -> str:
        """The day its sheet came back."""

    @property
    def begun(self) -> str:
        """The day from which its plan stands, or ""."""


class _PlanChange(Protocol):
    @property
    def kind(self) -> UseKind:
        """A job or a plan."""

    @property
    def name(self) -> str:
        """Its name."""

    @property
    def before(self) -> PlanKind:
        """What it was."""

    @property
    def after(self) -> PlanKind:
        """What it is."""


def readings_lines(
    readings: Sequence[_Reading],
    results: Sequence[dict[str, Any]],
    notes: Sequence[dict[str, Any]] = (),
    ticked: Sequence[dict[str, Any]] = (),
) -> list[str]:
    """A line for each reading, each result and each note, one for all steps that were ticked, and
    one for each whose tick was taken off."""
    lines = [f"  {reading.place}: {reading.words}" for reading in readings]
    for result in results:
        said = [f"{result['value']:g}"] if "value" in result else []
        said += [f"passed: {result['passed']}"] if "passed" in result else []
        lines.append(f"  {result['test']}: {', '.join(said)}")
    for note in notes:
        told = [note["note"]] if "note" in note else []
        told += [f"photo {note['photo']}"] if "photo" in note else []
        lines.append(f"  {note['at']}: {', '.join(told)}")
    done = [tick for tick in ticked if tick["done"] == "yes"]
    if done:
        lines.append(f"  {len(done)} step{'' if len(done) == 1 else 's'} ticked")
    return lines + [f"  {tick['at']}: not done" for tick in ticked if tick not in done]


def grade_lines(grades: Sequence[_Grade]) -> Iterator[str]:
    """A line for each pin whose grade changed; what fell says so."""
    for one in grades:
        before, after = _grade(one.before, one.score_before), _grade(one.after, one.score_after)
        yield f"  {one.place}: {before} -> {after}{' (fell)' if one.fell else ''}"


def _grade(band: str, score: float) -> str:
    return f"{shown_score(score)} {band}"


def conflict_lines(conflicts: Sequence[_Conflict]) -> Iterator[str]:
    """What speaks against the record, and which reading decides."""
    for one in conflicts:
        yield f"  {one.place}{' is disputed now' if one.disputed else ''}: {one.said}"
        if one.first:
            yield f"    first: {one.first}"
        if one.decides:
            yield f"    decides: {one.decides}"


def recall_lines(recalled: Sequence[_Recalled]) -> Iterator[str]:
    """Jobs and plans that use a pin whose standing fell."""
    for one in recalled:
        name = f"job {one.name}" if one.kind == "job" else f"plan with {one.name}"
        built = f", sheet returned {one.built}" if one.built else ""
        stands = f"begun on {one.begun}, its plan stands: loombook show {one.name}"
        told = stands if one.begun else _kinds(one.before, one.after)
        yield f"  {name} uses {', '.join(one.places)}: {told}{built}"


def plan_lines(plans: Sequence[_PlanChange]) -> Iterator[str]:
    """Plans and jobs that are of another kind now."""
    for one in plans:
        name = f"job {one.name}" if one.kind == "job" else f"plan with {one.name}"
        yield f"  {name}: {_kinds(one.before, one.after)}"


def _kinds(before: PlanKind, after: PlanKind) -> str:
    one, other = PLAN_KINDS[before].lower(), PLAN_KINDS[after].lower()
    return other if one == other else f"{one} -> {other}"
