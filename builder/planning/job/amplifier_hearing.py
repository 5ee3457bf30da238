"""Which line inputs an amplifier channel hears, by its record and the switches of the job."""

from __future__ import annotations

from dataclasses import dataclass

from builder.model.job import JobAmplifier
from builder.model.job.lines import JobSwitch
from builder.model.parts import Amplifier
from builder.model.parts.amplifier_inputs import SIDES, InputGroup, InputSum, Socket
from builder.planning.car.line_feeds import ChannelTakes
from builder.planning.levels.bridged_channels import group_at


@dataclass(frozen=True, slots=True)
class Hearing:
    """The inputs that a channel hears. `either`: left and right, or one alone, as is wanted."""

    sockets: tuple[Socket, ...]
    takes: ChannelTakes = "own"
    sum: InputSum = "unknown"
    group: str = ""
    of: tuple[str, ...] = ()
    either: bool = False

    @property
    def by_switch(self) -> bool:
        """Whether it hears what leads to other channels."""
        return self.takes in ("copies", "sums")

    @property
    def sums_sides(self) -> bool:
        """Whether it adds up a left and a right input of its own."""
        return not self.by_switch and len(self.sockets) == len(SIDES)


def hearing_of(fitted: JobAmplifier | None, amplifier: Amplifier, channel: int) -> Hearing:
    """Return what a channel hears; no input where its switch is set to what it cannot do.

    A record that names no inputs is taken to have one for each channel, and left and right of a
    subwoofer's.
    """
    inputs = amplifier.inputs_of(channel)
    if inputs is None:
        return _unrecorded(amplifier, channel)
    switch = fitted.switch(inputs.name) if fitted else None
    if switch is not None:
        return _switched(switch, inputs, amplifier, channel)
    sockets = inputs.sockets_of(channel)
    own = all(socket.channel == channel for socket in sockets)
    return Hearing(sockets, "own" if own else "shared", inputs.sum, inputs.name)


def _unrecorded(amplifier: Amplifier, channel: int) -> Hearing:
    group = group_at(amplifier, channel)
    if group is not None and group.use == "sub" and not amplifier.inputs:
        return Hearing(tuple(Socket(channel, side) for side in SIDES), either=True)
    return Hearing(() if amplifier.inputs else (Socket(channel),))


def _switched(switch: JobSwitch, inputs: InputGroup, amplifier: Amplifier, channel: int) -> Hearing:
    allowed = inputs.copies if switch.does == "copies" else inputs.sums
    groups = [amplifier.group(name) for name in switch.of if name in allowed]
    found = [socket for group in groups if group for socket in group.sockets]
    if switch.does == "sums":
        return Hearing(tuple(found), "sums", inputs.sum, inputs.name, switch.of)
    at = inputs.feeds.index(channel)
    taken = found[:1] if len(found) == 1 else found[at : at + 1]
    return Hearing(tuple(taken), "copies", inputs.sum, inputs.name, switch.of)
