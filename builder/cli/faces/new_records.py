"""What can be asked of `new KIND`: every question that its record answers is an option."""

from __future__ import annotations

from collections.abc import Iterable
from functools import cached_property
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from builder.cli.faces.options import book_option
from builder.model.words import RecordKind

if TYPE_CHECKING:
    from builder.editing.drafts import Question


class NewRecordCommand(click.Command):
    """`new KIND`. Its questions are loaded when an option is asked for, not to list the kinds."""

    def __init__(self, kind: RecordKind) -> None:
        """Make the command of a kind of record."""
        super().__init__(
            kind,
            short_help=f"Begin a new {kind}.",
            help=f"Begin a new {kind} record from the answers given, and ask for those that are "
            "missing. The file gets the usual name in the usual folder.",
            callback=self._run,
        )
        self._kind = kind

    def get_params(self, context: click.Context) -> list[click.Parameter]:
        """Return the options: one for each question, then those of every kind."""
        self.params = self._options
        return super().get_params(context)

    @cached_property
    def _options(self) -> list[click.Parameter]:
        return [*map(_option, self._questions), *_of_every_kind.params]

    @cached_property
    def _questions(self) -> tuple[Question, ...]:
        from builder.editing.drafts import questions_of

        return questions_of(self._kind)

    def _run(self, book: Path | None, answers: Path | None, dry_run: bool, **given: Any) -> None:
        from builder.cli.creating import begin_record

        begin_record(self._kind, book, answers, dry_run, _typed(self._questions, given))


def _typed(questions: Iterable[Question], given: dict[str, Any]) -> dict[str, list[str]]:
    """The answers of the options that were given, by the name of their question."""
    said = {question: given[_variable(question.name)] for question in questions}
    return {q.name: _lines(value) if q.many else [value] for q, value in said.items() if value}


def _lines(given: Iterable[str]) -> list[str]:
    """Each line of an option that is given once a line, or with several lines at once."""
    return [line for text in given for line in text.splitlines() if line.strip()]


@click.command()
@click.option(
    "--answers",
    type=click.Path(path_type=Path, exists=True, dir_okay=False),
    metavar="FILE",
    help="YAML file of answers; its keys are the names of these options.",
)
@click.option("--dry-run", is_flag=True, help="Print the record instead of writing it.")
@book_option
def _of_every_kind() -> None:
    """Carry the options that are no question."""


def _option(question: Question) -> click.Option:
    default = f"  [default: {question.default}]" if question.default else ""
    again = "; given again for each" if question.many else ""
    return click.Option(
        [f"--{question.name}", _variable(question.name)],
        multiple=question.many,
        metavar="TEXT",
        help=question.prompt + again + default,
    )


def _variable(name: str) -> str:
    return "answer_" + name.replace("-", "_")
