"""One line of the bay sheet, before it has its number."""

from __future__ import annotations

from builder.planning.bay.ids import reading_id
from builder.planning.plan import ProofReading
from builder.planning.words import PHASE_OF, TestQuantity, TestState, TestUnit, Turn
from builder.planning.work_pack import BayTest

_UNITS: dict[TestQuantity, TestUnit] = {
    "dc_v": "V", "ac_v": "V", "a": "A", "ohm": "Ω", "hz": "Hz", "ma": "mA",
    "duty_percent": "%", "check": "",
}  # fmt: skip


WITH_THE_CIRCUIT = "2026-11-29"
"""The day from which sheets look at every joint of a job."""


DEAD: tuple[TestState, ...] = ("unplugged", "battery_off")
"""States in which nothing is powered."""


def measure(
    id: str,
    turn: Turn,
    what: str,
    state: TestState,
    quantity: TestQuantity,
    low: float | None,
    high: float | None,
    why: str,
    probes: tuple[str, ...] = (),
    since: str = "",
) -> BayTest:
    """Return a line that a meter answers; its unit is that of the quantity."""
    return BayTest(
        id, PHASE_OF[turn], what, state, quantity, low, high, _UNITS[quantity], why, None,
        since=since, probes=probes, turn=turn,
    )  # fmt: skip


def tick(
    id: str,
    turn: Turn,
    what: str,
    state: TestState,
    why: str,
    probes: tuple[str, ...] = (),
    since: str = "",
) -> BayTest:
    """Return a line that is answered with yes or no."""
    return BayTest(
        id, PHASE_OF[turn], what, state, "check", None, None, "", why, None, since=since,
        probes=probes, turn=turn,
    )  # fmt: skip


def proof_line(reading: ProofReading) -> BayTest:
    """Return the line of a reading that proves a pin."""
    where = reading.fuse_position or f"{reading.plug}.{reading.cavity}"
    return BayTest(
        reading_id(reading), "before", f"{where}: {reading.how}", reading.state, reading.quantity,
        reading.low, reading.high, _UNITS[reading.quantity], reading.settles, reading,
        low_from_battery_v=reading.low_from_battery_v,
        high_from_battery_v=reading.high_from_battery_v,
        turn="proof_dead" if reading.state in DEAD else "proof",
    )  # fmt: skip
