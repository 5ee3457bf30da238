"""Five wires of the shipped book whose names are known, asked about by one who does not know them.

Each session answers what is asked with what the record says the meter showed, and with "skip"
where nobody took that reading. A transcript is what was asked and answered, and how it ended.
"""

from __future__ import annotations

import fcntl
import os
import pty
import re
import select
import subprocess
import sys
import termios
import time
from contextlib import suppress
from functools import lru_cache
from typing import NamedTuple

from shipped_book import PINOUTS, ROOT
from shipped_cars import car

from builder.model.plugs import Reading
from builder.proof.identify.next_test import assumed_against
from builder.proof.identify.splitting import Measurement

SKIP = "skip"
PROMPT = re.compile(r"\d+> $")
_PATIENCE_S = 60.0
_UNITS = {"dc_v": "V", "ac_v": "V ac", "ohm": "ohm", "hz": "Hz", "duty_percent": "%"}


class Wire(NamedTuple):
    """A wire of a shipped car by its id, and what the record says it is."""

    record: str
    plug: str
    cavity: str
    function: str


WIRES = (
    Wire("ostrel-tansy-2017-hatch-base", "A", "10", "constant"),
    Wire("ostrel-tansy-2017-hatch-base", "A", "7", "retained"),
    Wire("wexlow-quern-2016-early", "A", "1", "illumination"),
    Wire("wexlow-quern-2016-early", "A", "11", "speaker"),
    Wire("mirdle-cutter-1996", "A", "5", "aerial_on"),
)


class Transcript(NamedTuple):
    """What was asked, what the meter showed (or "skip"), and the last sentence."""

    asked: tuple[str, ...]
    answered: tuple[str, ...]
    ended: str


@lru_cache(maxsize=8)
def readings_of(wire: Wire) -> dict[str, Reading]:
    """What was measured on a wire, by the words in which it is asked for."""
    record = car(wire.record)
    plug = next(plug for plug in record.plugs if plug.id == wire.plug)
    pin = next(pin for pin in plug.pins if pin.cavity == wire.cavity)
    found: dict[str, Reading] = {}
    for one in pin.readings:
        measurement = Measurement(one.state, one.quantity, assumed_against(one), one.load)
        found.setdefault(measurement.words, one)
    return found


def value_of(reading: Reading) -> str:
    """The figure as it is typed."""
    return "open" if reading.value is None else f"{reading.value:g}"


def typed(reading: Reading | None) -> str:
    """An answer as one types it at the prompt."""
    if reading is None:
        return SKIP
    words = ["open"] if reading.value is None else [value_of(reading), _UNITS[reading.quantity]]
    words += [f"battery {reading.battery_v:g}"] if reading.battery_v is not None else []
    words += [f"minutes {reading.minutes:g}"] if reading.minutes is not None else []
    return " ".join(words)


def plain(text: str) -> str:
    """Text without line ends: a terminal breaks lines, a page does not."""
    return " ".join(text.split())


def _take_terminal() -> None:
    """Make the terminal that a new session reads from its own: then Ctrl-C reaches it."""
    fcntl.ioctl(0, termios.TIOCSCTTY, 0)


class Terminal:
    """The command in a pseudo-terminal of its own, as a person sees it."""

    def __init__(self, *arguments: str) -> None:
        self._master, slave = pty.openpty()
        command = [sys.executable, "-m", "builder", *arguments]
        self._process = subprocess.Popen(
            command, stdin=slave, stdout=slave, stderr=slave, cwd=ROOT, close_fds=True,
            start_new_session=True, preexec_fn=_take_terminal,  # noqa: PLW1509
        )  # fmt: skip
        os.close(slave)
        self.seen = ""

    def until_asked(self) -> str:
        """Return what is printed until the next prompt, or until the end."""
        return self._read(PROMPT)

    def until_printed(self, text: str) -> str:
        """Return what is printed until this text is, or until the end."""
        return self._read(re.compile(re.escape(text)))

    def _read(self, wanted: re.Pattern[str]) -> str:
        new, end = "", time.monotonic() + _PATIENCE_S
        while time.monotonic() < end and not wanted.search(new):
            if not select.select([self._master], [], [], 0.2)[0]:
                continue
            try:
                data = os.read(self._master, 65536)
            except OSError:  # the other side has closed it: the command has ended
                data = b""
            if not data:
                break
            new += data.decode("utf-8", "replace").replace("\r\n", "\n")
        self.seen += new
        return new

    def type(self, line: str) -> None:
        """Type a line and press Enter."""
        os.write(self._master, f"{line}\n".encode())

    def press(self, key: str) -> None:
        """Press a key of a terminal, such as Ctrl-C, and again where the command is not heard of.

        A key that comes just while the interpreter begins to wait for a line is overheard.
        """
        for _ in range(5):
            os.write(self._master, key.encode())
            with suppress(subprocess.TimeoutExpired):
                self._process.wait(timeout=_PATIENCE_S / 10)
                return

    def close(self) -> int:
        """Return the exit code."""
        try:
            return self._process.wait(timeout=_PATIENCE_S)
        finally:
            self._process.kill()  # nothing is left running when it did not end by itself
            os.close(self._master)


def asked_in(shown: str) -> str:
    """The measurement that a screen asks for."""
    return shown.rsplit("MEASURE NEXT\n", 1)[1].splitlines()[0].strip()


def in_a_terminal(wire: Wire) -> tuple[Transcript, str, int]:
    """Hold a session in a terminal; return it with all that was shown, and the exit code."""
    terminal = Terminal("identify", "--book", str(PINOUTS))
    asked: list[str] = []
    answered: list[str] = []
    shown = terminal.until_asked()
    while PROMPT.search(shown):
        asked.append(asked_in(shown))
        answered.append(typed(readings_of(wire).get(asked[-1])))
        terminal.type(answered[-1])
        shown = terminal.until_asked()
    code = terminal.close()
    ended = shown[shown.rindex("DECIDED: ") :].partition("\n\n")[0]
    return Transcript(tuple(asked), tuple(answered), plain(ended)), terminal.seen, code
