"""A look into a workbook before anything is made of it.

A workbook is a zip of XML files. Its size is what its directory says, which the zip reader never
exceeds; a part that declares entities, runs code or fetches from outside is refused; of every
sheet the outermost cell and the joined cells are found by an event parser, which keeps nothing.
"""

from __future__ import annotations

import io
import re
import zipfile
import zlib
from dataclasses import dataclass, field
from xml.parsers import expat

from builder.spreadsheets.cells import address
from builder.spreadsheets.limits import (
    MOST_JOINED,
    MOST_PARTS,
    MOST_SHEETS,
    MOST_UNPACKED_BYTES,
    RefusedFileError,
    refuse_place,
)

_UNSAFE = {
    "vbaproject": "holds macros",
    "externallinks/": "is linked to other files",
    "activex/": "holds controls that run code",
    "embeddings/": "holds other files",
    "macrosheets/": "holds macros",
    "connections.xml": "fetches data from elsewhere",
    "querytables/": "fetches data from elsewhere",
}
_PLACE = re.compile(r"\$?([A-Z]{1,3})\$?([0-9]{1,7})\Z")
_AGAIN = "copy the two sheets into a new workbook and save it as .xlsx"
Area = tuple[int, int, int, int]
"""Joined cells: first row, first column, last row, last column, 1-based."""


@dataclass(slots=True)
class Looked:
    """What a look at one sheet's XML found."""

    joined: list[Area] = field(default_factory=list)
    row: int = 0  # of the last element seen
    column: int = 0


def look_at(content: bytes) -> dict[str, Looked]:
    """Return what was seen in each sheet of a workbook, by the name of its part.

    Raises:
        RefusedFileError: it is no workbook, is not safe, or is too large.
    """
    try:
        with zipfile.ZipFile(io.BytesIO(content)) as package:
            return _look_at_parts(package)
    except (zipfile.BadZipFile, zlib.error, EOFError, NotImplementedError, OSError) as error:
        raise _damaged(str(error)) from error
    except (ValueError, RuntimeError) as error:  # a directory that contradicts itself, a password
        raise _damaged(str(error)) from error


def _damaged(why: str) -> RefusedFileError:
    return RefusedFileError(f"is no workbook that can be opened: {why}"[:200], _AGAIN)


def _look_at_parts(package: zipfile.ZipFile) -> dict[str, Looked]:
    parts = package.infolist()
    _refuse_bulk(parts)
    names = [part.filename for part in parts]
    if len(set(names)) < len(names):
        raise _damaged("two of its parts have one name")
    for name in names:
        _refuse_unsafe(name)
    return {
        part.filename: _look_at_part(package.read(part), part.filename)
        for part in parts
        if part.filename.lower().endswith((".xml", ".rels", ".vml"))
    }


def _refuse_bulk(parts: list[zipfile.ZipInfo]) -> None:
    size = sum(part.file_size for part in parts)
    sheets = sum("worksheets/sheet" in part.filename.lower() for part in parts)
    if size > MOST_UNPACKED_BYTES or len(parts) > MOST_PARTS or sheets > MOST_SHEETS:
        raise RefusedFileError(
            f"unpacks to {size} bytes in {len(parts)} parts, more than a table of one car",
            _AGAIN,
            unsafe=True,
        )


def _refuse_unsafe(name: str) -> None:
    for piece, what in _UNSAFE.items():
        if piece in name.lower():
            raise RefusedFileError(what, _AGAIN, unsafe=True)


def _look_at_part(xml: bytes, name: str) -> Looked:
    looked = Looked()
    parser = expat.ParserCreate()
    parser.StartDoctypeDeclHandler = _refuse_doctype
    if "worksheets/" in name.lower():
        parser.StartElementHandler = lambda tag, keys: _look_at_element(tag, keys, looked)
    try:
        parser.Parse(xml, True)
    except expat.ExpatError as error:
        raise _damaged(f"{name}: {error}") from error
    return looked


def _refuse_doctype(*said: object) -> None:
    raise RefusedFileError("declares XML entities, which no workbook needs", _AGAIN, unsafe=True)


def _look_at_element(tag: str, keys: dict[str, str], looked: Looked) -> None:
    local = tag.rpartition(":")[2]
    if local == "row":
        given = keys.get("r", "")
        _go_to(looked, int(given[:9]) if given.isdigit() else looked.row + 1, 0, f"row {given}")
    elif local == "c":
        given = keys.get("r", "")
        place = _place(given) if given else (looked.row, looked.column + 1)
        _go_to(looked, *place, given or address(*place))
    elif local == "mergeCell":
        _note_joined(keys.get("ref", ""), looked)


def _go_to(looked: Looked, row: int, column: int, place: str) -> None:
    """Count to a row or cell. One without an address stands behind the one before it.

    Readers go by addresses and by order; where the two disagree, a cell would take the place of
    another without a word.
    """
    refuse_place(row, max(column, 1), place[:20])
    new_row = column == 0
    behind = row > looked.row if new_row else row == looked.row and column > looked.column
    if not behind:
        raise RefusedFileError(
            "has rows or cells out of order, or two at one address", _AGAIN, place[:20]
        )
    looked.row, looked.column = row, column


def _note_joined(area: str, looked: Looked) -> None:
    first, _, last = area.partition(":")
    looked.joined.append((*_place(first), *_place(last or first)))
    if len(looked.joined) > MOST_JOINED:
        raise RefusedFileError(
            f"joins cells in more than {MOST_JOINED} places",
            "part the joined cells (the table needs none), and save it again",
            area[:20],
            unsafe=True,
        )


def _place(name: str) -> tuple[int, int]:
    """Row and column of a cell's name; far outside every table when it is none."""
    found = _PLACE.match(name)
    if found is None:
        return 10**9, 10**9
    column = 0
    for letter in found[1]:
        column = column * 26 + ord(letter) - ord("A") + 1
    return int(found[2]), column
