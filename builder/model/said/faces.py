"""What people call the face of a plug that they counted on; no source.

"Front" and "behind" are left out on purpose: each is said of either face, and a mirrored count is
the costliest error. In a heading they are asked back.
"""

from __future__ import annotations

import re
from typing import NamedTuple, get_args

from builder.model.words import Face

FACE_WORDS: dict[Face, tuple[str, ...]] = {
    "wire_side": (
        *("wires", "wire", "at the wires", "from the wires", "from the wire side"),
        *("looking at the wires", "wire entry", "wire entry side", "cable side", "cable entry"),
    ),
    "mating_side": (
        *("mating", "into it", "looking into it", "contacts", "at the contacts"),
        *("from the mating side", "mating face", "mating end", "into the plug", "looking into"),
        *("into the open face", "open face", "contact side", "from the contacts"),
    ),
    "moulded": (
        *("moulded number", "moulded numbers", "numbers moulded in", "printed on it"),
        *("as moulded", "numbers as moulded", "numbers on the plug"),
    ),
    "unknown": ("dont know", "don't know", "?", "not written down"),
}
FACE_SAID: dict[str, Face] = {word: face for face, words in FACE_WORDS.items() for word in words}
"""The face that each stands for."""

_EITHER: tuple[str, ...] = (
    *("front view", "rear view", "back view", "front side", "rear side", "back side"),
    *("front face", "rear face", "back face", "from the front", "from the rear", "from the back"),
    *("from behind", "terminal side", "pin side", "terminal end", "pin end"),
)
"""What is said of the wires' side by some and of the mating side by others."""
SIDES: tuple[Face, Face] = ("wire_side", "mating_side")
"""The two faces that a count is the mirror of the other on."""
DENYING = "not"
"""The word that takes back a face: "not at the wires"."""
FACE_NAMES: dict[Face, str] = {face: face.replace("_", " ") for face in get_args(Face)}
"""The faces as a person reads them."""


class FaceNamed(NamedTuple):
    """Words of a text that name a face, and the faces that they can mean."""

    written: str
    faces: tuple[Face, ...]


def named_phrases() -> dict[str, tuple[Face, ...]]:
    """Phrases that name a face wherever they stand; the longest first.

    A single word is none: "wire" heads the column of colours as well.
    """
    known: list[Face] = [*SIDES, "moulded"]
    words = [(face, word) for face in known for word in (FACE_NAMES[face], *FACE_WORDS[face])]
    found: dict[str, tuple[Face, ...]] = {word: (face,) for face, word in words if " " in word}
    found |= dict.fromkeys(_EITHER, SIDES)
    return {phrase: found[phrase] for phrase in sorted(found, key=lambda one: (-len(one), one))}


_PHRASES = named_phrases()


def faces_in(text: str) -> list[FaceNamed]:
    """Return what a heading says of the face; a phrase behind "not" says nothing.

    >>> faces_in("Plug B, counted looking INTO it, not at the wires")
    [FaceNamed(written='looking into it', faces=('mating_side',))]
    """
    plain, found = f" {plain_face(text)} ", list[FaceNamed]()
    for phrase, faces in _PHRASES.items():
        front, there, behind = plain.partition(f" {phrase} ")
        if there:
            found += [] if front.endswith(f" {DENYING}") else [FaceNamed(phrase, faces)]
            plain = f"{front} | {behind}"
    return found


def plain_face(text: str) -> str:
    """A text as words of small letters, with one blank between them."""
    return " ".join(re.findall(r"[a-z0-9']+", text.lower().replace("_", " ").replace("’", "'")))
