"""A pin table as text from a mail or a notebook: its lines, read before any is taken."""

from __future__ import annotations

import re
from collections.abc import Collection, Iterator, Sequence
from itertools import groupby
from typing import NamedTuple

from builder.editing.drafts.pin_place import place_of
from builder.editing.drafts.pin_text import Meant, PinSaid, pin_of
from builder.editing.drafts.question import AnswerError
from builder.editing.interview.columns import Columns, faces_of, heading_of, in_order, judged
from builder.editing.interview.pins import PlugSaid, read_line
from builder.model.said.faces import FaceNamed, faces_in
from builder.model.words import Face

PLUG_HEAD = r"\W*(?:plug|connector|conn|block)\s+([a-z][a-z0-9]{0,3})\b[^0-9]{0,30}$"
"""A line that says which plug follows; the page's script reads by the same patterns."""
FACED_HEAD = r"\W*(?:(?:plug|connector|conn|block)\s+)?([a-z][a-z0-9]{0,3})\b"
"""How such a line begins when it names a face besides."""
_PLUG_HEAD, _FACED_HEAD = re.compile(PLUG_HEAD, re.I), re.compile(FACED_HEAD, re.I)
_QUOTED = re.compile(r"^[\s>]*")
_NOTHING = re.compile(r"[^a-z0-9]*", re.I)


class PastedLine(NamedTuple):
    """One line that was pasted: what it says of a pin, or why it is none; "" for nothing to say.

    `here` is the plug that it stands below, `faced` what is said there of the face that was counted
    on. `columns` are those that it was
    read by when nobody said them: to be confirmed.
    """

    text: str
    said: PinSaid | None
    why: str = ""
    here: str = ""
    faced: FaceNamed | None = None
    columns: Columns | None = None


class Pasted(NamedTuple):
    """A pasted text as read: its lines, and the columns that its headings say."""

    lines: list[PastedLine]
    columns: list[Columns]


class _Row(NamedTuple):
    """A line that may be about a pin, with the plug, the face and the columns that stand above."""

    text: str
    here: str
    faced: FaceNamed | None
    columns: Columns | None


def read_pasted(
    text: str, plugs: Sequence[PlugSaid], meant: Meant, refused: Collection[str]
) -> Pasted:
    """Return what a pasted text says; a line like "Plug B:" says which plug follows.

    Args:
        text: The text.
        plugs: The plugs of the car; each with the face that it was counted on, where that is said.
        meant: What words were said to mean.
        refused: Columns, in words, that were judged and are not so: `Columns.told`.
    """
    page = _Page(plugs)
    for line in text.splitlines():
        page.take(_QUOTED.sub("", line).strip().strip("|").strip())
    page.end()
    return Pasted(list(_lines(page.rows, plugs, meant, refused)), page.headings)


class _Page:
    """A text as it is gone through: what stands above the line that comes next."""

    def __init__(self, plugs: Sequence[PlugSaid]) -> None:
        self.plugs, self.ids = plugs, [plug.id for plug in plugs]
        self.rows, self.headings = list[_Row](), list[Columns]()
        self.here = self.ids[0] if len(self.ids) == 1 else ""
        self.columns: Columns | None = None
        self.faced: FaceNamed | None = None
        self.common: FaceNamed | None = None  # said before any plug was named
        self.fresh = False  # a face that no line has followed yet

    def take(self, line: str) -> None:
        """Go on by one line."""
        heading, head = heading_of(line), self._head(line)
        if heading is not None:
            self.columns = heading
            self.headings.append(heading)
            self._face(faces_of(heading, self._face_here()))
        elif head is not None or self._is_about_face(line):
            self._plug(head)
            self._face(faces_in(line))
        elif not _NOTHING.fullmatch(line):
            self.rows.append(_Row(line, self.here, self.faced, self.columns))
            self.fresh = False

    def end(self) -> None:
        """Give a face that is said below a table to its lines."""
        below = self.fresh and self.faced
        if below:
            self.rows = [
                row._replace(faced=row.faced or below) if row.here == self.here else row
                for row in self.rows
            ]

    def _plug(self, head: str | None) -> None:
        if head and head != self.here:
            self.here, self.faced, self.fresh = head, self.common, False

    def _face(self, named: Sequence[FaceNamed]) -> None:
        if named:
            faces = tuple(dict.fromkeys(face for each in named for face in each.faces))
            self.faced = FaceNamed(", ".join(each.written for each in named), faces)
            self.fresh = True
            self.common = self.common if self.here else self.faced

    def _face_here(self) -> set[Face | None]:
        return {plug.face for plug in self.plugs if self.here in ("", plug.id)}

    def _head(self, line: str) -> str | None:
        """The plug that a line says follows; None when it says none."""
        found = _PLUG_HEAD.match(line)
        if found is None and self._is_about_face(line):
            found = _FACED_HEAD.match(line)
        letter = found[1].upper() if found else ""
        return letter if letter in self.ids else None

    def _is_about_face(self, line: str) -> bool:
        place = place_of(line, self.ids)
        return bool(faces_in(line)) and not (place and place.cavity.isdigit())


# ---- rows -------------------------------------------------------------------------------------
def _lines(
    rows: Sequence[_Row], plugs: Sequence[PlugSaid], meant: Meant, refused: Collection[str]
) -> Iterator[PastedLine]:
    for (here, columns), group in groupby(rows, key=lambda row: (row.here, row.columns)):
        of = list(group)
        texts = [row.text for row in of]
        read = [_read(text, columns, plugs, here, meant) for text in texts]
        if columns is None:
            read = _better(read, texts, plugs, here, meant, refused)
        yield from (
            each._replace(here=here, faced=row.faced) for each, row in zip(read, of, strict=True)
        )


def _better(
    read: list[PastedLine],
    texts: Sequence[str],
    plugs: Sequence[PlugSaid],
    here: str,
    meant: Meant,
    refused: Collection[str],
) -> list[PastedLine]:
    """Lines read by columns that are judged, where most are none as they stand."""
    if sum(map(_is_pin, read)) * 2 >= len(read) or len(read) < 2:
        return read
    columns = judged(texts, [plug.id for plug in plugs])
    if columns is None or columns.told in refused:
        return read
    others = [_read(text, columns, plugs, here, meant)._replace(columns=columns) for text in texts]
    return others if sum(map(_is_pin, others)) > sum(map(_is_pin, read)) else read


def _is_pin(line: PastedLine) -> bool:
    """Whether a line says a pin, or does once its words are asked back."""
    if line.said is None:
        return False
    try:
        pin_of(line.said)
    except AnswerError:
        return bool(line.said.asked)
    return True


def _read(
    text: str, columns: Columns | None, plugs: Sequence[PlugSaid], here: str, meant: Meant
) -> PastedLine:
    row = in_order(text, columns, {plug.id: plug.face for plug in plugs}, here) if columns else None
    if row == "":
        return PastedLine(
            text, None, "which of its columns is the cavity? say the plug's face first"
        )
    of_here = [plug for plug in plugs if plug.id == here]
    ways: list[Sequence[PlugSaid]] = [of_here, plugs] if of_here else [plugs]
    why = ""
    for each in ways:
        try:
            return PastedLine(text, read_line(row or text, each, meant))
        except AnswerError as error:
            why = why or str(error)
    return PastedLine(text, None, why)
