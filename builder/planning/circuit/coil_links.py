"""The voice coils of a new speaker: each a part between two terminals, and the wires between them.

The lead from the amplifier ends at the first coil's + and, wired in series, at the last coil's −.
"""

from __future__ import annotations

from itertools import pairwise

from builder.model.job import JobSpeaker
from builder.planning.circuit.board import SCREWED, Board
from builder.planning.circuit.model import CircuitWire, Element, EndId, Link, Terminal
from builder.planning.circuit.terminal_names import SIGNS
from builder.planning.circuit.work import CircuitWork

JUMPER_M, _AT_THE_BASKET = 0.2, "common practice, at one basket"
"""A wire from coil to coil at the basket of one speaker. Common practice, no source. [m]"""


def coil_name(speaker: str, number: int) -> str:
    """Return what a coil of a speaker is called."""
    return f"coil {number} of {speaker}"


def coil_lead(coil: Element, end: EndId) -> str:
    """Return what is marked where a lead of a coil comes out: "coil 1 +"."""
    own = coil.id.partition(" of ")[0]
    return f"{own} {SIGNS[coil.ends.index(end)]}"


def lay_coils(board: Board, work: CircuitWork, speaker: JobSpeaker) -> None:
    """Put the coils of a speaker on, whose own two terminals the lead has reached already."""
    coils = speaker.coils
    if coils is None or coils.wired == "separate":
        return
    series = coils.wired == "series"
    ends = [_ends(speaker.name, at, coils.number, series=series) for at in range(coils.number)]
    for number, pair in enumerate(ends, 1):
        _coil(board, speaker, number, coils.ohm, pair)
    for at, (one, other) in enumerate(pairwise(ends), 1):
        if series:
            _jumper(board, work, speaker, at, (one[1], other[0]), "")
            continue
        for sign, both in zip(SIGNS, zip(one, other, strict=True), strict=True):
            _jumper(board, work, speaker, at, both, sign)


def _ends(speaker: str, at: int, number: int, *, series: bool) -> tuple[EndId, EndId]:
    """The terminals of one coil; the outermost are those of the speaker itself."""
    own = [f"{speaker} coil {at + 1} {sign}" for sign in SIGNS]
    if at == 0:
        own[0] = f"{speaker} {SIGNS[0]}"
    if at == (number - 1 if series else 0):
        own[1] = f"{speaker} {SIGNS[1]}"
    return own[0], own[1]


def _coil(
    board: Board, speaker: JobSpeaker, number: int, ohm: float, ends: tuple[EndId, EndId]
) -> None:
    name = coil_name(speaker.name, number)
    coil = board.element(
        Element(name, "coil", ohm, f"{ohm:g} Ω", speaker.where, name, "amplified")
    )  # fmt: skip
    for sign, terminal, lead in zip(SIGNS, ends, coil.ends, strict=True):
        own = f"coil {number} {sign}"
        if not board.add_to_joint(terminal, lead):
            board.terminal(Terminal(terminal, speaker.name, own, "passes", "amplified"))
            board.join(
                "terminal", speaker.where, terminal, lead, closed_by=SCREWED, undone="with_part"
            )


def _jumper(
    board: Board, work: CircuitWork, speaker: JobSpeaker, at: int, ends: tuple[EndId, EndId],
    sign: str,
) -> None:  # fmt: skip
    """A wire from one coil's terminal to the next coil's; + and − of coils side by side."""
    name, mate = _jumper_name(speaker.name, at, sign), None
    if sign:
        mate = _jumper_name(speaker.name, at, SIGNS[1 - SIGNS.index(sign)])
    signs = (sign, sign) if sign else SIGNS[::-1]
    start, stop = (f"{speaker.name} coil {at + n} {each}" for n, each in enumerate(signs))
    wire = board.wire(
        CircuitWire(name, "amplified", name, name, "single", None, work.lead_size(speaker.name),
                    JUMPER_M, start, stop, mate, piece=name, length_taken=_AT_THE_BASKET)
    )  # fmt: skip
    for terminal, end in zip(ends, wire.ends, strict=True):
        board.add_to_joint(terminal, end)
    first, last = (board.joint_at(end) for end in wire.ends)
    path = (ends[0], first, wire.id, last, ends[1])
    board.link(Link(name, "amplified", name, path, mate, speaker.channel))


def _jumper_name(speaker: str, at: int, sign: str) -> str:
    return f"{speaker} coil {at} to coil {at + 1}{f' {sign}' if sign else ''}"
