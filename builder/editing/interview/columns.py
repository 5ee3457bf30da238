"""How the columns of a pasted table lie: said by its heading, or judged by what its cells read as.

A row is read with its cells in the order in which a line about a pin is typed, so that a table says
the same whichever way its columns lie. `record-maker-columns.js` is the twin on a page.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Collection, Mapping, Sequence
from typing import Final, Literal, NamedTuple

from builder.editing.tabular.columns import COLUMNS, Column
from builder.editing.tabular.words import plain
from builder.model.said.faces import SIDES, FaceNamed, faces_in
from builder.model.said.pin_words import pin_words
from builder.model.words import Face

Kind = Literal[
    "plug", "cavity", "function", "channel", "leg", "colours", "stripe", "size", "awg", "trims", ""
]  # fmt: skip
"""What a column holds, in the order of a line; "" for one that is not read."""
NOT_READ: Final = ""
WORD_KINDS: tuple[Kind, ...] = ("function", "channel", "leg", "colours", "stripe")
KIND_NAMES: dict[Kind, str] = {
    **{"plug": "plug", "cavity": "cavity", "function": "function", "channel": "channel"},
    **{"leg": "polarity", "colours": "wire colour", "stripe": "stripe", "size": "mm²"},
    **{"awg": "AWG", "trims": "only trims", "": "not read"},
}
"""As a person reads them."""
_KINDS: dict[tuple[str | int, ...], Kind] = {
    **{("plug",): "plug", ("cavity",): "cavity", ("function",): "function"},
    **{("channel",): "channel", ("leg",): "leg", ("colours",): "colours"},
    **{("wire", "base"): "colours", ("wire", "stripe"): "stripe", ("wire", "size_mm2"): "size"},
    **{("wire", "size_awg"): "awg", ("only_if", "trims"): "trims"},
}
WEAK: Final = ("no", "nr", "number", "cav", "terminal", "contact")
"""Headings of the cavity where no other column is one: they head other numbers as well."""
BETWEEN: Final = ("\t", "|", ";", r"\s{2,}", ",", r"\s+")
"""What stands between cells, the surest first."""
CAVITY_CELL: Final = (
    r"(?:(?:pin|cavity|cav|way|terminal|term|no|nr)\b\.?\s*|#\s*)?[0-9]{1,3}$"
    r"|(?:(?:plug|connector|conn)\s*)?([a-z]{1,3})\s*[.:#-]?\s*[0-9]{1,3}$"
)
SIZE_CELL: Final = (
    r"[0-9]+[.,][0-9]+\s*(?:mm2|mm²|sqmm|mm)?$|[0-9/.,]+\s*(?:mm2|mm²|sqmm|mm|awg|ga)$"
)
_CAVITY, _SIZE = re.compile(CAVITY_CELL, re.I), re.compile(SIZE_CELL, re.I)
LEAST_KNOWN: dict[str, float] = {",": 0.5, r"\s+": 1.0}
"""The share of known headings in a line: a sentence has commas and blanks as well."""
MOSTLY: Final = 0.5
"""The share of cells above which a column holds what they read as. Chosen by this project."""
DISTINCT: Final = 0.8
"""The share of a column of cavities that differ from each other: sizes repeat. Chosen likewise."""


class Columns(NamedTuple):
    """The columns of a table: what is between them, what each holds, and the face it names."""

    between: str
    kinds: tuple[Kind, ...]
    faces: tuple[FaceNamed | None, ...] = ()
    text: str = ""  # the heading; "" where nobody said it

    @property
    def told(self) -> str:
        """The columns in words, in their order."""
        return " · ".join(KIND_NAMES[kind] for kind in self.kinds)


def heading_names() -> dict[str, Kind]:
    """Every heading of a column that is read or known, in its plain form."""
    found: dict[str, Kind] = {}
    for column in COLUMNS:
        for name in column.names:
            found.setdefault(plain(name), _kind_of(column))
    return found


def _kind_of(column: Column) -> Kind:
    return _KINDS.get(column.key, NOT_READ) if column.group in ("where", "pin", "row") else NOT_READ


_NAMES = heading_names()


def cells_of(line: str, between: str) -> list[str]:
    """The cells of a line."""
    parts = line.split(between) if len(between) == 1 else re.split(between, line)
    return [part.strip() for part in parts]


# ---- a heading says it -------------------------------------------------------------------------
def heading_of(line: str) -> Columns | None:
    """Return the columns that a line heads; None when it is no heading."""
    for between in BETWEEN:
        found = _headed(line, between)
        if found is not None:
            return found
    return None


def _headed(line: str, between: str) -> Columns | None:
    cells = cells_of(line, between)
    named = [faces_in(cell) for cell in cells]
    texts = [_bare(cell, faces) for cell, faces in zip(cells, named, strict=True)]
    kinds = [_NAMES.get(text, NOT_READ) for text in texts]
    if "cavity" not in kinds:
        kinds = ["cavity" if text in WEAK else k for text, k in zip(texts, kinds, strict=True)]
    known = sum(text in _NAMES or kind != NOT_READ for text, kind in zip(texts, kinds, strict=True))
    if known < max(2, len(cells) * LEAST_KNOWN.get(between, 0)):
        return None
    return Columns(between, tuple(kinds), tuple(f[0] if f else None for f in named), line)


def _bare(cell: str, faces: Sequence[FaceNamed]) -> str:
    """A heading without the words that name a face, as the table of headings has it."""
    text = plain(cell)
    for face in faces:
        text = text.replace(face.written, " ")
    return " ".join(text.split())


def place_column(columns: Columns, face: Face | None) -> int | None:
    """Which column the cavity of a row stands in; None where that is open.

    Of several, it is the one that names the face that the plug was counted on.
    """
    found = [at for at, kind in enumerate(columns.kinds) if kind == "cavity"]
    if len(found) > 1:
        found = [at for at in found if _faces_at(columns, at) == (face,)]
    return found[0] if len(found) == 1 else None


def _faces_at(columns: Columns, at: int) -> tuple[Face, ...]:
    named = columns.faces[at] if columns.faces else None
    return named.faces if named else ()


def faces_of(columns: Columns, counted: Collection[Face | None]) -> list[FaceNamed]:
    """The face that a heading names; none where each face has a column, and one is `counted` on."""
    places = [at for at, kind in enumerate(columns.kinds) if kind == "cavity"]
    named = [one for at in places if columns.faces and (one := columns.faces[at])]
    if len(places) > 1 and all(face in SIDES for face in counted):
        return []
    return named


def not_read(columns: Columns) -> list[str]:
    """The headings whose cells are left where they are."""
    cells = cells_of(columns.text, columns.between)
    return [c for c, kind in zip(cells, columns.kinds, strict=True) if c and kind == NOT_READ]


# ---- a row in the order of a line ---------------------------------------------------------------
def in_order(
    line: str, columns: Columns, face_of: Mapping[str, Face | None], here: str
) -> str | None:
    """Return a row as the line about a pin that it is; None when it has no such columns.

    It is "" where two columns are the cavity's, each of a face, and the plug's own is not said.
    `face_of` says of each plug the face that it was counted on, `here` whose plug the row is when
    no column does.
    """
    cells = cells_of(line, columns.between)
    by_kind = [(kind, cell) for kind, cell in zip(columns.kinds, cells, strict=False) if cell]
    plug = next((cell for kind, cell in by_kind if kind == "plug"), "")
    at = place_column(columns, face_of.get(plug.upper() or here))
    if at is None and columns.kinds.count("cavity") > 1:
        return ""
    if len(cells) < 2 or len(cells) > len(columns.kinds) or at is None or at >= len(cells):
        return None
    parts = [cell for kind in WORD_KINDS for each, cell in by_kind if each == kind]
    parts += [_sized(kind, cell) for kind, cell in by_kind if kind in ("size", "awg")]
    parts += [f"only {cell}" for kind, cell in by_kind if kind == "trims"]
    return " ".join([plug, cells[at], ";", *parts]).strip()


def _sized(kind: Kind, cell: str) -> str:
    bare = re.fullmatch(r"[0-9]+(?:[.,/][0-9]+)?", cell)
    return f"{cell} {'awg' if kind == 'awg' else 'mm2'}" if bare else cell


# ---- nobody said it ------------------------------------------------------------------------------
def judged(lines: Sequence[str], plugs: Sequence[str]) -> Columns | None:
    """Return how the columns of lines without a heading lie, by what their cells read as.

    None where most lines are not of one number of cells, or not one column is the cavity's.
    """
    for between in BETWEEN:
        rows = [cells_of(line, between) for line in lines]
        count, often = Counter(map(len, rows)).most_common(1)[0]
        if count < 2 or often <= MOSTLY * len(rows):
            continue
        whole = [row for row in rows if len(row) == count]
        kinds = [_judged_kind([row[at] for row in whole], plugs) for at in range(count)]
        places = _places(whole, kinds)
        if len(places) == 1:
            return Columns(between, tuple(_kept(k, at == places[0]) for at, k in enumerate(kinds)))
    return None


def _kept(kind: Kind, is_place: bool) -> Kind:
    """Beside cavities that name their plug other numbers count rows; words are read, or refused."""
    if kind == "cavity":
        return "cavity" if is_place else NOT_READ
    return kind or "function"


def _places(rows: Sequence[Sequence[str]], kinds: Sequence[Kind]) -> list[int]:
    """The columns that can be the cavity's; one that names the plug too stands before others."""
    found = [at for at, kind in enumerate(kinds) if kind == "cavity"]
    named = [at for at in found if any((m := _CAVITY.match(row[at])) and m[1] for row in rows)]
    return named or found


def _judged_kind(cells: Sequence[str], plugs: Sequence[str]) -> Kind:
    filled = [cell for cell in cells if cell]
    if not filled:
        return NOT_READ
    kinds = Counter(_cell_kind(cell, plugs) for cell in filled)
    kind, often = kinds.most_common(1)[0]
    if often <= MOSTLY * len(filled):
        return NOT_READ
    if kind == "cavity" and len(set(filled)) < DISTINCT * len(filled):
        return NOT_READ
    return kind


def _cell_kind(cell: str, plugs: Sequence[str]) -> Kind:
    place = _CAVITY.match(cell)
    if place and (not place[1] or place[1].upper() in plugs):
        return "cavity"
    if len(plugs) > 1 and cell.upper() in plugs:
        return "plug"
    if _SIZE.match(cell):
        return "size"
    found = pin_words(cell)
    if found.left or not found.phrases:
        return NOT_READ
    kinds = {phrase.kind for phrase in found.phrases}
    return "function" if kinds & {"function", "channel"} else "leg" if "leg" in kinds else "colours"
