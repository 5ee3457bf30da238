"""What recordings give a channel to begin with, and what of the factory's doing stays."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import inf

from builder.figures import shown
from builder.model.names import channel_name
from builder.model.parts import Converter
from builder.model.parts.filters import Filters
from builder.model.recorded_sound import RecordedAllPass, RecordedBetween
from builder.model.sound import SpeakerChannel
from builder.planning.job.tune_channel import TunedChannel
from builder.planning.levels.inverse_equaliser import (
    MOST_BOOST_DB,
    MOST_CUT_DB,
    Inverse,
    inverse_of,
)
from builder.planning.plan import Reason
from builder.planning.tables import RECORDING
from builder.planning.tune_sheet import EqualiserPoint
from builder.units import Hertz

BEYOND: float = 2**0.5
"""How far beyond its corner, as a ratio, a channel is still heard: half an octave."""
WORTH_DB: float = 1.5
"""A loss or a bell smaller than that is left to the ear. Both chosen by this project."""


@dataclass(frozen=True, slots=True)
class HeardTune:
    """What a recording gives a channel: bells, an all-pass, what stays, and why."""

    equaliser: tuple[EqualiserPoint, ...] = ()
    all_pass: RecordedAllPass | None = None
    stays: tuple[str, ...] = ()
    because: tuple[Reason, ...] = ()


def heard_tune(
    channel: TunedChannel, carried: Sequence[SpeakerChannel | None], converter: Converter
) -> HeardTune:
    """Return what recordings of the pairs that a channel plays give it; nothing without any."""
    known = [each for each in carried if each is not None and each.heard is not None]
    if not known:
        return HeardTune()
    offered, device = channel.offered.filters, channel.offered.device
    flat = _inverse(channel, known[0], offered)
    stays, because = [*_not_flat(channel, known[0], flat, offered)], [*_bells(flat, device)]
    turned: RecordedAllPass | None = None
    for two in _together(known):
        lost = _lost(channel, two)
        stays += _sum_words(two, lost, converter)
        if two.all_pass is not None and offered is not None and offered.all_pass == "yes":
            turned = two.all_pass
    if turned is not None:
        because.append(_turned_back(turned, device))
    return HeardTune(flat.points if flat else (), turned, tuple(stays), tuple(because))


def _span(channel: TunedChannel) -> tuple[Hertz, Hertz]:
    """Between which frequencies a channel is heard."""
    low = channel.filters.high_pass_hz or channel.filters.subsonic_hz or 20.0
    return low / BEYOND, (channel.filters.low_pass_hz or inf) * BEYOND


def _inverse(
    channel: TunedChannel, pair: SpeakerChannel, offered: Filters | None
) -> Inverse | None:
    """Bells within the channel, and half an octave within the pair's own edges: none is boosted."""
    assert pair.heard is not None
    low, high = _span(channel)
    edges = pair.heard.pair.lower_edge_hz, pair.heard.pair.upper_edge_hz
    low = max(low, edges[0].value * BEYOND) if edges[0] else low
    high = min(high, edges[1].value / BEYOND) if edges[1] else high
    bands = offered.equaliser_bands if offered and offered.equaliser_bands else 0
    return inverse_of(pair.heard.pair.shape, low, high, bands)


def _bells(flat: Inverse | None, device: str) -> Iterator[Reason]:
    if flat is None or not flat.points:
        return
    bells = ", ".join(
        f"{shown(each.hz)} Hz {each.gain_db:+.1f} dB Q {shown(each.q)}" for each in flat.points
    )
    because = (
        f"at {device}: the recorded pair is up to {shown(flat.before_db, 1)} dB from flat there, "
        f"{shown(flat.after_db, 1)} dB with them; at most {shown(MOST_CUT_DB)} dB are cut and "
        f"{shown(MOST_BOOST_DB)} dB boosted"
    )
    yield Reason(f"equaliser {bells}", because, RECORDING)


def _not_flat(
    channel: TunedChannel, pair: SpeakerChannel, flat: Inverse | None, offered: Filters | None
) -> Iterator[str]:
    """That the factory's equaliser stays, where the channel has none of its own."""
    if flat is None or flat.before_db < WORTH_DB or flat.points:
        return
    has = "its record names no equaliser" if offered is not None else "nobody recorded one"
    yield (
        f"{channel_name(pair.channel)} is up to {shown(flat.before_db, 1)} dB from flat where this "
        f"channel plays: {channel.offered.device}: {has}, so it stays"
    )


def _together(known: Sequence[SpeakerChannel]) -> Iterator[RecordedBetween]:
    """What was recorded of each two pairs that the channel adds."""
    for at, one in enumerate(known):
        for other in known[at + 1 :]:
            two = one.heard.beside.get(other.channel) if one.heard else None
            if two is not None:
                yield two


def _lost(channel: TunedChannel, two: RecordedBetween) -> tuple[Hertz, float] | None:
    """Where the sum of two pairs loses most of what the channel plays, and how much. [Hz, dB]"""
    low, high = _span(channel)
    heard = [each for each in two.sum if low <= each.hz <= high]
    worst = min(heard, key=lambda each: each.db, default=None)
    return None if worst is None else (worst.hz, -worst.db)


def _sum_words(
    two: RecordedBetween, lost: tuple[Hertz, float] | None, converter: Converter
) -> Iterator[str]:
    if lost is None or lost[1] < WORTH_DB:
        return
    names = f"{channel_name(two.first)} and {channel_name(two.second)}"
    turn = "" if two.all_pass is None else (
        f", an all-pass of order {two.all_pass.order} at {shown(two.all_pass.corner_hz.value, 0)} "
        f"Hz in {channel_name(two.all_pass.in_pair)}"
    )  # fmt: skip
    late = "" if two.late_ms is None else f"{shown(two.late_ms.value, 2)} ms apart"
    does = (
        "hold the earlier back at the converter before they are added"
        if converter.delay_adjust == "yes"
        else f"{converter.name} cannot delay one of them, so it stays"
    )
    yield (
        f"{names} added lose up to {shown(lost[1], 1)} dB at {shown(lost[0], 0)} Hz where this "
        f"channel plays ({late}{turn}): {does}; the radio's seat setting at all seats may undo it"
    )


def _turned_back(turned: RecordedAllPass, device: str) -> Reason:
    q = "" if turned.q is None else f", Q {shown(turned.q.value, 2)}"
    decision = f"all-pass of order {turned.order} at {shown(turned.corner_hz.value, 0)} Hz{q}"
    because = (
        f"at {device}, in the channel of the other pair: {channel_name(turned.in_pair)} has one "
        "from the factory, and both are then turned alike"
    )
    return Reason(decision, because, RECORDING)
