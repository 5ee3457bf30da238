"""The way back to stock: every joint on the car's own wires undone, in order."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from typing import NamedTuple

from builder.planning.circuit.index import CircuitIndex
from builder.planning.circuit.model import CircuitWire, Element, Joint
from builder.planning.circuit.terminal_names import RADIO_END, SPEAKER_END
from builder.planning.views.names import end_words, is_at_fuse
from builder.planning.views.wiring_rows import OF_THE_CAR, is_on_a_stud
from builder.planning.words import UndoneHow

TAPED = "two layers of self-sealing tape, 10 mm over it on either side"
"""How a bared place of a wire is closed. Common practice, no source."""


class Undone(NamedTuple):
    """What is taken apart in one hand action, and the joints that part in it."""

    text: str
    joints: tuple[Joint, ...]


def undone(index: CircuitIndex) -> tuple[Undone, ...]:
    """Return each change of a wire of the car undone, and each factory speaker put back.

    What goes between a plug and its unit comes out by the plug: that is a change of the plug.
    """
    found = [_rejoined(index, place) for place in _cut_wires(index)]
    found += [Undone(_taken_off(index, joint), (joint,)) for joint in _with(index, "take_off")]
    back = _with(index, "put_back")
    for unit in index.circuit.units:
        mine = tuple(joint for joint in back if joint.place == unit.place)
        if unit.kind == "speaker" and mine:
            found.append(Undone(_PUT_BACK.format(unit.id), mine))
    return tuple(found)


_PUT_BACK = "Take {} off the car's wire and put the factory speaker back in its place, + on +"


def _with(index: CircuitIndex, how: UndoneHow) -> list[Joint]:
    return [joint for joint in index.circuit.joints if joint.undone == how]


def _cut_wires(index: CircuitIndex) -> list[str]:
    """The cavities whose own wire is cut, in the order in which they are joined to something."""
    halves = [
        owner
        for joint in _with(index, "rejoin")
        for end in joint.joins
        if isinstance(owner := index.owners.get(end), CircuitWire) and owner.stays
    ]
    return list(dict.fromkeys(half.place for half in halves))


def _rejoined(index: CircuitIndex, place: str) -> Undone:
    """One line for each cut wire: what hangs on either half, and that they meet again."""
    ends = [end for end, wire in index.owners.items() if _is_half(wire, place)]
    met = [j for j in _with(index, "rejoin") if {*ends} & {*j.joins}]
    others = [end_words(index, e) for joint in met for e in joint.joins if e not in ends]
    return Undone(
        f"{place}: take {' and '.join(others)} off, then join {RADIO_END} and {SPEAKER_END} of "
        f"its wire again ({met[0].place})",
        tuple(met),
    )


def _is_half(wire: CircuitWire | Element, place: str) -> bool:
    return isinstance(wire, CircuitWire) and wire.stays and wire.place == place


def _taken_off(index: CircuitIndex, joint: Joint) -> str:
    car = [
        end
        for end in joint.joins
        if end in index.terminals and index.unit_of(end).kind in OF_THE_CAR
    ]
    ours = [end_words(index, end) for end in joint.joins if end not in car]
    bare = is_on_a_stud(joint) or is_at_fuse(index, joint)
    then = "" if bare else f" and close the insulation, {TAPED} ({joint.place})"
    return f"{' and '.join(car)}: take {' and '.join(ours)} off{then}"


def touched_lines(index: CircuitIndex) -> tuple[str, ...]:
    """Return how many wires of the car are cut, and how many are bared and stay whole, for its
    owner.

    Which they are says the way back: a cavity means nothing to who drives the car.
    """
    cut = Counter(_cut_at(index, place) for place in _cut_wires(index))
    return (*_counted(cut, "cut and joined to"), *_counted(_bared(index), _WHOLE))


_WHOLE = "bared and joined to, not cut"


def _cut_at(index: CircuitIndex, place: str) -> str:
    ends = {end for end, wire in index.owners.items() if _is_half(wire, place)}
    return next(joint.place for joint in _with(index, "rejoin") if ends & {*joint.joins})


def _bared(index: CircuitIndex) -> Counter[str]:
    found: Counter[str] = Counter()
    for joint in _with(index, "take_off"):
        if is_on_a_stud(joint) or is_at_fuse(index, joint):
            continue
        for end in joint.joins:
            if end in index.terminals and index.unit_of(end).kind in OF_THE_CAR:
                found[joint.place] += 1
    return found


def _counted(wires: Counter[str], how: str) -> Iterator[str]:
    for place, count in wires.items():
        yield f"{_wires(count)} {how}: {place}. The way back names each."


def _wires(count: int) -> str:
    return f"{count} wires of the car are" if count > 1 else "One wire of the car is"
