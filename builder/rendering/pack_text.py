"""A work pack as plain text for a terminal: every sheet, in the order of the work."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence

from builder.figures import shown
from builder.findings import Finding
from builder.model.glossary import WHAT_CHANGES
from builder.planning.bay.kept_lines import kept_as_before
from builder.planning.job.standing import NOT_BEGUN, JobStanding
from builder.planning.job.ticked import steps_done
from builder.planning.plan import Reason
from builder.planning.sheet_rows import WiringRow
from builder.planning.work_pack import JobParts, WorkPack
from builder.rendering.drawings.label_strip import bands_said
from builder.rendering.job_state_text import as_built_lines, standing_lines
from builder.rendering.loom_text import loom_lines
from builder.rendering.pages.cautions import cautions_of
from builder.rendering.pages.job_phrases import (
    LEADS,
    draw_view,
    gain_view,
    hold_up_words,
    lead_view,
    power_facts,
    quantity_words,
    reasons_by_decision,
)
from builder.rendering.pages.job_sheets import Sheet, SheetName, sheets_of
from builder.rendering.pages.job_steps import step_groups, waiting_steps
from builder.rendering.pages.job_tests import bay_groups
from builder.rendering.pages.supply_phrases import supply_views
from builder.rendering.sketch_text import sketch_lines
from builder.rendering.terminal import PLAN_WORDS, PRIVATE_LINE, columns, joining_parts

Lines = Iterable[str]


def pack_text(
    pack: WorkPack,
    parts: JobParts,
    findings: Sequence[Finding],
    *,
    private: bool = False,
    standing: JobStanding = NOT_BEGUN,
) -> str:
    """Return all sheets of a work pack as text, cautions first.

    A sketch of a job begins with what was assumed and how it becomes a job; before all stands
    whether only this shop may see it, and of a job that is begun how far it is.
    """
    cautions = cautions_of(parts.vehicle, parts.job, pack.steps)
    lines = ["", PRIVATE_LINE] if private else []
    lines += ["", *sketch_lines(pack, parts)] if pack.assumed else []
    lines += ["", *standing_lines(standing, pack.job)] if standing.begun else []
    for sheet in sheets_of(pack, cautions, standing):
        content = list(_sheet(sheet, pack, parts, findings, standing))
        if content:
            lines += ["", f"{sheet.letter}  {sheet.title.upper()}", *content]
    return "\n".join(lines[1:]) + "\n"


def reasons_text(pack: WorkPack, parts: JobParts, *, private: bool = False) -> str:
    """Return why a job is planned as it is: what refuses it, each decision, what else would do."""
    lines = [PRIVATE_LINE] if private else []
    lines += [f"{PLAN_WORDS[pack.kind]}  {parts.job.title}"]
    lines += _titled("Why this is not a tap plan", _reasons(pack.refusals))
    lines += _titled("Why it is planned so", _decisions(pack))
    lines += _titled("What else would do", _reasons(pack.alternatives))
    return "\n".join(lines) + "\n"


def _sheet(
    sheet: Sheet,
    pack: WorkPack,
    parts: JobParts,
    findings: Sequence[Finding],
    standing: JobStanding,
) -> Iterator[str]:
    if sheet.id == "as_built":
        yield from as_built_lines(standing)
    elif sheet.id == "cover":
        yield from _cover(pack, parts, findings)
    elif sheet.id == "tests":
        yield from _tests(pack, parts)
    else:
        yield from _SHEETS[sheet.id](pack, parts)


def _titled(title: str, lines: Lines) -> Iterator[str]:
    content = list(lines)
    if content:
        yield from ("", title, *content)


def _cover(pack: WorkPack, parts: JobParts, findings: Sequence[Finding]) -> Iterator[str]:
    job, vehicle = parts.job, parts.vehicle
    yield f"{PLAN_WORDS[pack.kind]}  {job.title}"
    if pack.assumed:
        yield f"no job yet: {vehicle.title}   data: {job.data}"
    else:
        yield f"job {job.id}, {job.car.tagged}: {vehicle.title}   data: {job.data}"
        yield f"wanted: {job.wanted}"
    if kept := kept_as_before(pack, parts):
        yield f"must sound as before: {', '.join(kept)}"
    yield from _titled("Why this is not a tap plan", _reasons(pack.refusals))
    if pack.kind != "tap_plan":
        yield from _titled("What would have to change", _reasons(pack.alternatives))
    yield from _titled("Not yet", (f"  {each}" for each in waiting_steps(pack.steps)))
    yield from _titled(WHAT_CHANGES, (f"  {loss}" for loss in pack.losses))
    cautions = cautions_of(vehicle, job, pack.steps)
    yield from _titled("Cautions", (f"  {c.word}: {c.title}. {c.text}" for c in cautions))
    yield from _titled("Findings", (_finding(finding) for finding in findings))


def _finding(finding: Finding) -> str:
    said = f"  {finding.severity.word} {finding.rule_id}: {finding.message}"
    return f"{said} (accepted: {finding.accepted})" if finding.accepted else said


def _reasons(reasons: Iterable[Reason]) -> Iterator[str]:
    return (f"  {one.decision}: {one.because} ({one.source})" for one in reasons)


def _tap(pack: WorkPack, parts: JobParts) -> Iterator[str]:
    yield from (f"  {one.decision}: {one.because}" for one in pack.treatments)
    for title, lines in joining_parts(pack.plan):
        yield from _titled(title, lines)
    links = [
        (link.link, f"{link.from_terminal} → {link.to_terminal}", *_on_the_way(link))
        for link in pack.wiring
    ]
    yield from _titled("Every link, end to end", columns(links))
    yield from _titled("Turn-on outputs", columns(draw_view(draw) for draw in pack.turn_on_draws))
    if pack.hold_up:
        yield f"  restart: {hold_up_words(pack.hold_up)}"


def _on_the_way(link: WiringRow) -> tuple[str, str]:
    return "; ".join((*link.conductors, *link.parts)), link.way_back


def _levels(pack: WorkPack, parts: JobParts) -> Iterator[str]:
    views = [gain_view(chain) for chain in pack.levels]
    heads = (
        "speaker", "converter out", "with its inputs joined", "gain", "set to, never beyond",
        "reads", "tone",
    )  # fmt: skip
    rows = [(v.speaker, v.line, v.loaded, v.gain, v.set_to, v.reads, v.tone) for v in views]
    yield from columns([heads, *rows])


def _power(pack: WorkPack, parts: JobParts) -> Iterator[str]:
    if pack.power is None:
        return
    facts = power_facts(pack.power, parts)
    yield from columns((fact.label, fact.value) for fact in facts)
    heads = ("run", "current", "fuse", "conductor", "length", "drop", "from battery", "thicker")
    yield from _titled("Runs", columns([heads, *supply_views(pack, parts.shelf.defaults)]))
    yield from _titled("Because", _reasons(pack.power.because))


def _cables(pack: WorkPack, parts: JobParts) -> Iterator[str]:
    called = {cable.id: cable.called for cable in parts.cables}
    cuts = [
        (cut.name, called.get(cut.cable, cut.cable), f"{shown(cut.cut_m)} m", cut.note)
        for cut in pack.cut_list
    ]
    yield from _titled("Cut list", columns(cuts))
    rows = [
        (row.piece, row.place, row.wire, row.purpose, row.from_joint, row.to_joint)
        for row in pack.conductors
    ]
    yield from _titled("Cores and single wires", columns(rows))
    joints = [(joint.place, joint.meets, joint.how, joint.closed_by) for joint in pack.joints]
    yield from _titled("Joints", columns(joints))
    leads = [lead_view(lead) for lead in pack.speaker_leads]
    heads = ("speaker", "conductor", "length", "added", "factory", "together", "damping", "music")
    yield from _titled(LEADS, columns([heads, *leads]) if leads else ())
    known = set(pack.plan.insulate)
    ends = (f"  {end.what}: {end.because}" for end in pack.insulate if end not in known)
    yield from _titled("Insulate", ends)
    bands = [
        (label.jacket, label.end, bands_said(label.bands), label.text) for label in pack.labels
    ]
    yield from _titled("Labels", columns(bands))


def _tests(pack: WorkPack, parts: JobParts) -> Iterator[str]:
    for group in bay_groups(pack, parts.job.results):
        yield from ("", group.title)
        yield from (f"  care {mark}: {care}" for mark, care in group.cares)
        yield from columns(
            (
                f"[{'x' if line.filled else ' '}] {line.number} {line.id}",
                line.in_words,
                line.state,
                line.band,
                "; earlier: ".join((line.filled, *line.earlier)),
            )
            for line in group.lines
        )


def _steps(pack: WorkPack, parts: JobParts) -> Iterator[str]:
    done = steps_done(pack.steps, parts.job.ticked)
    for group in step_groups(pack.steps):
        yield from ("", group.title)
        for step in group.steps:
            yield f"  [{'x' if step.number in done else ' '}] {step.number:>2}  {step.text}"
            if step.caution:
                yield f"          mind: {step.caution}"
            yield from (f"          - {line}" for line in step.lines)
            if step.gate:
                yield f"          gate: {step.gate}"
            if step.blocked:
                yield f"          not yet: {step.blocked}"


def _revert(pack: WorkPack, parts: JobParts) -> Iterator[str]:
    return (f"  {at}. {line}" for at, line in enumerate(pack.revert, 1))


def _customer(pack: WorkPack, parts: JobParts) -> Iterator[str]:
    return (f"  {line}" for line in pack.customer)


def _parts(pack: WorkPack, parts: JobParts) -> Iterator[str]:
    return columns((quantity_words(part), part.item, part.note) for part in pack.parts)


def _because(pack: WorkPack, parts: JobParts) -> Iterator[str]:
    yield from _decisions(pack)
    if pack.kind == "tap_plan":
        yield from _titled("What else would do", _reasons(pack.alternatives))


def _decisions(pack: WorkPack) -> Iterator[str]:
    for decision, source, said in reasons_by_decision(pack):
        yield f"  {decision}: {'; '.join(said)} ({source})"


_SHEETS: dict[SheetName, Callable[[WorkPack, JobParts], Iterator[str]]] = {
    "tap": _tap,
    "levels": _levels,
    "power": _power,
    "loom": loom_lines,
    "cables": _cables,
    "steps": _steps,
    "revert": _revert,
    "customer": _customer,
    "parts": _parts,
    "because": _because,
}
