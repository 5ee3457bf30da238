"""From the converter's line outputs to what each amplifier channel hears."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field

from builder.model.job import JobSpeaker
from builder.model.parts.amplifier_inputs import Socket
from builder.model.words import Channel
from builder.planning.car.demands import channel_order
from builder.planning.car.line_feeds import ChannelFeed, LineFeed
from builder.planning.car.selection import LineOutput, Tap
from builder.planning.car.sources import Sources
from builder.planning.car.treatments import sources_of
from builder.planning.job.amplifier_hearing import Hearing, hearing_of
from builder.planning.job.outputs import in_order, outputs_of
from builder.planning.job.wish import JobWish
from builder.planning.objections import Objection, object_to
from builder.planning.tables import COMMON_PRACTICE

Content = frozenset[Channel]
Input = tuple[str, Socket]
"""An amplifier of the job, and one of its inputs."""


@dataclass(frozen=True, slots=True)
class JobLines:
    """The line outputs, the leads from them, what each channel hears, and what speaks against."""

    outputs: tuple[LineOutput, ...]
    leads: tuple[LineFeed, ...]
    channels: tuple[ChannelFeed, ...]
    objections: tuple[Objection, ...]


@dataclass(frozen=True, slots=True)
class _Ask:
    """One amplifier channel: what it is to play, and which inputs it hears."""

    speaker: JobSpeaker
    taps: tuple[Tap, ...]
    hearing: Hearing

    @property
    def amplifier(self) -> str:
        return self.speaker.amplifier

    @property
    def wanted(self) -> Content:
        return frozenset(tap.pair.channel for tap in self.taps)


@dataclass(slots=True)
class _Plan:
    """What is planned so far: each output by what it plays, and what reaches each input."""

    outputs: dict[Content, LineOutput] = field(default_factory=dict)
    fed: dict[Input, Content] = field(default_factory=dict)
    objections: list[Objection] = field(default_factory=list)

    def lead(self, amplifier: str, socket: Socket, output: LineOutput) -> None:
        """Lead an output to an input; what reaches it already stays."""
        content: Content = frozenset(output.channels)
        self.outputs.setdefault(content, output)
        self.fed.setdefault((amplifier, socket), content)


def plan_lines(wish: JobWish, taps: tuple[Tap, ...], sources: Sources) -> JobLines:
    """Return the line outputs of a job and where they lead: as it says, else one to each input."""
    asks = [_ask(wish, speaker, taps, sources) for speaker in _first_on_channel(wish)]
    plan = _Plan()
    for ask in sorted(asks, key=lambda each: each.hearing.by_switch):
        if _left_out(wish, ask):
            continue
        lead = _lead_switched if ask.hearing.by_switch else _lead_own
        lead(wish, plan, ask)
    outputs = in_order(list(plan.outputs.values()))
    leads = _stated(wish) if wish.job.line_leads else _one_each(plan, outputs)
    channels = tuple(_heard(ask, leads) for ask in asks)
    other = [
        _other_sound(ask, heard)
        for ask, channel in zip(asks, channels, strict=True)
        if (heard := _content(channel, leads, outputs)) and heard != ask.wanted
    ]
    return JobLines(outputs, leads, channels, tuple(dict.fromkeys((*plan.objections, *other))))


def _first_on_channel(wish: JobWish) -> Iterator[JobSpeaker]:
    """One speaker of each channel of an amplifier that the job has; those beside it play alike."""
    seen: set[tuple[str, int]] = set()
    for speaker in wish.job.speakers:
        key = (speaker.amplifier, speaker.amplifier_channel)
        if key not in seen and speaker.amplifier in wish.amplifiers:
            seen.add(key)
            yield speaker


def _ask(wish: JobWish, speaker: JobSpeaker, taps: tuple[Tap, ...], sources: Sources) -> _Ask:
    by_channel = {tap.pair.channel: tap for tap in taps}
    names = [name for name in sources_of(speaker, sources.pairs) if name in by_channel]
    own = tuple(by_channel[name] for name in sorted(names, key=channel_order))
    fitted = wish.job.amplifier(speaker.amplifier)
    part = wish.amplifiers[speaker.amplifier]
    return _Ask(speaker, own, hearing_of(fitted, part, speaker.amplifier_channel))


def _left_out(wish: JobWish, ask: _Ask) -> bool:
    """Whether the job says its leads and none reaches a channel: it then has no source at all."""
    led = {(end.amplifier, end.socket) for lead in wish.job.line_leads for end in lead.to}
    heard = ask.hearing.sockets
    heard = (Socket(ask.speaker.amplifier_channel), *heard) if ask.hearing.either else heard
    return bool(led) and led.isdisjoint((ask.amplifier, socket) for socket in heard)


def _lead_own(wish: JobWish, plan: _Plan, ask: _Ask) -> None:
    """A channel on its own inputs: one output, or left and right to those that it sums."""
    sides = ask.hearing.sums_sides
    outputs, against = outputs_of(wish.converter, ask.taps, sides=sides)
    plan.objections += against
    sockets = ask.hearing.sockets
    if len(outputs) == 1:
        alone = ask.hearing.either
        sockets = (Socket(ask.speaker.amplifier_channel),) if alone else sockets
        outputs *= len(sockets)
    for socket, output in zip(sockets, outputs, strict=False):
        plan.lead(ask.amplifier, socket, output)


def _lead_switched(wish: JobWish, plan: _Plan, ask: _Ask) -> None:
    """What a switch takes is fed for other channels; what lacks is led to inputs left over."""
    inputs = [(ask.amplifier, socket) for socket in ask.hearing.sockets]
    there = {name for each in inputs for name in plan.fed.get(each, ())}
    left = [socket for amplifier, socket in inputs if (amplifier, socket) not in plan.fed]
    lacking = tuple(tap for tap in ask.taps if tap.pair.channel not in there)
    if not left or not lacking:
        return
    if len(left) >= len(lacking) and ask.hearing.takes == "sums":
        outputs = [LineOutput((tap,), joined=False) for tap in lacking]
    else:
        outputs, against = outputs_of(wish.converter, lacking, sides=False)
        plan.objections += against
    for socket, output in zip(left, outputs, strict=False):
        plan.lead(ask.amplifier, socket, output)


def _one_each(plan: _Plan, outputs: tuple[LineOutput, ...]) -> tuple[LineFeed, ...]:
    number = {frozenset(output.channels): at for at, output in enumerate(outputs, 1)}
    return tuple(
        LineFeed(number[content], amplifier, socket)
        for (amplifier, socket), content in plan.fed.items()
    )


def _stated(wish: JobWish) -> tuple[LineFeed, ...]:
    """The leads of the job, those alone that lead to an amplifier which it has."""
    return tuple(
        LineFeed(lead.output, end.amplifier, end.socket, lead.length_m, lead.made)
        for lead in wish.job.line_leads
        for end in lead.to
        if end.amplifier in wish.amplifiers
    )


def _heard(ask: _Ask, leads: tuple[LineFeed, ...]) -> ChannelFeed:
    """What a channel hears of the leads there are; a left input without a right is one alone."""
    hearing, number = ask.hearing, ask.speaker.amplifier_channel
    fed = {lead.socket for lead in leads if lead.amplifier == ask.amplifier}
    wanted = (Socket(number), *hearing.sockets) if hearing.either else hearing.sockets
    sockets = tuple(socket for socket in wanted if socket in fed)
    adds = len(sockets) if hearing.either else len(hearing.sockets)
    return ChannelFeed(
        ask.amplifier, number, sockets, max(1, adds), hearing.sum, hearing.takes, hearing.group,
        hearing.of,
    )  # fmt: skip


def _content(
    channel: ChannelFeed, leads: tuple[LineFeed, ...], outputs: tuple[LineOutput, ...]
) -> Content:
    numbers = {
        lead.output
        for lead in leads
        if lead.amplifier == channel.amplifier and lead.socket in channel.sockets
    }
    played = (outputs[at - 1].channels for at in numbers if at <= len(outputs))
    return frozenset(name for names in played for name in names)


def _other_sound(ask: _Ask, heard: Content) -> Objection:
    plays, asked = _said(heard), _said(ask.wanted) or "nothing"
    because = (
        f"channel {ask.speaker.amplifier_channel} of {ask.amplifier} hears {plays} by its leads "
        f"and switches, and {ask.speaker.name} is to play {asked}"
    )
    return object_to("a speaker would play another sound", because, COMMON_PRACTICE)


def _said(content: Content) -> str:
    names: list[Channel] = sorted(content, key=channel_order)
    return " and ".join(names)
