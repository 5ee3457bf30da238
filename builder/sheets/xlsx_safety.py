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

from builder.sheets.limits import (
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
    if local == "c" and "r" in keys:
        refuse_place(*_place(keys["r"]), keys["r"][:20])
    elif local == "row" and keys.get("r", "").isdigit():
        refuse_place(int(keys["r"][:9]), 1, f"row {keys['r'][:20]}")
    elif local == "mergeCell":
        first, _, last = keys.get("ref", "").partition(":")
        top, left = _place(first)
        bottom, right = _place(last or first)
        looked.joined.append((top, left, bottom, right))


def _place(name: str) -> tuple[int, int]:
    """Row and column of a cell's name; far outside every table when it is none."""
    found = _PLACE.match(name)
    if found is None:
        return 10**9, 10**9
    column = 0
    for letter in found[1]:
        column = column * 26 + ord(letter) - ord("A") + 1
    return int(found[2]), column
