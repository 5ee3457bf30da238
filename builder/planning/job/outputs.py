"""Which line outputs a job asks of its converter, and whether the converter can give them."""

from __future__ import annotations

from builder.model.job import JobSpeaker
from builder.model.parts import Converter
from builder.planning.car.demands import channel_order
from builder.planning.car.output_sums import corners_of
from builder.planning.car.selection import LineOutput, Tap
from builder.planning.car.sources import Sources
from builder.planning.car.treatments import sources_of
from builder.planning.job.wish import JobWish
from builder.planning.objections import Objection, object_to
from builder.planning.tables import DEVICE_RECORD


def line_outputs(
    wish: JobWish, taps: tuple[Tap, ...], sources: Sources
) -> tuple[tuple[LineOutput, ...], list[Objection]]:
    """Return the distinct line outputs, in the order in which the job's speakers ask for them."""
    by_channel = {tap.pair.channel: tap for tap in taps}
    found: dict[frozenset[str], LineOutput] = {}
    objections: list[Objection] = []
    for speaker in wish.job.speakers:
        names = [name for name in sources_of(speaker, sources.pairs) if name in by_channel]
        own = tuple(by_channel[name] for name in sorted(names, key=channel_order))
        outputs, against = _outputs_of(wish, speaker, own)
        for output in outputs:
            found.setdefault(frozenset(output.channels), output)
        objections += against
    return tuple(found.values()), list(dict.fromkeys(objections))


def _outputs_of(
    wish: JobWish, speaker: JobSpeaker, taps: tuple[Tap, ...]
) -> tuple[list[LineOutput], list[Objection]]:
    if not taps:
        return [], []
    if len(taps) == 1:
        return [LineOutput(taps, joined=False)], []
    if _converter_adds(wish.converter, taps):
        return [LineOutput(taps, joined=True)], []
    corners = corners_of(tap.pair.channel for tap in taps)
    if _amplifier_adds(wish, speaker) and len(taps) == len(corners) == 2:
        return [LineOutput((tap,), joined=False) for tap in taps], []
    return [LineOutput(taps, joined=True)], [_cannot_add(wish.converter, taps)]


def _converter_adds(converter: Converter, taps: tuple[Tap, ...]) -> bool:
    sides = {tap.pair.side for tap in taps}
    return converter.sum == "any" or (converter.sum == "same_side" and len(sides) == 1)


def _amplifier_adds(wish: JobWish, speaker: JobSpeaker) -> bool:
    """Whether the amplifier channel is a mono one, which adds up its left and right input."""
    amplifier = wish.amplifiers.get(speaker.amplifier)
    if amplifier is None:
        return False
    uses = [group.use for group in amplifier.channels for _ in range(group.count)]
    at = speaker.amplifier_channel - 1
    return at < len(uses) and uses[at] == "sub"


def _cannot_add(converter: Converter, taps: tuple[Tap, ...]) -> Objection:
    names = " and ".join(tap.pair.channel for tap in taps)
    because = (
        f"{names} belong together, and {converter.name} adds no such inputs together: "
        f"{len(taps)} inputs that are summed are needed"
    )
    return object_to("the pairs cannot be joined", because, DEVICE_RECORD)


def too_few_outputs(outputs: tuple[LineOutput, ...], converter: Converter) -> list[Objection]:
    """Return the refusal of a converter with fewer line outputs than the job needs."""
    if len(outputs) <= converter.outputs:
        return []
    because = f"{len(outputs)} line outputs are needed, {converter.name} has {converter.outputs}"
    return [object_to("too few outputs", because, DEVICE_RECORD)]
