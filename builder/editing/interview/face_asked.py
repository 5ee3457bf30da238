"""The face that the lines of a pasted table were counted on, compared with that of their plug.

A mirrored count is the costliest error: lines below a heading that names another face than the plug
are not taken before somebody says which is right. `record-maker-columns.js` is the twin on a page.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from typing import Literal, NamedTuple

from builder.editing.interview.pasted import PastedLine
from builder.editing.interview.pins import PlugSaid
from builder.model.words import UNKNOWN, Face
from builder.proof.faces.poses import mirror
from builder.proof.faces.turning import is_other_face

Way = Literal["as_is", "set", "turn"]
"""What becomes of lines of a face: taken as they stand, taken with the plug set to that face, or
turned to the face of the plug."""
Key = tuple[str, str]
"""Plug and words of a heading."""


class FaceAsked(NamedTuple):
    """A heading whose face has to be settled for a plug, and the faces that it can be."""

    plug: str
    written: str
    choices: tuple[Face, ...]

    @property
    def key(self) -> Key:
        """What its answer is kept under."""
        return self.plug, self.written


def faces_asked(lines: Sequence[PastedLine], plugs: Sequence[PlugSaid]) -> list[FaceAsked]:
    """Return what has to be settled, each once: a heading disagrees, or its plug says no face."""
    asked = dict[Key, FaceAsked]()
    for plug, line in _faced(lines, plugs):
        faces = line.faced.faces if line.faced else ()
        own = _own(plug)
        if faces != (own,) and line.faced:
            choices = tuple(dict.fromkeys([*faces, *([own] if own else [])]))
            one = FaceAsked(plug.id, line.faced.written, choices)
            asked.setdefault(one.key, one)
    return list(asked.values())


def _faced(
    lines: Sequence[PastedLine], plugs: Sequence[PlugSaid]
) -> Iterator[tuple[PlugSaid, PastedLine]]:
    """Lines below the name of a face, with the plug that they are of, or may be of."""
    for line in lines:
        for plug in plugs:
            if line.faced and plug.id == (line.said.plug if line.said else line.here):
                yield plug, line


def _own(plug: PlugSaid) -> Face | None:
    """The face of a plug where one was said; that nobody knows it says none."""
    return None if plug.face == UNKNOWN else plug.face


def way_of(plug: PlugSaid, face: Face) -> Way:
    """Return what becomes of lines of a plug that were counted on a face."""
    own = _own(plug)
    if own == face:
        return "as_is"
    if own is None or not plug.stands:
        return "set"
    return "turn" if is_other_face(own, face, plug.housing) else "as_is"


def settled(line: PastedLine, plugs: Sequence[PlugSaid], answers: Mapping[Key, Face]) -> PastedLine:
    """Return a line as it is taken, turned where due; without a pin while its face is open."""
    plug = next((each for each in plugs if line.said and each.id == line.said.plug), None)
    if plug is None or line.faced is None:
        return line
    face = answers.get((plug.id, line.faced.written))
    if face is None or way_of(plug, face) == "set":  # the plug has not got it yet
        agrees = line.faced.faces == (_own(plug),)
        return line if agrees else _refused(line, "the face that it was counted on is open")
    return _turned(line, plug) if way_of(plug, face) == "turn" else line


def _turned(line: PastedLine, plug: PlugSaid) -> PastedLine:
    assert line.said is not None
    if plug.housing is None:
        return _refused(line, f"it cannot be turned: the housing of plug {plug.id} is not known")
    image = mirror(plug.housing).get(str(line.said.cavity))
    if image is None:
        why = f"cavity {line.said.cavity} has no counterpart seen from the other face"
        return _refused(line, why)
    return line._replace(said=replace(line.said, cavity=int(image) if image.isdigit() else image))


def _refused(line: PastedLine, why: str) -> PastedLine:
    return line._replace(said=None, why=why)
