"""Were two kinds of car measured? Then both sides are right and the scope is to be split."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from typing import NamedTuple

from builder.model.plugs import Session
from builder.model.vehicle import Scope
from builder.model.words import UNKNOWN, Function, Side
from builder.proof.contradictions.explaining import Case, Explanation, readings_at
from builder.proof.grading.item import Item
from builder.proof.identify.naming import identify
from builder.proof.sisters.scopes import reasons_apart


class Split(NamedTuple):
    """A fact that parts the cars of the two sides: in words for each, and what to type."""

    ours: str
    theirs: str
    do: str


def explain_scope(case: Case) -> Explanation:
    """Say whether the two sides measured cars of two kinds, and how to split the scope."""
    if case.claimed():
        who = case.claimed()[0]
        why = f"{who.contributor}'s {who.method} claim does not say which car it is of"
        return Explanation("scope", "cannot be told", why, "ask which years and trims it is of")
    theirs = _sessions(case, case.measured())
    ours = _sessions(case, (item for item in case.ours if item.measured))
    if shared := {one.car_tag for one in ours} & {one.car_tag for one in theirs}:
        why = f"both sides measured one car, {sorted(shared)[0]}"
        return Explanation("scope", "does not fit", why)
    if not (others := _names_a_function(case)):
        why = "what speaks against it fits no other function, so it is no other car's pin either"
        return Explanation("scope", "does not fit", why)
    return _compared(case, ours, theirs, others)


def _sessions(case: Case, items: Iterable[Item]) -> tuple[Session, ...]:
    names = {name for item in items for name in item.sessions}
    return tuple(session for session in case.vehicle.sessions if session.id in names)


def _names_a_function(case: Case) -> tuple[Function, ...]:
    """The functions that all readings against the pin bear out best."""
    shown = [r for item in case.measured() for r in readings_at(case.place, item)]
    found = identify(shown, case.defaults)
    borne_out = found.tie and found.candidates[0].met and not found.candidates[0].contradicted
    return tuple(name for name in found.tie if name != case.place.pin.function) if borne_out else ()


def _compared(
    case: Case, ours: Sequence[Session], theirs: Sequence[Session], others: Sequence[Function]
) -> Explanation:
    record = case.vehicle.scope
    one = _scope_of(ours, record) if ours else record
    other = _scope_of(theirs, record)
    name = " or ".join(others).replace("_", " ")
    split = next(_splits(case, one, other, theirs, name), None)
    if split is not None and reasons_apart(one, other):
        why = f"for it: {split.ours}; against it: {split.theirs}, where it would be {name}"
        return Explanation("scope", "fits", why, split.do)
    if missing := _not_recorded(ours, theirs):
        return Explanation("scope", "cannot be told", missing, "ask, and write it into the visit")
    why = "trim, drive side, build month and year of the cars on both sides lie in one another"
    return Explanation("scope", "does not fit", why)


def _scope_of(sessions: Sequence[Session], record: Scope) -> Scope:
    """The scope that the measured cars span; what one of them leaves open stays as recorded."""
    years = [session.car_year for session in sessions if session.car_year is not None]
    months = [session.car_built for session in sessions if session.car_built]
    trims = [session.car_trim or "unknown" for session in sessions]
    sides: set[Side] = {session.car_drive_side or "both" for session in sessions}
    dated, built = len(years) == len(sessions), len(months) == len(sessions)
    return replace(
        record,
        year_from=min(years) if dated else record.year_from,
        year_to=max(years) if dated else record.year_to,
        build_from=min(months) if built else None,
        build_to=max(months) if built else None,
        trims=tuple(dict.fromkeys(trims)),
        drive_side=sides.pop() if len(sides) == 1 else "both",
    )


def _splits(
    case: Case, one: Scope, other: Scope, theirs: Sequence[Session], name: str
) -> Iterator[Split]:
    """Yield the facts that part two scopes: those a line can name first, then whole records."""
    cavity, moved = case.place.pin.cavity, " and ".join(session.id for session in theirs)
    if "trim" in reasons_apart(one, other):
        ours, others = ", ".join(one.trims), ", ".join(other.trims)
        yield Split(
            f"trim {ours}",
            f"trim {others}",
            f"at cavity {cavity} type only_if: {{trims: [{ours}]}}, and add a second line for it "
            f"with function: {name.replace(' ', '_')}, only_if: {{trims: [{others}]}} and the "
            f"readings of {moved}",
        )
    for ours, others, here, there in _whole_records(one, other):
        yield Split(
            ours,
            others,
            f"in this record type scope: {{{here}}}; copy it to a second record with scope: "
            f"{{{there}}}, move visit {moved} there, and let how_to_tell ask for it",
        )


def _whole_records(one: Scope, other: Scope) -> Iterator[tuple[str, str, str, str]]:
    """Yield (our scope, their scope, what to type here, what to type there)."""
    apart = reasons_apart(one, other)
    if "drive side" in apart:
        ours, others = one.drive_side, other.drive_side
        yield (
            f"drive side {ours}",
            f"drive side {others}",
            f"drive_side: {ours}",
            (f"drive_side: {others}"),
        )
    if "build months" in apart:
        yield _ordered("built", "build", (one.build_from, one.build_to),
                       (other.build_from, other.build_to))  # fmt: skip
    if "model years" in apart:
        yield _ordered("model year", "year", (one.year_from, one.year_to),
                       (other.year_from, other.year_to))  # fmt: skip


def _ordered(
    word: str, key: str, one: tuple[object, object], other: tuple[object, object]
) -> tuple[str, str, str, str]:
    """The earlier cars end, the later ones begin; where between the two nobody knows."""
    ends = (f"{key}_to: {one[1]}", f"{key}_from: {other[0]}")
    if min(one, other, key=str) is other:
        ends = (f"{key}_from: {one[0]}", f"{key}_to: {other[1]}")
    return (f"{word} {_span(one)}", f"{word} {_span(other)}", *ends)


def _span(ends: tuple[object, object]) -> str:
    return str(ends[0]) if ends[0] == ends[1] else f"{ends[0]} to {ends[1]}"


def _not_recorded(ours: Sequence[Session], theirs: Sequence[Session]) -> str:
    """What one of the sessions does not say of its car, or ""."""
    for session in (*ours, *theirs):
        facts = (
            ("trim", session.car_trim),
            ("drive side", session.car_drive_side),
            ("year", session.car_year),
            ("build month", session.car_built),
        )
        open_facts = [word for word, value in facts if value in (None, UNKNOWN)]
        if open_facts:
            return f"visit {session.id} does not say the car's {', '.join(open_facts)}"
    return ""
