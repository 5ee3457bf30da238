"""Lines typed at a terminal in an interview: read one by one, and words that mean a command."""

from __future__ import annotations

from collections import deque
from collections.abc import Sequence
from typing import Literal, NamedTuple

import click

Command = Literal["?", "back", "undo", "list", "paste", "stop", "photo"]
_ALONE: dict[str, Command] = {
    **{"?": "?", "back": "back", "undo": "undo", "list": "list", "paste": "paste", "stop": "stop"}
}
_PHOTO = "photo "
END_OF_PASTE = "."


class Typed(NamedTuple):
    """One line; a command when it is one, with what stands behind it."""

    text: str
    command: Command | None = None


class Terminal:
    """Asks on standard error. Lines that were typed ahead of a question are kept for theirs."""

    def __init__(self) -> None:
        """Begin with nothing typed ahead."""
        self._ahead: deque[str] = deque()

    def say(self, *lines: str) -> None:
        """Show lines."""
        for line in lines:
            click.echo(line, err=True)

    def ask(self, prompt: str, default: str | None) -> Typed:
        """Return the next line; a command is one only when nothing else is on the line."""
        text = self.line(prompt, default)
        plain = text.strip()
        if plain.lower() in _ALONE:
            return Typed("", _ALONE[plain.lower()])
        if plain.lower().startswith(_PHOTO):
            return Typed(plain[len(_PHOTO) :].strip(), "photo")
        if len(plain) > 1 and plain[0] == plain[-1] == '"':
            return Typed(plain[1:-1])
        return Typed(text)

    def line(self, prompt: str, default: str | None) -> str:
        """Return one line as it was typed; one typed ahead of its question comes first."""
        return self._ahead.popleft() if self._ahead else self.read(prompt, default)

    def read(self, prompt: str, default: str | None) -> str:
        """Return the next line of the keyboard, whatever was typed ahead."""
        text: str = click.prompt(prompt, default=default, show_default=bool(default), err=True)
        return text

    def later(self, text: str) -> None:
        """Keep a line for the next question."""
        self._ahead.append(text)

    def pasted(self) -> str:
        """Return the lines up to one that is a single dot."""
        self.say("paste the lines; a line with a single dot ends them")
        lines: list[str] = []
        while (line := self.line("", "")).strip() != END_OF_PASTE:
            lines.append(line)
        return "\n".join(lines)

    def choose(self, question: str, choices: Sequence[str]) -> str | None:
        """Return one of several words, by its number or itself; None for an empty line."""
        numbered = ", ".join(f"{n} {choice}" for n, choice in enumerate(choices, 1))
        while True:
            text = self.read(f"  {question} {numbered}", "").strip()
            if not text:
                return None
            if text.isdigit() and 0 < int(text) <= len(choices):
                return choices[int(text) - 1]
            if text.lower() in choices:
                return text.lower()
            if len(text.split()) > 1:  # the next line of a list that was pasted in
                self.later(text)
            else:
                self.say(f"  type a number from 1 to {len(choices)}, or Enter to leave it")
