"""Answers, vehicles and plans as plain text for a terminal: columns, words, no colour codes."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence

from builder.figures import shown
from builder.finder.entries import FUSE, Entry, Row, wire_words
from builder.finder.forgiven import ReadAs, said_of
from builder.finder.parts import Part
from builder.finder.search import Answer
from builder.findings import DataPath, Finding
from builder.model.glossary import WHAT_CHANGES
from builder.model.names import LEG_SIGNS, channel_name, function_name
from builder.model.parts import Converter
from builder.model.plugs import Pin, Plug
from builder.model.vehicle import Vehicle
from builder.planning.car.treatments import TREATMENT_WORDS
from builder.planning.levels.level_pad import ohm_words
from builder.planning.plan import Feed, LevelCheck, Plan, ProofReading, Reason, Rung
from builder.planning.words import RUNG_NAMES, PlanKind
from builder.proof.house import house_words, note_of
from builder.proof.pin_proof import PinProof
from builder.rendering.margins import margin_words, read_words
from builder.rendering.pages.attacks import attack_lines, attack_view
from builder.rendering.pages.cautions import cautions_of
from builder.rendering.pages.disputes import dispute_lines, dispute_views

PRIVATE = "private"
"""Stands beside a record that only this shop may see."""
PRIVATE_LINE = f"{PRIVATE}: for this shop only"
PLAN_WORDS: dict[PlanKind, str] = {
    "tap_plan": "TAP PLAN",
    "probe_plan": "PROBE PLAN",
    "no_plan": "NO PLAN",
}


def columns(rows: Iterable[Sequence[str]]) -> Iterator[str]:
    """Yield rows as indented lines with aligned columns; the last column is not padded."""
    table = [list(row) for row in rows]
    if not table:
        return
    widths = [max(map(len, column)) for column in zip(*table, strict=True)]
    for row in table:
        cells = [cell.ljust(width) for cell, width in zip(row, widths, strict=True)]
        yield ("  " + "  ".join(cells)).rstrip()


def answers_text(
    answers: Sequence[Answer],
    questions: Iterable[str] = (),
    read_as: Sequence[ReadAs] = (),
    missed: str = "",
    parts: Sequence[Part] = (),
    planned: Iterable[tuple[Entry, Part]] = (),
) -> str:
    """The answers to a question, vehicle by vehicle, after what was forgiven, the plans that
    were asked for, and the `questions` between the vehicles; without answers, why
    there are none. The parts that were named stand last.
    """
    said = [said_of(read_as)] if read_as else []
    if not answers:
        why = [] if parts and not missed else [f"Nothing in this book fits. {missed}"]
        return "\n".join([*said, *why, *_part_lines(parts)]).lstrip("\n") + "\n"
    lines = [*said, *_plan_lines(planned), *questions]
    for answer in answers:
        mark = f"   {PRIVATE}" if answer.entry.private else ""
        lines += ["", f"{answer.entry.title}   ({answer.entry.id}){mark}", *_answer_rows(answer)]
    lines += ["", *_part_lines(parts)] if parts else []
    return "\n".join(lines).lstrip("\n") + "\n"


def _plan_lines(planned: Iterable[tuple[Entry, Part]]) -> Iterator[str]:
    for car, part in planned:
        yield f"Plan: {car.title}, with {part.name}"
        yield f"  loombook plan {car.id} --converter {part.id}"


def _part_lines(parts: Iterable[Part]) -> Iterator[str]:
    yield from (f"{part.name}   ({part.kind} {part.id})" for part in parts)


def _answer_rows(answer: Answer) -> Iterator[str]:
    if not answer.rows and not answer.notes:
        yield "  Not recorded for this car."
    yield from (f"  {note}" for note in answer.notes)
    yield from columns(_row_cells(row) for row in answer.rows)


def _row_cells(row: Row) -> tuple[str, ...]:
    what = f"{channel_name(row.channel or None)} {function_name(row.function)}".strip()
    where = f"fuse {row.plug}" if row.cavity == FUSE else f"plug {row.plug}  cavity {row.cavity}"
    return (what, where, row.wire, row.grade, row.warning)


def vehicle_text(
    vehicle: Vehicle,
    proofs: Mapping[DataPath, PinProof],
    findings: Sequence[Finding],
    *,
    private: bool = False,
    borrowed: str = "",
) -> str:
    """One vehicle: cautions first, then every plug and pin, then what was found."""
    mark = f", {PRIVATE_LINE}" if private else ""
    lines = [vehicle.title, f"record {vehicle.id}, data: {vehicle.data}{mark}"]
    lines += [borrowed, ""] if borrowed else [""]
    lines += [f"{c.word}: {c.title}. {c.text}" for c in cautions_of(vehicle)]
    for plug in vehicle.plugs:
        lines += ["", f"Plug {plug.id}, {plug.name}: {plug.location} (housing {plug.housing})"]
        lines += columns(_pin_cells(pin, proofs[pin.path]) for pin in plug.pins)
    lines += _doubts(vehicle, proofs)
    if findings:
        lines += ["", "Findings"]
        lines += [line for finding in findings for line in _finding_lines(finding)]
    note = note_of(
        words for proof in proofs.values() for words in house_words(proof.house, proof.defaults)
    )
    if note:
        lines += ["", f"Grades: {note}"]
    return "\n".join(lines) + "\n"


def _doubts(vehicle: Vehicle, proofs: Mapping[DataPath, PinProof]) -> Iterator[str]:
    """Yield what is disputed, what speaks against a pin, and how disputes ended."""
    for view in dispute_views(vehicle, proofs):
        yield from ("", f"Disputed: {view.place}", *(f"  {line}" for line in dispute_lines(view)))
    for plug in vehicle.plugs:
        yield from _against(plug, proofs)
    yield from _settled(vehicle)


def _finding_lines(finding: Finding) -> Iterator[str]:
    yield f"  {finding.severity.word} {finding.rule_id}: {finding.message}"
    yield from (f"    {line}" for line in finding.drawing)


def _against(plug: Plug, proofs: Mapping[DataPath, PinProof]) -> Iterator[str]:
    """Yield what speaks against a pin without making a dispute of it, and what explains it."""
    for pin in plug.pins:
        proof = proofs[pin.path]
        if proof.attack and not proof.dispute:
            yield from ("", f"Spoken against: {plug.id}.{pin.cavity}")
            yield from (f"  {line}" for line in attack_lines(attack_view(proof.attack)))


def _settled(vehicle: Vehicle) -> Iterator[str]:
    """Yield how disputes ended; what lost stays in the record."""
    for end in vehicle.resolutions:
        outcome = f" So it is: {end.outcome}." if end.outcome else ""
        yield from ("", f"Settled: {end.pin}, by {end.by}, {end.date}: {end.deciding}.{outcome}")
        yield f"  set aside, no longer counted: {', '.join(end.retires)}"


def _pin_cells(pin: Pin, proof: PinProof) -> tuple[str, ...]:
    leg = LEG_SIGNS[pin.leg] if pin.leg else ""
    what = f"{channel_name(pin.channel)} {function_name(pin.function)} {leg}".strip()
    return (pin.cavity, what, wire_words(pin), f"{proof.band} {proof.shown}", proof.why)


def plan_text(plan: Plan, vehicle: Vehicle, converter: Converter, *, private: bool = False) -> str:
    """A plan: what kind and why, then feeds, turn-on, levels, losses and tests."""
    lines = [f"{PLAN_WORDS[plan.kind]}  {vehicle.title}  ×  {converter.name}"]
    lines += [PRIVATE_LINE] if private else []
    lines += [f"purpose: {plan.purpose}   weakest pin used: {plan.grade}"]
    for title, part in _plan_parts(plan, vehicle):
        content = list(part)
        if content:
            lines += ["", title, *content]
    return "\n".join(lines) + "\n"


def _plan_parts(plan: Plan, vehicle: Vehicle) -> Iterator[tuple[str, Iterable[str]]]:
    yield "Why this is not a tap plan", _reasons(plan.refusals)
    yield "What would do instead", _reasons(plan.alternatives)
    yield "Cautions", (f"  {c.word}: {c.title}. {c.text}" for c in cautions_of(vehicle))
    yield from joining_parts(plan)
    yield WHAT_CHANGES, (f"  {loss}" for loss in plan.losses)
    tests = "Read before a joint is made"
    if plan.kind != "tap_plan":
        tests = "Measure first"
    yield tests, (f"  [ ] {_test_words(test)}" for test in plan.tests)
    yield "Because", _reasons(plan.because)


def joining_parts(plan: Plan) -> Iterator[tuple[str, Iterable[str]]]:
    """Yield what is joined, and why it may be: title and lines of feeds, turn-on and levels."""
    yield "Feeds", columns(map(_feed_cells, plan.feeds))
    yield "Insulate", (f"  {end.what}: {end.because}" for end in plan.insulate)
    yield "Turn-on", [f"  {plan.turn_on.because}"]
    yield "Turn-on ladder", columns(map(_rung_cells, plan.ladder))
    yield "Levels", columns(map(_level_cells, plan.levels))


def _feed_cells(feed: Feed) -> tuple[str, ...]:
    return (
        f"input {feed.converter_input} {'+' if feed.leg == 'positive' else '−'}",
        f"plug {feed.plug}  cavity {feed.cavity}",
        feed.wire,
        channel_name(feed.channel),
        TREATMENT_WORDS[feed.treatment] + _pad(feed.pad_ohm_per_leg),
        feed.grade,
    )


def _rung_cells(rung: Rung) -> tuple[str, ...]:
    return str(rung.rung), RUNG_NAMES[rung.kind], rung.verdict, rung.where, rung.because


def _level_cells(level: LevelCheck) -> tuple[str, ...]:
    return (
        channel_name(level.channel),
        f"{shown(level.source_v_rms, 2, beside=level.converter_max_v_rms)} V"
        f"{read_words(level.read_v_rms)}",
        f"margin {margin_words(level)}",
        level.verdict,
    )


def _pad(ohm_per_leg: float | None) -> str:
    return f" behind {ohm_words(ohm_per_leg)}" if ohm_per_leg else ""


def _reasons(reasons: Iterable[Reason]) -> Iterator[str]:
    return (f"  {r.decision}: {r.because} ({r.source})" for r in reasons)


def _test_words(test: ProofReading) -> str:
    place = f"{test.plug}.{test.cavity}" if test.cavity else f"fuse {test.fuse_position}"
    safety = f"  ({test.safety})" if test.safety else ""
    return f"{place} {test.function.replace('_', ' ')}: {test.how}{safety}"
