"""What a meter or an eye finds at one place of a job that has one fault: in, low or high."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from builder.planning.circuit.model import EndId
from builder.planning.circuit.terminal_names import (
    BODY_AT_STRAP,
    legs_of,
    turn_on_output,
)
from builder.planning.comeback.condition import Condition, FaultyBench
from builder.planning.comeback.handed_over import HandedOver
from builder.planning.comeback.words import When
from builder.proof.band import Band, Where, where_in

Look = Callable[[Condition], Where]
"""What a reading finds on a job as it stands; of a question, "in" is yes and "low" is no."""


def yes_if(holds: Callable[[Condition], bool]) -> Look:
    """Return a look that finds "in" where something holds, else "low"."""
    return lambda now: "in" if holds(now) else "low"


def high_if(more: Callable[[Condition], bool]) -> Look:
    """Return a look that finds "high" where something holds, else "in"."""
    return lambda now: "high" if more(now) else "in"


def switched_at(end: EndId, when: When = "day") -> Callable[[Condition], bool]:
    """Whether what switches on is live at an end, at a time."""
    return lambda now: _is_switched(now.at(when), end)


def _is_switched(bench: FaultyBench, end: EndId) -> bool:
    output = turn_on_output(bench.converter)
    if bench.on_body(end):
        return False
    if bench.joined(output, end) and output in bench.index.terminals:
        return bench.converter_on or bench.car_switches(end)
    return bench.car_switches(end)


def drops_between(job: HandedOver, one: EndId, other: EndId) -> Look:
    """Volts lost between two ends under current: much where a joint is bad or open.

    Two ends that the circuit does not join meet in the car's own wires: what counts then is that
    the devices there have all they need.
    """
    if job.whole.day.joined(one, other):
        return high_if(lambda now: not now.strong.joined(one, other))
    units = [job.index.terminals[end].unit for end in (one, other)]
    devices = [unit for unit in units if unit in job.devices]
    return high_if(lambda now: not all(map(now.strong.supplied, devices)))


def ohms_between(pairs: Sequence[tuple[EndId, EndId]], band: Band) -> Look:
    """Ohms of the dead circuit, device ends open; the first pair outside its band counts."""

    def found(now: Condition) -> Where:
        for one, other in pairs:
            read = None if _open_inside(now, one) else now.day.ohms(one, other)
            where = where_in(band, read, None)
            if where != "in":
                return where
        return "in"

    return found


def _open_inside(now: Condition, end: EndId) -> bool:
    """Whether the speaker that is read is open inside."""
    legs = (leg for name in now.dead for leg in legs_of(name) if leg in now.day.index.terminals)
    return any(now.day.joined(leg, end) for leg in legs)


def to_body(ends: Sequence[EndId]) -> Look:
    """Ohms of the dead circuit from some ends to the body, which none of them may meet."""
    return yes_if(lambda now: not any(now.day.joined(end, BODY_AT_STRAP) for end in ends))


def joined_all(pairs: Sequence[tuple[EndId, EndId]]) -> Look:
    """Continuity of the dead circuit, pair by pair."""
    return yes_if(lambda now: all(now.day.joined(one, other) for one, other in pairs))
