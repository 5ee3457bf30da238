"""Pins in an interview: a line, what was understood of it, and what is asked back."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from builder.cli.asking import Terminal
from builder.editing.drafts import AnswerError
from builder.editing.drafts.pin_text import PinSaid
from builder.editing.interview.log import PINS, Log
from builder.editing.interview.pins import (
    PlugSaid,
    TakenError,
    plain_line,
    read_line,
    short_words,
    taken_place,
    told,
)
from builder.model.said.meaning import OPEN_ENDS
from builder.model.said.pin_words import Phrase

YES, NO = frozenset({"y", "yes"}), frozenset({"n", "no"})
_OLD: Final = "keep the old"
_NEW: Final = "take the new"


def take_pin(terminal: Terminal, log: Log, plugs: Sequence[PlugSaid], text: str) -> None:
    """Take one line about a pin, or say why it is not taken."""
    try:
        found = _settled(terminal, log, plugs, text)
        if found is not None and confirmed(terminal, log, [found]):
            take(terminal, log, found)
    except AnswerError as error:
        terminal.say(f"  {error}")


def _settled(terminal: Terminal, log: Log, plugs: Sequence[PlugSaid], text: str) -> PinSaid | None:
    """A line with its words asked back; None when one of them was left open."""
    found = read_line(text, plugs, log.meant())
    while found.asked:
        if not ask_back(terminal, log, found.asked[0]):
            terminal.say("  left out; type the line again with the word written out")
            return None
        found = read_line(text, plugs, log.meant())
    return found


def ask_back(terminal: Terminal, log: Log, word: Phrase) -> bool:
    """Ask what a word means, and remember it; False when nobody says."""
    chosen = terminal.choose(f"{word.written}:", word.meant.choices)
    if chosen is None or chosen in OPEN_ENDS:
        return False
    log.remember(word.written, chosen)
    return True


def confirmed(terminal: Terminal, log: Log, all_of: Sequence[PinSaid]) -> bool:
    """Show each short word for a colour once, with what it was read as."""
    words = {w.written: w for found in all_of for w in short_words(found, log.meant())}
    if not words:
        return True
    asked = ", ".join(f"{word.written}: {word.meant.means[0]}" for word in words.values())
    while True:
        text = terminal.read(f"  {asked}? (Enter: yes, n: no)", "").strip()
        if not text or text.lower() in YES:
            for word in words.values():
                log.remember(word.written, word.meant.means[0])
            return True
        if text.lower() in NO:
            terminal.say("  left out; type it again with the colour written out")
            return False
        terminal.later(text)


def take(terminal: Terminal, log: Log, found: PinSaid) -> None:
    """Take what a line says of a pin, once more asked when its place is described already."""
    line = plain_line(found)
    try:
        taken_place(found, log.lines(PINS))
    except TakenError as error:
        if error.line != line and not _replaces(terminal, error, line):
            return
        log.replace(PINS, error.line, line)
    except AnswerError as error:
        terminal.say(f"  {error}")
        return
    else:
        log.take(PINS, line)
    terminal.say(f"  {told(found)}")


def _replaces(terminal: Terminal, error: TakenError, line: str) -> bool:
    return terminal.choose(f'{error}; now "{line}":', (_OLD, _NEW)) == _NEW
