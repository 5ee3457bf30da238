"""`loombook new`: a record begun from few questions, each of them an option as well."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any

import click

from builder.book import Book, shown_path
from builder.cli.bay_sheets import bay_sheet
from builder.cli.books import book_option, opened_to_write
from builder.cli.importing import table
from builder.cli.prompting import ask_missing
from builder.cli.sentences import now_called
from builder.editing.drafts import DRAFTED_KINDS, AnswerError, Question, questions_of
from builder.model.words import RecordKind
from builder.pipeline.changing.creating import (
    NewRecord,
    answers_from,
    new_record,
    next_steps,
    write_new,
)
from builder.reporting import finding_text


class _NewGroup(click.Group):
    """Kinds of records and tables, by their old names too."""

    def get_command(self, context: click.Context, name: str) -> click.Command | None:
        """Return the command of a name; an old one is told the new one."""
        return super().get_command(context, now_called(name, {"sheet": "table"}, "loombook new"))


@click.group(cls=_NewGroup, short_help="Begin a record, a table or a bay sheet.")
def new() -> None:
    """Begin a record, a table to fill (table), or a bay sheet (bay-sheet).

    A record is a vehicle, converter, amplifier, cable, housing, loom, interface or job.

    Asks only what is not given. Every question is an option of the kind's command, or a key of
    the file named by --answers. Nothing is overwritten. The exit code is 1 when the new record
    has findings that fail the check.

    \b
    loombook new vehicle
    loombook new cable --name "Twin 14" --use speaker_pair --size "14 awg" --jacket black \\
      --pairs "red black" --singles none
    """


def _command(kind: RecordKind) -> click.Command:
    def run(book: Path | None, answers: Path | None, dry_run: bool, **options: Any) -> None:
        _create(kind, opened_to_write(book, dry_run), _given(kind, answers, options), dry_run)

    command = click.command(
        kind,
        short_help=f"Begin a new {kind}.",
        help=f"Begin a new {kind} record from the answers given, and ask for those that are "
        "missing. The file gets the usual name in the usual folder.",
    )(book_option(_answer_options(run)))
    for question in reversed(questions_of(kind)):
        command.params.append(_option(question))
    command.params.sort(key=lambda option: option.name in ("book", "answers", "dry_run"))
    return command


def _answer_options(run: Callable[..., None]) -> Callable[..., None]:
    run = click.option("--dry-run", is_flag=True, help="Print the record instead of writing it.")(
        run
    )
    return click.option(
        "--answers",
        type=click.Path(path_type=Path, exists=True, dir_okay=False),
        metavar="FILE",
        help="YAML file of answers; its keys are the names of these options.",
    )(run)


def _option(question: Question) -> click.Option:
    default = f"  [default: {question.default}]" if question.default else ""
    return click.Option(
        [f"--{question.name}", _variable(question.name)],
        multiple=question.many,
        metavar="TEXT",
        help=question.prompt + default,
    )


def _variable(name: str) -> str:
    return "answer_" + name.replace("-", "_")


def _given(kind: RecordKind, file: Path | None, options: dict[str, Any]) -> dict[str, list[str]]:
    """The answers of the file, and over them those of the options."""
    given = {}
    if file is not None:
        given = _or_wrong_use(lambda: answers_from(file, shown_path(file), kind))
    for question in questions_of(kind):
        value = options[_variable(question.name)]
        if value:
            given[question.name] = list(value) if question.many else [value]
    return given


def _create(kind: RecordKind, book: Book, given: dict[str, list[str]], dry_run: bool) -> None:
    answers = ask_missing(kind, book, given)
    record = _or_wrong_use(lambda: new_record(book, kind, answers))
    if dry_run:
        click.echo(record.text, nl=False)
    else:
        _or_wrong_use(lambda: write_new(record))
    _report(record, dry_run)
    if any(finding.fails_check for finding in record.findings):
        raise SystemExit(1)


def _report(record: NewRecord, dry_run: bool) -> None:
    shown = shown_path(record.path)
    click.echo("" if dry_run else f"{shown} is written", err=dry_run)
    for finding in record.findings:
        click.echo(finding_text(finding), err=dry_run)
    click.echo("next:", err=dry_run)
    for number, step in enumerate(next_steps(record), 1):
        click.echo(f"  {number}. {step}", err=dry_run)


def _or_wrong_use(work: Callable[[], Any]) -> Any:
    try:
        return work()
    except (AnswerError, FileExistsError) as error:
        raise click.UsageError(str(error)) from error


for _kind in DRAFTED_KINDS:
    new.add_command(_command(_kind))
new.add_command(bay_sheet)
new.add_command(table)
