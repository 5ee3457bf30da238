"""How a job brings the converter's line outputs to the amplifiers, and which switches it sets."""

from __future__ import annotations

from typing import Literal

from builder.declaring import figure, listed, record, text, when, word
from builder.findings import DataPath
from builder.model.forms import LINE
from builder.model.parts.amplifier_inputs import Side, Socket

SwitchDoes = Literal["own", "copies", "sums"]
LeadMade = Literal["ready_made", "at_the_bench"]


@record
class JobSwitch:
    """How one switch beside an amplifier's inputs is set."""

    group: str = text(
        "The group of inputs beside it, by its name in the amplifier's record.", "input 5",
        form=LINE,
    )  # fmt: skip
    does: SwitchDoes = word(
        "What it does.", "sums",
        means={"own": "The channels hear their own inputs.",
        "copies": "The channels hear the inputs of another group, each its own.",
        "sums": "The channels hear all inputs of other groups together."},
    )  # fmt: skip
    of: tuple[str, ...] = listed(
        "The groups whose inputs it takes, by their names.", ["inputs 1/2"], most=8, unique=True,
        form=LINE, default=(),
    )  # fmt: skip
    path: DataPath = ()

    RULES = (
        when("A switch that copies or sums names the groups it takes.", "does", "copies", "sums")
        .needs("of")
        .otherwise.bars("of"),
    )


@record
class LineEnd:
    """One end of a line lead, at an amplifier."""

    amplifier: str = text("The name this job gives the amplifier.", "amp 1", form=LINE)
    input: int = figure(
        "The input, by the number of the channel that it feeds.", "channel", 1, least=1, most=64,
    )  # fmt: skip
    side: Side = word(
        "Left or right, at a channel that sums two inputs.", "left",
        means={"both": "The channel has one input.", "left": "Its left input.",
        "right": "Its right input."}, default="both",
    )  # fmt: skip

    @property
    def socket(self) -> Socket:
        """The input it is plugged into."""
        return Socket(self.input, self.side)


@record
class LineLead:
    """A lead from one line output to an input, or as a Y-lead to several."""

    output: int = figure(
        "The line output of the converter, by its number.", "output", 1, least=1, most=64,
    )  # fmt: skip
    to: tuple[LineEnd, ...] = listed(
        "Where it is plugged in; two or more inputs are a Y-lead.",
        [{"amplifier": "amp 1", "input": 1}], least=1, most=16,
    )  # fmt: skip
    length_m: float | None = figure(
        "How long it is, in metres; left out, the length sold that reaches.", "m", None, above=0,
        most=30, default=None,
    )  # fmt: skip
    made: LeadMade = word(
        "Whether it is bought or made.", "ready_made",
        means={"ready_made": "Bought with its plugs.",
        "at_the_bench": "Made of shielded cable and plugs."}, default="ready_made",
    )  # fmt: skip
    path: DataPath = ()
