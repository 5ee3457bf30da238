"""The answer of the planner, as values. Pages, the command and JSON show exactly this.

Every number carries its unit in its name; every decision carries its reason and source.
"""

from __future__ import annotations

from builder.declaring import answer, figure, listed, part, text, word
from builder.findings import DataPath
from builder.model.words import Channel, Function, GradeBand, Leg, Load, Quantity, State, Unit
from builder.planning.words import (
    LevelBasis,
    LevelVerdict,
    PlanKind,
    RungKind,
    RungVerdict,
    TappedAs,
    TurnOnKind,
)
from builder.proof.band import Band, Limits


@answer
class Reason:
    """Why the planner decided something. `source` is a published source or "common practice"."""

    decision: str = text("What was decided.")
    because: str = text("Why, in one sentence or a few.")
    source: str = text(
        "Where the reason comes from: a record, a published source, or common practice.",
    )  # fmt: skip


@answer
class Feed:
    """One converter terminal and the pin that feeds it."""

    converter_input: int = figure("The converter's input, counted from 1.", "", least=1)
    leg: Leg = word("The terminal of that input.")
    plug: str = text("The plug of the car.")
    cavity: str = text("The cavity of that plug.")
    channel: Channel = word("The factory channel of the pair.")
    treatment: TappedAs = word(
        "Whether the pair keeps playing its speaker (addon) or is broken (intercept).",
    )  # fmt: skip
    wire: str = text("The wire's colours, or that they are not recorded.", "white/black")
    grade: GradeBand = word("How far the pin can be relied on.")
    path: DataPath
    pad_ohm_per_leg: float | None = figure(
        "A resistor between the pin and the terminal, or null for none.", "Ω", above=0,
        default=None,
    )  # fmt: skip
    group: int = 0  # feeds of one group are added up inside the converter


@answer
class SuppliedAt:
    """A pin or fuse position of the car that the converter's own supply or ground hangs on."""

    plug: str | None = text("The plug of the car, or null for a fuse position.")
    cavity: str | None = text("The cavity of that plug.")
    fuse_position: str | None = text("The fuse position, or null for a cavity.")
    function: Function = word("What the record calls it.")
    grade: GradeBand = word("How far it can be relied on.")
    path: DataPath


@answer
class Insulated:
    """An end that must be closed off, and why. `what` names the conductor for a person."""

    what: str = text("The conductor, for a person.")
    plug: str | None = text("The plug, when the end is at one.")
    cavity: str | None = text("The cavity, when the end is at one.")
    because: str = text("Why it stays open.")


@answer
class Rung:
    """One step of the turn-on ladder, tried in order."""

    rung: int = figure("Its number on the ladder, 1 is best.", "", least=1, most=8)
    kind: RungKind = word("What kind of source it is.")
    verdict: RungVerdict = word("What became of it.")
    where: str = text("The place, or empty.", "A.2", "F14", "pair front-left")
    because: str = text("Why.")


@answer
class TurnOn:
    """What switches the converter on. Exactly one of the places is set, or none for `none`."""

    rung: int | None = figure("The rung of the ladder, 1 is best.", "", least=1, most=8)
    kind: TurnOnKind = word("What kind of source it is.")
    plug: str | None = text("The plug of the wire.")
    cavity: str | None = text("The cavity of the wire.")
    fuse_position: str | None = text("The fuse position.")
    pair: Channel | None = word("The speaker pair whose bias wakes the converter.")
    draw_ma: float | None = figure("What this source has to give.", "mA", least=0)
    capacity_ma: float | None = figure("What it can give, when recorded.", "mA", least=0)
    because: str = text("Why this one.")
    interface: str | None = text(
        "The data interface whose output it is, joined by its own plug.", default=None,
    )  # fmt: skip
    path: DataPath | None = None  # of the pin or fuse position; None for a pair or nothing
    relied_on: tuple[DataPath, ...] = ()  # of a data interface: its other wires of the car


@answer
class LevelCheck:
    """One source against the converter's input. Margins in dB; negative means it clips."""

    channel: Channel = word("The factory channel.")
    source_v_rms: float = figure("The loudest clean level.", "V", above=0)
    basis: LevelBasis = word("Where that figure comes from.")
    square_wave_v: float | None = figure(
        "The worst case of an unboosted output, clipped hard.", "V",
    )  # fmt: skip
    converter_max_v_rms: float = figure("What the input takes.", "V", above=0)
    converter_margin_db: float = figure(
        "How far the level at the input is under that; negative clips.", "dB",
    )  # fmt: skip
    verdict: LevelVerdict = word("What the margin means.")
    because: str = text("How the figures were found.")
    wanted_margin_db: float = figure("The room that the book asks for.", "dB")
    pad_ohm_per_leg: float | None = figure(
        "The resistor in each leg, with which the margin is reckoned; null without a pad.", "Ω",
        above=0, default=None,
    )  # fmt: skip
    read_v_rms: float | None = figure(
        "What was read with the speaker connected, where the cut takes it away and the level "
        "rises; null for any other.", "V", above=0, default=None,
    )  # fmt: skip
    driven_by: Unit = word("The unit whose output it is.", default="radio")


@answer
class ProofReading:
    """A measurement that proves a pin before a joint is made, or would settle a doubt."""

    plug: str | None = text("The plug.")
    cavity: str | None = text("The cavity.")
    fuse_position: str | None = text("The fuse position.")
    function: Function = word("What the pin should be.")
    state: State = word("The state the car is in.")
    against: str = text("Where the other probe goes.")
    load: Load = word("What loads the wire.")
    quantity: Quantity = word("What is read.")
    low: float | None = figure(
        "The least that passes; null for no limit, or one that moves with the battery.", "",
    )  # fmt: skip
    high: float | None = figure(
        "The most that passes; null for no limit, one that moves, or an open circuit.", "",
    )  # fmt: skip
    how: str = text("One line, as a person would be told.")
    settles: str = text("What the answer decides.")
    safety: str = text("What to mind, or empty.")
    low_from_battery_v: float | None = figure(
        "The least that passes, as what is added to the battery's volts read beside it; `low` "
        "is null then.", "V", default=None,
    )  # fmt: skip
    high_from_battery_v: float | None = figure(
        "The most that passes, as what is added to the battery's volts read beside it; `high` "
        "is null then.", "V", default=None,
    )  # fmt: skip

    @property
    def band(self) -> Band:
        """What passes."""
        return Limits(self.low, self.high, self.low_from_battery_v, self.high_from_battery_v).band


@answer
class Plan:
    """A tap plan, a probe plan (what to measure first) or no plan (why not)."""

    kind: PlanKind = word("A plan to build from, a list of what to measure first, or none and why.")
    vehicle: str = text("The vehicle's record.")
    converter: str = text("The converter's record.")
    purpose: str = text("What the job does.", "add a subwoofer", "amplify the doors")
    grade: GradeBand = word("The weakest pin in use.")
    because: tuple[Reason, ...] = listed("Why it is planned like this.")
    feeds: tuple[Feed, ...] = listed(
        "Which pin feeds which converter terminal; empty unless it is a tap plan.",
    )  # fmt: skip
    insulate: tuple[Insulated, ...] = listed(
        "Every end to close off; empty unless it is a tap plan.",
    )  # fmt: skip
    turn_on: TurnOn = part(
        description="What switches the new devices on; kind none unless it is a tap plan.",
    )  # fmt: skip
    ladder: tuple[Rung, ...] = listed("Every candidate for the turn-on, in the ladder's order.")
    levels: tuple[LevelCheck, ...] = listed("One entry a source.")
    tests: tuple[ProofReading, ...] = listed(
        "The readings that prove the pins, settle the doubts, or could clear a barred pair.",
    )  # fmt: skip
    losses: tuple[str, ...] = listed("What the customer loses.")
    refusals: tuple[Reason, ...] = listed("Why it is no tap plan; empty for one.")
    alternatives: tuple[Reason, ...] = listed(
        "Converters with which the same wish comes to a tap plan, each tried; empty for a tap "
        "plan.", default=(),
    )  # fmt: skip

    supplied_at: tuple[SuppliedAt, ...] = listed(
        "Where the car feeds the converter; empty when it is fed at the amplifier or the block.",
        default=(),
    )  # fmt: skip

    @property
    def feeds_by_input(self) -> dict[int, list[Feed]]:
        """The feeds of each input of the converter."""
        found: dict[int, list[Feed]] = {}
        for feed in self.feeds:
            found.setdefault(feed.converter_input, []).append(feed)
        return found

    @property
    def used_paths(self) -> tuple[DataPath, ...]:
        """Data paths of every pin the plan relies on."""
        paths = (*(feed.path for feed in self.feeds), *(each.path for each in self.supplied_at))
        switching = () if self.turn_on.path is None else (self.turn_on.path,)
        return (*paths, *switching, *self.turn_on.relied_on)
