"""Pins in an interview: a line or a pasted table, what was understood, and what is asked back."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from builder.cli.asking import Terminal
from builder.editing.drafts import AnswerError
from builder.editing.drafts.pin_text import PinSaid
from builder.editing.interview.log import PASTED, PINS, Log
from builder.editing.interview.pasted import PastedLine, pasted_lines
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

_YES, _NO = frozenset({"y", "yes"}), frozenset({"n", "no"})
_OLD: Final = "keep the old"
_NEW: Final = "take the new"


def take_pin(terminal: Terminal, log: Log, plugs: Sequence[PlugSaid], text: str) -> None:
    """Take one line about a pin, or say why it is not taken."""
    try:
        found = _settled(terminal, log, plugs, text)
        if found is not None and _confirmed(terminal, log, [found]):
            _take(terminal, log, found)
    except AnswerError as error:
        terminal.say(f"  {error}")


def take_pasted(terminal: Terminal, log: Log, plugs: Sequence[PlugSaid], text: str) -> None:
    """Show a pasted table as it was understood, and take it when that is right.

    What is not taken stays in the draft, as it was pasted.
    """
    for word in _asked_words(pasted_lines(text, plugs, log.meant())):
        _ask_back(terminal, log, word)
    lines = pasted_lines(text, plugs, log.meant())
    right, wrong = _parted(lines)
    terminal.say("  understood:", *(f"    {told(found)}" for found in right))
    if wrong:
        terminal.say("  not taken:", *(f"    {line}: {why}" for line, why in wrong))
    taken = bool(right) and _confirmed(terminal, log, right) and _yes(terminal, len(right))
    for found in right if taken else ():
        _take(terminal, log, found)
    for line in (line for line, _ in wrong) if taken else text.splitlines():
        log.take(PASTED, line)


def _parted(lines: Sequence[PastedLine]) -> tuple[list[PinSaid], list[tuple[str, str]]]:
    """The lines that say a pin, and the others with the reason."""
    right, wrong = list[PinSaid](), list[tuple[str, str]]()
    for line in lines:
        try:
            if line.said is None:
                raise AnswerError(line.why)
            plain_line(line.said)
            right.append(line.said)
        except AnswerError as error:
            wrong.append((line.text, str(error)))
    return right, wrong


def _asked_words(lines: Sequence[PastedLine]) -> list[Phrase]:
    """The words of all lines that are asked back, each once."""
    asked = [word for line in lines if line.said for word in line.said.asked]
    return list({word.written: word for word in asked}.values())


def _settled(terminal: Terminal, log: Log, plugs: Sequence[PlugSaid], text: str) -> PinSaid | None:
    """A line with its words asked back; None when one of them was left open."""
    found = read_line(text, plugs, log.meant())
    while found.asked:
        if not _ask_back(terminal, log, found.asked[0]):
            terminal.say("  left out; type the line again with the word written out")
            return None
        found = read_line(text, plugs, log.meant())
    return found


def _ask_back(terminal: Terminal, log: Log, word: Phrase) -> bool:
    """Ask what a word means, and remember it; False when nobody says."""
    chosen = terminal.choose(f"{word.written}:", word.meant.choices)
    if chosen is None or chosen in OPEN_ENDS:
        return False
    log.remember(word.written, chosen)
    return True


def _confirmed(terminal: Terminal, log: Log, all_of: Sequence[PinSaid]) -> bool:
    """Show each short word for a colour once, with what it was read as."""
    words = {w.written: w for found in all_of for w in short_words(found, log.meant())}
    if not words:
        return True
    asked = ", ".join(f"{word.written}: {word.meant.means[0]}" for word in words.values())
    while True:
        text = terminal.read(f"  {asked}? (Enter: yes, n: no)", "").strip()
        if not text or text.lower() in _YES:
            for word in words.values():
                log.remember(word.written, word.meant.means[0])
            return True
        if text.lower() in _NO:
            terminal.say("  left out; type it again with the colour written out")
            return False
        terminal.later(text)


def _yes(terminal: Terminal, count: int) -> bool:
    """Whether the pins shown are right."""
    while True:
        text = terminal.read(f"  take these {count}? (y, n)", "y").strip().lower()
        if text in _YES | _NO:
            return text in _YES
        terminal.later(text)


def _take(terminal: Terminal, log: Log, found: PinSaid) -> None:
    line = plain_line(found)
    try:
        taken_place(found, _by_place(log))
    except TakenError as error:
        if error.line != line and not _replaces(terminal, error, line):
            return
        log.replace(PINS, error.line, line)
    else:
        log.take(PINS, line)
    terminal.say(f"  {told(found)}")


def _replaces(terminal: Terminal, error: TakenError, line: str) -> bool:
    return terminal.choose(f'{error}; now "{line}":', (_OLD, _NEW)) == _NEW


def _by_place(log: Log) -> dict[str, str]:
    """The lines so far, as they were kept, by their place."""
    lines = {line: line.split(maxsplit=2) for line in log.lines(PINS)}
    return {f"{words[0]}.{words[1]}": line for line, words in lines.items() if len(words) > 2}
