"""Line inputs of an amplifier: which channels they feed, and what its switches do with them."""

from __future__ import annotations

from typing import Literal, NamedTuple

from builder.declaring import figure, listed, record, text, without, word
from builder.model.forms import LINE

InputSum = Literal["add", "average", "unknown"]

Side = Literal["both", "left", "right"]
SIDES: tuple[Side, Side] = ("left", "right")
"""What the two inputs of a channel are called that sums them by itself."""


class Socket(NamedTuple):
    """One line input, by the channel whose number it has; `side` is both where it is the only one.

    >>> Socket(5, "left").words
    'in 5 left'
    """

    channel: int
    side: Side = "both"

    @property
    def words(self) -> str:
        """What it is called on every sheet."""
        return f"in {self.channel}" + ("" if self.side == "both" else f" {self.side}")


@record
class InputGroup:
    """Line inputs that are alike, the channels they feed, and the switch beside them."""

    name: str = text(
        "What the amplifier calls them; switches and jobs name it so.", "inputs 1/2", form=LINE,
        label="",
    )  # fmt: skip
    count: int = figure(
        "How many line inputs: one for each channel they feed, two where left and right are summed "
        "into one channel, 1 that feeds them all, 0 where only the switch feeds them.", "inputs", 2,
        least=0, most=16,
        label="inputs",
    )  # fmt: skip
    feeds: tuple[int, ...] = listed(
        "The channels they feed, in the order of the inputs, counted from 1 through all groups.",
        [1, 2], least=1, most=16, unique=True,
        item=figure("One channel.", "", 1, least=1, most=64),
        label="feed channels",
    )  # fmt: skip
    impedance_ohm: float | None = figure(
        "What one input loads a source with, in ohms, or unknown; unknown counts as the house "
        "default.", "Ω", 10000, above=0, most=10000000, unknown=True, default=None,
        label="each loads with", absent="not recorded: house default",
    )  # fmt: skip
    copies: tuple[str, ...] = listed(
        "The groups whose inputs its switch may give to these channels, by their names; leave it "
        "out where there is no such switch.", ["inputs 1/2"], most=8, unique=True, form=LINE,
        default=(),
        label="switch copies", absent="",
    )  # fmt: skip
    sums: tuple[str, ...] = listed(
        "The groups all of whose inputs its switch may sum for these channels, by their names; "
        "leave it out where there is no such switch.", ["inputs 1/2"], most=8, unique=True,
        form=LINE, default=(),
        label="switch sums", absent="",
    )  # fmt: skip
    sum: InputSum = word(
        "How what is summed adds up, two inputs of a channel or those of the switch.", "average",
        means={"add": "Two equal inputs give twice the volts of one.",
        "average": "Two equal inputs give the volts of one.",
        "unknown": "Nobody has looked; it counts as add for what is too much and as average for "
        "what is too little."}, default="unknown",
        label="sums by",
    )  # fmt: skip

    RULES = (
        without(
            "A group without a switch of its own has inputs: count is 1 or more.", "copies", "sums"
        ).limits("count", least=1),
    )

    @property
    def fits(self) -> bool:
        """Whether every input feeds something and every channel is fed alike."""
        one_each = self.count in (0, 1, len(self.feeds))
        return one_each or self.count == 2 * len(self.feeds)

    def sockets_of(self, channel: int) -> tuple[Socket, ...]:
        """The inputs that a channel hears without a switch: one, left and right, or none.

        One input that feeds several channels is called by the first of them.
        """
        if channel not in self.feeds or not self.count:
            return ()
        if self.count == 2 * len(self.feeds):
            return tuple(Socket(channel, side) for side in SIDES)
        return (Socket(self.feeds[0] if self.count == 1 else channel),)

    @property
    def sockets(self) -> tuple[Socket, ...]:
        """All its inputs, in the order of the channels they feed."""
        each = (socket for channel in self.feeds for socket in self.sockets_of(channel))
        return tuple(dict.fromkeys(each))
