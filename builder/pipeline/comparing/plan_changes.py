"""What differs between two editions of a plan or a work pack: what one would build otherwise."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import replace
from typing import TypeVar

from builder.figures import shown
from builder.model.glossary import ADDON, INTERCEPT, LINE_TAP
from builder.pipeline.comparing.changes import Change
from builder.planning.pack_details import PowerSheet, SupplyRun
from builder.planning.plan import Feed, LevelCheck, Plan, ProofReading, TurnOn
from builder.planning.sheet_rows import SpeakerLead
from builder.planning.words import MAIN_FUSE, RUNG_NAMES
from builder.planning.work_pack import WorkPack
from builder.rendering.pages.wording import PLAN_KINDS

Row = TypeVar("Row")


def plan_changes(old: Plan, new: Plan) -> Iterator[Change]:
    """Yield what changed from one plan to the next."""
    if old.kind != new.kind:
        yield Change("", "kind", _kind(old), _kind(new))
    yield from _rows(_feeds(old), _feeds(new), _feed_words)
    if _turn_on_words(old.turn_on) != _turn_on_words(new.turn_on):
        yield Change("turn-on", "", _turn_on_words(old.turn_on), _turn_on_words(new.turn_on))
    if old.grade != new.grade:
        yield Change("weakest pin used", "", old.grade, new.grade)
    yield from _rows(_levels(old), _levels(new), _level_words)
    yield from _lists("lost", old.losses, new.losses)
    yield from _lists("must be measured", _asked(old), _asked(new))


def pack_changes(old: WorkPack, new: WorkPack) -> Iterator[Change]:
    """Yield what changed from one work pack to the next, the tap plan's changes first."""
    yield from plan_changes(_as_plan(old), _as_plan(new))
    yield from _power(old.power, new.power)
    gains = [{c.speaker: f"{c.set_v_rms:.2f} V" for c in pack.levels} for pack in (old, new)]
    yield from _words("gain of", *gains)
    leads = [{lead.speaker: _lead_words(lead) for lead in p.speaker_leads} for p in (old, new)]
    yield from _words("lead of", *leads)
    cuts = [{c.name: f"{shown(c.cut_m)} m of {c.cable}" for c in p.cut_list} for p in (old, new)]
    yield from _words("cut", *cuts)
    wires = [
        {f"{c.piece} {c.place}": f"{c.wire}, {c.purpose}" for c in pack.conductors}
        for pack in (old, new)
    ]
    yield from _words("", *wires)


def _as_plan(pack: WorkPack) -> Plan:
    # A refused job keeps the plan it was refused on; what counts is what may be built.
    return replace(pack.plan, kind=pack.kind, refusals=pack.refusals)


def _asked(plan: Plan) -> tuple[str, ...]:
    return tuple(f"{_test_place(test)}, {test.how}" for test in plan.tests)


def _test_place(test: ProofReading) -> str:
    return f"{test.plug}.{test.cavity}" if test.plug else test.fuse_position or test.function


def _kind(plan: Plan) -> str:
    why = plan.refusals[0].because if plan.refusals else ""
    return f"{PLAN_KINDS[plan.kind].lower()}{f' ({why})' if why else ''}"


def _feeds(plan: Plan) -> dict[str, Feed]:
    return {f"input {feed.converter_input} {feed.leg}": feed for feed in plan.feeds}


def _feed_words(feed: Feed) -> str:
    how = {"addon": ADDON, "line_tap": LINE_TAP, "intercept": INTERCEPT}[feed.treatment]
    return f"{feed.plug}.{feed.cavity} {feed.wire} ({feed.channel}, {how})"


def _turn_on_words(turn_on: TurnOn) -> str:
    pin = f"{turn_on.plug}.{turn_on.cavity}" if turn_on.plug else ""
    where = pin or turn_on.fuse_position or turn_on.interface or turn_on.pair or ""
    return f"{RUNG_NAMES[turn_on.kind]} {where}".strip()


def _levels(plan: Plan) -> dict[str, LevelCheck]:
    return {f"level of {level.channel}": level for level in plan.levels}


def _level_words(level: LevelCheck) -> str:
    margin = f"{shown(level.converter_margin_db, 1, beside=(0, 3))} dB margin, {level.verdict}"
    return f"{level.source_v_rms:.2f} V, {margin}"


def _power(old: PowerSheet | None, new: PowerSheet | None) -> Iterator[Change]:
    fuses = [
        {MAIN_FUSE: f"{sheet.main_fuse_a:g} A"} if sheet and sheet.main_fuse_a else {}
        for sheet in (old, new)
    ]
    yield from _words("", *fuses)
    runs = [
        {run.name: _run_words(run) for run in sheet.all_runs} if sheet else {}
        for sheet in (old, new)
    ]
    yield from _words("supply", *runs)


def _run_words(run: SupplyRun) -> str:
    fuse = f"fuse {run.fuse_a:g} A, " if run.fuse_a is not None else ""
    return f"{fuse}{run.conductor}, drop {run.cumulative_drop_v:.3f} V"


def _lead_words(lead: SpeakerLead) -> str:
    return f"{lead.conductor}, {lead.length_m:g} m"


def _rows(
    old: Mapping[str, Row], new: Mapping[str, Row], words: Callable[[Row], str]
) -> Iterator[Change]:
    yield from _words(
        "",
        {name: words(row) for name, row in old.items()},
        {name: words(row) for name, row in new.items()},
    )


def _words(what: str, old: Mapping[str, str], new: Mapping[str, str]) -> Iterator[Change]:
    for name in dict.fromkeys([*old, *new]):
        if old.get(name) != new.get(name):
            yield Change(f"{what} {name}".strip(), "", old.get(name), new.get(name))


def _lists(what: str, old: tuple[str, ...], new: tuple[str, ...]) -> Iterator[Change]:
    yield from (Change(what, "", line, None) for line in old if line not in new)
    yield from (Change(what, "", None, line) for line in new if line not in old)
