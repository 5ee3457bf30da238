"""A hundred recordings, each spoilt in a way that has a name, and what has to be said of it."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache
from typing import Any, NamedTuple

import numpy as np
from scipy import signal
from sound_car import RATE, SHORT, Car, Pair, half, peak

from builder.sound.reading import Said, SoundFacts, read_recording
from builder.sound.results import RecordingRefusedError, Refused
from builder.sound.track import FIRST_SWEEP, LAST_SWEEP, LOUD_SWEEP
from builder.sound.wav_reading import Recording

SAID = Said(SHORT.choice, (2.5, 2.5), 3.0)
BELL = peak(80, 4, 1)
PAIRS = {
    "all": [BELL],
    "woofer": [BELL, half("Linkwitz-Riley 4", "low", 110)],
    "tweeter": [BELL, half("Butterworth 2", "high", 900)],
}


class Spoilt(NamedTuple):
    """One recording, how it was spoilt, and a piece of what has to be said."""

    way: str
    number: int
    recording: Recording
    told: str
    said: Said = SAID


@cache
def clean(name: str) -> Any:
    """One channel of a pair, as it should have been recorded."""
    pair = Pair("both", 8.0, PAIRS[name])
    return Car([pair], ppm=60, seed=11, rail_v=14.0).recorded().channels[0]


def at(track_s: float) -> int:
    """The sample at which a second of the track lies."""
    return round((1.234567 + track_s) * RATE)


def one(channel: Any) -> Recording:
    return Recording(RATE, (np.clip(channel, -1, 1),))


def names(count: int) -> Iterator[tuple[int, str]]:
    kinds = list(PAIRS)
    yield from ((number, kinds[number % 3]) for number in range(count))


def _cut_off() -> Iterator[Spoilt]:
    """The recorder's input was too loud."""
    for number, name in names(9):
        louder = clean(name) / np.max(np.abs(clean(name))) * (1.05 + 0.2 * number)
        yield Spoilt("cut off at full scale", number, one(louder), "cut off at full scale")


def _gain_control() -> Iterator[Spoilt]:
    """The recorder turns up what is soft and down what is loud."""
    for number, name in names(9):
        keep = np.exp(-1 / ((0.02 + 0.01 * number) * RATE))
        power = signal.lfilter([1 - keep], [1, -keep], clean(name) ** 2)
        aim = 10 ** (-(34 + number) / 20)
        gain = np.minimum(aim / np.sqrt(power + 1e-12), 30.0) ** 0.8
        yield Spoilt("automatic gain", number, one(clean(name) * gain), "gain control")


def _slow_gain_control() -> Iterator[Spoilt]:
    """The same with a memory of seconds: between the first and the last sweep it has moved."""
    for number, name in names(6):
        along = np.linspace(0, 1, len(clean(name)))
        moved = 10 ** (along * (0.8 + 0.5 * number) * (-1) ** number / 20)
        yield Spoilt("gain that creeps", number, one(clean(name) * moved), "gain control")


def _late() -> Iterator[Spoilt]:
    for number, name in names(6):
        begin = at(1.4 + 0.3 * number)
        yield Spoilt("begun too late", number, one(clean(name)[begin:]), "marks at the start")


def _short() -> Iterator[Spoilt]:
    for number, name in names(6):
        end = at(SHORT.length_s - 1.7 - 2.0 * number)
        yield Spoilt("ended too soon", number, one(clean(name)[:end]), "marks at the end")


def _noise() -> Iterator[Spoilt]:
    for number, name in names(6):
        draw = np.random.default_rng(number)
        quiet = np.std(clean(name)[at(3.6) : at(7)])
        loud = clean(name) + quiet * (1.5 + number) * draw.standard_normal(len(clean(name)))
        yield Spoilt("drowned in noise", number, one(0.3 * loud), "noise")


def _mono() -> Iterator[Spoilt]:
    for number, name in names(6):
        both = Recording(RATE, (clean(name), clean(name) * (1 if number < 3 else 1 + 1e-9)))
        yield Spoilt("mono input", number, both, "refused: channels 1 and 2 hold one")


def _pieces() -> Iterator[Spoilt]:
    """A recorder that lost a packet between the sweeps."""
    for number, name in names(9):
        begin = at(9 + 2.5 * number)
        gone = round((0.006 + 0.02 * number) * RATE)
        kept = np.concatenate([clean(name)[:begin], clean(name)[begin + gone :]])
        yield Spoilt("pieces lost", number, one(kept), "piece")


def _muted() -> Iterator[Spoilt]:
    """A voice of navigation, a call: the radio is silent for a moment."""
    bursts = [part for step in (1, 2, 3) for part in SHORT.of_step(step)]
    sweeps = (FIRST_SWEEP, LAST_SWEEP, LOUD_SWEEP)
    parts = [*bursts[:6], *(SHORT.named(each) for each in sweeps)]
    for number, part in enumerate(parts):
        quiet = clean("all").copy()
        begin = part.start_s + part.length_s * 0.4
        quiet[at(begin) : at(begin + 0.35)] *= 0.001
        yield Spoilt("muted", number, one(quiet), part.name)


def _other_track() -> Iterator[Spoilt]:
    for number, steps in enumerate((1, 2, 4, 8)):
        choice = Said(SHORT.choice.__class__(steps, 48_000, 3.0, 0.6, 1.5, 0.6), (2.5,), 3.0)
        yield Spoilt("another track", number, one(clean("all")), "say --steps", choice)


def _phone() -> Iterator[Spoilt]:
    """An input that cuts the bass: nobody knows its corner, so no low edge is the pair's."""
    unknown = Said(SHORT.choice, (2.5,), None)
    for number, hz in enumerate((80, 120, 150, 200, 250, 300)):
        cut = signal.sosfilt(signal.butter(2, hz, "high", fs=RATE, output="sos"), clean("all"))
        told = "40 Hz against 1 kHz: nobody said where lead and recorder fall off themselves"
        yield Spoilt("input that cuts the bass", number, one(cut), told, unknown)


def _faded() -> Iterator[Spoilt]:
    """The player fades from what was on before."""
    for number, name in names(5):
        draw = np.random.default_rng(20 + number)
        before = signal.lfilter([1], [1, -0.98], draw.standard_normal(len(clean(name))))
        share = np.clip((np.arange(len(before)) - at(0)) / ((6 + number) * RATE), 0, 1)
        loud = 4 * np.std(clean(name)) * before / np.std(before)
        mixed = share * clean(name) + (1 - share) * loud
        yield Spoilt("crossfade", number, one(0.5 * mixed), "marks at the start")


def _not_back() -> Iterator[Spoilt]:
    for number, name in names(5):
        other = clean(name).copy()
        other[at(SHORT.named("turn the volume back").start_s) :] *= 10 ** (-(1 + number) / 20)
        yield Spoilt("volume not turned back", number, one(other), "the volume was not turned back")


def _soft() -> Iterator[Spoilt]:
    for number, name in names(5):
        soft = clean(name) / np.max(np.abs(clean(name))) * 0.0025 / (1 + number)
        yield Spoilt("too soft", number, one(soft), "turn the recorder's input up")


def _no_lead() -> Iterator[Spoilt]:
    for number, name in names(5):
        draw = np.random.default_rng(40 + number)
        dead = 1e-5 * (1 + number) * draw.standard_normal(len(clean(name)))
        both = Recording(RATE, (clean(name), dead))
        yield Spoilt("a lead is off", number, both, "channel 2")


def _slow_file() -> Iterator[Spoilt]:
    for number, rate_hz in enumerate((16_000, 22_050, 32_000, 24_000)):
        slow = Recording(rate_hz, (clean("all")[::2],))
        yield Spoilt("too few samples a second", number, slow, "record at 44100 or 48000")


WAYS = (
    *(_cut_off, _gain_control, _slow_gain_control, _late, _short, _noise, _mono, _pieces, _muted),
    *(_other_track, _phone, _faded, _not_back, _soft, _no_lead, _slow_file),
)


REFUSED = (
    "cut off at full scale", "begun too late", "ended too soon", "drowned in noise", "mono input",
    "pieces lost", "another track", "crossfade", "too soft", "a lead is off",
    "too few samples a second",
)  # fmt: skip
"""Ways that leave nothing to read; of the others what is spoilt is marked."""


def told_of(spoilt: Spoilt) -> str:
    """All that is refused or marked of a recording: nothing, where it passed as a good one."""
    try:
        facts = read_recording(spoilt.recording, spoilt.said, None)
    except RecordingRefusedError as error:
        return f"refused: {error}"
    return " | ".join(_marks(facts))


def _marks(facts: SoundFacts) -> Iterator[str]:
    yield from facts.notes
    for pair in facts.pairs:
        yield from (pair.gain_moved, *pair.muted)
        if isinstance(pair.lower_edge_hz, Refused):
            yield f"low edge: {pair.lower_edge_hz.reason}"
        bass = dict(pair.bass_db)[1]
        if isinstance(bass, Refused) and "nobody said" in bass.reason:
            yield f"40 Hz against 1 kHz: {bass.reason}"


def is_told(spoilt: Spoilt, said: str) -> bool:
    """Whether what has to be said is, and nothing of it beside a recording that passed."""
    return spoilt.told in said and (spoilt.way not in REFUSED or said.startswith("refused"))
