"""The order of trade on the way back: rows of "this before that, because".

Common practice, no source.
"""

from __future__ import annotations

from typing import Final

from builder.planning.course.model import Before

NOTED, OPENED, UNDONE, LINES_OUT, GROUND_OFF, OUT, CABLES_OUT, SHUT, READ, LEFT_WHOLE = (
    "noted", "opened", "undone", "line leads out", "ground off", "device out", "cables out", "shut",
    "read", "left whole",
)  # fmt: skip

BACK: Final[tuple[Before, ...]] = (
    Before(NOTED, OPENED, "a radio forgets when its battery is off"),
    Before(NOTED, LINES_OUT, "a radio forgets when its battery is off"),
    Before(NOTED, UNDONE, "a radio forgets when its battery is off"),
    Before(OPENED, UNDONE, "what lies behind trim is reached first"),
    Before(OPENED, GROUND_OFF, "what lies behind trim is reached first"),
    Before(UNDONE, GROUND_OFF, "a ground came first and goes last"),
    Before(LINES_OUT, GROUND_OFF, "without its ground a device grounds through its line leads"),
    Before(UNDONE, OUT, "a device leaves when nothing of it hangs on the car"),
    Before(OUT, GROUND_OFF, "a ground came first and goes last"),
    Before(LINES_OUT, OUT, "a device leaves when nothing hangs on it"),
    Before(OUT, CABLES_OUT, "a cable is drawn out of what is empty"),
    Before(UNDONE, CABLES_OUT, "a cable is drawn out when both its ends are free"),
    Before(GROUND_OFF, CABLES_OUT, "a cable is drawn out when both its ends are free"),
    Before(CABLES_OUT, SHUT, "a hole is closed when nothing passes it any more"),
    Before(UNDONE, SHUT, "what is open is needed until then"),
    Before(SHUT, READ, "the car is read as it will be driven"),
    Before(CABLES_OUT, READ, "the car is read as it will be driven"),
    Before(READ, LEFT_WHOLE, "compared with what was found when all is read"),
)
