"""Three messy invented cars, taken in by each way there is, and what each way costs a person.

A car is a folder of `tests/messy`: `notebook.txt` is what a shop has, `facts.txt` what it says of
the car, one a line, and one session for each way at the terminal (`messy_session.py`).

Minutes are by the keystroke-level model of Card, Moran and Newell, "The keystroke-level model for
user performance time with interactive systems", Communications of the ACM 23 (7), 1980, 396-410;
its values are written here from memory: a keystroke of an average typist who is no secretary
0.28 s, pointing 1.10 s, hand between keyboard and pointer 0.40 s, making up one's mind 1.35 s.
Reading at 200 words a minute is our own assumption, a slow reader's pace.
"""

from __future__ import annotations

import re
import shutil
from collections.abc import Iterable, Iterator
from itertools import pairwise
from pathlib import Path
from typing import NamedTuple

import pytest
from messy_facts import facts_of
from messy_session import Done, run_session
from shipped_book import FOLDERS_OF_PARTS, PINOUTS, ROOT

KEY_S, POINT_S, HAND_S, MIND_S = 0.28, 1.10, 0.40, 1.35
WORDS_PER_MIN = 200
FOLDER = ROOT / "tests" / "messy"
CARS = ("pipit", "whin", "fulmar")
WAYS = {
    "interview": "questions at the terminal",
    "table": "a table, imported",
    "by_hand": "a file of answers, by hand",
    "copied": "a copy of the example, by hand",
}
"""The ways at the terminal."""
ON_A_PAGE = "the page on a phone"
"""The way of `tests/browser/test_messy_page.py`."""
MOST_MIN = 10
_COLOURED = re.compile(r"\x1b\[[0-9;]*m")
_FAILS = re.compile(r": (?:stop|fix) [A-Z]{3}[0-9]{3} |^Error: |^--")
_REFUSED = re.compile(r'^  (?:"|--)')


class Cost(NamedTuple):
    """What a way cost: `lost` are facts of the notebook that are not in the book at its end."""

    prompts: int
    keys: int
    marks: int
    taps: int
    thought: int
    findings: int
    words: int
    lost: tuple[str, ...]
    more: tuple[str, ...]

    @property
    def minutes(self) -> float:
        """Minutes by the keystroke-level model; a mark is two points, the hand there and back."""
        by_hand_s = self.keys * KEY_S + self.marks * 2 * (POINT_S + HAND_S) + self.taps * POINT_S
        by_mind_s = (self.thought + self.findings) * MIND_S
        return (by_hand_s + by_mind_s) / 60 + self.words / WORDS_PER_MIN


def sessions() -> list[tuple[str, str]]:
    """Each car with each way that it has a session of."""
    return [(car, way) for car in CARS for way in WAYS if (FOLDER / car / f"{way}.txt").is_file()]


def wanted_facts(car: str) -> frozenset[str]:
    """What the notebook of a car says."""
    return frozenset((FOLDER / car / "facts.txt").read_text("utf-8").splitlines())


def empty_book(folder: Path, pinouts: Path = PINOUTS) -> Path:
    """A book of parts without a car, with the commented example."""
    for kind in FOLDERS_OF_PARTS:
        shutil.copytree(pinouts / kind, folder / kind)
    (folder / "vehicles").mkdir()
    shutil.copy(pinouts / "vehicles" / "TEMPLATE.yaml", folder / "vehicles")
    return folder


def measured(car: str, way: str, book: Path, patch: pytest.MonkeyPatch) -> tuple[Cost, list[Done]]:
    """Do the session of a way in an empty book."""
    done = run_session((FOLDER / car / f"{way}.txt").read_text("utf-8"), book, patch)
    return cost_of(done, wanted_facts(car), facts_of(book, car)), done


def cost_of(done: list[Done], wanted: frozenset[str], got: Iterable[str]) -> Cost:
    """What the parts of a session cost together."""
    found = {line: text for each in done for line, text in _findings(each)}
    words = sum(map(_words, found.values())) + sum(_heard(each) for each in done)
    got = frozenset(got)
    return Cost(
        prompts=sum(
            sum(bool(text) for kind, text in each.heard if kind == "asked") for each in done
        ),
        keys=sum(each.keys for each in done),
        marks=sum(each.marks for each in done),
        taps=0,
        thought=sum(each.thought for each in done),
        findings=len(found),
        words=words,
        lost=tuple(sorted(wanted - got)),
        more=tuple(sorted(got - wanted)),
    )


def _findings(done: Done) -> Iterator[tuple[str, str]]:
    """What fails, each with the line of help under it: what is not yet known is no failure."""
    lines = [*_COLOURED.sub("", done.output).splitlines(), ""]
    for line, after in pairwise(lines):
        if _FAILS.search(line):
            yield line, f"{line} {after}" if after.startswith("  help:") else line
    for line in _refused(done):
        yield line, line


def _refused(done: Done) -> Iterator[str]:
    """Answers that were not taken, so that the same was asked again."""
    asked, said = "", list[str]()
    for kind, text in done.heard:
        if kind == "said":
            said.append(text)
            continue
        if text == asked:
            yield from (line for line in said if _REFUSED.match(line))
        asked, said = text, []


def _heard(done: Done) -> int:
    """The words that were shown before the last question: each is read."""
    last = max((at for at, (kind, _) in enumerate(done.heard) if kind == "asked"), default=0)
    return sum(_words(text) for kind, text in done.heard[:last] if kind == "said")


def _words(text: str) -> int:
    return len(text.split())
