"""The rows of a work pack's sheets: what is laid, cut, labelled, joined, done and bought."""

from __future__ import annotations

from builder.declaring import answer, figure, listed, text, word
from builder.planning.words import DemandClass, HowItStands, LinkClass, PartUnit, Phase


@answer
class ConductorRow:
    """One conductor of the job: what it carries and what it meets, or that it is spare."""

    jacket: int | None = figure(
        "The number of the cable; null for a wire or a lead by itself.", "", least=1
    )
    cable: str = text("The cable's record, or what it is cut from.")
    place: str = text("Which conductor of it.", "pair 1 positive")
    wire: str = text("Its colours.", "brown/black")
    purpose: str = text("What it carries, or that it is spare.", "front left + signal")
    demand_class: DemandClass = word("The class of what it carries.")
    from_end: str = text("One end.")
    to_end: str = text("The other end.")
    piece: str = text("The piece it is cut from.", "cable 1")
    from_joint: str = text("What it meets at one end.", "A.11 white")
    to_joint: str = text("What it meets at the other.", "CVN-2A in 1 +")


@answer
class WiringRow:
    """One link of the job, end to end, as a person follows it with a finger."""

    link: str = text("What it is for.", "front left signal +")
    carries: LinkClass = word("The class of what it carries.")
    from_terminal: str = text("The terminal it begins at.", "A.11")
    from_place: str = text("Where that is.")
    conductors: tuple[str, ...] = listed("Its conductors as they look, in order.")
    parts: tuple[str, ...] = listed("Fuses, pads and diodes on the way.")
    to_terminal: str = text("The terminal it ends at.", "CVN-2A in 1 +")
    to_place: str = text("Where that is.")
    joints: tuple[str, ...] = listed("How it is joined, from end to end.")
    way_back: str = text("How it is undone.")


@answer
class JointRow:
    """One joint that the job makes."""

    place: str = text("Where it is.")
    meets: str = text("What meets there.")
    how: str = text("How it is joined.")
    closed_by: str = text("What insulates it.")


@answer
class CutRow:
    """One piece to cut."""

    name: str = text("What it becomes.")
    cable: str = text("What it is cut from.")
    route_m: float | None = figure(
        "The measured way; null where the wire itself was measured.", "m", above=0
    )
    cut_m: float = figure("What to cut.", "m", above=0)
    note: str = text("What is in it.")


@answer
class Label:
    """The marks at one end of a piece: words, and a difference a hand can feel."""

    jacket: str = text("Which piece.", "cable 1")
    end: str = text("Where on it.")
    text: str = text("What it says.")
    bands: int = figure("How many bands can be felt; 0 where words are enough.", "", least=0)


@answer
class SpeakerLead:
    """The wire between amplifier and speaker."""

    speaker: str = text("The speaker.")
    conductor: str = text("Size and metal.")
    length_m: float = figure("One way.", "m", above=0)
    added_loss_db: float = figure("What it costs.", "dB", most=0)
    existing_loss_db: float = figure("What the factory wire behind it costs.", "dB", most=0)
    whole_loss_db: float = figure("Both.", "dB", most=0)
    damping: float = figure("Damping factor.", "", above=0)
    music_current_a: float = figure("Music current of each conductor.", "A", above=0)


@answer
class Stands:
    """How one thing of the car or the job stands."""

    what: str = text("The thing.", "battery")
    value: HowItStands = word("How it stands.")


@answer
class Step:
    """One step of the work, in order. A gate must be answered before the next step."""

    number: int = figure("Its place in the order.", "", least=1)
    phase: Phase = word("When.")
    gate: str = text("What must be true before the next step, or empty.")
    blocked: str = text("Why it may not be done yet, or empty.")
    caution: str = text("What to mind in it, or empty.")
    lines: tuple[str, ...] = listed("What is joined in it, one by one.")
    makes: tuple[str, ...] = listed("Ids of the joints that stand after it.")
    text: str = text("What is done.")
    sets: tuple[str, ...] = listed("Ids of the links that a switch set in it makes.", default=())
    tests: tuple[str, ...] = listed("Ids of the lines of the bay sheet read in it.", default=())
    moves: tuple[Stands, ...] = listed("What is moved by hand, and how it stands then.", default=())
    stands: tuple[Stands, ...] = listed("How battery, fuse, radio and key stand in it.", default=())
    takes_min: float = figure(
        "How long the hands need, by the house's figures.", "min", least=0, default=0.0
    )


@answer
class PartLine:
    """One line of the parts list, with spares."""

    item: str = text("What.")
    quantity: float = figure("How many, in `unit`.", "", above=0)
    unit: PartUnit = word("m, or empty for pieces.")
    note: str = text("What for.")
