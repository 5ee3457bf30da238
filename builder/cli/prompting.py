"""The questions of `loombook new` at a terminal: only what was not given, and nothing is lost."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

import click

from builder.book import Book, shown_path
from builder.cli.asking import Terminal, Typed
from builder.cli.housing_prompting import chosen_housing, show_housings, usual_housing
from builder.cli.pasted_prompting import take_pasted
from builder.cli.photo_prompting import take_photo
from builder.cli.pin_prompting import take_pin
from builder.cli.vehicle_prompting import meant_vehicle, usual_answer
from builder.editing.drafts import AnswerError, questions_of
from builder.editing.drafts.question import NOTHING
from builder.editing.interview.helping import choices_of, help_lines
from builder.editing.interview.log import PHOTO, PINS, PLUGS, Entry, Log
from builder.editing.interview.pins import PlugSaid, plugs_said
from builder.editing.interview.steps import (
    Step,
    answers_of,
    next_step,
    plug_counts,
    plug_letters,
)
from builder.model.housing import Housing
from builder.model.words import UNKNOWN, Face, RecordKind
from builder.pipeline.changing.creating import name_taken
from builder.pipeline.changing.kept_drafts import KeptDraft, kept_drafts, new_draft
from builder.pipeline.changing.kept_photos import BarePhoto, keep_photo
from builder.pipeline.checking.shelf import housings_of

_HINT = "? says what a question means · back · undo · list · stop keeps the draft"


@dataclass(slots=True)
class Interview:
    """One interview: what is asked is kept after each answer, unless it is only tried."""

    kind: RecordKind
    book: Book
    given: Mapping[str, list[str]]
    tried: bool
    draft: KeptDraft
    terminal: Terminal
    housings: Mapping[str, Housing] = field(default_factory=dict)

    @property
    def log(self) -> Log:
        """The answers so far."""
        return self.draft.log

    def answers(self) -> dict[str, list[str]]:
        """Ask until nothing is open, and return all answers, those that were given among them.

        Raises:
            click.Abort: the input ended, or somebody stopped; what was answered is kept.
        """
        step = next_step(self.kind, self.log, self.given)
        if step is not None:
            self.terminal.say(_HINT)
        try:
            while step is not None:
                self._ask(step)
                step = next_step(self.kind, self.log, self.given)
        except click.Abort:
            self._say_kept()
            raise
        return {**answers_of(self.kind, self.log), **self.given}

    def reopen(self, why: str) -> bool:
        """Ask again for what makes a record impossible; False when nobody was asked anything."""
        if not self.log.answered():
            return False
        self.terminal.say(f"  {why}", "  go back to what is wrong; nothing of the rest is lost")
        named = [e.key for e in self.log.entries if f"--{e.key}:" in why or f"--{e.key} " in why]
        key = named[0] if named else "variant" if self.log.one("variant") else ""
        last = self.log.entries[-1].key
        self._forget(key or last)
        return True

    def _forget(self, key: str) -> None:
        gone = [each for each in self.log.entries if each.key == key]
        self.log.entries = [each for each in self.log.entries if each.key != key]
        self.log.ahead = gone + self.log.ahead

    def _say_kept(self) -> None:
        if self.draft.text is not None:
            self.terminal.say(
                "", f"kept: {shown_path(self.draft.path)}; go on with: loombook new {self.kind}"
            )

    # ---- one question --------------------------------------------------------------------------
    def _ask(self, step: Step) -> None:
        if step.many and (again := self.log.again(step.key)):
            self.terminal.say(f"  {again} lines stand; type more, or an empty line")
        if step.key.endswith(".housing"):
            show_housings(self.terminal, self.log, self.housings, step)
        if step.many and not self.log.lines(step.key):
            self.terminal.say(f"{step.prompt}\n  an empty line or none ends the list")
        typed = self.terminal.ask(*self._prompt(step))
        if typed.command is not None:
            self._command(step, typed)
        elif step.many:
            self._line(step, typed.text)
        else:
            self._one(step, typed.text)
        if not self.tried:
            self.draft.keep()

    def _prompt(self, step: Step) -> tuple[str, str | None]:
        if step.many:
            return f"{step.key} {len(self.log.lines(step.key)) + 1}", ""
        words = choices_of(self.kind, step)
        prompt = f"{step.prompt} ({', '.join(words)})" if words else step.prompt
        return prompt, self.log.offered(step.key) or self._usual(step)

    def _usual(self, step: Step) -> str | None:
        if step.key.endswith(".housing"):
            return usual_housing(self.log, self.housings, step)
        return usual_answer(self.book, self.kind, self.log, step)

    def _command(self, step: Step, typed: Typed) -> None:
        log, say = self.log, self.terminal.say
        if typed.command == "?":
            say(*help_lines(self.kind, step))
        elif typed.command == "back":
            if not log.back(step.key):
                say("  this is the first question")
        elif typed.command == "undo":
            gone = log.undo()
            say(f'  taken back: {gone.key} "{gone.text}"' if gone else "  nothing to take back")
        elif typed.command == "list":
            say(*(f"  {each.key}: {each.text}" for each in log.entries if each.text))
        elif typed.command == "paste" and step.key == PINS:
            take_pasted(self.terminal, log, self._plugs, self.terminal.pasted(), self._set_face)
        elif typed.command == "photo":
            self._photo(typed.text)
        elif typed.command == "stop":
            raise click.Abort
        else:
            say(f"  {typed.command} is for the pins")

    def _photo(self, text: str) -> None:
        if all(question.name != PHOTO for question in questions_of(self.kind)):
            self.terminal.say("  a photo lies beside the record of a car: name it there")
            return
        take_photo(self.terminal, self.log, text, self._keep_photo)

    def _keep_photo(self, photo: BarePhoto) -> str:
        return photo.name if self.tried else keep_photo(self.book, photo)

    def _line(self, step: Step, text: str) -> None:
        if text.strip().lower() in NOTHING:
            self.log.take(step.key, "")
        elif step.key == PINS:
            take_pin(self.terminal, self.log, self._plugs(), text)
        elif self._reads(step, text):
            self.log.take(step.key, text)
            if text.strip().lower() == UNKNOWN:  # nobody looked: there is no second line to say
                self.log.take(step.key, "")

    def _one(self, step: Step, text: str) -> None:
        if not self._reads(step, text):
            return
        if step.key.endswith(".letter"):
            text = text.strip().upper()
        if step.key.endswith(".housing"):
            text = chosen_housing(self.terminal, self.log, self.housings, step, text)
        if step.path == ("vehicle",):
            text = meant_vehicle(self.terminal, self.book, text)
            if not text:
                return
        self.log.settle(step.key)
        self.log.take(step.key, text)
        taken = name_taken(self.book, self.kind, answers_of(self.kind, self.log))
        if taken and step.key in ("make", "model", "years", "variant"):
            self.terminal.say(f"  {taken}: say how this car differs")
            self.log.entries = [each for each in self.log.entries if each.key != "variant"]

    def _reads(self, step: Step, text: str) -> bool:
        if not text.strip() and step.default == "":
            return True
        try:
            step.read(text)
        except AnswerError as error:
            self.terminal.say(f"  {error}")
            return False
        return True

    def _plugs(self) -> list[PlugSaid]:
        lines = self.given.get(PLUGS) or answers_of("vehicle", self.log).get(PLUGS, [])
        counts = {} if PLUGS in self.given else plug_counts(self.log)
        return plugs_said(lines, self.housings, self.log.lines(PINS), counts)

    def _set_face(self, plug: str, face: Face) -> bool:
        if PLUGS in self.given:
            return False
        number = plug_letters(self.log).index(plug) + 1
        self.log.answer_anew(f"plug {number}.face", face)
        return True


def begin_interview(
    kind: RecordKind,
    book: Book,
    given: Mapping[str, list[str]],
    tried: bool,
    terminal: Terminal,
) -> Interview:
    """Return the interview of a new record: a draft that was kept, or one that begins."""
    talk = Interview(kind, book, given, tried, new_draft(book, kind), terminal)
    if next_step(kind, Log(), given) is not None:
        talk.housings = housings_of(book) if kind == "vehicle" else {}
        talk.draft = _chosen_draft(talk.terminal, book, kind) or talk.draft
    return talk


def _chosen_draft(terminal: Terminal, book: Book, kind: RecordKind) -> KeptDraft | None:
    """The draft to go on with; None for a new one, and where none is kept."""
    kept = kept_drafts(book, kind)
    if not kept:
        return None
    for number, draft in enumerate(kept, 1):
        terminal.say(f"  {number}. {_named(draft.log)} ({shown_path(draft.path)})")
    while True:
        text = terminal.read("Number of the draft to go on with, or new", "1").strip().lower()
        if text == "new":
            return None
        if text.isdigit() and 0 < int(text) <= len(kept):
            return kept[int(text) - 1]


def _named(log: Log) -> str:
    said: list[Entry] = [each for each in log.entries if each.text]
    return f"{', '.join(each.text for each in said[:3])}: {len(said)} answers"
