"""The steps in which a circuit is joined: each joint of the job stands in exactly one of them."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from builder.figures import shown
from builder.planning.bay.step_line import step
from builder.planning.circuit.board import WRAP
from builder.planning.circuit.index import CircuitIndex
from builder.planning.circuit.model import CircuitWire, Joint, Link
from builder.planning.sheet_rows import Step
from builder.planning.views.lead_lines import leads_of, y_lead_words, y_leads
from builder.planning.views.loom_steps import looms_of, made_in, plug_steps
from builder.planning.views.names import joint_words, side_fuses
from builder.planning.views.wiring_rows import made_by_us
from builder.planning.words import LinkClass

JOINT_PULL_N = 40.0
"""What a joint of 18 AWG holds. Common practice, no source."""

_JOINTS = (
    "at every joint: sleeve on first, then crimp or solder, sleeve over it, the joints of a cable "
    "30 to 40 mm apart, then tape; nothing that bites through insulation"
)
_LAY = "lay every cable dry, everything in its final place, then cut"
_WRAPPED = (
    "; over a wire that stays whole no sleeve can be slid: two layers of self-sealing tape, 10 mm "
    "over the insulation on either side"
)
_LABELS = (
    "label every piece before it is stripped, as the list of labels says: both ends, a jacket also "
    "mid-way"
)
_MAKE_LEADS = (
    "make these line leads at the bench: centre to centre, shield to shield, then ring each out; "
    "neither conductor meets the other"
)
_TITLES: dict[LinkClass, str] = {
    "speaker_level": "converter inputs",
    "line": "line leads, from output to input",
    "amplified": "amplifier outputs and speakers",
    "control": "turn-on",
    "supply": "supply, from the devices to the battery; every fuse stays out of its holder",
    "ground": "grounds, on bare metal",
    "through": "what a loom passes on",
}


class _Group(NamedTuple):
    """What is joined in one step: at one pair of the car, or of one class."""

    carries: LinkClass
    channel: str  # of a pair of the car, else ""


def joining_steps(index: CircuitIndex) -> Iterator[Step]:
    """Yield what is laid, labelled and joined, in order; nothing is powered."""
    at_table = {joint.id for unit in looms_of(index) for joint in made_in(index, unit)}
    yield step("build", f"{_LAY}{_cut_before(index, at_table)}")
    yield step("build", _LABELS)
    by_hand = [
        f"{name}: {shown(wire.length_m or 0.0)} m"
        for name, wire in leads_of(index).items()
        if wire.made_here
    ]
    if by_hand:
        yield step("build", _MAKE_LEADS, "under 1 Ω through, open between", lines=tuple(by_hand))
    groups: dict[_Group, list[Joint]] = {}
    wrapped = any(
        each.closed_by == WRAP for each in index.circuit.joints if each.id not in at_table
    )
    said = _JOINTS + (_WRAPPED if wrapped else "")
    yield step("build", said, f"no joint parts at a pull of {JOINT_PULL_N:.0f} N on 18 AWG")
    for joint in index.circuit.joints:
        if made_by_us(index, joint) and joint.id not in at_table:
            groups.setdefault(_group_of(index, joint), []).append(joint)
    for group in sorted(groups, key=_order):
        joints = groups[group][::-1] if group.carries == "supply" else groups[group]
        lines = _lead_lines(index, joints) if group.carries == "line" else _lines(index, joints)
        made = tuple(joint.id for joint in joints)
        yield step("build", _title(index, group, joints), lines=lines, makes=made)
        if group.carries == "line":
            yield from _switch_steps(index)
    looms = {unit.id for unit in looms_of(index)}
    closed = tuple(each.what for each in index.circuit.open_ends if each.place not in looms)
    if closed:
        yield step("build", "close off each of these by itself, never two together", lines=closed)
    yield from plug_steps(index)


def _cut_before(index: CircuitIndex, at_table: set[str]) -> str:
    """The pieces that were cut at the table: they hang on a loom when the car is opened."""
    done = dict.fromkeys(
        owner.piece
        for joint in index.circuit.joints
        if joint.id in at_table
        for end in joint.joins
        if isinstance(owner := index.owners.get(end), CircuitWire) and not owner.loom
    )
    pieces = [piece for piece in done if piece]
    if not pieces:
        return ""
    said = f"{', '.join(pieces[:-1])} and {pieces[-1]} were" if pieces[1:] else f"{pieces[0]} was"
    return f"; {said} cut at the table"


def fuse_steps(index: CircuitIndex) -> Iterator[Step]:
    """Yield how the fuses that were left out go in, while nothing is powered: the main one stays
    out, it is the last of the reconnecting."""
    lines = tuple(
        f"{fuse.purpose}: {fuse.rating}; place: {fuse.place}" for fuse in side_fuses(index)
    )
    if lines:
        yield step("build", "every fuse but the main one into its holder", lines=lines)


def _lines(index: CircuitIndex, joints: list[Joint]) -> tuple[str, ...]:
    return tuple(joint_words(index, joint) for joint in joints)


def _lead_lines(index: CircuitIndex, joints: list[Joint]) -> tuple[str, ...]:
    """A line lead is plugged in at both ends, centre and shield at once; a Y-lead before them."""
    ids = {joint.id for joint in joints}
    links = [link for link in index.circuit.links if link.carries == "line"]
    ends: dict[str, list[str]] = {}
    for link in links:
        if ids & set(link.path):
            wire = next(index.wires_of(link))
            start = link.path[link.path.index(wire.id) - 2]
            ends.setdefault(wire.piece, []).append(f"{start} to {link.finishes}")
    forks = [f"{unit.id}: {y_lead_words(index, unit)}" for unit in y_leads(index)]
    return (*forks, *(f"{piece}: {said[0]}" for piece, said in ends.items()))


def _switch_steps(index: CircuitIndex) -> Iterator[Step]:
    """One step for each switch of an amplifier: what it is set to, and what is heard then."""
    switched: dict[tuple[str, str], list[Link]] = {}
    for link in index.circuit.links:
        if link.set_by:
            switched.setdefault((index.unit_of(link.begins).id, link.set_by), []).append(link)
    for (unit, setting), links in switched.items():
        text = f"set a switch of {unit}: {setting}"
        lines = tuple(link.purpose for link in links)
        yield step("build", text, lines=lines, sets=tuple(link.id for link in links))


def _order(group: _Group) -> int:
    """The car's pairs first, in the order of the plan, then class by class as current flows."""
    return -1 if group.channel else list(_TITLES).index(group.carries)


def _group_of(index: CircuitIndex, joint: Joint) -> _Group:
    link = _link_through(index, joint)
    if link is None:
        part = next(index.owners[end] for end in joint.joins if end in index.owners)
        return _Group(part.carries, "")
    at_car = link.channel and any(_is_car(index, end) for end in joint.joins)
    at_car = at_car and joint.undone != "put_back"  # at the speaker, with the others
    return _Group("speaker_level" if at_car else link.carries, str(link.channel) if at_car else "")


def _is_car(index: CircuitIndex, end: str) -> bool:
    owner = index.owners.get(end)
    if owner is not None:
        return getattr(owner, "stays", False)
    return index.unit_of(end).kind == "plug"


def _link_through(index: CircuitIndex, joint: Joint) -> Link | None:
    """The link whose wire of ours meets the joint."""
    links = [link for link in index.circuit.links if joint.id in link.path]
    if links:
        return links[0]
    owners = [index.owners[end].id for end in joint.joins if end in index.owners]
    return next((x for x in index.circuit.links if set(owners) & set(x.path)), None)


def _title(index: CircuitIndex, group: _Group, joints: list[Joint]) -> str:
    if not group.channel:
        return _TITLES[group.carries]
    places = dict.fromkeys(joint.place for joint in joints)
    where = f"{group.channel} ({', '.join(places)})"
    if any(joint.undone == "rejoin" for joint in joints):
        return (
            f"{where}: cut each wire at least 75 mm from the plug, or use a pair of mating plugs. "
            "While the amplifier is in, the two ends never meet"
        )
    return f"{where}: join beside each wire, leave it whole"
