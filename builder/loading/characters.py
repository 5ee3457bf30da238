"""Characters a person cannot see, and how to show a piece of a file in a message."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterator

from builder.source_map import Position

# Controls but tab and line ends; soft hyphen, joiners and other zero-width characters;
# direction marks, embeddings, overrides and isolates; line and paragraph separators;
# invisible operators, fillers, variation selectors, tag characters; non-characters.
_HIDDEN = re.compile(
    "[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x9f\xad\u034f\u061c\u115f\u1160\u17b4\u17b5"
    "\u180b-\u180f\u200b-\u200f\u2028-\u202e\u2060-\u206f\u3164\ud800-\udfff\ufdd0-\ufdef"
    "\ufe00-\ufe0f\ufeff\uffa0\ufff0-\ufffb\ufffe\uffff\U0001bca0-\U0001bca3"
    "\U0001d173-\U0001d17a\U000e0000-\U000e0fff]"
)
# Nearly every file has nothing but these, and that is known twice as quickly.
_SUSPECT = re.compile("[^\t\n\r -~]")
_LINE_END = re.compile("\r\n|\r|\n")
_LONGEST_QUOTE = 60
_CONTROL_NAMES = {0x00: "NULL", 0x08: "BACKSPACE", 0x0D: "CARRIAGE RETURN", 0x1B: "ESCAPE"}


def hidden_characters(text: str) -> Iterator[tuple[str, Position]]:
    """Every hidden character that stands in a text as such, and where.

    Lines end as YAML's do, at a line feed, a carriage return or the two together.
    """
    suspect = _SUSPECT.search(text)
    if suspect is None:
        return
    line, line_start, looked_to = 1, 0, 0
    for match in _HIDDEN.finditer(text, suspect.start()):
        for end in _LINE_END.finditer(text, looked_to, match.start()):
            line, line_start = line + 1, end.end()
        looked_to = match.start()
        yield match.group(), Position(line, match.start() - line_start + 1)


def escaped_hidden_characters(value: str, written: str) -> list[str]:
    """Hidden characters of a double-quoted scalar that only its escapes (\\u202E) wrote.

    A carriage return counts: written with an escape it is no line end of the file.
    """
    found = dict.fromkeys(_HIDDEN.findall(value) + ["\r"] * ("\r" in value))
    return [character for character in found if character not in written]


def name_character(character: str) -> str:
    """Code point and name, such as `U+200B ZERO WIDTH SPACE`."""
    code = ord(character)
    name = unicodedata.name(character, "") or _CONTROL_NAMES.get(code, "")
    return f"U+{code:04X} {name}".rstrip()


def quote(found: str) -> str:
    """A piece of the file in quotation marks: short, on one line, nothing hidden in it."""
    shown = _HIDDEN.sub(lambda match: f"<U+{ord(match.group()):04X}>", found[:_LONGEST_QUOTE])
    shown = shown.replace("\r", "\\r").replace("\n", "\\n").replace("\t", "\\t")
    mark = "'" if '"' in shown else '"'
    return f"{mark}{shown}{'…' if len(found) > _LONGEST_QUOTE else ''}{mark}"
