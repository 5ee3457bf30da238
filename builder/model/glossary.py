"""One word for one thing: what commands, pages, data, handbook and messages call it.

A test reads all that people read and finds what a thing was called before. Words of the records
that stand in a closed list take their names from `names.py`; this table takes those from there.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from typing import NamedTuple, TypeVar

from builder.model.names import FUNCTION_NAMES, STATE_NAMES
from builder.model.words import State

TAP_PLAN, PROBE_PLAN, NO_PLAN = "Tap plan", "Probe plan", "No plan"
ADDON, INTERCEPT, LEFT_ALONE = "add-on", "intercept", "left alone"
LINE_TAP = "line tap"
WORK_PACK, WIRING, BAY_SHEET = "work pack", "wiring", "bay sheet"
WHAT_CHANGES = "What changes for the customer"
CORRECTION = "correction"
DANGER, CARE = "Danger", "Care"


class Other(NamedTuple):
    """A word that a thing had: how the handbook prints it, and what finds it in a sentence.

    Without a pattern it is found as it is printed, with or without an s, whatever its capitals.
    """

    said: str
    pattern: str = ""

    @property
    def regex(self) -> str:
        """The pattern, for any place of a sentence."""
        return self.pattern or rf"(?i:\b{re.escape(self.said)}s?\b)"


class Row(NamedTuple):
    """One thing, its word (or words, for those of a kind), and what it is not called any more."""

    thing: str
    word: str
    others: tuple[Other, ...] = ()


class Slip(NamedTuple):
    """Another word in a text, and the right one."""

    found: str
    row: Row

    def __str__(self) -> str:
        return f'"{self.found}": {self.row.thing} is called {self.row.word}'


_Word = TypeVar("_Word", bound=str)


def _names(table: Mapping[_Word, str], *words: _Word) -> str:
    return " · ".join(table[word] for word in words)


_STATES: tuple[State, ...] = (
    *("asleep", "retained", "accessory", "run", "engine", "radio_on_zero"),
    "unplugged",
)
_CUT = r"(?:is|are|be|been|was|were|only)"  # what makes a name of a verb's form
GLOSSARY: tuple[Row, ...] = (
    Row(
        "a place on a plug",
        "A.7; said first as plug A, cavity 7",
        (
            Other("pin A.7", r"\b[Pp]in [A-Z][a-z0-9]{0,3}\.[A-Z]?\d+"),
            Other("pin A7", r"\b[Pp]in [A-Z]\d+\b"),
            Other("cavity 7 of plug A", r"\b[Cc]avity \S+ of plug\b"),
        ),
    ),
    Row(
        "a supply",
        _names(FUNCTION_NAMES, "constant", "accessory", "retained", "run")
        + "; the last three together: switched",
        (Other("retained accessory"), Other("accessory (switched)", r"(?i:\w \(switched\))")),
    ),
    Row(
        "an output that switches an amplifier or an aerial on",
        _names(FUNCTION_NAMES, "amplifier_on", "aerial_on") + "; of a converter: turn-on output",
        (
            Other("remote output"),
            Other("remote out"),
            Other("remote wire"),
            Other("amplifier on", r"(?i:\bamp(?:lifier)? on (?:output|wire|pin|lead)s?\b)"),
            Other("aerial supply"),
        ),
    ),
    Row(
        "a state of the car",
        _names(STATE_NAMES, *_STATES),
        (
            Other("key at accessory"),
            Other("key at run"),
            Other("engine running"),
            Other("plug pulled"),
            Other("retained", r"\bstate (?:is )?retained\b"),
        ),
    ),
    Row("a cavity without a terminal", "empty", (Other("empty wire"),)),
    Row("a wire that nothing uses", FUNCTION_NAMES["not_used"]),
    Row("what a plan comes to", f"{TAP_PLAN} · {PROBE_PLAN} · {NO_PLAN}".lower()),
    Row("the document of a job", f"{WORK_PACK}, made of sheets", (Other("job pack"),)),
    Row("the sheet of connections", WIRING),
    Row(
        "the list of readings",
        BAY_SHEET,
        (
            Other("bay test sheet"),
            Other("must pass before", r"(?i:\bmust pass (?:first|before)\b)"),
        ),
    ),
    Row("a table in a spreadsheet program", "table", (Other("new sheet"),)),
    Row(
        "how a factory pair is treated",
        f"{ADDON} · {INTERCEPT} · {LINE_TAP} · {LEFT_ALONE}",
        (
            Other("listened to", rf"(?i:\b{_CUT} listened to\b|\blistened to or\b)"),
            Other("branch off", r"(?i:\bbranch(?:es|ed)? (?:it |them )?off\b)"),
            Other("tapped", rf"(?i:\bpairs? {_CUT} tapped\b|\btapped pairs?\b)"),
        ),
    ),
    Row("bass that a converter gives back", CORRECTION, (Other("restoration"),)),
    Row(
        "what a job takes from whoever drives the car",
        WHAT_CHANGES.lower(),
        (Other("losses", r"(?i:\blosses\b)"), Other("what is lost")),
    ),
    Row("who measured or typed", "contributor"),
    Row("one day's measuring", "visit", (Other("session", r"(?i:\bsessions?\b)(?!:)"),)),
    Row(
        "a finding that a record answers for",
        "accepted finding",
        (Other("expected finding"),),
    ),
    Row(
        "the sum of a record",
        "sum (eight digits in print)",
        (
            Other("digest"),
            Other("hash", r"(?i:\bhash(?:es)?\b)"),
            Other("state", r"\bstate [0-9a-f]{8}\b"),
        ),
    ),
    Row(
        "what to measure next",
        "`loombook next`, the page Measure next",
        (Other("loombook wanted"),),
    ),
    Row(
        "why something is so",
        "`loombook why`",
        (Other("loombook rule"), Other("loombook explain")),
    ),
    Row("to put right what is sure", "`loombook mend`", (Other("loombook fix"),)),
    Row("to put into house style", "`loombook tidy`", (Other("loombook format"),)),
    Row(
        "output for a forge",
        "`--format annotations`",
        (Other("--format github", r"--format[ =]github\b"),),
    ),
    Row("the plastic body of a plug", "housing", (Other("shell"),)),
    Row(
        "what goes between a plug and its unit, so that no wire of the car is cut",
        "loom",
        (Other("plug-in harness", r"(?i:\bplug-in harness(?:es)?\b)"), Other("adapter harness")),
    ),
    Row(
        "a piece of a cable in a job; its jacket is its outer skin alone",
        "cable 1",
        (Other("jacket 1", r"(?i:\bjackets? \d)"),),
    ),
    Row(
        "a wire of a cable or a loom that lies beside others",
        "core",
        (Other("spare conductor"), Other("single conductor")),
    ),
    Row("to measure every wire of a loom before it goes into a car", "ring-out"),
    Row("a unit that reads the car's bus", "data interface", (Other("bus adapter"),)),
    Row("without a network", "without a signal", (Other("offline"),)),
    Row(
        "a caution",
        f"{DANGER} (for people) · {CARE} (for the car)",
        (Other("DANGER", r"\bDANGER\b"), Other("CARE", r"\bCARE\b")),
    ),
)

_ALL = re.compile("|".join(other.regex for row in GLOSSARY for other in row.others))
_EACH = tuple((re.compile(other.regex), row) for row in GLOSSARY for other in row.others)


def slips(text: str) -> Iterator[Slip]:
    """Yield each word in a text for people that its thing is not called by any more."""
    if not _ALL.search(text):
        return
    for pattern, row in _EACH:
        for found in pattern.finditer(text):
            yield Slip(found.group(), row)
