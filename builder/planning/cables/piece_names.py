"""What a piece of cable is called on every sheet; its jacket is its outer skin and nothing else."""

from __future__ import annotations

import re
from collections.abc import Iterable
from typing import Final

from builder.planning.words import DemandClass

CABLE: Final = "cable "
"""What the name of a piece with a jacket begins with."""


def cable_name(number: int) -> str:
    """Return what a piece of a cable with a jacket is called.

    >>> cable_name(2)
    'cable 2'
    """
    return f"{CABLE}{number}"


def cable_number(piece: str) -> int | None:
    """Return the number of a piece of cable; None for a wire or a lead by itself.

    >>> cable_number("cable 2"), cable_number("lead to subwoofer")
    (2, None)
    """
    found = re.fullmatch(rf"{CABLE}(\d+)", piece)
    return int(found[1]) if found else None


def cables_named(numbers: Iterable[int]) -> str:
    """Return several pieces in words.

    >>> cables_named([1]), cables_named([1, 3])
    ('cable 1', 'cables 1, 3')
    """
    given = [str(number) for number in numbers]
    return f"{CABLE}{given[0]}" if len(given) == 1 else f"cables {', '.join(given)}"


CLASS_NAMES: dict[DemandClass, str] = {
    "signal": "signal",
    "line": "line",
    "amplified": "amplified",
    "control": "turn-on",
    "supply": "supply",
    "ground": "ground",
    "through": "passed on",
    "spare": "spare",
}
"""What a job's sheets and labels call what a core carries."""
