"""A tell-apart question with the answers that each record allows."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Protocol

from builder.model.vehicle import Question, Scope
from builder.model.words import Cost
from builder.proof.signatures.table import COST_WEIGHT

ANY = frozenset({"*"})
"""The answers of a record that a question does not speak of: it may give any."""


class Candidate(Protocol):
    """A record that could be the car; a vehicle and its summary both are."""

    @property
    def id(self) -> str:
        """The record's id."""

    @property
    def scope(self) -> Scope:
        """Its scope."""

    @property
    def how_to_tell(self) -> tuple[Question, ...]:
        """Its tell-apart questions."""


def cheapest_first(questions: Iterable[Question]) -> list[Question]:
    """Return the questions of a record in the order in which they are asked."""
    return sorted(questions, key=lambda question: COST_WEIGHT[question.cost])


@dataclass(frozen=True, slots=True)
class Asked:
    """A question and the answers each record allows; `answers` maps a record id to them."""

    question: str
    cost: Cost
    answers: dict[str, frozenset[str]]

    @property
    def weight(self) -> int:
        """What asking it costs."""
        return COST_WEIGHT[self.cost]

    def parts(self, one: str, other: str) -> bool:
        """Whether the answer always tells these two records apart."""
        mine, theirs = self.answers.get(one, ANY), self.answers.get(other, ANY)
        return ANY not in (mine, theirs) and not mine & theirs

    def allows(self, record: str, answer: str) -> bool:
        """Whether somebody with a car of this record could give the answer."""
        said = self.answers.get(record, ANY)
        return answer in said or said >= ANY

    def words(self) -> list[str]:
        """Every answer that some record gives, sorted."""
        return sorted({word for said in self.answers.values() for word in said} - ANY)

    def remaining(self, ids: Sequence[str]) -> float:
        """Expected number of records left after the answer: Σ n²/N over the answers."""
        return sum(not self.parts(one, other) for one in ids for other in ids) / len(ids)
