"""What `plan` and `show` print of a job: its sheets, and how far it is."""

from __future__ import annotations

import json

import click

from builder.book import Book
from builder.cli.forms import Form
from builder.pipeline.answers.packs import MadePack, packed
from builder.pipeline.answers.returned import comeback_of
from builder.planning.comeback.ask import Asking, Comeback, Question
from builder.planning.comeback.failed_lines import first_found, may_be_taken
from builder.planning.job.pack_json import pack_as_json
from builder.planning.plan_json import as_json
from builder.planning.work_pack import BayTest
from builder.rendering.comeback_text import causes_text, question_lines
from builder.rendering.job_state_text import job_state_text, standing_lines
from builder.rendering.pack_text import pack_text


def job_text(made: MadePack) -> str:
    """Return the sheets of a job as text, how far it is before them."""
    return pack_text(
        made.pack, made.parts, made.findings, private=made.private, standing=made.standing
    )


def is_job(book: Book, name: str) -> bool:
    """Whether a name is the id of a job of the book."""
    return any(file.name == ("job", name) for file in book.files())


def print_job(book: Book, name: str, form: Form, as_begun: bool) -> None:
    """Print how far a job is: what failed and why, what is joined, and the way back.

    With `as_begun` it is the whole pack that the job was begun with.

    Raises:
        NoSuchRecordError: the job names something that is not there.
    """
    made = packed(book, name)
    if as_begun:
        _print_as_begun(made, form)
    elif form == "json":
        data = {"job": name, "standing": as_json(made.standing), "revert": list(made.pack.revert)}
        click.echo(json.dumps(data, indent=2, ensure_ascii=False))
    else:
        text = job_state_text(made.parts.job, made.pack, made.standing, _causes(made))
        click.echo(text, nl=False)


def _print_as_begun(made: MadePack, form: Form) -> None:
    standing, job = made.standing, made.parts.job.id
    if not standing.begun:
        raise click.UsageError(f"nobody has begun {job}: loombook plan {job} prints its pack")
    if form == "json":
        click.echo(json.dumps(pack_as_json(made.planned), indent=2, ensure_ascii=False))
        return
    click.echo("\n".join(standing_lines(standing, job)))
    click.echo(f"what follows is the pack as of {standing.begun}: to be read, not worked from\n")
    text = pack_text(made.planned, made.parts, made.findings, private=made.private)
    click.echo(text, nl=False)


def _causes(made: MadePack) -> str:
    """The likely causes of each line that failed, and the reading that tells them apart."""
    if not made.standing.failed or made.planned.circuit is None:
        return ""
    back, at_work = comeback_of(made), bool(made.standing.left)
    lines = (test for test in made.planned.tests if test.id in made.standing.failed)
    return "".join(_cause(back, test, at_work=at_work) for test in lines)


def _cause(back: Comeback, line: BayTest, *, at_work: bool) -> str:
    """While lines are open the car is not whole: nothing is asked that is ahead of the work."""
    faults = first_found(back, line) if at_work else back.causes.of(line.id)
    said = causes_text(line.id, faults)
    if not faults:
        return said
    asking = Asking(back, faults, may_be_taken(back, line) if at_work else back.readings)
    told = asking.told(())
    found = asking.next(told.left, told.standing)
    if not isinstance(found, Question):
        return said
    return said + "\n".join(question_lines(found, len(told.left))) + "\n"
