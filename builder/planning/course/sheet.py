"""A course on paper: its steps numbered, and the bay sheet's lines in the same order."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import NamedTuple

from builder.model.names import STATE_NAMES
from builder.planning.bay.ids import numbered
from builder.planning.course.batteries import STILL_OUT
from builder.planning.course.car_states import BATTERY, CABLES, KEY, MAIN_FUSE, PLAY, RADIO
from builder.planning.course.model import Act, Change, Course, Move, Problem, Rank, State, done_by
from builder.planning.course.running import live_under, running_gate, seats_of
from builder.planning.sheet_rows import Stands, Step
from builder.planning.words import Phase, TestState
from builder.planning.work_pack import BayTest

_OUTSIDE: tuple[Rank, ...] = ("panel", "plug")
"""What comes off, and goes home, in one step where it follows one after the other."""
_SHOWN = (BATTERY, MAIN_FUSE, RADIO, KEY, PLAY)


@dataclass(frozen=True, slots=True)
class CourseSheet:
    """The steps and the lines of one course, and what cannot be done in any state."""

    steps: tuple[Step, ...]
    tests: tuple[BayTest, ...]


def course_sheet(course: Course, problem: Problem, tests: Sequence[BayTest]) -> CourseSheet:
    """Return steps and lines in the one order of a course."""
    by_id = {test.id: test for test in tests}
    read = [id for move in course.moves if isinstance(move, Act) for id in move.tests]
    lines = numbered(by_id[id] for id in read)
    numbers = {id: line.number for id, line in zip(read, lines, strict=True)}
    ids = {id: line.id for id, line in zip(read, lines, strict=True)}
    states = {id: by_id[id].state for id in read}
    steps = _steps(course.moves, problem.begins, _Lines(numbers, ids, states))
    return CourseSheet(tuple(replace(step, number=at) for at, step in enumerate(steps, 1)), lines)


class _Lines(NamedTuple):
    """The lines of the sheet by what acts call them: number, printed id, state."""

    numbers: Mapping[str, int]
    ids: Mapping[str, str]
    states: Mapping[str, TestState]

    def take(self, tests: Sequence[str]) -> str:
        """What is taken, and how the car stands in it: "take tests 4 to 5 (asleep)"."""
        stand = dict.fromkeys(self.states[id] for id in tests)
        said = "; ".join(STATE_NAMES[each] for each in stand if each != "step")
        spans = _spans(sorted(self.numbers[id] for id in tests))
        return f"take {spans} ({said})" if said else f"take {spans}"


def _steps(moves: Sequence[Move], begins: State, sheet: _Lines) -> list[Step]:
    """Each move as a step; turns of the key are said in the step of the reading that asks for
    them, and readings one after the other in one state are one step."""
    steps, state, turned, at = list[Step](), begins, list[Change](), 0
    changes = [move for move in moves if isinstance(move, Change)]
    seats, covers = seats_of(changes), live_under(changes)
    for group in grouped([*_without_holder(moves)]):
        phase = _phase_of(moves[at:])
        at += len(group)
        for move in group:
            state = done_by(state, move)
        if isinstance(group[0], Change) and group[0].rank == "key":
            turned += [move for move in group if isinstance(move, Change)]
            continue
        gate = running_gate(turned, state, seats, covers)
        if gate and steps:  # what has to be true first stands before it
            steps[-1] = _gated(steps[-1], gate)
        steps.append(_step(turned, group, phase, state, sheet))
        turned = []
    if turned:
        steps.append(_step(turned, [], "close", state, sheet))
    return steps


def _without_holder(moves: Sequence[Move]) -> Iterator[Move]:
    """Nothing is said of the main fuse while no cable of the job lies: it has no holder yet."""
    laid = not any(CABLES in move.does for move in moves if isinstance(move, Act))
    for move in moves:
        if isinstance(move, Act):
            laid = laid or CABLES in move.does
        elif not laid:
            said = replace(move.said, text=move.said.text.removeprefix(STILL_OUT))
            yield replace(move, said=said)
            continue
        yield move


def _gated(step: Step, gate: str) -> Step:
    """A step with one more thing that must be true first."""
    return replace(step, gate="; ".join(each for each in (step.gate, gate) if each))


def grouped(moves: Sequence[Move]) -> Iterator[list[Move]]:
    """Yield moves that make one step: readings that follow each other, turns of the key."""
    group: list[Move] = []
    for move in moves:
        if group and not _goes_with(group[-1], move):
            yield group
            group = []
        group.append(move)
    if group:
        yield group


def _goes_with(one: Move, other: Move) -> bool:
    if isinstance(one, Act) and isinstance(other, Act):
        same = (one.phase, one.said.gate) == (other.phase, other.said.gate)
        return bool(one.tests) and bool(other.tests) and same
    if isinstance(one, Act) or isinstance(other, Act):
        return False
    if one.rank in _OUTSIDE and other.rank in _OUTSIDE:
        return one.to == other.to and not (one.said.gate or other.said.gate)
    return one.rank == "key" == other.rank


def _phase_of(moves: Sequence[Move]) -> Phase:
    """The part of the work that moves begin in: a change is of the act that it is made for."""
    return next((each.phase for each in moves if isinstance(each, Act)), "close")


def _step(
    turned: Sequence[Change],
    group: Sequence[Move],
    phase: Phase,
    state: State,
    sheet: _Lines,
) -> Step:
    acts = [move for move in group if isinstance(move, Act)]
    changes = [*turned, *(move for move in group if isinstance(move, Change))]
    tests = [id for act in acts for id in act.tests]
    said = (group[0] if group else turned[0]).said
    texts = [change.said.text for change in turned]
    if tests:
        texts += dict.fromkeys(act.said.text for act in acts if act.said.text)
        texts.append(sheet.take(tests))
    elif group:
        texts += [move.said.text for move in group]
    mind, lines = said_of(group or turned[:1])
    return Step(
        0, phase, said.gate, said.blocked, mind, lines,
        tuple(id for act in acts for id in act.makes),
        "; ".join(texts),
        tuple(id for act in acts for id in act.sets),
        tests=tuple(sheet.ids[id] for id in tests),
        moves=(
            *(Stands(each.what, each.to) for each in changes),
            *(Stands(what, value) for act in acts for what, value in act.does.items()),
        ),
        stands=tuple(Stands(what, state[what]) for what in _SHOWN if what in state),
        takes_min=sum(each.minutes for each in (*turned, *group)),
    )  # fmt: skip


def said_of(group: Sequence[Move]) -> tuple[str, tuple[str, ...]]:
    """Return what to mind in a step, and its lines; of several things each says of which."""
    told = [move for move in group if move.said.lines or move.said.caution]
    if len(group) == 1 or not all(isinstance(move, Change) for move in group):
        return group[0].said.caution, group[0].said.lines
    name = {id(move): move.what for move in group if isinstance(move, Change)}
    mind = "; ".join(f"{name[id(x)]}: {x.said.caution}" for x in told if x.said.caution)
    return mind, tuple(f"{name[id(x)]}: {line}" for x in told for line in x.said.lines)


def _spans(numbers: Sequence[int]) -> str:
    """Lines of the sheet by their running number, in short: "tests 1 to 4, 7"."""
    runs: list[list[int]] = []
    for number in numbers:
        if runs and number == runs[-1][-1] + 1:
            runs[-1].append(number)
        else:
            runs.append([number])
    spans = (f"{run[0]} to {run[-1]}" if len(run) > 1 else f"{run[0]}" for run in runs)
    return f"{'test' if len(numbers) == 1 else 'tests'} {', '.join(spans)}"
