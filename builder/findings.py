"""What a check has to say: one shape from the loader to the last rule.

A rule knows where a fault stands in the *data* (a `DataPath`); only the pipeline knows
where that is in the *file*. So rules yield `Fault`, and the pipeline makes `Finding` of it.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import IntEnum
from typing import Any, Final, Literal

Says = Literal["wrong", "not yet known"]
"""What a finding says of a record: that it is wrong, or only that nobody knows something yet."""
NOT_YET_KNOWN: Final[Says] = "not yet known"

DataPath = tuple[str | int, ...]
"""Keys and indices from the top of a record, e.g. ("plugs", 0, "pins", 3, "cavity")."""


def value_at(data: Any, path: DataPath) -> Any:
    """Return what stands at a place of plain data, where something stands."""
    for step in path:
        data = data[step]
    return data


class Severity(IntEnum):
    """How much a finding weighs; the order is the order of the report."""

    STOP = 0  # no plan may be made from what it concerns
    FIX = 1  # a plan only with a stated override
    WARN = 2
    NOTE = 3

    @property
    def word(self) -> str:
        """The word printed in reports."""
        return self.name.lower()

    @property
    def is_grave(self) -> bool:
        """Whether a finding of this weight stands in the way of a plan."""
        return self <= Severity.FIX


Change = Literal[
    "write", "quote", "rename_key", "add_key", "add_keys", "remove", "retype", "expand_tabs",
    "list_empty",
]  # fmt: skip
"""How a fix changes a text."""


@dataclass(frozen=True, slots=True)
class Fix:
    """What may be typed in place of a fault without asking anybody.

    A finding offers one only where no second meaning is possible. `change` says how:
    "write" puts `text`, as typed in YAML, in the place of the value at `path`; "quote" puts that
    value in quotes; "rename_key" spells the key at `path` as `text`; "add_key" adds the key at
    `path` with the value `text`, as typed in YAML; "remove" takes the item at `path` out; "retype"
    puts `text` in the place of `before` + `written`, where `written` starts at the finding;
    "expand_tabs" indents the file by spaces; "add_keys" adds to the mapping at `path` the keys of
    `text`, a mapping in braces; "list_empty" takes the pin at `path` out and lists `text`, its
    cavity, as empty. A "write" is made only while the value still is
    `written`, when that is given. `beside` is a key and its text that a "write" adds next to it.
    """

    change: Change
    path: DataPath = ()
    text: str = ""
    written: str = ""
    before: str = ""
    beside: tuple[str, str] | None = None


@dataclass(frozen=True, slots=True)
class Fault:
    """What a rule yields: where in the data, what is wrong, what to type.

    `severity` is given only by a rule whose weight depends on the value it saw. `drawing` is what a
    terminal draws under the finding, line by line. `also` are ids of other vehicles that a fault
    between records is about: no plan stands on those either. `nobody_knows` marks a fault that says
    only what nobody knows yet, of a weight whose other faults say that something is wrong.
    """

    path: DataPath
    message: str
    help: str = ""
    severity: Severity | None = None
    fix: Fix | None = None
    drawing: tuple[str, ...] = ()
    also: tuple[str, ...] = ()
    nobody_knows: bool = False


@dataclass(frozen=True, slots=True)
class Finding:
    """A fault with a place in a file, ready to be reported.

    `line` and `column` are 1-based; of a table they are row and column of a cell, and `cell` is its
    name, such as pins!C7. `accepted` holds the reason the record gives for
    leaving the finding as it is, or None. `says` tells whether the record is wrong, or thin.
    """

    file: str
    line: int
    column: int
    severity: Severity
    rule_id: str
    slug: str
    message: str
    help: str = ""
    path: DataPath = ()
    accepted: str | None = None
    fix: Fix | None = None
    cell: str = ""
    drawing: tuple[str, ...] = ()
    also: tuple[str, ...] = ()  # ids of other vehicles it is about
    says: Says = "wrong"

    @property
    def stands_open(self) -> bool:
        """Whether this finding alone stands in the way of a plan."""
        return self.accepted is None and self.severity.is_grave

    @property
    def fails_check(self) -> bool:
        """Whether this finding alone makes `check` exit 1: what is not yet known does not."""
        return self.stands_open and self.says != NOT_YET_KNOWN

    @property
    def place(self) -> str:
        """`file:line:column`, of a table `file:sheet!cell`."""
        at = self.cell or f"{self.line}:{self.column}"
        return f"{self.file}:{at}"

    @property
    def docs(self) -> str:
        """The page of the built site that explains the rule."""
        return f"rules/{self.rule_id}.html"

    def sort_key(self) -> tuple[str, int, int, str, str]:
        """Order of the report: by place, then by rule, never by when it was found."""
        return (self.file, self.line, self.column, self.rule_id, self.message)


@dataclass(frozen=True, slots=True)
class CatalogueEntry:
    """The explanation of one finding id that is no rule: the site makes a page of it.

    `example` holds a failing and a passing snippet of YAML; `source` is a published
    source or "common practice, no source", where this project did not choose.
    """

    id: str
    slug: str
    title: str
    severity: Severity
    what: str
    why: str
    example: str
    fix: str
    source: str = "Chosen by this project."


def refused_and_accepted(refused: str, accepted: str) -> str:
    """Return the example of a catalogue entry: YAML that is refused, and the same put right."""
    return f"Refused:\n\n```yaml\n{refused}\n```\n\nAccepted:\n\n```yaml\n{accepted}\n```\n"
