"""The wiring sheet: every link of the circuit from end to end, and every joint by itself."""

from __future__ import annotations

from builder.planning.circuit.board import OWN_HOUSING
from builder.planning.circuit.index import CircuitIndex
from builder.planning.circuit.model import Joint, Link
from builder.planning.sheet_rows import JointRow, WiringRow
from builder.planning.views.names import (
    JOINT_WORDS,
    how_words,
    is_at_fuse,
    met_words,
    terminal_place,
    wire_words,
)
from builder.planning.views.plugs_home import home_words, plugs_home
from builder.planning.words import UndoneHow, UnitKind

_UNDONE: dict[UndoneHow, str] = {
    "unplug": "pull the plug",
    "rejoin": "join the two ends of the car's own wire again",
    "take_off": "take it off and close the insulation",
    "put_back": "put the factory speaker back on the wire",
    "with_part": "leaves with the part",
}

_STAYS = "the car's own; stays as it is"


def wiring_rows(index: CircuitIndex) -> tuple[WiringRow, ...]:
    """Return one row a link, in the order of the work."""
    return tuple(_row(index, link) for link in index.circuit.links)


def _row(index: CircuitIndex, link: Link) -> WiringRow:
    joints = tuple(index.joints_on(link))
    ways = dict.fromkeys(_undone(index, joint) for joint in joints)
    own = [way for way in ways if way != _UNDONE["with_part"]]
    stays = (
        all(wire.stays for wire in index.wires_of(link))
        and not any(made_by_us(index, joint) for joint in joints)
        and index.unit_of(link.begins).kind in OF_THE_CAR
    )
    return WiringRow(
        link=link.purpose,
        carries=link.carries,
        from_terminal=link.begins,
        from_place=_where_joined(index, link, joints),
        conductors=tuple(wire_words(wire) for wire in index.wires_of(link)) or _inside(link),
        parts=(
            *forks_on(index, link),
            *(f"{part.kind} {part.rating}" for part in index.elements_of(link)),
        ),
        to_terminal=link.finishes,
        to_place=terminal_place(index, link.finishes),
        joints=tuple(how_words(index, joint) for joint in joints),
        way_back=_STAYS if stays else "; ".join(own) or _UNDONE["with_part"],
    )


def _where_joined(index: CircuitIndex, link: Link, joints: tuple[Joint, ...]) -> str:
    """Where a link begins: at its terminal; a pair joined beside its wires, where that is."""
    taps = [each for each in joints if each.kind == "tap" and link.carries == "speaker_level"]
    return taps[0].place if taps else terminal_place(index, link.begins)


def _inside(link: Link) -> tuple[str, ...]:
    """What joins a link that no wire makes: a switch, or the device by itself; else nothing."""
    if link.path != (link.begins, link.finishes):
        return ()
    return (f"inside the amplifier: {link.set_by}" if link.set_by else "inside the amplifier",)


def forks_on(index: CircuitIndex, link: Link) -> list[str]:
    """Return the Y-leads that a link runs through, in order."""
    units = [index.unit_of(each) for each in link.path if each in index.terminals]
    return list(dict.fromkeys(unit.id for unit in units if unit.kind == "y_lead"))


def _undone(index: CircuitIndex, joint: Joint) -> str:
    bare = is_on_a_stud(joint) or is_at_fuse(index, joint)
    return "take it off" if bare else _UNDONE[joint.undone]


def is_on_a_stud(joint: Joint) -> bool:
    """Whether a joint leaves no insulation to close when it is taken off."""
    return joint.kind == "ring" and joint.undone == "take_off"


def joint_rows(index: CircuitIndex) -> tuple[JointRow, ...]:
    """Return every joint that the job makes; those of the car stand as its maker left them.

    A plug of a loom goes home at once, with all its cavities.
    """
    made = [joint for joint in index.circuit.joints if made_by_us(index, joint)]
    single = [joint for joint in made if not is_home_of_loom(index, joint)]
    homes = plugs_home(joint for joint in made if is_home_of_loom(index, joint))
    return (
        *(
            JointRow(
                joint.place,
                met_words(index, joint),
                how_words(index, joint),
                joint.closed_by,
            )
            for joint in single
        ),
        *(
            JointRow(place, home_words(index, joints), JOINT_WORDS["plug_home"], OWN_HOUSING)
            for place, joints in homes.items()
        ),
    )


def is_home_of_loom(index: CircuitIndex, joint: Joint) -> bool:
    """Whether a plug of a loom goes home there."""
    return joint.kind == "plug_home" and any(index.is_of_loom(end) for end in joint.joins)


def made_by_us(index: CircuitIndex, joint: Joint) -> bool:
    """Whether a conductor, a part or a device that the job brings meets something there.

    What meets inside a loom, a Y-lead or a crossover was joined by its maker; their plugs are put
    home by us.
    """
    if joint.kind in ("y_lead", "inside"):
        return False
    if is_home_of_loom(index, joint):
        return True
    for end in joint.joins:
        if index.is_of_loom(end):
            continue
        owner = index.owners.get(end)
        if owner is None and index.unit_of(end).kind not in OF_THE_CAR:
            return True
        if owner is not None and not getattr(owner, "stays", False):
            return True
    return False


OF_THE_CAR: frozenset[UnitKind] = frozenset(
    {"radio", "plug", "factory_speaker", "factory_input", "fuse_position", "battery", "body"}
)
"""Units that were there before."""
