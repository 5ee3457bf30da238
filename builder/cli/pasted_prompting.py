"""A pasted pin table in an interview: columns, words and faces are settled, then it is shown."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field

from builder.cli.asking import Terminal
from builder.cli.pin_prompting import NO, YES, ask_back, confirmed, take
from builder.editing.drafts import AnswerError
from builder.editing.drafts.pin_text import PinSaid
from builder.editing.interview.columns import not_read
from builder.editing.interview.face_asked import FaceAsked, Key, faces_asked, settled, way_of
from builder.editing.interview.log import PASTED, Log
from builder.editing.interview.pasted import Pasted, PastedLine, read_pasted
from builder.editing.interview.pins import PlugSaid, plain_line, told
from builder.model.said.faces import FACE_NAMES
from builder.model.said.pin_words import Phrase
from builder.model.words import Face

SetFace = Callable[[str, Face], bool]
"""Notes the face that a plug was counted on; False where an option said another."""


@dataclass(slots=True)
class _Table:
    """A pasted text, and what was settled of it so far."""

    terminal: Terminal
    log: Log
    plugs: Callable[[], Sequence[PlugSaid]]
    text: str
    refused: set[str] = field(default_factory=set)
    faces: dict[Key, Face] = field(default_factory=dict)

    def read(self) -> Pasted:
        return read_pasted(self.text, self.plugs(), self.log.meant(), self.refused)

    def lines(self) -> list[PastedLine]:
        return [settled(line, self.plugs(), self.faces) for line in self.read().lines]


def take_pasted(
    terminal: Terminal,
    log: Log,
    plugs: Callable[[], Sequence[PlugSaid]],
    text: str,
    set_face: SetFace,
) -> None:
    """Show a pasted table as it was understood, and take it when that is right.

    What is not taken stays in the draft, as it was pasted.
    """
    table = _Table(terminal, log, plugs, text)
    _settle_columns(table)
    for word in _asked_words(table.read().lines):
        ask_back(terminal, log, word)
    _settle_faces(table, set_face)
    right, wrong = _parted(table.lines())
    terminal.say("  understood:", *(f"    {told(found)}" for found in right))
    if wrong:
        terminal.say("  not taken:", *(f"    {line}: {why}" for line, why in wrong))
    taken = bool(right) and confirmed(terminal, log, right) and _yes(terminal, len(right))
    for found in right if taken else ():
        take(terminal, log, found)
    for line in (line for line, _ in wrong) if taken else text.splitlines():
        log.take(PASTED, line)


def _settle_columns(table: _Table) -> None:
    """Say which columns of a heading are not read; have those confirmed that nobody said."""
    read = table.read()
    for heading in read.columns:
        if left := not_read(heading):
            table.terminal.say(f"  not read: {', '.join(left)}")
    for said in dict.fromkeys(line.columns.told for line in read.lines if line.columns):
        if not _agreed(table.terminal, f"  columns: {said}? (Enter: yes, n: no)", ""):
            table.refused.add(said)


def _settle_faces(table: _Table, set_face: SetFace) -> None:
    """Ask which face lines were counted on where their heading does not say that of their plug."""
    for asked in faces_asked(table.read().lines, table.plugs()):
        plug = next(each for each in table.plugs() if each.id == asked.plug)
        chosen = table.terminal.choose(
            _question(asked, plug), [FACE_NAMES[f] for f in asked.choices]
        )
        face = next((each for each in asked.choices if FACE_NAMES[each] == chosen), None)
        if face is not None and _may_stand(table, plug, face, set_face):
            table.faces[asked.key] = face


def _question(asked: FaceAsked, plug: PlugSaid) -> str:
    said = f"you said {FACE_NAMES[plug.face]}" if plug.face else "nothing was said so far"
    return f'plug {asked.plug}: the table says "{asked.written}", {said}; these were counted on:'


def _may_stand(table: _Table, plug: PlugSaid, face: Face, set_face: SetFace) -> bool:
    """Whether lines can be taken as of a face; says what that means for them."""
    way = way_of(plug, face)
    if way == "set":
        if not set_face(plug.id, face):
            table.terminal.say(f"  plug {plug.id} was given with its face: give it as {face}")
            return False
        table.terminal.say(f"  plug {plug.id}: counted on the {FACE_NAMES[face]}")
    if way == "turn":
        table.terminal.say("  each cavity is turned to the face on which the plug was counted")
    return True


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


def _yes(terminal: Terminal, count: int) -> bool:
    """Whether the pins shown are right."""
    return _agreed(terminal, f"  take these {count}? (y, n)", "y")


def _agreed(terminal: Terminal, question: str, usual: str) -> bool:
    while True:
        text = terminal.read(question, usual).strip().lower()
        if not text or text in YES | NO:
            return text not in NO
        terminal.later(text)
