"""What tells two plugs apart first: the shell, if shells differ, else a wire."""

from __future__ import annotations

from dataclasses import dataclass

from builder.model.housing import Housing
from builder.model.plugs import Pin, Plug
from builder.rendering.drawings.canvas import Point
from builder.rendering.drawings.function_kinds import plain, use_words
from builder.rendering.drawings.plug_geometry import corner_over, row_shifts
from builder.rendering.drawings.wire_colours import wire_words


@dataclass(frozen=True, slots=True)
class Difference:
    """One difference in words, and the places to ring on each plug (at most one each)."""

    words: str
    spots_a: tuple[str, ...]
    spots_b: tuple[str, ...]


Side = tuple[Housing, Plug]


def first_difference(a: Side, b: Side) -> Difference | None:
    """Return the first difference between two plugs as seen from the wire side.

    Order: cavity count, arrangement, blades, latch, keyed corner, blocked cavities; then the
    first cavity that looks different (wired or empty, colours), then the first that does
    something different. None when the record shows no difference.
    """
    one_shell = _held_upside_down(a[0], b[0])
    shell = [] if one_shell else [_latch, _key]
    places = [] if one_shell else [_arrangement]
    checks = [_count, *places, _blades, *shell, _blocked, _looks, _use]
    return next((found for check in checks if (found := check(a, b))), None)


def _corner(housing: Housing) -> str:
    """Return the cut corner as it lies seen from the wires, "" for none."""
    corner = housing.keyed_corner or ""
    turned = corner and housing.seen_from == "mating_side"
    return corner_over(corner, housing.rows_swap) if turned else corner


def _count(a: Side, b: Side) -> Difference | None:
    names_a, names_b = a[0].cavities, b[0].cavities
    if len(names_a) == len(names_b):
        return None
    words = f"{a[1].id} has {len(names_a)} cavities, {b[1].id} has {len(names_b)}"
    return Difference(words, _lone(names_a, names_b), _lone(names_b, names_a))


def _lone(mine: tuple[str, ...], other: tuple[str, ...]) -> tuple[str, ...]:
    """Return the first cavity that only `mine` has."""
    return tuple(f":{name}" for name in mine if name not in other)[:1]


def _held_upside_down(a: Housing, b: Housing) -> bool:
    """Return whether the two are one shell that was recorded with the latch at opposite edges."""
    rows, width, places = len(b.rows), _width(b), _places(b)
    turned = {name: (rows - 1 - row, width - 1 - along) for name, (row, along) in places.items()}
    opposite = a.latch != b.latch and a.rows_swap == b.rows_swap
    corner = _corner(b) and corner_over(corner_over(_corner(b), True), False)
    return opposite and _places(a) == turned and _corner(a) == corner


def _arrangement(a: Side, b: Side) -> Difference | None:
    places_a, places_b = _places(a[0]), _places(b[0])
    for name, place in places_a.items():
        if places_b.get(name) != place:
            words = f"cavity {name} sits in another place, seen from the wires"
            return Difference(words, (f":{name}",), (f":{name}",) if name in places_b else ())
    return None


def _places(housing: Housing) -> dict[str, Point]:
    """Return row and distance from the left, in cavity widths, seen from the wires."""
    shifts, width, last = _shifts(housing), _width(housing), len(housing.rows) - 1
    over = housing.seen_from == "mating_side"
    swap, mirrored = over and housing.rows_swap, over and not housing.rows_swap
    places: dict[str, Point] = {}
    for at, row in enumerate(housing.rows):
        for column, name in enumerate(row):
            across = shifts[at] + column
            if name is not None:
                along = width - 1 - across if mirrored else across
                places[name] = (last - at if swap else at, along)
    return places


def _shifts(housing: Housing) -> tuple[float, ...]:
    return row_shifts(housing.rows, housing.row_shift)


def _width(housing: Housing) -> float:
    rows = zip(_shifts(housing), housing.rows, strict=True)
    return max(shift + len(row) for shift, row in rows)


def _blades(a: Side, b: Side) -> Difference | None:
    for name in a[0].cavities:
        mm_a = a[0].blades_mm.get(name, a[0].blade_mm)
        mm_b = b[0].blades_mm.get(name, b[0].blade_mm)
        if mm_a != mm_b:
            words = (
                f"cavity {name} takes a {mm_a:g} mm blade in {a[1].id}, {mm_b:g} mm in {b[1].id}"
            )
            return Difference(words, (f":{name}",), (f":{name}",))
    return None


def _latch(a: Side, b: Side) -> Difference | None:
    edge_a, edge_b = a[0].latch, b[0].latch
    if edge_a == edge_b:
        return None
    words = f"seen from the wires, the latch of {a[1].id} is {edge_a}, that of {b[1].id} {edge_b}"
    return Difference(words, ("latch",), ("latch",))


def _key(a: Side, b: Side) -> Difference | None:
    corners = [_corner(housing) for housing in (a[0], b[0])]
    if corners[0] == corners[1]:
        return None
    said = [plain(corner) or "none" for corner in corners]
    words = f"the cut corner of {a[1].id}, seen from the wires: {said[0]}; of {b[1].id}: {said[1]}"
    return Difference(words, (corners[0] or corners[1],), (corners[1] or corners[0],))


def _blocked(a: Side, b: Side) -> Difference | None:
    for name in a[0].cavities:
        if (name in a[0].blocked) != (name in b[0].blocked):
            shut = a if name in a[0].blocked else b
            words = f"cavity {name} is moulded shut in {shut[1].id} only"
            return Difference(words, (f":{name}",), (f":{name}",))
    return None


def _pins(plug: Plug) -> dict[str, Pin | None]:
    """Return what the record says of each cavity; None for one it calls empty."""
    pins: dict[str, Pin | None] = dict.fromkeys(plug.empty)
    pins.update((pin.cavity, pin) for pin in plug.pins)
    return pins


def _look(pin: Pin | None) -> str:
    return f"{wire_words(pin.wire)} wire" if pin and pin.wire else ("a wire" if pin else "empty")


def _looks(a: Side, b: Side) -> Difference | None:
    """Compare what the eye can see; a wire whose colour is not recorded shows no difference."""
    pins_a, pins_b = _pins(a[1]), _pins(b[1])
    for name in (name for name in a[0].cavities if name in pins_a and name in pins_b):
        pin_a, pin_b = pins_a[name], pins_b[name]
        if pin_a and pin_b and not (pin_a.wire and pin_b.wire):
            continue
        if _look(pin_a) != _look(pin_b):
            return _differs(a, b, name, _look(pin_a), _look(pin_b))
    return None


def _use(a: Side, b: Side) -> Difference | None:
    pins_a, pins_b = _pins(a[1]), _pins(b[1])
    for name in a[0].cavities:
        pin_a, pin_b = pins_a.get(name), pins_b.get(name)
        if pin_a and pin_b and use_words(pin_a) != use_words(pin_b):
            return _differs(a, b, name, use_words(pin_a), use_words(pin_b))
    return None


def _differs(a: Side, b: Side, name: str, said_a: str, said_b: str) -> Difference:
    words = f"cavity {name} of {a[1].id}: {said_a}; of {b[1].id}: {said_b}"
    return Difference(words, (f":{name}",), (f":{name}",))
