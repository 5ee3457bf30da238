"""Keeping the last answer for the last subject, so that many rules share one piece of work."""

from __future__ import annotations

from collections.abc import Callable
from typing import Generic, TypeVar

Subject = TypeVar("Subject")
Answer = TypeVar("Answer")


class LastAnswer(Generic[Subject, Answer]):
    """Works `answer` out for a subject and keeps it until another subject comes.

    A vehicle goes through the whole catalogue before the next one, so one answer is enough.
    Subjects are told apart by identity, which is quick and, as they never change, safe.
    """

    def __init__(self, answer: Callable[[Subject], Answer]) -> None:
        self._answer = answer
        self._last: tuple[Subject, Answer] | None = None

    def __call__(self, subject: Subject) -> Answer:
        """The answer for this subject."""
        last = self._last
        if last is None or last[0] is not subject:
            last = self._last = (subject, self._answer(subject))
        return last[1]
