"""A session as somebody types it, in a text: its lines are the keystrokes.

    $ loombook new vehicle     a command; the lines under it answer what it asks
    ~ A 1 fl+ white            such a line is pasted
    > car.csv                  a new file; the lines under it are typed into it
    = car.csv                  changes of a file: "- " what is marked, "+ " what stands there then;
                               "- ..." marks all up to the next "- "; "~ " is a copy of the line
                               above, changed where it differs

A command is the real one, run in this process; what it asked and said is written down.
"""

from __future__ import annotations

import re
import shlex
import shutil
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from difflib import SequenceMatcher
from itertools import pairwise
from pathlib import Path

import click
import pytest
from click.testing import CliRunner

from builder.cli.main import main

HEADS = ("$ ", "> ", "= ")
PASTED = COPIED = "~ "
REST = "- ..."


@dataclass
class Done:
    """One part of a session, what a hand did for it, and what was asked and said in its order.

    `keys` are keystrokes, `marks` texts that were marked with a pointer; `thought` counts the
    things to be made up one's mind about: an answer, a row of a table, a place of a file.
    """

    head: str
    keys: int = 0
    marks: int = 0
    thought: int = 0
    heard: list[tuple[str, str]] = field(default_factory=list)  # ("asked" or "said", text)
    exit_code: int = 0
    output: str = ""
    unread: list[str] = field(default_factory=list)  # lines that nothing asked for

    @property
    def prompts(self) -> int:
        """How often something was asked."""
        return sum(kind == "asked" for kind, _ in self.heard)


def parts_of(text: str) -> Iterator[list[str]]:
    """The parts of a session, each with its head first."""
    found: list[str] = []
    for line in text.splitlines():
        if line.startswith(HEADS) and found:
            yield found
            found = []
        found.append(line)
    if found:
        yield found


def run_session(text: str, book: Path, patch: pytest.MonkeyPatch) -> list[Done]:
    """Do the parts of a session one after another in the folder of a book."""
    patch.chdir(book)
    return [_do(part[0], part[1:], patch) for part in parts_of(text)]


def _do(head: str, lines: Sequence[str], patch: pytest.MonkeyPatch) -> Done:
    kind, rest = head[:1], head[2:]
    if kind == ">":
        return _type_file(head, Path(rest), lines)
    if kind == "=":
        return _change_file(head, Path(rest), lines)
    return _run(head, lines, patch)


# ---- commands -----------------------------------------------------------------------------------
def _run(head: str, lines: Sequence[str], patch: pytest.MonkeyPatch) -> Done:
    done = Done(head, keys=len(head) - 1, thought=1)  # the command and Enter
    words = shlex.split(head[2:])
    if words[0] == "cp":
        Path(words[2]).parent.mkdir(exist_ok=True)
        shutil.copy(words[1], words[2])
        return done
    typed = [line for line in lines if not line.startswith(PASTED)]
    done.keys += sum(len(line) + 1 for line in typed)
    _paste(done, len(lines) - len(typed))
    left = [line.removeprefix(PASTED) for line in lines]
    with patch.context() as now:
        _listen(now, done, left)
        answers = "".join(f"{line}\n" for line in left)
        ended = CliRunner().invoke(main, words[1:], input=answers)
    done.exit_code, done.output = ended.exit_code, ended.output
    done.unread = left[done.prompts :]
    done.thought += min(len(typed), done.prompts)
    return done


def _paste(done: Done, lines: int) -> None:
    """Count what was marked elsewhere, copied and pasted in one piece."""
    if lines:
        done.marks += 1
        done.keys += 2


def _listen(patch: pytest.MonkeyPatch, done: Done, lines: Sequence[str]) -> None:
    """Write down what is asked and said, as it comes."""
    ask, say = click.prompt, click.echo

    def prompt(text: str, *rest: object, **more: object) -> object:
        done.heard.append(("asked", text))
        return ask(text, *rest, **more)

    def echo(message: object = None, *rest: object, **more: object) -> None:
        done.heard += [("said", line) for line in str(message or "").splitlines()]
        say(message, *rest, **more)

    patch.setattr(click, "prompt", prompt)
    patch.setattr(click, "echo", echo)


# ---- files --------------------------------------------------------------------------------------
def _type_file(head: str, place: Path, lines: Sequence[str]) -> Done:
    typed = [line for line in lines if not line.startswith(PASTED)]
    place.parent.mkdir(exist_ok=True)
    place.write_text("".join(f"{line.removeprefix(PASTED)}\n" for line in lines), "utf-8")
    done = Done(head, keys=sum(len(line) + 1 for line in typed), thought=len(typed))
    _paste(done, len(lines) - len(typed))
    return done


def _change_file(head: str, place: Path, lines: Sequence[str]) -> Done:
    done, text, at = Done(head), place.read_text("utf-8"), 0
    for old, new in _changes(lines):
        start, end = _marked(text, old, at)
        whole = "\n".join(line[2:] for line in new)
        text = text[:start] + whole + text[end:]
        _type_over(done, text_of(old), new)
        at = start + len(whole)
    place.write_text(text, "utf-8")
    return done


def _changes(lines: Sequence[str]) -> Iterator[tuple[list[str], list[str]]]:
    """What is marked, and what stands there then; lines of a kind in a row belong together."""
    old, new = list[str](), list[str]()
    for line in [*lines, "- "]:
        if line.startswith("-") and new:
            yield old, new
            old, new = [], []
        (old if line.startswith("-") else new).append(line)


def text_of(lines: Sequence[str]) -> str:
    """Lines of a session as they stand in a file."""
    return "\n".join(line if line == REST else line[2:] for line in lines)


def _marked(text: str, old: Sequence[str], at: int) -> tuple[int, int]:
    """Where a marked text begins and ends, looked for from the last change on."""
    first, _, last = text_of(old).partition(f"\n{REST}\n")
    start = text.index(first, at)
    end = text.index(last, start + len(first)) + len(last) if last else start + len(first)
    return start, end


def _type_over(done: Done, was: str, new: Sequence[str]) -> None:
    """Count a change: lines are typed over what is marked, a copy is changed where it differs."""
    typed = text_of([line for line in new if not line.startswith(COPIED)])
    ahead = _alike(was, typed)
    behind = _alike(was[ahead:][::-1], typed[ahead:][::-1])
    done.keys += max(1, len(typed) - ahead - behind)
    done.marks += 1
    done.thought += len(new)
    for before, line in pairwise(new):
        if line.startswith(COPIED):
            runs = _differing(before[2:], line[2:])
            done.keys += 2 + sum(max(1, run) for run in runs)
            done.marks += len(runs)


def _alike(one: str, other: str) -> int:
    """How many letters two texts begin alike with."""
    pairs = enumerate(zip(one, other, strict=False))
    return next((at for at, (a, b) in pairs if a != b), min(len(one), len(other)))


def _differing(was: str, now: str) -> list[int]:
    """Of each place where a line differs from its copy, how many letters are typed there."""
    codes = SequenceMatcher(None, _words(was), _words(now), autojunk=False).get_opcodes()
    words = _words(now)
    return [len("".join(words[j1:j2])) for tag, _, _, j1, j2 in codes if tag != "equal"]


def _words(line: str) -> list[str]:
    return re.findall(r"[\w.-]+|\W", line)
