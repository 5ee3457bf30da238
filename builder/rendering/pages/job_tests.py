"""The bay sheet in phrases: one line a test, its band beside an empty box, phase by phase."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from itertools import groupby

from builder.model.job import Result
from builder.model.names import channel_name, function_name
from builder.model.results import by_test
from builder.planning.bay.ids import numbered
from builder.planning.bay.line import proof_line
from builder.planning.car.open_readings import by_state
from builder.planning.plan import Feed, ProofReading
from builder.planning.sheet_rows import Step
from builder.planning.work_pack import BayTest, WorkPack
from builder.rendering.pages.bay_lines import Group, group_of
from builder.rendering.pages.wording import anchor, plain

PHASES = {
    "before": "Before work begins",
    "build": "While it is built",
    "bench": "Connected, before the trim goes back",
    "close": "Closing up",
}


def bay_groups(pack: WorkPack, results: Sequence[Result]) -> list[Group]:
    """Return the tests of a pack by phase; a plan that is not whole asks for its proofs only."""
    filled = by_test(results)
    tests = pack.tests or reading_tests(pack.plan.tests)
    names, said = _fed_by(pack.plan.feeds), dict[str, int]()
    groups = [
        group_of(PHASES.get(phase, plain(phase)), tuple(mine), filled, names)
        for phase, mine in groupby(tests, key=lambda test: test.phase)
    ]
    return [_with_waits(group, pack.steps, said) for group in groups]


def _with_waits(group: Group, steps: Sequence[Step], said: dict[str, int]) -> Group:
    """Say why a line may not be read yet; `said` has the line that gave each reason in full."""
    why = {test: step.blocked for step in steps if step.blocked for test in step.tests}
    lines = []
    for line in group.lines:
        reason = why.get(line.id, "")
        first = said.setdefault(reason, line.number)
        waits = reason if first == line.number else f"as test {first}" if reason else ""
        lines.append(line._replace(waits=waits))
    return group._replace(lines=tuple(lines))


def proof_groups(readings: Sequence[ProofReading], feeds: Sequence[Feed] = ()) -> list[Group]:
    """Return the proof readings of a tap plan as lines like those of a bay sheet.

    `feeds` tell which channel a pin belongs to.
    """
    if not readings:
        return []
    group = group_of("", reading_tests(readings), {}, _fed_by(feeds))
    lines = tuple(line._replace(anchor=anchor("test", line.id)) for line in group.lines)
    return [group._replace(lines=lines)]


def reading_tests(readings: Sequence[ProofReading]) -> tuple[BayTest, ...]:
    """Return the readings of a plan as lines of a sheet of their own, state by state."""
    return numbered(
        replace(proof_line(reading), what=f"{_place(reading)}: {reading.how}")
        for reading in by_state(readings)
    )


def _fed_by(feeds: Sequence[Feed]) -> dict[tuple[str | None, str | None], str]:
    """Return what each pin that feeds the converter plays: "rear left +"."""
    return {
        (feed.plug, feed.cavity): f"{channel_name(feed.channel)} "
        f"{'+' if feed.leg == 'positive' else '−'}"
        for feed in feeds
    }


def _place(reading: ProofReading) -> str:
    place = f"fuse {reading.fuse_position}" if reading.fuse_position else "the car"
    if reading.plug and reading.cavity:
        place = f"{reading.plug}.{reading.cavity}"
    return f"{place}, {function_name(reading.function)}"
