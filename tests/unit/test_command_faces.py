"""What can be typed is the same at every command."""

from __future__ import annotations

from collections.abc import Iterator

import click
from shipped_book import PINOUTS, loombook

from builder.cli import main
from builder.editing.drafts import DRAFTED_KINDS

WITHOUT_A_BOOK = {"completion", "sound track", "sound read"}


def commands(group: click.Group = main, before: str = "") -> Iterator[tuple[str, click.Command]]:
    for name, command in group.commands.items():
        if isinstance(command, click.Group):
            yield from commands(command, f"{before}{name} ")
        elif f"{before}{name}" not in WITHOUT_A_BOOK:
            yield f"{before}{name}", command


def test_every_command_takes_its_book_by_the_same_two_names() -> None:
    for name, command in commands():
        params = command.get_params(click.Context(command))
        assert [p for p in params if {"--book", "-b"} <= set(p.opts)], name


def test_new_makes_every_kind_that_can_be_drafted() -> None:
    made = {name.removeprefix("new ") for name, _ in commands() if name.startswith("new ")}
    assert made == {*DRAFTED_KINDS, "bay-sheet", "contributors", "table"}


def test_a_book_is_named_once() -> None:
    for name in ("check", "build", "serve", "next"):
        done = loombook(name, PINOUTS, "--book", PINOUTS)
        assert done.exit_code == 2 and "name the book once" in done.output, name


def test_a_whole_book_is_named_either_way() -> None:
    assert loombook("next", PINOUTS).output == loombook("next", "-b", PINOUTS).output
