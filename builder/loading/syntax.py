"""A parser's complaint in plain words: both parsers word theirs for parser writers."""

from __future__ import annotations

import re
from typing import Any, NamedTuple

import yaml

from builder.findings import Fix
from builder.loading.building import DEEPEST_NESTING
from builder.loading.characters import quote
from builder.loading.refusals import Refusal, nested_too_deep, unusable_key
from builder.source_map import Position


class _Plain(NamedTuple):
    """Our words for one complaint; `{found}` is what stands at the place.

    `complaint` is looked for in the parser's context and problem. `at_context` puts the
    finding where the broken piece starts, not where it breaks.
    """

    complaint: str
    message: str
    help: str
    at_context: bool = False


# Looked through in order.
_PLAIN_WORDS = (
    _Plain(
        "quoted scalar found unexpected",
        "the quotation mark before {found} is never closed",
        "close it on the same line; inside '…' write an apostrophe twice.",
        at_context=True,
    ),
    _Plain(
        "escape|expected escape sequence",
        "the backslash in {found} writes no character YAML knows",
        "use '…' in place of \"…\", or write the backslash twice.",
        at_context=True,
    ),
    _Plain(
        "could not find expected ':'",
        'the line {found} is neither "key: value" nor a list item',
        "put a space after the colon, or indent the line if it goes on with the text above.",
        at_context=True,
    ),
    _Plain(
        "mapping values are not allowed",
        "a colon stands where no key can be, at {found}",
        'put text that holds ": " in quotes; start a key below the keys it belongs with.',
    ),
    _Plain(
        "',' or",
        "a comma or closing bracket is missing before {found} (the bracket opens at line {opened})",
        "close the bracket, or put a comma between the values.",
    ),
    _Plain(
        "block collection",
        "{found} stands among list items but is none",
        'start it with "- ", or indent it below the item it belongs to.',
    ),
    _Plain(
        "did not find expected key|expected <block end>",
        "{found} does not fit below the keys above it",
        "start the keys of one mapping in the same column; leave nothing behind a closing quote.",
    ),
    _Plain(
        "sequence entries are not allowed",
        "a list item cannot start on the line of its key: {found}",
        "start it on the next line; if it is text, put it in quotes.",
    ),
    _Plain(
        "node content",
        "a value is missing before {found}",
        "write the value, or put text that starts with a bracket or comma in quotes.",
    ),
    _Plain(
        "cannot start any token|an? (anchor|alias|tag)|tag handle|block scalar",
        "text cannot start as {found} does",
        "put the whole text in quotes.",
        at_context=True,
    ),
    _Plain(
        "directive|document start",
        'a line that starts with "%" or "..." makes the reading end before {found}',
        "delete it, and keep one record in the file.",
    ),
)


def explain_syntax_error(error: yaml.YAMLError, text: str) -> tuple[Position, Refusal]:
    """Return where a parser gave up and what to say about it."""
    complaint = f"{getattr(error, 'context', '')} {getattr(error, 'problem', error)}"
    mark = getattr(error, "problem_mark", None)
    if mark is None:
        return Position(1, 1), _unknown(complaint, "the top of the file")
    known = _known_refusal(complaint, text, mark)
    if known is not None:
        return _position(mark), known
    for plain in _PLAIN_WORDS:
        if re.search(plain.complaint, complaint):
            return _explain(plain, mark, getattr(error, "context_mark", None) or mark, text)
    return _position(mark), _unknown(complaint, _rest_of_line(text, mark.index))


def _known_refusal(complaint: str, text: str, mark: Any) -> Refusal | None:
    """A fault that has an id of its own, though the parser met it before we could."""
    character = text[mark.index : mark.index + 1]
    if character == "\t":
        return _tab(_rest_of_line(text, mark.index))
    if character == ":" and "while parsing a block mapping" in complaint:
        return unusable_key("", None)
    if "maximum nesting depth" in complaint:  # libyaml looks a thousand brackets ahead
        return nested_too_deep(DEEPEST_NESTING)
    return None


def _explain(plain: _Plain, mark: Any, context: Any, text: str) -> tuple[Position, Refusal]:
    place = context if plain.at_context else mark
    # What a quotation mark opens is shown without it, or two would stand in a row.
    skipped = 1 if text[place.index : place.index + 1] in ("'", '"') else 0
    found = _rest_of_line(text, place.index + skipped)
    message = plain.message.format(found=found, opened=context.line + 1)
    return _position(place), Refusal("YML105", message, plain.help)


def _position(mark: Any) -> Position:
    return Position(mark.line + 1, mark.column + 1)


def _rest_of_line(text: str, index: int) -> str:
    rest = text[index : index + 200].partition("\n")[0].strip()
    if rest:
        return quote(rest)
    return "the end of the line" if text[index:].strip() else "the end of the file"


def _tab(found: str) -> Refusal:
    return Refusal(
        "YML106",
        f"a tab stands before {found}, where YAML wants spaces",
        "replace the tab by spaces, two for each level.",
        Fix("expand_tabs"),
    )


def _unknown(complaint: str, found: str) -> Refusal:
    reason = " ".join(complaint.split())
    return Refusal(
        "YML105",
        f"this cannot be read as YAML at {found}: {reason}",
        "compare the line with the same line of TEMPLATE.yaml; quotes around text often help.",
    )
