"""What the words and codes of a bench sheet mean, at its head."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from builder.model.names import FACE_NAMES
from builder.model.parts.loom import LoomEnd
from builder.planning.circuit.model import CircuitWire, Unit
from builder.planning.circuit.terminal_names import source_name
from builder.planning.harness.cables_of import joined_wires, other_cores
from builder.planning.harness.sheet_work import SheetWork
from builder.planning.words import UnitKind

_KINDS: dict[UnitKind, str] = {
    "converter": "converter",
    "amplifier": "amplifier",
    "interface": "data interface",
    "distribution": "distribution block",
    "driver": "turn-on driver",
}


def term_lines(work: SheetWork) -> Iterator[str]:
    """Yield what plug and cavity, the parts of a cable and each code of the lists mean."""
    unit, car = (end.name for end in work.plan.ends)
    yield (
        f'"{unit}.5" is cavity 5 of the plug that goes into the '
        f'{source_name(work.plan.use.plug.unit)}, "{car}.5" cavity 5 of the one that takes the '
        f"car's own plug; {' and '.join(_names(work))} are names of parts in this book"
    )
    yield (
        '"sum" is alike on all sheets of one plan; the shop\'s tag is a word that the shop chose '
        "for the car"
    )
    counted = "; ".join(_counted(work.plan.ends))
    yield f"{counted}; the two plugs show each other's mirror image"
    cores = [*joined_wires(work.plan, work.index), *other_cores(work.plan, work.index)]
    if any(row.bands for row in work.cables):
        alone = '; "single" is a core of no pair' if any("single" in x.place for x in cores) else ""
        yield (
            f'"pair 1 positive" is the core for plus of the first pair of a cable{alone}. A '
            "cable's loom's end comes to this loom, its far end does not"
        )
    terminals = [*_terminals(work, cores)]
    units = {work.index.unit_of(each).id: work.index.unit_of(each) for each in terminals}
    yield from (said for unit in units.values() if (said := _unit(unit)))
    yield from dict.fromkeys(said for each in terminals if (said := _cavity(work, each)))


def _counted(ends: Sequence[LoomEnd]) -> Iterator[str]:
    if len({end.read_from for end in ends}) == 1:
        yield f"the cavities of either plug are counted {FACE_NAMES[ends[0].read_from]}"
    else:
        yield from (
            f"the {end.name}'s cavities are counted {FACE_NAMES[end.read_from]}" for end in ends
        )


def _names(work: SheetWork) -> Iterator[str]:
    """The record of the loom, then of its two plugs."""
    yield work.plan.use.loom.id
    yield from dict.fromkeys(end.housing for end in work.plan.ends)


def _terminals(work: SheetWork, cores: list[CircuitWire]) -> Iterator[str]:
    """Where the cores of the cables lead."""
    for core in cores:
        link = work.index.link_of(core)
        if link is not None:
            yield from (link.begins, link.finishes)


def _unit(unit: Unit) -> str:
    """A device by what it is: its name alone says nothing on a table."""
    kind = _KINDS.get(unit.kind)
    return "" if kind is None or kind in unit.id else f"{unit.id} is the {kind}, {unit.place}"


def _cavity(work: SheetWork, terminal: str) -> str:
    """A cavity of one of the car's plugs, where a core goes that is not joined in the loom."""
    unit = work.index.unit_of(terminal)
    own = unit.id.removesuffix(work.plan.use.plug.id) != unit.id
    if unit.kind != "plug" or own:
        return ""
    return f"{terminal} is cavity {terminal.rpartition('.')[2]} of the car's {unit.id}"
