"""The plugs of the handbook's page on drawings: drawn as every plug is, of no car."""

from __future__ import annotations

from typing import Any, Final

from markupsafe import Markup

from builder.declaring.reading import read
from builder.model.housing import Housing
from builder.model.plugs import Plug
from builder.rendering.drawings.plug_faces import plug_faces

_SHELL: Final[dict[str, Any]] = {
    "schema": 1, "data": "invented", "name": "housing of this page", "seen_from": "wire_side",
    "blade_mm": 1.5, "blocked": [8],
}  # fmt: skip
LATCH_ABOVE = read(
    Housing,
    _SHELL
    | {"id": "latch-above", "latch": "top", "rows": [[1, 2, 3, 4], [5, 6, 7, 8]]}
    | {"keyed_corner": "bottom_left"},
)
LATCH_BESIDE = read(
    Housing,
    _SHELL
    | {"id": "latch-beside", "latch": "left", "rows": [[1, 2], [3, 4], [5, 6], [7, 8]]}
    | {"keyed_corner": "bottom_right"},
)


def _speaker(cavity: int, leg: str, base: str, stripe: str) -> dict[str, Any]:
    return {
        "cavity": cavity, "function": "speaker", "channel": "front-left", "leg": leg,
        "wire": {"base": base, "stripe": stripe},
    }  # fmt: skip


def _plug(letter: str, shell: Housing) -> Plug:
    return read(
        Plug,
        {
            "id": letter, "name": f"latch at the {shell.latch}", "unit": "radio",
            "location": "on this page", "housing": shell.id, "shell_colours": ["grey"],
            "read_from": "wire_side", "empty": [6],
            "pins": [
                {"cavity": 1, "function": "constant", "wire": {"base": "yellow"}},
                {"cavity": 2, "function": "accessory", "wire": {"base": "red", "stripe": "blue"}},
                _speaker(3, "positive", "white", "green"),
                _speaker(4, "negative", "green", "black"),
                {"cavity": 5, "function": "ground", "wire": {"base": "black"}},
            ],
        },
    )  # fmt: skip


def lesson(which: Housing) -> Markup:
    """Return both faces of one of the plugs, cavity 2 ringed in both, as one line of HTML."""
    letter = "A" if which is LATCH_ABOVE else "B"
    faces = plug_faces(which, _plug(letter, which), ("2",))
    drawn = Markup("").join(Markup('<div class="face">{}</div>').format(face) for face in faces)
    return Markup('<div class="faces">{}</div>').format(drawn)
