"""The act that makes a second battery live."""

from __future__ import annotations

from dataclasses import replace
from typing import Final

from builder.planning.circuit.terminal_names import SECOND
from builder.planning.course.model import Act, among, needs

SECOND_ON: Final = "second battery on"
_COVERED = (
    "then a cover over each of its posts, what holds it down tight; a vent, if it has one, led out "
    "of the cab by its hose"
)
"""What a battery needs that stands where people sit. Common practice, no source."""


def second_on(act: Act) -> Act:
    """Return the act as the last that makes a second battery live: its ring goes on its post,
    before the car's own."""
    wanted = {**act.needs, **needs(key="off"), SECOND: among("absent")}
    tags = frozenset({"joint", SECOND_ON})
    said = replace(act.said, lines=(*act.said.lines, _COVERED))
    return replace(act, phase="bench", said=said, needs=wanted, tags=tags, does={SECOND: "on"})
