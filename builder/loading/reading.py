"""The loader's entrances: a file, what was taken of one before, or text.

No entrance raises on anything a file can hold: what cannot be read is a finding.
"""

from __future__ import annotations

import hashlib
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import yaml

from builder.findings import Finding
from builder.loading import file_refusals, refusals
from builder.loading.building import Builder
from builder.loading.characters import hidden_characters
from builder.loading.events import EventSource, open_events
from builder.loading.refusals import ReadingEndedError, Refusal, Refusals
from builder.loading.syntax import explain_syntax_error
from builder.loading.taking import LARGEST_FILE_BYTES, Taken, take_file
from builder.source_map import Node, Position, SourceMap

_START = Position(1, 1)
_BYTE_ORDER_MARK = "\ufeff"


@dataclass(frozen=True, slots=True)
class Loaded:
    """One file as plain data, or the reasons why it is refused.

    `data` is None exactly when `findings` is not empty; the source map may then be partial.
    `digest` is the SHA-256 of the bytes in hexadecimal; of a file that is too large or cannot be
    read, of none.
    """

    data: dict[str, Any] | None
    source_map: SourceMap
    findings: list[Finding]
    digest: str


def load_file(path: Path, shown_as: str, empty: Refusal = refusals.NO_RECORD) -> Loaded:
    """Load the file at `path`; findings name it `shown_as`."""
    return load_taken(take_file(path), shown_as, empty)


def load_taken(taken: Taken, shown_as: str, empty: Refusal = refusals.NO_RECORD) -> Loaded:
    """Load what was taken of a file before; the file itself is not looked at."""
    if taken.refusal is not None:
        return _refused(taken.raw, shown_as, _START, taken.refusal)
    return load_text(taken.raw, shown_as, empty=empty)


def load_text(
    text: bytes | str,
    file: str,
    source: EventSource | None = None,
    empty: Refusal = refusals.NO_RECORD,
) -> Loaded:
    """Load text or the bytes of a file; `source` forces one of the two YAML parsers, `empty` is
    what is said of a file that holds nothing.
    """
    raw = text if isinstance(text, bytes) else text.encode("utf-8", "surrogatepass")
    if len(raw) > LARGEST_FILE_BYTES:
        return _refused(raw, file, _START, file_refusals.file_too_large(LARGEST_FILE_BYTES))
    try:
        decoded = raw.decode("utf-8")
    except UnicodeDecodeError as error:
        return _refused(raw, file, *_explain_bytes(raw, error.start))
    found = Refusals(file, empty)
    data, node = _build(decoded.removeprefix(_BYTE_ORDER_MARK), found, source)
    findings = sorted(found.findings, key=Finding.sort_key)
    return Loaded(None if findings else data, SourceMap(node), findings, _digest(raw))


def _build(
    text: str, found: Refusals, source: EventSource | None
) -> tuple[dict[str, Any] | None, Node]:
    try:
        for character, position in hidden_characters(text):
            found.add(position, refusals.hidden_character(character))
        return _build_visible(text, found, source)
    except ReadingEndedError:
        return None, Node(_START)


def _build_visible(
    text: str, found: Refusals, source: EventSource | None
) -> tuple[dict[str, Any] | None, Node]:
    hidden = bool(found.findings)
    try:
        return Builder(open_events(text, source), text, found).build()
    except yaml.YAMLError as error:
        # A hidden character found before may well be the cause: one fault, one finding.
        if not hidden:
            found.add(*explain_syntax_error(error, text))
        return None, Node(_START)


def _explain_bytes(raw: bytes, start: int) -> tuple[Position, Refusal]:
    if raw.startswith((b"\xff\xfe", b"\xfe\xff")):
        return _START, file_refusals.not_utf8("the file starts as UTF-16 does, and")
    before = raw[:start].decode("utf-8").removeprefix(_BYTE_ORDER_MARK)
    lines = before.replace("\r\n", "\n").replace("\r", "\n").split("\n")
    position = Position(len(lines), len(lines[-1]) + 1)
    return position, file_refusals.not_utf8(f"the byte 0x{raw[start]:02X}")


def _refused(raw: bytes, file: str, position: Position, refusal: Refusal) -> Loaded:
    found = Refusals(file, refusal)
    found.add(position, refusal)
    return Loaded(None, SourceMap(Node(position)), found.findings, _digest(raw))


def _digest(raw: bytes) -> str:
    return hashlib.sha256(raw).hexdigest()
