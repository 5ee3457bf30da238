"""What a meter or an eye finds at one place of a job that has one fault: in, low or high."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from itertools import chain, combinations

from builder.planning.circuit.model import EndId
from builder.planning.circuit.terminal_names import (
    BODY_AT_STRAP,
    legs_of,
    shield_of,
    turn_on_output,
)
from builder.planning.comeback.condition import Condition, FaultyBench
from builder.planning.comeback.handed_over import HandedOver
from builder.planning.comeback.words import FaultKind, When
from builder.planning.words import LinkClass, UnitKind
from builder.proof.band import Band, Where, where_in
from builder.units import Ohms

Look = Callable[[Condition], Where]
"""What a reading finds on a job as it stands; of a question, "in" is yes and "low" is no."""


def yes_if(holds: Callable[[Condition], bool]) -> Look:
    """Return a look that finds "in" where something holds, else "low"."""
    return lambda now: "in" if holds(now) else "low"


def high_if(more: Callable[[Condition], bool]) -> Look:
    """Return a look that finds "high" where something holds, else "in"."""
    return lambda now: "high" if more(now) else "in"


def free_of(kind: FaultKind, at: str) -> Look:
    """Return the look of an eye, or of a meter on a piece by itself: whether it has this fault."""
    return yes_if(lambda now: not now.has(kind, at))


def supply_at(job: HandedOver, end: EndId) -> Look:
    """Volts of a supply to the body, with the key on."""
    kinds: tuple[UnitKind, ...] = ("battery", "plug", "fuse_position")
    units = (unit for unit in job.circuit.units if unit.kind in kinds)
    sources = [x.id for unit in units for x in unit.terminals if x.carries == "supply"]

    def there(now: Condition) -> bool:
        bench = now.day
        return any(bench.joined(each, end) for each in sources) and not bench.on_body(end)

    return yes_if(there)


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
    each hangs on them or on the battery.
    """
    if job.whole.day.joined(one, other):
        return high_if(lambda now: not now.strong.joined(one, other))
    return high_if(lambda now: not all(map(now.strong.from_the_car, (one, other))))


def sound_between(carries: LinkClass, one: EndId, other: EndId) -> Look:
    """AC volts between two legs while a tone plays."""
    if carries == "line":
        return yes_if(lambda now: _line_sound(now.day, one, other))
    if carries == "amplified":
        return yes_if(lambda now: _amplified_sound(now.day, one, other))
    return yes_if(lambda now: _pair_sound(now.day, one, other))


def _pair_sound(bench: FaultyBench, one: EndId, other: EndId) -> bool:
    return bench.leg_plays(one) and bench.leg_plays(other) and not bench.joined(one, other)


def _line_sound(bench: FaultyBench, centre: EndId, shield: EndId) -> bool:
    return any(
        bench.line_pairs(output)
        for output in bench.sound.plays
        if bench.joined(output, centre) and bench.joined(shield_of(output), shield)
    )


def _amplified_sound(bench: FaultyBench, one: EndId, other: EndId) -> bool:
    for channel in bench.sound.inputs:
        ends = legs_of(channel)
        straight = all(map(bench.joined, ends, (one, other)))
        if straight or all(map(bench.joined, ends, (other, one))):
            return bool(bench.channel_plays(channel))
    return False


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


def to_body(ends: Sequence[EndId], least: Ohms) -> Look:
    """Ohms of the dead circuit from some ends to the body: a coil between is no insulation."""

    def apart_from_it(now: Condition) -> bool:
        return all(now.day.ohms(end, BODY_AT_STRAP) >= least for end in ends)

    return yes_if(apart_from_it)


def all_apart(ends: Sequence[EndId], others: Sequence[EndId], least: Ohms) -> Look:
    """Ohms of the dead circuit from each of some ends to each of others, and to the body."""

    against = (*others, BODY_AT_STRAP)

    def apart_from_all(now: Condition) -> bool:
        read, island = now.day.ohms, now.day.island
        if {*map(island, ends)}.isdisjoint(map(island, against)):
            return True  # no way at all: nothing to work out
        return all(read(end, each) >= least for end in ends for each in against)

    return yes_if(apart_from_all)


def pairs_apart(pairs: Sequence[tuple[EndId, EndId]], least: Ohms) -> Look:
    """Ohms of the dead circuit between the legs of each pair and of every other."""

    def all_apart_from_another(now: Condition) -> bool:
        islands = [{now.day.island(end) for end in legs} for legs in pairs]
        if sum(map(len, islands)) == len({*chain.from_iterable(islands)}):
            return True  # no way from any to another: nothing to work out
        return all(
            now.day.ohms(end, each) >= least
            for one, other in combinations(pairs, 2)
            for end in one
            for each in other
        )

    return yes_if(all_apart_from_another)


def own_and_no_other(pairs: Sequence[tuple[EndId, EndId]], whole: Condition) -> Look:
    """Continuity of the dead circuit, pair by pair; what is apart in the whole job stays so."""
    apart_in_it = [
        (one, other) for one, _ in pairs for _, other in pairs if not whole.day.joined(one, other)
    ]
    joined = joined_all(pairs)

    def found(now: Condition) -> bool:
        met = any(now.day.joined(one, other) for one, other in apart_in_it)
        return not met and joined(now) == "in"

    return yes_if(found)


def joined_all(pairs: Sequence[tuple[EndId, EndId]]) -> Look:
    """Continuity of the dead circuit, pair by pair."""
    return yes_if(lambda now: all(now.day.joined(one, other) for one, other in pairs))


def passed_on_all(pairs: Sequence[tuple[EndId, EndId]]) -> Look:
    """Whether what runs from end to end works: joined, and not lying on the body."""
    return yes_if(
        lambda now: all(
            now.day.joined(one, other) and not now.day.on_body(one) for one, other in pairs
        )
    )


def apart(one: EndId, other: EndId) -> Look:
    """Ohms between two ends that are one net: high where it is broken."""
    return high_if(lambda now: not now.day.joined(one, other))
