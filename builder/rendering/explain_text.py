"""The page of a finding id, and why a pin is graded as it is, as plain text for a terminal."""

from __future__ import annotations

import textwrap
from collections.abc import Iterable, Iterator, Sequence

from builder.model.plugs import Pin, Plug
from builder.model.vehicle import Vehicle
from builder.proof.grading.grade import Grade, shown_score
from builder.proof.pin_proof import PinProof
from builder.rendering.pages.catalogue import Explained, Section
from builder.rendering.pages.correction import pin_says
from builder.rendering.pages.disputes import dispute_lines, dispute_views
from builder.rendering.pages.evidence import EvidenceLine, evidence_lines
from builder.rendering.terminal import PRIVATE_LINE

_WIDTH = 92


def rule_text(rule: Explained, weight: str) -> str:
    """The page of one finding id: what it catches, why, an example, how to fix it, the source."""
    hazard = " No record can accept it." if rule.hazard else ""
    lines = [f"{rule.id} {rule.slug}: {rule.title}", f"{rule.severity.word}. {weight}{hazard}"]
    for section in rule.sections:
        lines += ["", section.heading, *_section_lines(section)]
    return "\n".join(lines) + "\n"


def _section_lines(section: Section) -> Iterator[str]:
    if section.code:
        lines = section.text.strip("\n").splitlines()
        yield from (f"    {line}".rstrip() for line in lines if not line.startswith("```"))
        return
    for number, paragraph in enumerate(section.paragraphs):
        if number:
            yield ""
        yield from _wrapped(" ".join(paragraph.split()))


def _wrapped(text: str) -> list[str]:
    return textwrap.wrap(
        text,
        _WIDTH,
        initial_indent="  ",
        subsequent_indent="  ",
        break_long_words=False,
        break_on_hyphens=False,
    )


def explanation_text(
    vehicle: Vehicle,
    plug: Plug,
    pin: Pin,
    proof: PinProof,
    grade: Grade,
    uses: Sequence[str],
    *,
    private: bool = False,
) -> str:
    """Why a pin is graded as it is, what would raise it, and which plans use it.

    `uses` has a line for each plan and job that joins or asks this pin; `private` says that only
    this shop may see the record.
    """
    place = f"{plug.id}.{pin.cavity}"
    lines = [
        f"{place} of {vehicle.title}",
        f"record {vehicle.id}{f', {PRIVATE_LINE}' if private else ''}; {pin_says(pin)}",
        "",
        f"Grade  {grade.label}",
        *(f"  {sentence}" for sentence in grade.sentences),
        *_wrapped(_sum_line(grade)),
        *_part("Weighed", _evidence(evidence_lines(vehicle, place, proof))),
        *_dispute_part(vehicle, pin, proof),
        *_part("To raise it, cheapest first", _raising(grade)),
        *_part("Plans that use it", (f"  {line}" for line in uses), "  none"),
    ]
    return "\n".join(lines) + "\n"


def _sum_line(grade: Grade) -> str:
    return (
        f"support {grade.support:.3f}, opposition {grade.opposition:.3f}: "
        f"support × (1 − opposition) = {grade.support * (1 - grade.opposition):.3f}, "
        f"under the caps {grade.score:.3f}; shown as {shown_score(grade.score)}"
    )


def _part(title: str, lines: Iterable[str], otherwise: str = "") -> list[str]:
    found = list(lines) or ([otherwise] if otherwise else [])
    return ["", title, *found] if found else []


def _evidence(lines: Iterable[EvidenceLine]) -> Iterator[str]:
    for line in lines:
        yield f"  {line.side}, {line.weight}: {line.who}: {line.how}"
        for more in (line.detail, line.remark, line.set_aside):
            if more:
                yield f"    {more}"


def _dispute_part(vehicle: Vehicle, pin: Pin, proof: PinProof) -> list[str]:
    views = dispute_views(vehicle, {pin.path: proof}) if proof.dispute else ()
    return [
        line
        for view in views
        for line in ("", "Disputed", *(f"  {said}" for said in dispute_lines(view)))
    ]


def _raising(grade: Grade) -> Iterator[str]:
    if grade.raise_by:
        yield f"  {grade.raise_by}"
    for state in grade.missing:
        if state not in grade.raise_by:
            yield f"  then: {state}"
