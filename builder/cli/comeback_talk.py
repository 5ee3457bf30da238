"""The questions of `loombook comeback`: one reading at a time until one thing is left to do."""

from __future__ import annotations

import click

from builder.cli.exit_codes import until_end_of_input
from builder.planning.comeback.answered import AnswerError, read_answer
from builder.planning.comeback.ask import Answer, Asking, Question, Verdict
from builder.planning.work_pack import BayTest
from builder.rendering.comeback_text import NO_SINGLE_FAULT, question_lines, verdict_lines

_START = """Read what is asked and type what the meter shows, or yes or no for what is looked at.
  skip   this one cannot be read        undo   take the last answer back
  done   stop here (or Ctrl-D)"""
_UNDO = "undo"
_DONE = "done"


def talk_until_known(asking: Asking) -> None:
    """Ask until the cause is known, nothing is left to ask, or the end is typed: exit code 1."""
    click.echo(_START)
    given: list[Answer] = []
    with until_end_of_input():
        while True:
            told = asking.told(given)
            found = asking.next(told.left, told.standing)
            if isinstance(found, Verdict) and found.causes:
                _end(asking, found)
                return
            if isinstance(found, Verdict):
                click.echo(f"\n{NO_SINGLE_FAULT}\nThe last answer is taken back.")
                del given[-1:]
                continue
            click.echo("\n".join(("", *question_lines(found, len(told.left)))))
            if not _one_answer(found, given):
                break
    raise SystemExit(1)


def _one_answer(question: Question, given: list[Answer]) -> bool:
    """Take one answer, or one back; False when the end was typed."""
    test = question.reading.test
    while True:
        text: str = click.prompt("  it reads", prompt_suffix=" ")
        word = text.strip().lower()
        if word == _DONE:
            return False
        if word == _UNDO:
            del given[-1:]
            return True
        if _taken(text, test, given):
            return True


def _taken(text: str, test: BayTest, given: list[Answer]) -> bool:
    try:
        given.append((test.id, read_answer(text, test)))
    except AnswerError as error:
        click.echo(f"  {error}")
        return False
    return True


def _end(asking: Asking, verdict: Verdict) -> None:
    click.echo("\n".join(("", *verdict_lines(verdict, asking.again(verdict)))))
    if not verdict.known:
        raise SystemExit(1)
