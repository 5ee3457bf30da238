"""What a job taps: its pairs on converter inputs, its line outputs, what that costs."""

from __future__ import annotations

from collections.abc import Sequence

from builder.model.house_defaults import HouseDefaults
from builder.model.job import Job
from builder.model.parts import Converter
from builder.model.words import SPLIT_BANDS, Channel, Treatment
from builder.planning.car.demands import channel_order
from builder.planning.car.output_sums import corner_of, corners_of
from builder.planning.car.pairs import Pair
from builder.planning.car.selection import LineOutput, Selection, Tap
from builder.planning.car.sources import Sources
from builder.planning.car.treatments import Treatments, sources_of, wires_of
from builder.planning.feeds.band_sums import check_sum
from builder.planning.feeds.sub_source import (
    bass_swing_db,
    correction_db,
    fixed_words,
    holds_no_bass,
    is_fixed,
)
from builder.planning.job.line_plan import plan_lines
from builder.planning.job.losses import job_losses
from builder.planning.job.outputs import too_few_outputs
from builder.planning.job.wish import JobWish
from builder.planning.objections import Objection, object_to
from builder.planning.plan import Reason
from builder.planning.tables import (
    COMMON_PRACTICE,
    DEVICE_RECORD,
    HOUSE_DEFAULT,
    SUB_SOURCE_SWING_MAX_DB,
)
from builder.planning.words import End, TappedAs


def select_for_job(wish: JobWish, sources: Sources, treatments: Treatments) -> Selection:
    """Return the taps of a job on the inputs of its converter, and the line outputs it needs."""
    converter = wish.converter
    taps = _number(_wanted(wish.job, sources, treatments), sources, treatments, wish.job)
    lines = plan_lines(wish, taps, sources)
    outputs = lines.outputs
    said, against = _band_sums(outputs, converter, wish.defaults)
    bass_said, bass_against = _bass_sources(wish, sources)
    reasons = (_count_reason(taps, converter), *said, *bass_said)
    return Selection(
        purpose_of(wish.job, treatments),
        taps,
        reasons,
        job_losses(wish.job, sources, treatments),
        (
            *treatments.objections,
            *_too_few_inputs(taps, converter),
            *too_few_outputs(outputs, converter),
            *lines.objections,
            *against,
            *bass_against,
        ),
        outputs,
        pad=wish.job.pad,
        silent=_silent(taps, sources, treatments),
        leads=lines.leads,
        channels=lines.channels,
    )


_BOTH_ENDS: frozenset[End] = frozenset({"front", "rear"})
_ALONE: dict[Channel, str] = {"centre": "centre speaker", "sub": "subwoofer"}


def purpose_of(job: Job, treatments: Treatments) -> str:
    """Return what the job does, in the words of a plan."""
    taken = corners_of(name for name, how in treatments.of.items() if how == "intercept")
    ends = [end for end in ("front", "rear") if any(each.startswith(end) for each in taken)]
    amplified = ["doors"] if len(ends) == len(_BOTH_ENDS) else [f"{end} speakers" for end in ends]
    amplified += [words for corner, words in _ALONE.items() if corner in taken]
    parts = [f"amplify the {' and the '.join(amplified)}"] if amplified else []
    new = [speaker for speaker in job.speakers if not speaker.existing]
    if any(speaker.channel != "sub" and speaker.lead is not None for speaker in new):
        parts.append("add speakers")
    if any(speaker.lead is None for speaker in new):
        parts.append("replace speakers")
    if any(speaker.channel == "sub" and not speaker.existing for speaker in job.speakers):
        parts.append("add a subwoofer")
    return " and ".join(parts) or f"amplify the {_ALONE['sub']}"


def _silent(taps: tuple[Tap, ...], sources: Sources, treatments: Treatments) -> tuple[Tap, ...]:
    """Pairs that are broken and that nothing plays: their speaker gets another pair's sound."""
    fed = {tap.pair.channel for tap in taps}
    return tuple(
        Tap(0, sources.pairs[name], "intercept", 0)
        for name, how in treatments.of.items()
        if how == "intercept" and name not in fed
    )


def _wanted(job: Job, sources: Sources, treatments: Treatments) -> list[Channel]:
    """Every pair that something plays or that is broken, front left first."""
    played = {name for speaker in job.speakers for name in sources_of(speaker, sources.pairs)}
    tapped = {name for name, how in treatments.of.items() if how != "none"}
    return sorted(played & tapped, key=channel_order)


def _number(
    names: Sequence[Channel], sources: Sources, treatments: Treatments, job: Job
) -> tuple[Tap, ...]:
    """Give each pair the next input; bands of one corner that are played together share a group."""
    groups: dict[Channel, int] = {}
    together = {
        name
        for speaker in job.speakers
        for name in sources_of(speaker, sources.pairs)
        if sum(corner_of(other) == corner_of(name)
               for other in sources_of(speaker, sources.pairs)) > 1
    }  # fmt: skip
    taps = []
    for number, name in enumerate(names, 1):
        key = corner_of(name) if name in together else name
        group = groups.setdefault(key, len(groups) + 1)
        how = _TAPPED_AS[treatments.of[name]]
        taps.append(Tap(number, sources.pairs[name], how, group))
    return tuple(taps)


_TAPPED_AS: dict[Treatment, TappedAs] = {
    "intercept": "intercept",
    "line_tap": "line_tap",
    "addon": "addon",
    "none": "addon",
}


def _too_few_inputs(taps: tuple[Tap, ...], converter: Converter) -> list[Objection]:
    if len(taps) <= converter.inputs:
        return []
    names = ", ".join(tap.pair.named for tap in taps)
    because = (
        f"{len(taps)} inputs are needed ({names}), {converter.name} has {converter.inputs}. Leave "
        "an end of the car on its own output, or take a converter with more inputs"
    )
    if {tap.pair.channel.split("-")[0] for tap in taps} >= _BOTH_ENDS:
        because += ". With fewer the rear becomes a copy of the front and the fader is lost"
    return [object_to("too few inputs", because, DEVICE_RECORD)]


def _count_reason(taps: tuple[Tap, ...], converter: Converter) -> Reason:
    names = ", ".join(tap.pair.named for tap in taps) or "none"
    decision = f"{len(taps)} of {converter.inputs} inputs used"
    return Reason(decision, f"the job's speakers play {names}", DEVICE_RECORD)


def _band_sums(
    outputs: tuple[LineOutput, ...], converter: Converter, defaults: HouseDefaults
) -> tuple[list[Reason], list[Objection]]:
    """What joining woofer and tweeter of a corner means, each corner once."""
    said: dict[Channel, tuple[Reason, ...]] = {}
    against: list[Objection] = []
    for output in outputs:
        pairs = {tap.pair.channel: tap.pair for tap in output.taps}
        for corner in corners_of(pairs):
            bands = [pairs.get(band) for band in SPLIT_BANDS.get(corner, ())]
            woofer, tweeter = bands or (None, None)
            if woofer is None or tweeter is None or corner in said:
                continue
            said[corner], objections = check_sum(woofer, tweeter, converter, defaults)
            against += objections
    return [reason for reasons in said.values() for reason in reasons], against


def _bass_sources(wish: JobWish, sources: Sources) -> tuple[list[Reason], list[Objection]]:
    """What the pairs that feed a subwoofer say against that."""
    reasons: list[Reason] = []
    objections: list[Objection] = []
    for speaker in wish.job.speakers:
        if speaker.channel != "sub" or wires_of(speaker, sources.pairs):
            continue
        for name in sources_of(speaker, sources.pairs):
            said, against = _bass_source(sources.pairs[name], wish)
            reasons += said
            objections += against
    return reasons, objections


def _bass_source(pair: Pair, wish: JobWish) -> tuple[list[Reason], list[Objection]]:
    why = holds_no_bass(pair)
    swing = bass_swing_db(pair.carries)
    left = swing - correction_db(wish.converter)
    limit = wish.defaults.bass_swing_db
    if left > SUB_SOURCE_SWING_MAX_DB or (left > limit and is_fixed(wish.converter)):
        falls = f"bass of {pair.named} falls {left:.0f} dB as the volume goes up"
        why = why or falls + fixed_words(wish.converter)
    if why is not None:
        return [], [object_to(f"{pair.named} cannot feed a subwoofer", why, COMMON_PRACTICE)]
    if left > limit:
        because = f"bass falls {left:.0f} dB as the volume goes up, {limit:g} dB counts as clean"
        return [Reason(f"{pair.named} loses bass when loud", because, HOUSE_DEFAULT)], []
    if swing > limit:
        because = f"bass falls {swing:.0f} dB as the volume goes up; {wish.converter.name} corrects"
        return [Reason(f"correct the bass of {pair.named}", because, DEVICE_RECORD)], []
    return [], []
