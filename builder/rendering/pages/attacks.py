"""What speaks against a pin on a page and in a terminal: every explanation, in order, tried."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from builder.proof.contradictions.explaining import Verdict
from builder.proof.contradictions.spoken_against import Attack, Explanation

MARKS: dict[Verdict, str] = {"fits": "✓", "does not fit": "✗", "cannot be told": "?"}
"""A mark beside each verdict; the verdict stands there in words too."""


class ExplanationView(NamedTuple):
    """One explanation: its title, the verdict in words with a mark, why, and what to do."""

    title: str
    mark: str
    verdict: str
    why: str
    do: str


class AttackView(NamedTuple):
    """The explanations in order, and the first that fits."""

    tried: tuple[ExplanationView, ...]
    first: ExplanationView


def attack_view(attack: Attack) -> AttackView:
    """Return the explanations as phrases."""
    return AttackView(tuple(_view(one) for one in attack.tried), _view(attack.first))


def _view(one: Explanation) -> ExplanationView:
    title = f"{one.title[0].upper()}{one.title[1:]}"
    do = one.do.removesuffix(".") if one.verdict != "does not fit" else ""
    return ExplanationView(title, MARKS[one.verdict], one.verdict, one.why, do)


def attack_lines(view: AttackView) -> Iterator[str]:
    """Yield the explanations as lines for a terminal."""
    yield "Tried in this order:"
    for number, one in enumerate(view.tried, start=1):
        yield f"  {number} {one.mark} {one.title}: {one.verdict}; {one.why}"
    if view.first.do:
        yield f"First to do: {view.first.do}"
