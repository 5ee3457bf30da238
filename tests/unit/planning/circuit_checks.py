"""What holds of the circuit of every tap plan, found without the code that puts it together."""

from __future__ import annotations

from collections import Counter
from itertools import pairwise

from builder.planning.circuit.index import CircuitIndex
from builder.planning.circuit.model import Circuit, Element
from builder.planning.circuit.nets import continuity
from builder.planning.circuit.terminal_names import source_name
from builder.planning.views.names import element_words
from builder.planning.views.wiring_rows import OF_THE_CAR, is_home_of_loom, made_by_us
from builder.planning.work_pack import JobParts, WorkPack


def circuit_of(pack: WorkPack) -> Circuit:
    assert pack.circuit is not None
    return pack.circuit


def check_every_end(circuit: Circuit) -> None:
    """Each end of a wire or part is joined once, or left open on purpose; no joint hangs in air."""
    joined = Counter(end for joint in circuit.joints for end in joint.joins)
    opened = Counter(each.end for each in circuit.open_ends)
    ends = [end for piece in (*circuit.wires, *circuit.elements) for end in piece.ends]
    assert len(ends) == len(set(ends))
    assert {end for end in ends if joined[end] + opened[end] != 1} == set()
    terminals = {terminal.id for terminal in circuit.terminals}
    assert set(joined) <= terminals | set(ends)
    assert all(len(joint.joins) >= 2 for joint in circuit.joints)
    assert not set(joined) & set(opened)


def check_every_link(circuit: Circuit) -> None:
    """A link's path is whole: each piece touches the next in the joint between them."""
    joints = {joint.id: joint for joint in circuit.joints}
    pieces = {piece.id: piece.ends for piece in (*circuit.wires, *circuit.elements)}
    terminals = {terminal.id: terminal for terminal in circuit.terminals}
    for link in circuit.links:
        assert link.begins in terminals and link.finishes in terminals, link.id
        for one, other in pairwise(link.path):
            joint, piece = (one, other) if one in joints else (other, one)
            if joint not in joints:  # a driver between its own input and output
                assert terminals[one].unit == terminals[other].unit, link.id
                continue
            ends = pieces.get(piece, (piece,))
            assert set(ends) & set(joints[joint].joins), (link.id, one, other)
        if link.mate is not None:
            mate = next(each for each in circuit.links if each.id == link.mate)
            assert mate.mate == link.id


def check_needed(circuit: Circuit) -> None:
    """Every terminal that is needed is on a link, and so is every wire that is not spare."""
    on_links = {piece for link in circuit.links for piece in link.path}
    for terminal in circuit.terminals:
        assert not terminal.needed or terminal.id in on_links, terminal.id
    opened = {each.end for each in circuit.open_ends}
    for wire in circuit.wires:
        assert wire.id in on_links or opened & set(wire.ends), wire.id


def check_continuity(parts: JobParts, pack: WorkPack) -> None:
    """What a meter finds joined is what the plan says is joined, and nothing else.

    The plan's own feeds, the job's speakers and its amplifiers say what is to be joined.
    """
    circuit = circuit_of(pack)
    nets = continuity(circuit, parts=lambda part: part.kind == "fuse" or "pad" in part.id)
    wanted: list[set[str]] = []
    broken = set()
    for feed in pack.plan.feeds:
        sign = {"positive": "+", "negative": "−"}[feed.leg]
        socket = source_name(parts.vehicle.plug(feed.plug).unit)
        cavity = f"{socket} {feed.plug}.{feed.cavity}"
        terminal = f"{parts.converter.name} in {feed.converter_input} {sign}"
        assert nets.together(cavity, terminal), (cavity, terminal)
        wanted.append({cavity, terminal})
        if feed.treatment == "intercept":
            broken.add(cavity)
    for terminal in circuit.terminals:
        unit = next(each for each in circuit.units if each.id == terminal.unit)
        if unit.kind == "factory_speaker":
            reached = {end for end in broken if nets.together(end, terminal.id)}
            assert not reached, f"{terminal.id} still hangs on the car's {reached}"
    roots = [{nets.of(end) for end in joined} for joined in wanted]
    assert all(len(each) == 1 for each in roots)
    assert len({next(iter(each)) for each in roots}) == len(roots), "two legs are joined"


def check_views(parts: JobParts, pack: WorkPack) -> None:
    """Every piece stands on every sheet that is about pieces of its kind, by the same name."""
    circuit = circuit_of(pack)
    index = CircuitIndex(circuit)
    ours = [wire for wire in circuit.wires if not wire.stays]
    rows = {(row.piece, row.place, row.wire) for row in pack.conductors}
    assert {(wire.piece, wire.place, wire.colours) for wire in ours} == rows
    assert {row.link for row in pack.wiring} == {link.purpose for link in circuit.links}
    made = [joint for joint in circuit.joints if made_by_us(index, joint)]
    homes = {joint.place for joint in made if is_home_of_loom(index, joint)}
    steps = [id for step in pack.steps for id in step.makes]
    assert sorted(steps) == sorted(joint.id for joint in made)
    met = {(row.place, row.closed_by) for row in pack.joints}
    single = [joint for joint in made if not is_home_of_loom(index, joint)]
    assert len(pack.joints) == len(single) + len(homes)
    assert met == {(joint.place, joint.closed_by) for joint in made}
    listed = "\n".join(f"{part.item}; {part.note}" for part in pack.parts)
    for part in circuit.elements:
        assert f"{part.kind} {part.rating}" in listed and part.purpose in listed, part
        if part.loom:  # its maker joined it: it stands in the loom's own wire list
            rows = [row for sheet in pack.looms if sheet.loom == part.loom for row in sheet.wires]
            assert part.rating in [row.fuse for row in rows if part.id.endswith(row.wire)], part
        elif part.kind in (
            "low-pass",
            "high-pass",
        ):  # its maker joined it: the pairs run through it
            rows = [row for row in pack.wiring if f"{part.kind} {part.rating}" in row.parts]
            assert any(row.from_terminal.startswith(part.id.partition(" of ")[2]) for row in rows)
        else:
            assert any(_is_in(part, row.meets) for row in pack.joints), part
    closed = {end.what for end in pack.insulate}
    assert {end.what for end in circuit.open_ends} <= closed
    pieces = {wire.piece for wire in ours}
    cut = {row.name for row in pack.cut_list}
    sold = {wire.piece for wire in ours
            if wire.loom or wire.carries == "line" or wire.length_m is None}  # fmt: skip
    forks = {unit.id for unit in circuit.units if unit.kind == "y_lead"}
    assert cut | sold == pieces and {label.jacket for label in pack.labels} == pieces | forks
    check_y_leads(pack, index, forks)
    undone = " ".join(pack.revert)
    check_looms(parts, pack, index)
    for wire in circuit.wires:
        if wire.stays and wire.id.endswith((" radio end", " speaker end")):
            cut = wire.ends[1] if wire.id.endswith(" radio end") else wire.ends[0]
            assert f"{wire.place}: " in undone or cut in opened_ends(circuit), wire.id
    for joint in circuit.joints:
        if joint.undone in ("rejoin", "take_off"):
            car = [
                end
                for end in joint.joins
                if end in index.terminals and index.unit_of(end).kind in OF_THE_CAR
            ]
            stubs = [end.split(" ")[0] for end in joint.joins if " radio end " in end]
            assert all(f"{name}: " in undone for name in (*car, *stubs)), joint


def check_y_leads(pack: WorkPack, index: CircuitIndex, forks: set[str]) -> None:
    """Each Y-lead is bought, labelled, plugged in by a step, met in joints and told in its rows.

    How many an output needs is counted from the inputs that it reaches: one less than them.
    """
    reached: dict[str, set[str]] = {}
    for link in index.circuit.links:
        wired = any(each in index.wires for each in link.path)
        if link.carries == "line" and wired and not link.begins.endswith(" shield"):
            reached.setdefault(link.begins, set()).add(link.finishes)
    assert len(forks) == sum(len(ends) - 1 for ends in reached.values())
    lines = [line for step in pack.steps for line in step.lines]
    bought = [part for part in pack.parts if part.item == "Y-lead"]
    assert sum(part.quantity for part in bought) == len(forks)
    for fork in forks:
        output = fork.partition(" at ")[2]
        assert output in reached
        assert any(fork.removeprefix("Y-lead ") in part.note for part in bought)
        assert any(line.startswith(f"{fork}: plug into ") for line in lines)
        for socket in ("plug", "socket 1", "socket 2"):
            for name in (f"{fork} {socket}", f"{fork} {socket} shield"):
                assert any(name in row.meets for row in pack.joints), name
        rows = [row for row in pack.wiring if fork in row.parts]
        assert len(rows) >= 4 and {row.from_terminal for row in rows} == {
            output, f"{output} shield"}  # fmt: skip


def _is_in(part: Element, meets: str) -> bool:
    """Whether a joint tells of a part: of a coil by the terminal that its maker joined it to."""
    if part.kind != "coil":
        return element_words(part) in meets
    own = part.id.partition(" of ")[0]
    return part.rating in meets and any(f"{own} {sign}" in meets for sign in "+−")


def opened_ends(circuit: Circuit) -> set[str]:
    """Cut ends of wires of which both halves are closed off, or of which this one is."""
    return {each.end for each in circuit.open_ends}


def check_looms(parts: JobParts, pack: WorkPack, index: CircuitIndex) -> None:
    """Every wire of a loom's record is in the circuit, whole or in its two halves, and told of.

    What the wires are is read from the record, not from the code that lays a loom.
    """
    undone, customer = " ".join(pack.revert), " ".join(pack.customer)
    for asked in parts.job.looms:
        name, loom = f"loom {asked.plug}", parts.shelf.looms[asked.record]
        mine = [wire for wire in index.circuit.wires if wire.loom == name]
        count = sum(len(wire.through) or 1 for wire in loom.wires)
        halves = [wire for wire in mine if wire.id.endswith(" half")]
        assert len(mine) - len(halves) // 2 == count and len(halves) % 2 == 0
        for wire in loom.wires:
            for cavity in wire.through:
                found = {w.id: w for w in mine for end in loom.ends[:2]
                         if f"{end.name}.{cavity} " in f"{w.id} "}  # fmt: skip
                assert len(found) in (1, 2), (wire, found)
                assert {w.wire for w in found.values()} == {wire.wire}
        assert f"Unplug {name} " in undone
        assert f"plug {asked.plug} sits a loom" in customer
        assert any(name in part.note for part in pack.parts)
        assert any(name in step.text and "every line" in step.gate for step in pack.steps)


CHECKS = (check_every_end, check_every_link, check_needed)


def check_circuit(parts: JobParts, pack: WorkPack) -> None:
    """All of it, of a pack that is a tap plan."""
    for check in CHECKS:
        check(circuit_of(pack))
    check_continuity(parts, pack)
    check_views(parts, pack)
