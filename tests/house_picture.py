"""The picture of the house in DEVELOPERS.md, drawn of what the modules import.

`python tests/house_picture.py` draws it anew; a test compares it.
"""

from __future__ import annotations

import ast
from functools import cache
from pathlib import Path

from builder_code import BUILDER, files, nodes_of

PAGE = Path(__file__).parents[1] / "DEVELOPERS.md"
BEGINS, ENDS = "<!-- house: drawn by tests/house_picture.py -->\n```\n", "```\n"


def room_of(path: Path) -> str:
    """The room of a module: its package, or itself where it stands alone."""
    return path.relative_to(BUILDER).parts[0].removesuffix(".py")


@cache
def asked() -> dict[str, frozenset[str]]:
    """Which rooms each room imports from."""
    rooms = {room_of(path) for path in files() if path.parent != BUILDER or path.stem[0] != "_"}
    found: dict[str, set[str]] = {room: set() for room in rooms}
    for path in (path for path in files() if room_of(path) in rooms):
        for node in nodes_of(path):
            if isinstance(node, ast.ImportFrom) and (node.module or "").startswith("builder."):
                found[room_of(path)].add(str(node.module).split(".")[1])
    return {room: frozenset(others & rooms - {room}) for room, others in found.items()}


@cache
def floor_of(room: str) -> int:
    """How many rooms stand below it at the most."""
    return 1 + max((floor_of(other) for other in asked()[room]), default=-1)


@cache
def reached(room: str) -> frozenset[str]:
    """What a room asks, and what that asks, and so on."""
    return frozenset().union(asked()[room], *(reached(other) for other in asked()[room]))


def picture() -> str:
    """Floors from top to bottom, each room with the rooms that it reaches through no other."""
    floors: dict[int, list[str]] = {}
    for room in sorted(asked()):
        floors.setdefault(floor_of(room), []).append(room)
    lines = [_line(at, room) for at in sorted(floors, reverse=True) if at for room in floors[at]]
    return "\n".join([*lines, f"0  {'   '.join(floors[0])}", ""])


def _line(floor: int, room: str) -> str:
    others = asked()[room]
    far = frozenset().union(*map(reached, others))
    near = sorted(others - far, key=lambda other: (-floor_of(other), other))
    return f"{floor}  {f'{room} ':─<16}─▶ {', '.join(near)}"


def drawn(text: str) -> str:
    """The page with the picture as it is today."""
    before, begins, rest = text.partition(BEGINS)
    _, ends, after = rest.partition(ENDS)
    return f"{before}{begins}{picture()}{ends}{after}"


if __name__ == "__main__":
    PAGE.write_text(drawn(PAGE.read_text("utf-8")), "utf-8")
