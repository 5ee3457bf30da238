"""What a plan taps: which pairs, how, on which converter input, and what that costs."""

from __future__ import annotations

from dataclasses import dataclass

from builder.model.job import PadWish
from builder.model.words import Channel
from builder.planning.car.line_feeds import ChannelFeed, LineFeed
from builder.planning.car.pairs import Pair
from builder.planning.objections import Objection
from builder.planning.plan import Reason
from builder.planning.words import TappedAs


@dataclass(frozen=True, slots=True)
class Tap:
    """One pair on one converter input. Taps of one `group` are summed inside the converter."""

    converter_input: int
    pair: Pair
    treatment: TappedAs
    group: int


@dataclass(frozen=True, slots=True)
class LineOutput:
    """What one line output plays. `joined`: the converter adds the taps up itself."""

    taps: tuple[Tap, ...]
    joined: bool

    @property
    def channels(self) -> tuple[Channel, ...]:
        """The factory channels it plays."""
        return tuple(tap.pair.channel for tap in self.taps)


@dataclass(frozen=True, slots=True)
class Selection:
    """The taps, what they are for, and what is lost by choosing them.

    `outputs` are the line outputs a job asks for; None when nobody said, and a converter with
    inputs to spare is then taken to make a subwoofer output of both fronts. `pad` says
    whether a source that leaves too little room at the input gets resistors, and which. `silent`
    pairs are broken for the speaker's sake and feed nothing: their converter input is 0. `leads`
    are the line leads from the outputs, `channels` what each amplifier channel in use hears.
    """

    purpose: str
    taps: tuple[Tap, ...] = ()
    reasons: tuple[Reason, ...] = ()
    losses: tuple[str, ...] = ()
    objections: tuple[Objection, ...] = ()
    outputs: tuple[LineOutput, ...] | None = None
    pad: PadWish = "auto"
    silent: tuple[Tap, ...] = ()
    leads: tuple[LineFeed, ...] = ()
    channels: tuple[ChannelFeed, ...] = ()

    def heard_by(self, amplifier: str, channel: int) -> ChannelFeed:
        """What one amplifier channel hears; nothing where no lead reaches it."""
        found = (
            each for each in self.channels if (each.amplifier, each.channel) == (amplifier, channel)
        )
        return next(found, ChannelFeed(amplifier, channel, ()))

    @property
    def used_leads(self) -> tuple[LineFeed, ...]:
        """The leads that a channel in use hears, from an output that there is."""
        heard = {(each.amplifier, socket) for each in self.channels for socket in each.sockets}
        return tuple(
            lead
            for lead in self.leads
            if lead.output <= len(self.outputs or ()) and (lead.amplifier, lead.socket) in heard
        )

    def outputs_to(self, heard: ChannelFeed) -> tuple[int, ...]:
        """The line outputs whose leads a channel hears, in the order of its inputs."""
        found = {
            lead.socket: lead.output
            for lead in self.used_leads
            if lead.amplifier == heard.amplifier
        }
        return tuple(dict.fromkeys(found[each] for each in heard.sockets if each in found))

    @property
    def touched(self) -> tuple[Tap, ...]:
        """Every pair at which something is joined or cut."""
        return (*self.taps, *self.silent)

    @property
    def broken(self) -> tuple[Tap, ...]:
        """The taps whose pair is cut."""
        return tuple(tap for tap in self.touched if tap.treatment == "intercept")

    @property
    def listening(self) -> tuple[Tap, ...]:
        """The taps whose pair keeps playing its own speaker."""
        return tuple(tap for tap in self.taps if tap.treatment == "addon")

    def sums(self) -> list[list[Tap]]:
        """The groups of two or more taps."""
        groups: dict[int, list[Tap]] = {}
        for tap in self.taps:
            groups.setdefault(tap.group, []).append(tap)
        return [taps for taps in groups.values() if len(taps) > 1]


def number_taps(groups: list[tuple[tuple[Pair, ...], TappedAs]]) -> tuple[Tap, ...]:
    """Give each pair the next converter input; each group is (pairs, treatment)."""
    taps: list[Tap] = []
    for group, (pairs, treatment) in enumerate(groups, start=1):
        taps += [
            Tap(len(taps) + offset, pair, treatment, group)
            for offset, pair in enumerate(pairs, start=1)
        ]
    return tuple(taps)
