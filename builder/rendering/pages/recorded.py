"""What recordings told of a car's pairs, for its page, its plans and its jobs."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence
from typing import Final, NamedTuple

from builder.figures import shown
from builder.model.names import channel_name
from builder.model.recorded_figures import RecordedFigure, RecordedStep
from builder.model.recorded_sound import (
    Plays,
    RecordedBetween,
    RecordedPair,
    RecordedSound,
)
from builder.model.recording_lead import RecordingLead
from builder.model.vehicle import Vehicle
from builder.model.words import Channel
from builder.planning.plan import Feed
from builder.proof.recorded_facts import worst_of
from builder.proof.recorded_sound import source_words
from builder.rendering.drawings.plots import Plot
from builder.rendering.drawings.recorded_plots import recorded_plots
from builder.rendering.pages.car_facts import Fact
from builder.rendering.pages.declared_facts import facts_of

_PLAYS: Final[dict[Plays, str]] = {
    "alike": "plays the same band as",
    "part_of_first": "plays a part of what is on",
    "above_first": "plays above",
    "apart": "plays nothing that is also on",
}


class RecordedView(NamedTuple):
    """One recording: its source, what it told, what it could not, and its drawings."""

    anchor: str
    name: str
    source: str
    lead: tuple[Fact, ...]
    told: tuple[str, ...]
    not_told: tuple[str, ...]
    plots: tuple[Plot, ...]


def recorded_views(vehicle: Vehicle, channels: Collection[Channel] = ()) -> list[RecordedView]:
    """Return what was recorded of these pairs, of all where none is named; the newest first."""
    days = {session.id: session.date for session in vehicle.sessions}
    order = sorted(vehicle.recordings, key=lambda one: days.get(one.session, ""), reverse=True)
    found = [_view(vehicle, each, channels, number) for number, each in enumerate(order, 1)]
    return [view for view in found if view is not None]


def recorded_of_feeds(vehicle: Vehicle, feeds: Sequence[Feed]) -> list[RecordedView]:
    """Return what was recorded of the pairs that a plan joins; nothing where it joins none."""
    channels = {feed.channel for feed in feeds}
    return recorded_views(vehicle, channels) if channels else []


def _view(
    vehicle: Vehicle, recording: RecordedSound, channels: Collection[Channel], number: int
) -> RecordedView | None:
    pairs = [pair for pair in recording.pairs if not channels or pair.channel in channels]
    if not pairs:
        return None
    named = [pair.channel for pair in pairs]
    both = [two for two in recording.between if {two.first, two.second} <= {*named}]
    told = [line for pair in pairs for line in _of_pair(pair, recording.lead)]
    told += [line for two in both for line in _of_two(two)]
    missing = [f"{channel_name(pair.channel)}: {why}" for pair in pairs for why in pair.not_told]
    missing += [f"{_both(two)}: {why}" for two in both for why in two.not_told]
    key = f"recorded-{number}"
    set_to = f"; radio set to {recording.set_to}" if recording.set_to else ""
    clock = f"; its clock {_figure(recording.clock_ppm, 'ppm', 1)}"
    loaded = source_words(vehicle, recording, pairs[0])
    return RecordedView(
        key,
        recording.file,
        f"{loaded}{_volume(recording)}{set_to}{clock}; sum of the file {recording.sha256}",
        tuple(facts_of(recording.lead)),
        tuple(told),
        tuple(_plain(each) for each in missing),
        tuple(recorded_plots(recording, named, key)),
    )


def _volume(recording: RecordedSound) -> str:
    step = recording.at_volume_step
    how = "freed of lead and recorder" if recording.method == "sweep_freed" else "lead included"
    return f"; {how}" + ("" if step is None else f"; sweeps at volume step {step}")


def _plain(why: str) -> str:
    return why.replace("_hz", "").replace("_ms", "").replace("_v_rms", "").replace("_", " ")


def _figure(told: RecordedFigure, unit: str, places: int) -> str:
    more = shown(told.plus_minus, places, beside=0.0)
    return f"{shown(told.value, places)} ± {more} {unit}"


def _of_pair(pair: RecordedPair, lead: RecordingLead) -> Iterator[str]:
    name = channel_name(pair.channel)
    if pair.level_v_rms is not None:
        yield f"{name}: {_figure(pair.level_v_rms, 'V', 2)} at 200 Hz{_volts_by(pair, lead)}"
    if pair.noise_v_rms is not None:
        yield f"{name}: {_figure(pair.noise_v_rms, 'V', 4)} of noise"
    if pair.lower_edge_hz is not None:
        yield f"{name}: 3 dB down at {_figure(pair.lower_edge_hz, 'Hz', 0)} at the low end"
    if pair.upper_edge_hz is not None:
        yield f"{name}: 3 dB down at {_figure(pair.upper_edge_hz, 'Hz', 0)} at the high end"
    if pair.clean_step is not None:
        more = "the next is not" if pair.louder_is_not_clean == "yes" else "louder was not tried"
        yield f"{name}: clean up to volume step {pair.clean_step}, {more}"
    for each in pair.bass_by_step:
        yield (
            f"{name}, step {each.volume_step}: 40 Hz against 1 kHz {shown(each.db, 1)} ± "
            f"{shown(each.plus_minus, 2, beside=0.0)} dB"
        )
    yield from (f"{name}, {_step(each)}" for each in pair.volume_steps)


def _volts_by(pair: RecordedPair, lead: RecordingLead) -> str:
    """What made volts of the recording: a meter at the pair, else the calibration of the lead."""
    if pair.meter_v_rms is not None:
        return f", the meter {shown(pair.meter_v_rms, 2)} V"
    return f", by the calibration of {lead.calibration.date}" if lead.calibration else ""


def _step(step: RecordedStep) -> str:
    """One volume step at one tone: "step 30, 1000 Hz: 5.82 ± 0.16 V, 0.0 dB missing, 0.02 %"."""
    said = []
    if step.loud_v_rms is not None:
        more = shown(step.loud_plus_minus_v or 0.0, 3)
        said.append(f"{shown(step.loud_v_rms, 2)} ± {more} V at full scale")
    if step.missing_db is not None:
        said.append(f"{shown(step.missing_db, 2)} dB missing of 20")
    if step.distortion_percent is not None:
        said.append(f"{shown(step.distortion_percent, 3)} % distortion")
    return f"step {step.volume_step}, {step.hz:g} Hz: {', '.join(said) or 'not told'}"


def _both(two: RecordedBetween) -> str:
    return f"{channel_name(two.first)} and {channel_name(two.second)}"


def _of_two(two: RecordedBetween) -> Iterator[str]:
    name = channel_name(two.second)
    yield f"{name} {_PLAYS[two.plays]} {channel_name(two.first)}"
    if two.late_ms is not None:
        yield f"{name} comes later by {_figure(two.late_ms, 'ms', 3)}"
    if two.polarity != "unknown":
        yield f"{name}: polarity {'turned over' if two.polarity == 'inverted' else 'the same'}"
    if two.all_pass is not None:
        q = "" if two.all_pass.q is None else f", Q {_figure(two.all_pass.q, '', 2).strip()}"
        yield (
            f"{channel_name(two.all_pass.in_pair)} has an all-pass of order {two.all_pass.order} "
            f"at {_figure(two.all_pass.corner_hz, 'Hz', 0)}{q}"
        )
    for half in two.crossovers:
        at = "" if half.corner_hz is None else f" at {_figure(half.corner_hz, 'Hz', 0)}"
        slope = half.slope_db_per_octave
        steep = "" if slope is None else f", {shown(slope)} dB an octave"
        kind = "" if half.type is None else f", {half.type}"
        yield f"{_both(two)}: {half.way.replace('_', '-')}{at}{steep}{kind}"
    if two.meet_hz is not None:
        yield f"{_both(two)} are equally loud at {_figure(two.meet_hz, 'Hz', 0)}"
    for words, can_delay in (("as they are", False), ("with the delay made good", True)):
        worst = worst_of(two, can_delay=can_delay)
        if worst is not None:
            yield f"joined {words} they lose {shown(-worst[1], 1)} dB at {shown(worst[0], 0)} Hz"
