"""A recording of the test track, read: what it says of each pair, and of each two together."""

from __future__ import annotations

from dataclasses import dataclass, replace
from itertools import combinations
from typing import Final

from builder.sound.arrays import Samples
from builder.sound.bands import own_level, own_shape, plays, shape_of
from builder.sound.chain import chain_of, freed_response, freed_tones
from builder.sound.clock import set_clock
from builder.sound.edges import edges_of
from builder.sound.levels import (
    StepLevels,
    bass_by_step,
    clean_step_of,
    own_volts,
    refused_step,
    steps_of,
)
from builder.sound.marks import Placed, find_track
from builder.sound.pairs import PairsFacts, facts_between, without_polarity
from builder.sound.response import Response, quiet_response
from builder.sound.results import Measured, Refused, Result
from builder.sound.sides import muted_parts, noise_rms, side_of
from builder.sound.spoilt import refuse_noise, refuse_one_signal, refuse_unusable, why_gain_moved
from builder.sound.tones import tones_of
from builder.sound.track import (
    BASS_HZ,
    FIRST_SWEEP,
    LAST_SWEEP,
    METER_TONE,
    MIDDLE_HZ,
    Choice,
    Sides,
    Track,
    plan_track,
)
from builder.sound.volts import Scale, chosen_scale, level_of, noise_level, peak_dbfs
from builder.sound.wav_reading import Recording
from builder.units import Hertz, VoltsRms

QUIET_SWEEPS: Final = (FIRST_SWEEP, LAST_SWEEP)
"""Those that a response is made of."""
_ALONE: Final = (
    "of a pair alone neither delay, polarity nor all-pass can be known, and its edges are those of "
    "crossover and equaliser together, their corner not separable: record it beside another pair"
)

_NOT_POLED: Final = (
    "nobody tried with a 1.5 V cell whether all leads have one polarity: try them, plus on plus, "
    "and type what the trace did as polarity of the lead"
)


@dataclass(frozen=True, slots=True)
class Said:
    """What a person says beside a recording.

    Args:
        choice: Of the track, as it was written.
        meter_v_rms: What the meter read at the pair of each channel while 200 Hz played; None where
            nobody read it. A channel without one has no volts.
        chain_corner_hz: Where lead and recorder are 3 dB down at the low end; None when not known.
        calibrated: The scale of lead and recorder, where they stand as they were calibrated; it
            gives the volts of a channel at which no meter was read.
        poled: Whether all leads are known to have one polarity; else none of a pair is told.
    """

    choice: Choice
    meter_v_rms: tuple[VoltsRms | None, ...]
    chain_corner_hz: Hertz | None
    calibrated: Scale | None = None
    poled: bool = True


@dataclass(frozen=True, slots=True)
class PairFacts:
    """What a channel says of its pair; `channel` counts from 1.

    `shape` is by sixth of an octave, against the pair's own level. [Hz, dB] `bass_db` is 40 Hz
    against 1 kHz at each step. `muted` names parts that something muted. `gain_moved` says why no
    level can be trusted, and is empty otherwise. `meter_dbfs` is the recorded peak of the tone for
    the meter, and `calibration_off_db` by how much a meter's reading contradicts the calibration.
    """

    channel: int
    meter_dbfs: Result
    calibration_off_db: float | None
    level_v_rms: Result
    noise_v_rms: Result
    lower_edge_hz: Result
    upper_edge_hz: Result
    shape: tuple[tuple[Hertz, Result], ...]
    bass_db: tuple[tuple[int, Result], ...]
    steps: tuple[StepLevels, ...]
    clean_step: Result
    side: Sides | Refused
    apart_db: Result
    muted: tuple[str, ...]
    gain_moved: str


@dataclass(frozen=True, slots=True)
class SoundFacts:
    """All that a recording says."""

    clock_ppm: Measured
    pairs: tuple[PairFacts, ...]
    between: tuple[PairsFacts, ...]
    notes: tuple[str, ...]


def read_recording(recording: Recording, said: Said, loop_back: Recording | None) -> SoundFacts:
    """Return what a recording of the track says.

    Args:
        recording: Pairs that were recorded together.
        said: What a person says beside it.
        loop_back: The player recorded through lead and recorder, without the car; None without.

    Raises:
        RecordingRefusedError: it is spoilt as a whole, with the reason.
    """
    track = plan_track(said.choice)
    refuse_unusable(recording, track)
    refuse_one_signal(recording)
    clock = set_clock(recording, track, find_track(recording, track))
    chain = chain_of(loop_back, track, len(recording.channels))
    responses = [quiet_response(each, track, clock.placed) for each in recording.channels]
    for number, response in enumerate(responses, 1):
        refuse_noise(response, number)
    own = [freed_response(each, of) for each, of in zip(responses, chain, strict=True)]
    heard = [
        _Heard(channel, response, of, freed)
        for channel, response, of, freed in zip(
            recording.channels, responses, chain, own, strict=True
        )
    ]
    pairs = tuple(_pair(each, track, clock.placed, at, said) for at, each in enumerate(heard))
    found, notes = _between(pairs, own, said)
    return SoundFacts(clock.offset_ppm, pairs, tuple(found), tuple(notes))


@dataclass(frozen=True, slots=True)
class _Heard:
    """A channel, its response, that of lead and recorder, and the first without the second."""

    channel: Samples
    response: Response
    chain: Response | None
    own: Response


def _pair(heard: _Heard, track: Track, placed: Placed, at: int, said: Said) -> PairFacts:
    channel, corner_hz = heard.channel, said.chain_corner_hz if heard.chain is None else 0.0
    recorded = tones_of(channel, track, placed)
    tones = freed_tones(recorded, heard.chain)
    meter = tones[METER_TONE]
    read_v = said.meter_v_rms[at] if at < len(said.meter_v_rms) else None
    scale, off_db = chosen_scale(meter, read_v, said.calibrated)
    muted = muted_parts(channel, track, placed, heard.response, recorded)
    steps = steps_of(track, tones, scale, muted)
    side, apart_db = side_of(tones)
    edges = edges_of(heard.own, corner_hz)
    shape = shape_of(heard.own)
    plays_hz = [hz for hz in (BASS_HZ, MIDDLE_HZ) if plays(shape, hz)]
    bass = bass_by_step(track, tones, muted)
    facts = PairFacts(
        at + 1,
        peak_dbfs(meter),
        off_db,
        level_of(meter, scale),
        noise_level(noise_rms(channel, track, placed), scale),
        *edges,
        own_shape(heard.own, corner_hz),
        tuple((step, own_level(each, BASS_HZ, corner_hz)) for step, each in bass),
        tuple(own_volts(each, corner_hz) for each in steps),
        clean_step_of(steps, plays_hz),
        side,
        apart_db,
        muted,
        why_gain_moved(channel, track, placed, steps),
    )
    return _without_spoilt(facts)


def _without_spoilt(facts: PairFacts) -> PairFacts:
    """The same facts, less those that a muted sweep or a gain control has spoilt."""
    if any(name in QUIET_SWEEPS for name in facts.muted):
        facts = _without_shape(facts, "something muted the sweep while it played")
    if facts.gain_moved:
        why = Refused(facts.gain_moved)
        facts = replace(
            _without_shape(facts, facts.gain_moved),
            level_v_rms=why,
            noise_v_rms=why,
            bass_db=tuple((step, why) for step, _ in facts.bass_db),
            steps=tuple(refused_step(each.step, each.hz, why) for each in facts.steps),
            clean_step=why,
            apart_db=why,
        )
    return facts


def _without_shape(facts: PairFacts, reason: str) -> PairFacts:
    why = Refused(reason)
    shape: tuple[tuple[Hertz, Result], ...] = tuple((hz, why) for hz, _ in facts.shape)
    return replace(facts, shape=shape, lower_edge_hz=why, upper_edge_hz=why)


def _between(
    pairs: tuple[PairFacts, ...], own: list[Response], said: Said
) -> tuple[list[PairsFacts], list[str]]:
    """Each two channels, and what is to be said of those that cannot be compared."""
    found: list[PairsFacts] = []
    notes: list[str] = [_ALONE] if len(own) == 1 else []
    notes += [_off(pair) for pair in pairs if pair.calibration_off_db is not None]
    for a, b in combinations(range(len(own)), 2):
        if any(name in QUIET_SWEEPS for at in (a, b) for name in pairs[at].muted):
            notes.append(f"a sweep of channel {a + 1} or {b + 1} was muted: they are not compared")
            continue
        two = facts_between((a + 1, b + 1), own[a], own[b])
        found.append(two if said.poled else without_polarity(two, _NOT_POLED))
    return found, notes


def _off(pair: PairFacts) -> str:
    return (
        f"channel {pair.channel}: what the meter read and the calibration of the lead differ by "
        f"{pair.calibration_off_db:+.1f} dB: the recorder's input stands otherwise than on that "
        "day, or one of the two is wrong; the meter counts"
    )
