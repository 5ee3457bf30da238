"""What is refused and the words it is refused with: what was found, and what to type."""

from __future__ import annotations

import re
from typing import Any, Final, NamedTuple

from builder.findings import Finding, Fix, Severity
from builder.loading.catalogue import SLUGS
from builder.loading.characters import name_character, quote
from builder.loading.scalars import (
    LARGEST_INTEGER,
    NotFiniteError,
    TooSmallError,
    UnusableNumberError,
)
from builder.source_map import Position

MOST_FINDINGS = 50
"""Reading a file stops here: a file of a million aliases needs no million findings."""


_NO_WIDTH = frozenset("\xad\u200b\u2060\ufeff")
"""Hidden characters that no word needs: taking one out changes nothing anybody sees."""
_DIGITS_BEFORE = re.compile(r"(?:(?<=[\s:{[])|^)[-+]?(?:0|[1-9][0-9]*),\Z")


class Refusal(NamedTuple):
    """A finding that has no place yet."""

    rule_id: str
    message: str
    help: str
    fix: Fix | None = None


class ReadingEndedError(Exception):
    """The rest of the file is not looked at; why is among the refusals."""


class Refusals:
    """Collects the findings of one file; everything refused is a stop.

    `empty` is what is said of one that holds nothing.
    """

    __slots__ = ("_file", "empty", "findings")

    def __init__(self, file: str, empty: Refusal) -> None:
        self._file = file
        self.empty = empty
        self.findings: list[Finding] = []

    def add(self, position: Position, refusal: Refusal) -> None:
        """Note a refusal; raises ReadingEndedError when there are too many to go on."""
        self._append(position, refusal)
        if len(self.findings) == MOST_FINDINGS:
            self._append(position, too_many_faults())
            raise ReadingEndedError

    def _append(self, position: Position, refusal: Refusal) -> None:
        rule_id, message, help_text, fix = refusal
        where = (self._file, position.line, position.column, Severity.STOP)
        what = (rule_id, SLUGS[rule_id], message, help_text)
        self.findings.append(Finding(*where, *what, fix=fix))


def hidden_character(character: str, escaped: bool = False) -> Refusal:
    """A character nobody can see, in the text itself or written as an escape."""
    how = "the quoted text writes" if escaped else "here stands"
    return Refusal(
        "YML104",
        f"{how} the hidden character {name_character(character)}",
        "delete it: retype the words around it instead of pasting them.",
        Fix("retype", written=character) if character in _NO_WIDTH and not escaped else None,
    )


def empty_file(holds: str, help_text: str) -> Refusal:
    """Nothing but comments and white space, or an empty document; `holds` is what is missing."""
    return Refusal("YML107", f"the file holds no {holds}", help_text)


NO_RECORD: Final = empty_file("record", "copy the kind's TEMPLATE.yaml and fill it in.")


def top_level_not_mapping(data: Any) -> Refusal:
    """`data` is what the file holds in place of keys and values."""
    found = "a list" if isinstance(data, list) else f"only {quote(str(data))}"
    return Refusal(
        "YML108",
        f"a record is made of keys and values, but the file holds {found}",
        'start with "schema: 1" at the beginning of a line.',
    )


def several_documents() -> Refusal:
    """A second `---`."""
    return Refusal(
        "YML109",
        'a second document starts here ("---")',
        "put each record in a file of its own, or delete this line.",
    )


def directive(version: bool) -> Refusal:
    """A `%YAML` or `%TAG` line."""
    return Refusal(
        "YML110",
        f'the line "{"%YAML" if version else "%TAG"} …" changes how the file is read',
        "delete it and the --- below it.",
    )


def anchor_used(name: str) -> Refusal:
    """`&name`."""
    return Refusal(
        "YML111",
        f"{quote('&' + name)} marks a value for use elsewhere",
        f"delete {quote('&' + name)}; if the text starts with &, put it in quotes.",
    )


def alias_used(name: str) -> Refusal:
    """`*name`."""
    return Refusal(
        "YML112",
        f"{quote('*' + name)} stands for a value written elsewhere",
        "write the value out here; if the text starts with *, put it in quotes.",
    )


def tag_used(tag: str) -> Refusal:
    """`!tag`, `!!int`, `!<...>`."""
    shown = quote(tag.replace("tag:yaml.org,2002:", "!!"))
    return Refusal(
        "YML113",
        f"the tag {shown} changes what a value means",
        f"delete {shown}; if the text starts with !, put it in quotes.",
    )


def key_twice(key: str, first_line: int) -> Refusal:
    """`key` was seen in the same mapping before."""
    return Refusal(
        "YML115",
        f"key {quote(key)} stands twice in one mapping (first at line {first_line})",
        "keep one of the two; if both are meant, make a list of them.",
    )


def key_is_structure() -> Refusal:
    """A mapping or list in the place of a key."""
    return Refusal(
        "YML117",
        "a list or mapping stands where a key should be",
        "write a plain word as key; if the text starts with [ or {, put it in quotes.",
    )


def unusable_key(written: str, value: Any, before: str = "") -> Refusal:
    """A key that is blank, `<<`, or no text; `value` is what it was read as.

    `before` is the text of its line before it: digits and a comma there are a decimal comma.
    """
    digits = _DIGITS_BEFORE.search(before)
    if digits is not None and written.isdecimal():
        return _decimal_comma(digits.group(), written)
    if written == "<<":
        told = '"<<" would copy keys from elsewhere'
        return Refusal("YML114", told, 'write the keys out here and delete "<<".')
    if not written.strip():
        return Refusal("YML118", "the key before the colon is empty", "write the key's name.")
    other = "nothing" if written in _NULLS else "a number"
    kind = "a truth value" if isinstance(value, bool) else other
    return Refusal(
        "YML116",
        f"key {quote(written)} is read as {kind}, not as text",
        f"if it is meant as a name, write {quote(written)} with the quotes.",
    )


_NULLS = ("~", "null", "Null", "NULL")
"""How YAML writes nothing."""


def _decimal_comma(before: str, written: str) -> Refusal:
    number = f"{before[:-1]}.{written}"
    thousands = len(written) == 3 and before.strip("-+0,") != ""
    return Refusal(
        "YML116",
        f"{quote(before + written)} is read as a number and a key, because of its comma",
        f"type {number} if it is a decimal comma."
        if thousands
        else f"type {number}: a decimal point.",
        None if thousands else Fix("retype", text=number, written=written, before=before),
    )


def question_before_key(key: str) -> Refusal:
    """`{?word: …}`: libyaml and PyYAML drop the question mark, YAML 1.2 keeps it."""
    return Refusal(
        "YML105",
        f"the question mark before {quote(key)} is read in two ways",
        f"put the key in quotes: {quote('?' + key)}.",
    )


def nested_too_deep(deepest: int) -> Refusal:
    """The first mapping or list beyond `deepest`."""
    return Refusal(
        "YML119",
        f"lists and mappings stand more than {deepest} deep in each other here",
        "close the brackets above, or check the indentation; no record needs more than ten.",
    )


def unusable_number(written: str, error: UnusableNumberError) -> Refusal:
    """A number no quantity can have."""
    quotes = f"if it is text, write {quote(written)} with the quotes"
    if isinstance(error, NotFiniteError):
        message = f"{quote(written)} is no finite number"
        return Refusal("YML120", message, f'{quotes}; if nobody measured it, write "unknown".')
    if isinstance(error, TooSmallError):
        message = f"{quote(written)} is smaller than anything that can be measured"
        return Refusal("YML121", message, f"type 0 if there was nothing; {quotes}.")
    return Refusal(
        "YML121",
        f"{quote(written)} would lose its digits as a number (largest integer {LARGEST_INTEGER})",
        f"{quotes}; otherwise correct the number.",
    )


def too_many_faults() -> Refusal:
    """The place at which reading stopped."""
    return Refusal(
        "YML122",
        f"{MOST_FINDINGS} faults found; the rest of the file was not looked at",
        "mend the faults above and run the check again.",
    )
