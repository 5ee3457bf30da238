"""`loombook comeback`: a car is back; which reading next, and what is wrong."""

from __future__ import annotations

import json
from pathlib import Path

import click

from builder.cli.books import asked_of
from builder.cli.comeback_talk import talk_until_known
from builder.cli.forms import Form
from builder.cli.netlist import PLAN_IS
from builder.cli.old_names import called_now
from builder.cli.refusals import no_answer
from builder.pipeline.answers.answering import NoSuchRecordError
from builder.pipeline.answers.returned import (
    NoCircuitError,
    answered,
    caught_data,
    returned,
    returned_data,
)
from builder.planning.comeback.answered import AnswerError
from builder.planning.comeback.ask import Comeback, Verdict
from builder.planning.comeback.caught import catches
from builder.planning.comeback.words import Symptom
from builder.rendering.comeback_text import (
    caught_text,
    causes_text,
    question_lines,
    symptoms_text,
    verdict_lines,
)


def comeback(
    job: str,
    symptom: Symptom | None,
    answers: tuple[str, ...],
    line: str | None,
    faults: bool,
    book: Path | None,
    form: Form,
) -> None:
    """Print or ask which reading comes next; exit 1 until one thing is left to do."""
    back = _returned(job, book)
    name = back.job.pack.job
    if line is not None:
        _print_causes(back, line)
    elif faults:
        _print_faults(back, form)
    elif symptom is None:
        click.echo(symptoms_text(name, back.by_symptom), nl=False)
    elif answers or form == "json":
        _print_next(back, symptom, answers, form)
    else:
        talk_until_known(back.asking(symptom))


def _print_causes(back: Comeback, line: str) -> None:
    if line not in {test.id for test in back.job.pack.tests}:
        raise click.UsageError(f'no line of the bay sheet of {back.job.pack.job} is "{line}"')
    click.echo(causes_text(line, back.causes.of(line)), nl=False)


def _print_faults(back: Comeback, form: Form) -> None:
    found = catches(back.causes)
    if form == "json":
        data = {"job": back.job.pack.job, "faults": list(map(caught_data, found))}
        click.echo(json.dumps(data, indent=2, ensure_ascii=False))
    else:
        click.echo(caught_text(back.job.pack.job, found), nl=False)


def _print_next(back: Comeback, symptom: Symptom, answers: tuple[str, ...], form: Form) -> None:
    try:
        given = answered(back, answers)
    except AnswerError as error:
        raise click.UsageError(str(error)) from error
    asking = back.asking(symptom)
    told = asking.told(given)
    found = asking.next(told.left, told.standing)
    if form == "json":
        data = returned_data(asking, symptom, found, len(told.left))
        click.echo(json.dumps(data, indent=2, ensure_ascii=False))
    elif isinstance(found, Verdict):
        click.echo("\n".join(verdict_lines(found, asking.again(found))))
    else:
        click.echo("\n".join(question_lines(found, len(told.left))))
    if not isinstance(found, Verdict) or not found.known:
        raise SystemExit(1)


def _returned(job: str, book: Path | None) -> Comeback:
    whole = asked_of(book)
    try:
        return returned(whole, called_now(whole, job, "job"))
    except NoSuchRecordError as error:
        raise no_answer(error) from error
    except NoCircuitError as error:
        pack = error.made.pack
        raise click.ClickException(
            f"nothing of {pack.job} is joined: it comes to {PLAN_IS[pack.kind]}. "
            f"loombook plan {pack.job} says what is missing"
        ) from error
