"""How the pieces of a circuit are called, the same on every sheet."""

from __future__ import annotations

import re
from typing import Final

from builder.planning.circuit.coil_links import coil_lead
from builder.planning.circuit.index import CircuitIndex
from builder.planning.circuit.model import (
    CircuitWire,
    Element,
    EndId,
    Joint,
    Terminal,
    colours_of,
)
from builder.planning.circuit.terminal_names import RADIO_END, SPEAKER_END
from builder.planning.words import MAIN_FUSE, JointKind

JOINT_WORDS: dict[JointKind, str] = {
    "plug_home": "plug home",
    "splice": "crimp or solder",
    "tap": "joined beside the wire, which stays whole",
    "y_lead": "inside the Y-lead",
    "inside": "inside the crossover",
    "ring": "ring terminal on bare metal",
    "terminal": "in the terminal",
    "line_plug": "line plug",
    "element_lead": "crimp or solder to the part",
}
"""What is done at a joint, in a person's words."""

_AT_FUSE = (
    "by a fuse tap in its place, the car's own fuse and ours beside each other in it; its leg that "
    "feeds both goes to the side that stays live with the car's fuse out"
)
"""Each fuse then carries its own circuit alone. Common practice, no source."""


_HALF: Final = re.compile(rf"\b(?:{RADIO_END}|{SPEAKER_END}) of ")


def wire_words(wire: CircuitWire) -> str:
    """Return a conductor as a person finds it: "cable 1 pair 1 positive, brown".

    A wire of the car that is cut has two ends of one colour, so each says which it is: exchanged,
    the amplifier would drive the radio.
    """
    if wire.stays:
        half = next((f"{x} of " for x in (RADIO_END, SPEAKER_END) if wire.id.endswith(x)), "")
        return f"{half}{wire.place} {wire.colours}" if wire.wire else wire.id
    if wire.cable:
        return f"{wire.lies_in} {wire.place}, {wire.colours}"
    return wire.id


def element_words(part: Element) -> str:
    """Return a part with what it is: "holder of the main fuse (60 A)"."""
    name = f"holder of the {part.id}" if part.kind == "fuse" else part.id
    return f"{name} ({part.rating})"


def end_words(index: CircuitIndex, end: EndId) -> str:
    """Return an end as a person finds it: a terminal by its name, a wire with its colour."""
    terminal = index.terminals.get(end)
    if terminal is not None:
        said = end if terminal.wire is None else f"{end} {colours_of(terminal.wire)}"
        return said + _coil_behind(index, terminal)
    owner = index.owners[end]
    if isinstance(owner, CircuitWire):
        return wire_words(owner)
    return element_words(owner) + _lead_words(owner, end)


def _lead_words(part: Element, end: EndId) -> str:
    """Which lead it is: current leaves a diode where the band is; a capacitor's sleeve marks −."""
    if part.kind == "diode":
        return " by its banded end" if end == part.ends[1] else " by its plain end"
    if part.kind == "capacitor":
        return " by its − lead, which its sleeve marks" if end == part.ends[1] else " by its + lead"
    return ""


def _coil_behind(index: CircuitIndex, terminal: Terminal) -> str:
    """The coil of a speaker that ends at a terminal, as its maker joined it; empty for others."""
    for joint in index.joints_of.get(terminal.id, []):
        for end in joint.joins:
            if (coil := _coil(index, end)) is not None:
                lead = coil_lead(coil, end)
                own = coil.rating if terminal.name == lead else f"{lead}, {coil.rating}"
                return f" ({own})"
    return ""


def _coil(index: CircuitIndex, end: EndId) -> Element | None:
    part = index.owners.get(end)
    return part if isinstance(part, Element) and part.kind == "coil" else None


def hands_join(index: CircuitIndex, joint: Joint) -> list[EndId]:
    """Return the ends that are joined by hand: a coil comes joined to its terminal."""
    return [end for end in joint.joins if _coil(index, end) is None]


def side_fuses(index: CircuitIndex) -> list[Element]:
    """Return every fuse of the job but the main one, in the order of the circuit."""
    return [x for x in index.circuit.elements if x.kind == "fuse" and x.id != MAIN_FUSE]


def terminal_place(index: CircuitIndex, terminal: str) -> str:
    """Return where a terminal is."""
    return index.unit_of(terminal).place


def met_words(index: CircuitIndex, joint: Joint) -> str:
    """Return what meets at a joint: a name may hold a comma, so a word parts it from the next."""
    return " and ".join(end_words(index, end) for end in hands_join(index, joint))


def is_said_as(index: CircuitIndex, joint: Joint, said: str) -> bool:
    """Whether words of a joint that stand in a record say what meets there.

    Packs of before named a cut wire without its end; what was joined by them is the same.
    """
    now = met_words(index, joint)
    return said in (now, _HALF.sub("", now))


def joint_words(index: CircuitIndex, joint: Joint) -> str:
    """Return what meets at a joint, and how: "A.11 white and cable 1 …: crimp or solder"."""
    return f"{met_words(index, joint)}: {how_words(index, joint)}"


def parted_joint(line: str) -> tuple[str, str]:
    """Return what `joint_words` put together; the second is empty for a line of another kind."""
    met, _, how = line.rpartition(": ")
    return (met, how) if met and how in JOINT_WORDS.values() else (line, "")


def how_words(index: CircuitIndex, joint: Joint) -> str:
    """Return what is done at a joint."""
    return _AT_FUSE if is_at_fuse(index, joint) else JOINT_WORDS[joint.kind]


def is_at_fuse(index: CircuitIndex, joint: Joint) -> bool:
    """Whether a joint is made at a fuse position: there is no wire to lie beside, or to close."""
    ends = [end for end in joint.joins if end in index.terminals]
    return joint.kind == "tap" and any(index.unit_of(x).kind == "fuse_position" for x in ends)
