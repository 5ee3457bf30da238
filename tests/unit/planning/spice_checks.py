"""What holds of the netlist of every tap plan: read back, it is the circuit of the pack."""

from __future__ import annotations

import sys
from collections.abc import Iterator
from pathlib import Path

from circuit_checks import circuit_of
from pack_jobs import HOUSE

sys.path.insert(0, str(Path(__file__).parents[2] / "oracles"))
from read_deck import Deck, Ends, read_deck, touching

from builder.planning.circuit.model import Circuit, Link
from builder.planning.circuit.spice import spice_deck
from builder.planning.work_pack import JobParts, WorkPack


def deck_of(parts: JobParts, pack: WorkPack) -> str:
    return spice_deck(parts, pack, HOUSE)


def check_deck(parts: JobParts, pack: WorkPack) -> None:
    """All of it, of a pack that is a tap plan."""
    circuit, text = circuit_of(pack), deck_of(parts, pack)
    check_read_back(circuit, read_deck(text))
    check_comments(circuit, text)


def check_read_back(circuit: Circuit, deck: Deck) -> None:
    """Same terminals, same pieces, touching where the joints say, same links, and no more."""
    assert set(deck.terminals) == {terminal.id for terminal in circuit.terminals}
    kinds = {wire.id: "wire" for wire in circuit.wires}
    kinds |= {part.id: part.kind for part in circuit.elements}
    assert {name: piece.kind for name, piece in deck.pieces.items()} == kinds
    told = {name: piece.nodes for name, piece in deck.pieces.items()}
    assert touching(deck.terminals, told) == touching(*nodes_by_joints(circuit))
    for link in circuit.links:
        check_link(circuit, deck, link)
    check_models(circuit, deck)


def nodes_by_joints(circuit: Circuit) -> tuple[dict[str, str], dict[str, Ends]]:
    """Nodes of terminals and of pieces, by following joints from end to end."""
    met: dict[str, set[str]] = {}
    for joint in circuit.joints:
        for end in joint.joins:
            met.setdefault(end, set()).update(joint.joins)
    node: dict[str, str] = {}

    def spread(end: str, name: str) -> None:
        todo = [end]
        while todo:
            here = todo.pop()
            if here not in node:
                node[here] = name
                todo += met.get(here, ())

    pieces = [*circuit.wires, *circuit.elements]
    ends = [*(each.id for each in circuit.terminals), *(e for p in pieces for e in p.ends)]
    for end in ends:
        spread(end, end)
    terminals = {terminal.id: node[terminal.id] for terminal in circuit.terminals}
    return terminals, {piece.id: (node[piece.ends[0]], node[piece.ends[1]]) for piece in pieces}


def check_link(circuit: Circuit, deck: Deck, link: Link) -> None:
    """Follow a link through the netlist, piece by piece."""
    joints, units = {joint.id for joint in circuit.joints}, unit_of(circuit)
    here, last = deck.terminals[link.begins], link.begins
    for piece in link.path[1:]:
        if piece in deck.terminals:
            inside = units[piece] == units.get(last)  # through a driver, input to output
            assert deck.terminals[piece] == here or inside, (link.id, piece)
            here, last = deck.terminals[piece], piece
        elif piece not in joints:
            one, other = deck.pieces[piece].nodes
            assert here in (one, other), (link.id, piece)
            here = other if here == one else one
    assert here == deck.terminals[link.finishes]


def unit_of(circuit: Circuit) -> dict[str, str]:
    return {each.id: each.unit for each in circuit.terminals}


def check_models(circuit: Circuit, deck: Deck) -> None:
    """A model lies between terminals of one unit, its own inner nodes and ground."""
    units = unit_of(circuit)
    owners: dict[str, set[str]] = {}
    for terminal, node in deck.terminals.items():
        owners.setdefault(node, set()).add(units[terminal])
    pieces = {node for piece in deck.pieces.values() for node in piece.nodes}
    for part in deck.models:
        if part.name.startswith("Rleak"):
            continue
        seen = [owners.get(node, set()) for node in part.nodes if node in pieces and node != "0"]
        assert not seen or set.intersection(*seen), part


def check_comments(circuit: Circuit, text: str) -> None:
    """Units, colours and labels are told, and what runs holds none of their words."""
    for unit in circuit.units:
        assert f"* unit: {unit.id} (" in text
    lines = text.splitlines()
    for wire in circuit.wires:
        at = next(i for i, line in enumerate(lines) if line.endswith(f'is wire "{wire.id}"'))
        said = list(comments_from(lines, at))
        assert any(wire.colours in line for line in said), wire.id
        assert any(f"{wire.from_place} to {wire.to_place}" in line for line in said), wire.id
        assert wire.stays or any("label: " in line for line in said), wire.id
    run = [line for line in lines[1:] if not line.startswith("*")]
    assert all(line.isascii() for line in run)


def comments_from(lines: list[str], at: int) -> Iterator[str]:
    while lines[at].startswith("*"):
        yield lines[at]
        at += 1
