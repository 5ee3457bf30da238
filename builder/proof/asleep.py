"""Was the car asleep when somebody wrote that it was?"""

from __future__ import annotations

from builder.proof.wording import Measured


def taken_too_soon(reading: Measured, limit_min: float) -> bool:
    """Whether a reading calls the car asleep sooner than `limit_min` after locking. [min]

    Minutes that were not written down are not held against it.
    """
    if reading.state != "asleep" or reading.minutes is None:
        return False
    return limit_min - reading.minutes > 1e-9
