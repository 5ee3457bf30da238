"""Which switches a sketched job sets: those without which a subwoofer would have no source."""

from __future__ import annotations

from collections.abc import Sequence

from builder.model.job import Job, JobSpeaker
from builder.model.job.lines import JobSwitch
from builder.model.parts import Amplifier, Converter
from builder.model.parts.amplifier_inputs import InputGroup
from builder.model.words import Channel
from builder.planning.plan import Reason
from builder.planning.tables import AMPLIFIER_RECORD


def sketch_switches(
    name: str, amplifier: Amplifier, speakers: Sequence[JobSpeaker], converter: Converter
) -> tuple[JobSwitch, ...]:
    """Return the switches to set: a channel that plays several pairs which nothing before it adds.

    Only where what the switch sums is what the channel is to play.
    """
    plays = {each.amplifier_channel: each.plays for each in speakers if each.amplifier == name}
    found = []
    for group in amplifier.inputs:
        wanted = {pair for channel in group.feeds for pair in plays.get(channel, ())}
        taken = next((of for of in group.sums if _brings(amplifier, of, plays) == wanted), None)
        if taken is not None and len(wanted) > 1 and not _adds(group, converter):
            found.append(
                JobSwitch(group=group.name, does="sums", of=(taken,), path=("amplifiers",))
            )
    return tuple(found)


def _brings(amplifier: Amplifier, of: str, plays: dict[int, tuple[Channel, ...]]) -> set[Channel]:
    group = amplifier.group(of)
    return {pair for number in group.feeds for pair in plays.get(number, ())} if group else set()


def _adds(group: InputGroup, converter: Converter) -> bool:
    """Whether the pairs are added up without the switch: by the converter, or left and right."""
    return converter.sum == "any" or group.count == 2 * len(group.feeds)


def of_switches(job: Job) -> list[Reason]:
    """Return what is assumed of the switches of a sketch."""
    return [
        Reason(
            f"the switch beside {switch.group} of {fitted.name} sums {' and '.join(switch.of)}",
            "its channel plays several pairs, and nothing before it adds them up",
            AMPLIFIER_RECORD,
        )
        for fitted in job.amplifiers
        for switch in fitted.switches
    ]
