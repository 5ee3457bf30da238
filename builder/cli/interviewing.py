"""The questions of `loombook identify`: one measurement at a time until the wire has a name."""

from __future__ import annotations

from dataclasses import dataclass, field, replace

import click

from builder.cli.exit_codes import until_end_of_input
from builder.model.house_defaults import HouseDefaults
from builder.model.plugs import Reading
from builder.parsing.reading_figures import ReadingTextError, read_figure
from builder.parsing.reading_text import Given, read_answer, read_reading
from builder.pipeline.answers.identifying import Identified, identified, safety_line
from builder.proof.identify.next_test import MOVES_BATTERY
from builder.proof.identify.splitting import Measurement
from builder.rendering.identify_text import next_lines, open_line, slip_text

_START = """What is this wire? Measure what is asked and type what the meter shows, with its unit.
  skip   this one cannot be measured        undo   take the last reading back
  done   stop here (or Ctrl-D)              Any other reading will do as well: STATE VALUE V"""
_DONE = frozenset({"done", "quit", "q", "end", "stop"})
_SKIP = frozenset({"skip", "s", "unknown", "?", ""})


@dataclass(slots=True)
class _Interview:
    """What has been told so far. `battery_v` [V] is the last one read at rest, if any."""

    defaults: HouseDefaults
    battery_v: float | None
    quiet: bool
    readings: list[Reading] = field(default_factory=list)
    skipped: list[Measurement] = field(default_factory=list)
    minded: str = ""  # the safety line shown last; a line that stays the same is not repeated

    def answer(self) -> Identified:
        return identified(self.readings, self.defaults, self.skipped)

    def say(self, text: str) -> None:
        click.echo(text, err=self.quiet)


def interview(defaults: HouseDefaults, battery_v: float | None, *, quiet: bool) -> Identified:
    """Ask for measurements until the wire is named, nothing is left to ask, or the end is typed.

    Args:
        defaults: House defaults of the book.
        battery_v: Battery volts to take until another is typed. [V]
        quiet: Whether to talk on standard error, so that standard output holds the answer only.
    """
    talk = _Interview(defaults, battery_v, quiet)
    talk.say(_START)
    with until_end_of_input():
        _ask_until_done(talk)
    talk.say("")
    return talk.answer()


def _ask_until_done(talk: _Interview) -> None:
    before: int | None = None
    while True:
        answer = talk.answer()
        left = len(answer.found.open_functions)
        if talk.readings:
            talk.say(open_line(answer.found, before))
        before = left
        if answer.found.decided or (answer.found.next is None and not answer.found.slips):
            return
        if not _one_step(talk, answer):
            return


def _one_step(talk: _Interview, answer: Identified) -> bool:
    """Propose one measurement and take what is typed; False when the end was typed."""
    asked = _ask(talk, answer)
    while True:
        typed = _typed(talk, f"{len(talk.readings) + 1}>").strip()
        if typed.lower() in _DONE:
            return False
        if typed.lower() in _SKIP:
            talk.skipped += [asked] if asked else []
            return True
        if typed.lower() == "undo":
            _undo(talk)
            return True
        reading = _reading(talk, asked, typed)
        if reading is not None:
            talk.readings.append(reading)
            return True


def _ask(talk: _Interview, answer: Identified) -> Measurement | None:
    """Ask for the next measurement; where nothing fits, for the one that may be wrong."""
    proposal = answer.found.next
    if proposal is None:
        talk.say("\nundo takes the last reading back; or type the wrong one again, or done")
        return None
    safety = safety_line(proposal.measurement)
    talk.say("\n".join(next_lines(proposal, "" if safety == talk.minded else safety)))
    talk.minded = safety
    return proposal.measurement


def _undo(talk: _Interview) -> None:
    if talk.skipped or talk.readings:
        (talk.readings or talk.skipped).pop()


def _typed(talk: _Interview, prompt: str) -> str:
    text: str = click.prompt(
        prompt, default="", show_default=False, prompt_suffix=" ", err=talk.quiet
    )
    return text


def _reading(talk: _Interview, asked: Measurement | None, typed: str) -> Reading | None:
    """The reading that was typed; None, with a word on why, when it is none."""
    pair = "pair" if asked and asked.against == "other_leg" else "battery_negative"
    given = Given(talk.battery_v, None, pair)
    try:
        if (
            asked
            and asked.state == "asleep"
            and typed[:1].isdigit()
            and "minutes" not in typed.lower()
        ):
            given = given._replace(minutes=_number(talk, "minutes locked and left alone:"))
        reading = read_answer(typed, asked.state, asked.quantity, given) if asked else None
        reading = reading or read_reading(typed, Given(talk.battery_v))
    except ReadingTextError as error:
        s = error.slip
        talk.say(slip_text("not taken", typed, s.column, len(s.written), s.message, s.help))
        return None
    return _with_battery(talk, reading, "battery" in typed.lower())


def _with_battery(talk: _Interview, reading: Reading, said: bool) -> Reading:
    """The reading with the battery's volts of that moment, which are asked for when not known."""
    moved = reading.state in MOVES_BATTERY
    if not said and reading.quantity == "dc_v" and (moved or talk.battery_v is None):
        battery_v = _number(talk, "battery volts at that moment (Enter: not read):")
        reading = replace(reading, battery_v=battery_v)
    if not moved and reading.battery_v is not None:
        talk.battery_v = reading.battery_v
    return reading


def _number(talk: _Interview, prompt: str) -> float | None:
    """A plain number, or None for nothing; asked again until it is one of the two."""
    while True:
        typed = _typed(talk, f"   {prompt}").strip()
        try:
            return read_figure(typed).value if typed else None
        except ReadingTextError as error:
            talk.say(f"   {error.slip.message}: {error.slip.help}")
