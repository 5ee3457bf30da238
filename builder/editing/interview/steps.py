"""What an interview asks next, after the answers so far: the same order for every way through."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import partial
from typing import Any, get_args

from builder.editing.drafts import AnswerError, Question, questions_of, read_one
from builder.editing.drafts.question import read_text
from builder.editing.drafts.vehicle_lines import plug_line
from builder.editing.interview.log import PLUGS, Log
from builder.findings import DataPath
from builder.model.words import UNKNOWN, Edge, Face, RecordKind

PLUG_IDS = "ABCDEFGHJKLMNP"
EDGES: tuple[str, ...] = (*get_args(Edge), UNKNOWN)


@dataclass(frozen=True, slots=True)
class Step:
    """One thing that is asked. `many` takes lines until an empty one; `path` is where it goes."""

    key: str
    prompt: str
    read: Callable[[str], Any]
    default: str | None = None
    many: bool = False
    path: DataPath = ()
    words: tuple[str, ...] = ()


def steps(kind: RecordKind, log: Log, given: Mapping[str, list[str]]) -> Iterator[Step]:
    """Yield what is asked of a kind of record, in its order, as the answers of the log have it.

    A person who gave none is asked every question worth asking, with its default; one who gave
    some is asked only for what has no default.
    """
    for question in questions_of(kind):
        needless = question.default is not None and (bool(given) or not question.asked)
        if question.name in given or needless:
            continue
        if not question.when({**answers_of(kind, log), **given}):
            continue
        if kind == "vehicle" and question.name == PLUGS:
            yield from _plug_steps(log)
        else:
            yield _step(kind, question)


def next_step(kind: RecordKind, log: Log, given: Mapping[str, list[str]]) -> Step | None:
    """The first thing that is not answered yet; None when all is."""
    return next((step for step in steps(kind, log, given) if not _is_done(step, log)), None)


def _is_done(step: Step, log: Log) -> bool:
    return log.is_ended(step.key) if step.many else log.one(step.key) is not None


def _step(kind: RecordKind, question: Question) -> Step:
    read = partial(read_one, kind, question)
    return Step(
        question.name, question.prompt, read, question.default, question.many, question.path
    )


def answers_of(kind: RecordKind, log: Log) -> dict[str, list[str]]:
    """The answers as the options of `new` have them."""
    found: dict[str, list[str]] = {}
    for question in questions_of(kind):
        if kind == "vehicle" and question.name == PLUGS:
            lines = [line for line in map(partial(plug_text, log), plug_numbers(log)) if line]
            found |= {"plug": lines} if lines else {}
        elif question.many and (log.lines(question.name) or log.is_ended(question.name)):
            found[question.name] = log.lines(question.name)
        elif not question.many and (said := log.one(question.name)) is not None:
            found[question.name] = [said]
    return found


# ---- plugs: a few short answers each ----------------------------------------------------------
def plug_numbers(log: Log) -> range:
    """The numbers of the plugs that were begun, from 1."""
    letters = sum(1 for e in log.entries if e.key.endswith(".letter") and e.text)
    return range(1, letters + 1)


def plug_letters(log: Log) -> list[str]:
    """The letters of the plugs so far."""
    return [log.one(f"plug {n}.letter") or "" for n in plug_numbers(log)]


def plug_counts(log: Log) -> dict[str, int]:
    """How many cavities each plug was counted to have, by its letter."""
    said = (
        (log.one(f"plug {n}.{key}") for key in ("letter", "cavities")) for n in plug_numbers(log)
    )
    return {letter: int(count) for letter, count in said if letter and count}


def plug_text(log: Log, number: int) -> str:
    """The line of a plug as an option takes it; "" while an answer is missing."""
    keys = ("letter", "housing", "colour", "face", "where")
    parts = [log.one(f"plug {number}.{key}") for key in keys]
    if None in parts:
        return ""
    letter, housing, colour, face, where = (part or "" for part in parts)
    return f"{letter} {housing} {colour.replace(' ', '_')} {face.replace(' ', '_')} {where}"


def _plug_steps(log: Log) -> Iterator[Step]:
    for number in range(1, len(PLUG_IDS) + 1):
        letter = _letter_step(log, number)
        yield letter
        if not log.one(letter.key):
            return
        yield from _of_plug(number)


def _letter_step(log: Log, number: int) -> Step:
    if number == 1:
        return Step("plug 1.letter", "Plug's letter", partial(_letter, []), PLUG_IDS[0])
    prompt = "Plug's letter (an empty line ends the plugs)"
    others = plug_letters(log)[: number - 1]
    return Step(f"plug {number}.letter", prompt, partial(_letter, others), "")


def _letter(others: Sequence[str], text: str) -> str:
    letter = text.strip().upper()
    if letter in others:
        raise AnswerError(f"plug {letter} is described already: type another letter")
    if letter:
        read_text("vehicle", ("plugs", 0, "id"), letter)
    return letter


def _of_plug(number: int) -> Iterator[Step]:
    key, place = f"plug {number}.", ("plugs", 0)
    yield Step(f"{key}cavities", "How many cavities has it", _count)
    yield Step(f"{key}latch", "Where is its latch", partial(_one_of, EDGES), UNKNOWN, words=EDGES)
    yield Step(
        f"{key}housing", "Number of the one that fits, the id of a new housing, or unknown",
        partial(_of_line, 1), UNKNOWN, path=(*place, "housing"),
    )  # fmt: skip
    yield Step(
        f"{key}colour", "Colour of its housing", partial(_of_line, 2),
        path=(*place, "shell_colours", 0),
    )  # fmt: skip
    yield Step(
        f"{key}face", "The face you counted on", partial(_of_line, 3),
        path=(*place, "read_from"), words=get_args(Face),
    )  # fmt: skip
    yield Step(
        f"{key}where", "Where it is", partial(_of_line, 4), "behind the radio",
        path=(*place, "location"),
    )  # fmt: skip


def _count(text: str) -> int:
    if not text.strip().isdigit() or not 0 < int(text) < 200:
        raise AnswerError(f'"{text.strip()}" is no number of cavities: count them')
    return int(text)


def _one_of(words: Sequence[str], text: str) -> str:
    word = text.strip().lower()
    if word not in words:
        raise AnswerError(f'"{text.strip()}" is none of: {", ".join(words)}')
    return word


_SAMPLE = ("A", "1", "unknown", "unknown", "behind the radio")


def _of_line(at: int, text: str) -> str:
    """One answer of a plug, as the line of a plug reads it."""
    if not text.strip():
        raise AnswerError("an answer is needed here; ? says more")
    words = list(_SAMPLE)
    words[1], words[at] = "two-row-20-latch-top", text.strip().replace(" ", "_" if at != 4 else " ")
    plug_line(" ".join(words))
    return text.strip()
