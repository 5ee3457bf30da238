"""Terminals of the circuit that a line of the bay sheet looks at."""

from __future__ import annotations

from collections.abc import Mapping

from builder.model.job import JobSpeaker
from builder.model.words import Channel
from builder.planning.bay.work import BayWork
from builder.planning.car.line_feeds import ChannelFeed
from builder.planning.car.pairs import Leg
from builder.planning.car.treatments import wires_of
from builder.planning.circuit.terminal_names import (
    factory_speaker,
    line_input,
    line_output,
    loom_terminal,
    shield_of,
)
from builder.planning.harness.planned import LoomPlan
from builder.planning.pack_details import LevelChain


def driven_speakers(work: BayWork) -> tuple[str, ...]:
    """Return the speakers that play through the job, the car's own by the pair of their wire."""
    broken = {tap.pair.channel: tap.pair for tap in work.selection.broken}
    names: list[str] = []
    for speaker in work.parts.job.speakers:
        own = [own_name(speaker, channel) for channel in wires_of(speaker, broken)]
        names += own or [speaker.name]
    return tuple(names)


def own_name(speaker: JobSpeaker, channel: Channel) -> str:
    """Return what hangs on a wire of the car: the car's own speaker, or a new one in its place."""
    return factory_speaker(channel) if speaker.existing else speaker.name


def cavities_of(work: BayWork, channel: Channel) -> tuple[str, ...]:
    """Return the two cavities of a pair at the radio."""
    taps = [tap for tap in work.selection.touched if tap.pair.channel == channel]
    return tuple(at_unit(work.looms, leg) for tap in taps[:1] for leg in tap.pair.legs)


def at_unit(looms: Mapping[str, LoomPlan], leg: Leg) -> str:
    """Return what goes into the radio for a leg: the cavity of its plug, or that of a loom."""
    plan = looms.get(leg.plug.id)
    if plan is None:
        return leg.name
    return loom_terminal(plan.use.name, plan.ends[0].name, leg.pin.cavity)


def line_outputs_of(work: BayWork, chain: LevelChain) -> tuple[str, ...]:
    """Return centre and shield of every line output that feeds a speaker."""
    speaker = next(each for each in work.parts.job.speakers if each.name == chain.speaker)
    heard = _heard(work, speaker)
    centres = [
        line_output(work.parts.converter.name, at) for at in work.selection.outputs_to(heard)
    ]
    return tuple(end for centre in centres for end in (centre, shield_of(centre)))


def line_inputs_of(work: BayWork, speaker: JobSpeaker) -> tuple[str, ...]:
    """Return the line inputs that the channel hears which drives a speaker."""
    sockets = _heard(work, speaker).sockets
    return tuple(line_input(speaker.amplifier, socket) for socket in sockets)


def _heard(work: BayWork, speaker: JobSpeaker) -> ChannelFeed:
    return work.selection.heard_by(speaker.amplifier, speaker.amplifier_channel)
