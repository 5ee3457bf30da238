"""What reaches each amplifier channel: line leads, and what is joined inside the amplifier."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from builder.model.job.lines import LeadMade
from builder.model.parts.amplifier_inputs import InputSum, Socket
from builder.units import Metres

ChannelTakes = Literal["own", "shared", "copies", "sums"]
"""Its own inputs, one that feeds other channels too, or what a switch gives it."""


@dataclass(frozen=True, slots=True)
class LineFeed:
    """A lead from one line output to one input; without a length it is the one sold."""

    output: int
    amplifier: str
    socket: Socket
    length_m: Metres | None = None
    made: LeadMade = "ready_made"


@dataclass(frozen=True, slots=True)
class ChannelFeed:
    """The inputs that one amplifier channel hears, those alone that a lead feeds.

    `adds` counts the inputs that it adds up, with a lead or without; `group` is the amplifier's
    name for the inputs beside its switch, `of` for those that the switch takes.
    """

    amplifier: str
    channel: int
    sockets: tuple[Socket, ...]
    adds: int = 1
    sum: InputSum = "unknown"
    takes: ChannelTakes = "own"
    group: str = ""
    of: tuple[str, ...] = ()

    @property
    def setting(self) -> str:
        """How the switch beside its inputs is set; empty where none gives it anything."""
        return f"{self.group} {self.takes} {' and '.join(self.of)}" if self.of else ""

    @property
    def most(self) -> float:
        """What equal volts on every lead come to, at most, over the volts of one.

        >>> ChannelFeed("amp", 5, (Socket(1), Socket(2)), 2).most
        2.0
        """
        return self._share if self.sum == "average" else float(max(1, len(self.sockets)))

    @property
    def least(self) -> float:
        """The same, at least: a sum that nobody looked at counts as an average.

        >>> ChannelFeed("amp", 5, (Socket(1), Socket(2)), 2).least
        1.0
        """
        return self.most if self.sum == "add" else self._share

    @property
    def _share(self) -> float:
        return len(self.sockets) / self.adds if self.sockets else 1.0
