"""Tell-apart questions that the scopes of records answer by themselves."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence

from builder.model.vehicle import Scope
from builder.proof.sisters.questions import ANY, Asked, Candidate
from builder.proof.sisters.scopes import disjoint

_NEVER = "9999-13"


def scope_questions(candidates: Sequence[Candidate]) -> Iterator[Asked]:
    """Questions that the scopes themselves answer."""
    yield Asked("Which model year is it?", "look", _each(candidates, _years))
    yield Asked("In which month was it built?", "look", _months(candidates))
    yield Asked("On which side is the steering wheel?", "look", _each(candidates, _side))
    yield Asked("Which body has it?", "look", _each(candidates, lambda scope: _list(scope.bodies)))
    yield Asked(
        "For which market was it made?", "look", _each(candidates, lambda s: _list(s.markets))
    )
    yield Asked(
        "What is printed on the radio?", "radio", _each(candidates, lambda s: _list(s.radios))
    )


def name_questions(candidates: Sequence[Candidate]) -> list[Asked]:
    """Questions about trims and options: names, which the car in front of you may not show."""
    trims = _each(candidates, lambda scope: _list(scope.trims))
    return [Asked("Which trim is it?", "look", trims), *_option_questions(candidates)]


def _each(
    candidates: Sequence[Candidate], answers: Callable[[Scope], frozenset[str]]
) -> dict[str, frozenset[str]]:
    return {candidate.id: answers(candidate.scope) for candidate in candidates}


def _years(scope: Scope) -> frozenset[str]:
    return frozenset(str(year) for year in range(scope.year_from, scope.year_to + 1))


def _side(scope: Scope) -> frozenset[str]:
    return ANY if scope.drive_side == "both" else frozenset({scope.drive_side})


def _list(words: tuple[str, ...]) -> frozenset[str]:
    return ANY if not disjoint(words, ("",)) else frozenset(words)


def _months(candidates: Sequence[Candidate]) -> dict[str, frozenset[str]]:
    """Cut the months where a scope begins or ends, so that ranges can be compared.

    The answers are the stretches between the cuts, in words.
    """
    scopes = [candidate.scope for candidate in candidates]
    cuts = {_next_month(scope.build_to) for scope in scopes if scope.build_to}
    starts = ["", *sorted(cuts | {scope.build_from for scope in scopes if scope.build_from})]
    stretches = list(zip(starts, [*starts[1:], ""], strict=True))
    return {one.id: _built_in(one.scope, stretches) or ANY for one in candidates}


def _built_in(scope: Scope, stretches: Sequence[tuple[str, str]]) -> frozenset[str]:
    """The stretches of months in which the cars of a scope were built."""
    if not scope.build_from and not scope.build_to:
        return ANY
    first = scope.build_from or ""
    end = _next_month(scope.build_to) if scope.build_to else _NEVER
    return frozenset(
        _stretch_words(start, stop)
        for start, stop in stretches
        if first <= start < end and (stop or _NEVER) <= end
    )


def _stretch_words(start: str, stop: str) -> str:
    """The months from `start` to the one before `stop`; "" is no limit."""
    if not stop:
        return f"{start} or later"
    last = _previous_month(stop)
    if not start:
        return f"{last} or earlier"
    return start if start == last else f"{start} to {last}"


def _next_month(month: str) -> str:
    year, number = int(month[:4]), int(month[5:])
    return f"{year + number // 12:04}-{number % 12 + 1:02}"


def _previous_month(month: str) -> str:
    year, number = int(month[:4]), int(month[5:])
    return f"{year:04}-{number - 1:02}" if number > 1 else f"{year - 1:04}-12"


def _option_questions(candidates: Sequence[Candidate]) -> Iterator[Asked]:
    options = {o for c in candidates for o in (*c.scope.options_any, *c.scope.options_none)}
    for option in sorted(options):
        yield Asked(f"Has it the option {option}?", "look", _each(candidates, _has(option)))


def _has(option: str) -> Callable[[Scope], frozenset[str]]:
    def answers(scope: Scope) -> frozenset[str]:
        if scope.options_any == (option,):
            return frozenset({"yes"})
        return frozenset({"no"}) if option in scope.options_none else ANY

    return answers
