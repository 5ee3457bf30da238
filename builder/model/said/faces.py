"""What people call the face of a plug that they counted on; no source.

"Front" and "behind" are left out on purpose: each is said of either face, and a mirrored count is
the costliest error.
"""

from __future__ import annotations

from builder.model.words import Face

FACE_WORDS: dict[Face, tuple[str, ...]] = {
    "wire_side": ("wires", "wire", "at the wires", "from the wires", "from the wire side"),
    "mating_side": (
        *("mating", "into it", "looking into it", "contacts", "at the contacts"),
        *("from the mating side", "mating face"),
    ),
    "moulded": ("moulded number", "moulded numbers", "numbers moulded in", "printed on it"),
    "unknown": ("dont know", "don't know", "?", "not written down"),
}
FACE_SAID: dict[str, Face] = {word: face for face, words in FACE_WORDS.items() for word in words}
"""The face that each stands for."""
