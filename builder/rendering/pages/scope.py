"""Which cars a record holds for, which it does not, and for which nobody knows."""

from __future__ import annotations

from collections.abc import Set
from typing import NamedTuple

from builder.model.names import COST_WORDS
from builder.model.vehicle import Scope, Vehicle
from builder.model.words import ALL, THIS, UNKNOWN, Side
from builder.proof.sisters.questions import cheapest_first


class SisterAnswer(NamedTuple):
    """An answer to a tell-apart question. `vehicle_id` is None when it means this record."""

    answer: str
    vehicle_id: str | None
    known: bool


class TellApart(NamedTuple):
    """A question that tells sister records apart, with what asking it costs."""

    question: str
    cost: str
    answers: tuple[SisterAnswer, ...]


class Holds(NamedTuple):
    """The three columns, each a tuple of phrases."""

    holds: tuple[str, ...]
    holds_not: tuple[str, ...]
    not_known: tuple[str, ...]


_SIDES: dict[Side, str] = {
    "left": "driver on the left",
    "right": "driver on the right",
    "both": "either driver side",
}
_OTHER: dict[Side, Side] = {"left": "right", "right": "left"}


def holds_for(vehicle: Vehicle) -> Holds:
    """Return the three columns of a vehicle's scope."""
    scope = vehicle.scope
    return Holds(tuple(_holds(scope)), tuple(_holds_not(vehicle)), tuple(_not_known(vehicle)))


def tell_apart(vehicle: Vehicle, vehicle_ids: Set[str]) -> tuple[TellApart, ...]:
    """Return the questions of a vehicle, cheapest first."""
    return tuple(
        TellApart(
            question.question,
            COST_WORDS[question.cost],
            tuple(
                SisterAnswer(
                    answer.answer,
                    None if answer.means == THIS else answer.means,
                    answer.means in vehicle_ids,
                )
                for answer in question.answers
            ),
        )
        for question in cheapest_first(vehicle.how_to_tell)
    )


def _years(first: int, last: int) -> str:
    return str(first) if first == last else f"{first}–{last}"


def _holds(scope: Scope) -> list[str]:
    built = [
        f"built from {scope.build_from}" if scope.build_from else "",
        f"built until {scope.build_to}" if scope.build_to else "",
    ]
    lines = [
        f"model years {_years(scope.year_from, scope.year_to)}",
        *built,
        _words("body", scope.bodies),
        _words("trim", scope.trims),
        _words("market", scope.markets),
        _SIDES[scope.drive_side],
        _words("radio", scope.radios),
        f"with option {' or '.join(scope.options_any)}" if scope.options_any else "",
    ]
    return [line for line in lines if line]


def _words(what: str, words: tuple[str, ...]) -> str:
    if words == (UNKNOWN,) or not words:
        return ""
    return f"every {what}" if words == (ALL,) else f"{what} {', '.join(words)}"


def _holds_not(vehicle: Vehicle) -> list[str]:
    scope = vehicle.scope
    lines = [f"cars with option {code}" for code in scope.options_none]
    if scope.options_any:
        lines.append(f"cars without any of: {', '.join(scope.options_any)}")
    lines += [
        f"cars where “{question.question}” is answered “{answer.answer}”"
        for question in vehicle.how_to_tell
        for answer in question.answers
        if answer.means != THIS
    ]
    return lines


def _not_known(vehicle: Vehicle) -> list[str]:
    scope = vehicle.scope
    lines = [f"model years before {scope.year_from} and after {scope.year_to}"]
    lines += [
        f"{what} not named here"
        for what, words in (
            ("bodies", scope.bodies),
            ("trims", scope.trims),
            ("markets", scope.markets),
        )
        if words != (ALL,)
    ]
    if scope.radios == (UNKNOWN,):
        lines.append("which radios: nobody looked")
    elif scope.radios != (ALL,):
        lines.append("radios not named here")
    if scope.drive_side in _OTHER:
        lines.append(_SIDES[_OTHER[scope.drive_side]])
    return lines + _beyond_measured(vehicle)


def _beyond_measured(vehicle: Vehicle) -> list[str]:
    """Claimed years more than one away from any measured car: claimed, but nobody knows."""
    years = {s.car_year for s in vehicle.sessions if s.car_year is not None}
    if not years:
        return ["any year by measurement: no car's year is recorded with a reading"]
    first, last = min(years) - 1, max(years) + 1
    lines = []
    if vehicle.scope.year_from < first:
        lines.append(f"{_years(vehicle.scope.year_from, first - 1)} by measurement: claimed only")
    if vehicle.scope.year_to > last:
        lines.append(f"{_years(last + 1, vehicle.scope.year_to)} by measurement: claimed only")
    return lines
