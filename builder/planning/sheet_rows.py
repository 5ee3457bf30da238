"""The rows of a work pack's sheets: what is laid, cut, labelled, joined, done and bought."""

from __future__ import annotations

from dataclasses import dataclass

from builder.planning.words import DemandClass, LinkClass, PartUnit, Phase


@dataclass(frozen=True, slots=True)
class ConductorRow:
    """One conductor of one jacket: what it carries, or that it is spare."""

    jacket: int | None  # None: no jacket of a cable, but a wire or a lead by itself
    cable: str  # the cable's record, or what it is cut from
    place: str  # "pair 1 positive"
    wire: str  # "brown/black"
    purpose: str  # "front left + signal", or "spare: insulate at both ends"
    demand_class: DemandClass
    from_end: str
    to_end: str
    piece: str = ""  # "jacket 1", "lead to subwoofer"
    from_joint: str = ""  # what it meets there: "A.11", "closed off by itself"
    to_joint: str = ""


@dataclass(frozen=True, slots=True)
class WiringRow:
    """One link of the job, end to end, as a person follows it with a finger."""

    link: str
    carries: LinkClass
    from_terminal: str
    from_place: str
    conductors: tuple[str, ...]  # each as it looks, the car's own first or last
    parts: tuple[str, ...]  # fuses, pads, diodes on the way
    to_terminal: str
    to_place: str
    joints: tuple[str, ...]  # how it is joined, from end to end
    way_back: str


@dataclass(frozen=True, slots=True)
class JointRow:
    """One joint that the job makes."""

    place: str
    meets: str
    how: str
    closed_by: str


@dataclass(frozen=True, slots=True)
class CutRow:
    """One piece to cut."""

    name: str
    cable: str
    route_m: float | None  # None: the wire itself was measured, not a way for it
    cut_m: float
    note: str


@dataclass(frozen=True, slots=True)
class Label:
    """The marks at one end of a jacket: words, and a difference a hand can feel."""

    jacket: str
    end: str
    text: str
    bands: int


@dataclass(frozen=True, slots=True)
class SpeakerLead:
    """The wire between amplifier and speaker."""

    speaker: str
    conductor: str
    length_m: float
    added_loss_db: float
    existing_loss_db: float
    whole_loss_db: float
    damping: float
    music_current_a: float


@dataclass(frozen=True, slots=True)
class Step:
    """One step of the work, in order. A gate must be answered before the next step."""

    number: int
    phase: Phase
    text: str
    gate: str  # "" or what must be true: "battery negative off at __:__, earliest __:__"
    blocked: str  # "" or why it may not be done yet
    lines: tuple[str, ...] = ()  # what is joined in it, one by one
    makes: tuple[str, ...] = ()  # ids of the circuit's joints that stand after it


@dataclass(frozen=True, slots=True)
class PartLine:
    """One line of the parts list, with spares."""

    item: str
    quantity: float
    unit: PartUnit
    note: str
