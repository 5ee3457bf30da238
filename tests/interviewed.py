"""Somebody at the questions of `loombook new`: types what a test says, then what is right."""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path

from four_ways_car import ANSWERS, PINS

from builder.book import open_book
from builder.cli.asking import Terminal
from builder.cli.prompting import Interview, begin_interview
from builder.editing.interview.steps import next_step

_KEYS = (
    *("make", "model", "years", "variant", "bodies", "trims", "drive-side", "radios", "data"),
    *("outputs", "factory-amplifier", "hybrid", "restraint-zones"),
)
RIGHT = {
    **dict(zip(_KEYS, ANSWERS, strict=False)),
    **{"plug 1.letter": "A", "plug 1.cavities": "20", "plug 1.latch": "top", "plug 1.housing": "1"},
    **{"plug 1.colour": "grey", "plug 1.face": "wire_side", "plug 1.where": "behind the radio"},
    **{"plug 2.letter": "", "claims": "none"},
}
LISTS = {"protected-sounds": ("seat-belt chime: front-left front-right",), "pin": PINS}


class Killed(BaseException):
    """The process ends, whatever it was doing."""


class Person(Terminal):
    """Types lines: those of a slip where a question is first asked, then the right ones."""

    def __init__(self, at: str = "", slip: Iterable[str] = (), killed_at: int = -1) -> None:
        super().__init__()
        self.at, self.slip, self.killed_at = at, list(slip), killed_at
        self.talk: Interview | None = None
        self.said: list[str] = []
        self.asked = 0

    def say(self, *lines: str) -> None:
        self.said += lines

    def read(self, prompt: str, default: str | None) -> str:
        self.said.append(prompt)
        assert self.asked < 400, self.said[-5:]
        if prompt.startswith("Number of the draft"):
            return "1"
        if self.asked == self.killed_at:
            raise Killed
        self.asked += 1
        if self.slip and self._is_there():
            self.at = ""
            return self.slip.pop(0)
        return (default or "") if prompt.startswith("  ") else self._right()

    def _step(self):
        assert self.talk is not None
        return next_step(self.talk.kind, self.talk.log, self.talk.given)

    def _is_there(self) -> bool:
        if not self.at:
            return True
        log = self.talk.log
        return self._step().key == self.at and (self.at != "pin" or len(log.lines("pin")) == 3)

    def _right(self) -> str:
        key = self._step().key
        if key not in LISTS:
            return RIGHT[key]
        return self._next_of(key)

    def _next_of(self, key: str) -> str:
        """The first line of a list that is not taken yet, by the place that it is about."""
        places = {tuple(line.split()[:2]) for line in self.talk.log.lines(key)}
        left = [line for line in LISTS[key] if tuple(line.split()[:2]) not in places]
        return left[0] if left else ""


def interview(book: Path, person: Person) -> dict[str, list[str]]:
    """The answers that a person ends with; a draft that is kept is gone on with."""
    talk = begin_interview("vehicle", open_book(book), {}, False, person)
    person.talk = talk
    return talk.answers()
