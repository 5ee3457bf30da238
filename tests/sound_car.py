"""A car that never was, played a track and recorded: what is true of it is known to the last digit.

Radio (volume steps, bass by volume, equaliser, slow bass limiter, crossover, delay, polarity,
all-pass, rails, noise), lead and sound card (ratio, corner, distortion, noise, bits, clock).
Filters are scipy's, made by the bilinear transform at the recorder's rate, as a processor has them;
nothing here asks the analysis.
"""

from __future__ import annotations

from dataclasses import dataclass, field

import numpy as np
from scipy import signal

from builder.sound.track import Choice, Track, plan_track
from builder.sound.wav_reading import Recording
from builder.sound.waves import part_at

SHORT = plan_track(Choice(steps=3, sweep_s=3.0, turn_s=0.6, meter_s=1.5, silence_s=0.6))
"""A track for tests: all parts of a real one, in under a minute."""
RATE = 48_000


def peak(hz, db, q, rate=RATE):
    """One bell of an equaliser (the usual biquad by the bilinear transform)."""
    a, w = 10 ** (db / 40), 2 * np.pi * hz / rate
    alpha = np.sin(w) / (2 * q)
    b = [1 + alpha * a, -2 * np.cos(w), 1 - alpha * a]
    return np.array([[*b, 1 + alpha / a, -2 * np.cos(w), 1 - alpha / a]]) / (1 + alpha / a)


def half(name, way, hz, rate=RATE):
    """A crossover half by the name that the analysis prints."""
    kind, order = name.rsplit(" ", 1)
    if kind == "Linkwitz-Riley":
        once = signal.butter(int(order) // 2, hz, way, fs=rate, output="sos")
        return np.vstack([once, once])
    if kind == "Bessel":
        return signal.bessel(int(order), hz, way, norm="mag", fs=rate, output="sos")
    return signal.butter(int(order), hz, way, fs=rate, output="sos")


def all_pass(hz, q, rate=RATE):
    """First order (q 0) or second order, +1 at 0 Hz."""
    t = np.tan(np.pi * hz / rate)
    if q == 0:
        c = (t - 1) / (t + 1)
        return np.array([[c, 1.0, 0, 1.0, c, 0]])
    a0 = 1 + t / q + t * t
    a1, a2 = 2 * (t * t - 1) / a0, (1 - t / q + t * t) / a0
    return np.array([[a2, a1, 1.0, 1.0, a1, a2]])


@dataclass
class Pair:
    """One pair: its side, its gain and filters, and what was done to its sound."""

    side: str = "both"
    volts: float = 8.0  # RMS of a sine at 0 dBFS, at the volume of the sweeps
    filters: list = field(default_factory=list)
    polarity: int = 1
    delay_s: float = 0.0
    mutes: tuple = ()  # names of parts that it does not play
    apart_db: float = 1e3  # how much softer the other side is on it

    def through(self, hz, rate=RATE):
        """The response of its filters, without delay and polarity."""
        if not self.filters:
            return np.ones(len(hz), complex)
        return signal.sosfreqz(np.vstack(self.filters), hz, fs=rate)[1]


@dataclass
class Car:
    """A radio with its pairs, a lead and a sound card."""

    pairs: list
    step_db: tuple = (-20.0, -10.0, 0.0)  # volume of each step, 0 being that of the sweeps
    bass_db: tuple = (0.0, 0.0, 0.0)  # what bass is turned up by at each step
    limit_v: float = 1e9  # peak volts of bass that a slow limiter allows
    limit_s: float = 0.05
    rail_v: float = 1e9  # peak volts at which a pair is cut flat
    noise_v: float = 2e-4
    ppm: float = 0.0
    begins_s: float = 1.234567  # when the track begins in the recording
    ratio: float = 1 / 45
    full_scale_v: float = 1.2  # peak volts at the input for full scale
    chain_corner_hz: float = 3.0
    chain_second: float = 0.0  # share of the square that the chain adds
    card_noise: float = 3e-6
    bits: int = 24
    seed: int = 1
    track: Track = SHORT

    @property
    def volts_per_full_scale(self):
        """What stands at a pair when a sine just fills the recorder, RMS."""
        return self.full_scale_v / self.ratio / 2**0.5

    def rate(self):
        """Samples a second of the player's time."""
        return RATE * (1 + self.ppm * 1e-6)

    def volume(self, times_s):
        """Gain and bass gain by time of the track: turned while the radio is silent after beeps."""
        marks = [(0.0, 0.0, 0.0)]
        for step, (db, bass) in enumerate(zip(self.step_db, self.bass_db, strict=True), 1):
            marks.append((self.track.of_step(step)[0].start_s - 0.3, db, bass))
        marks.append((self.track.named("sweep at the end").start_s - 0.5, 0.0, 0.0))
        begins = np.array([mark[0] for mark in marks])
        at = np.clip(np.searchsorted(begins, times_s, "right") - 1, 0, None)
        return 10 ** (np.array([m[1] for m in marks])[at] / 20), np.array([m[2] for m in marks])[at]

    def played(self, pair, times_s):
        """What the player gives to a pair."""
        whole = np.zeros(len(times_s))
        for part in self.track.parts:
            other = 0.5 if pair.side == "both" else 10 ** (-pair.apart_db / 20)
            share = 1.0 if part.sides in ("both", pair.side) else other
            if share < 1e-9 or part.name in pair.mutes:
                continue
            a, b = np.searchsorted(times_s, [part.start_s, part.end_s])
            whole[a:b] += share * part_at(part, self.track.choice, times_s[a:b] - part.start_s)
        return whole

    def volts_at(self, pair, noise):
        """What stands at a pair, by the recorder's samples."""
        rate = self.rate()
        count = int((self.begins_s + self.track.length_s + 1.0) * rate)
        times_s = np.arange(count) / rate - self.begins_s
        gain, bass_db = self.volume(times_s)
        sound = self.played(pair, times_s - pair.delay_s)
        if np.any(bass_db):
            low = signal.sosfilt(signal.butter(1, 120, fs=RATE, output="sos"), sound)
            sound = sound + (10 ** (bass_db / 20) - 1) * low
        for sos in pair.filters:
            sound = signal.sosfilt(sos, sound)
        sound = sound * gain * pair.volts * 2**0.5 * pair.polarity
        if self.limit_v < 1e8:
            sound = self.limited(sound)
        return np.clip(sound, -self.rail_v, self.rail_v) + self.noise_v * noise

    def limited(self, sound):
        """A slow limiter of the bass: too slow to bend a wave, so no distortion tells of it."""
        bass = signal.sosfilt(signal.butter(2, 120, fs=RATE, output="sos"), sound)
        keep = np.exp(-1 / (self.limit_s * RATE))
        power = signal.lfilter([1 - keep], [1, -keep], bass**2)
        peaks = np.sqrt(2 * np.maximum(power, 1e-30))
        return sound + (np.minimum(1, self.limit_v / peaks) - 1) * bass

    def recorded(self):
        """The recording, all pairs together."""
        draw = np.random.default_rng(self.seed)
        corner = signal.butter(1, self.chain_corner_hz, "high", fs=RATE, output="sos")
        channels = []
        for pair in self.pairs:
            noise = draw.standard_normal(
                int((self.begins_s + self.track.length_s + 1.0) * self.rate())
            )
            came = self.volts_at(pair, noise) * self.ratio / self.full_scale_v
            came = signal.sosfilt(corner, came)
            came = came + self.chain_second * came**2
            came = came + self.card_noise * draw.standard_normal(len(came))
            steps = 2.0 ** (self.bits - 1)
            dither = draw.random(len(came)) - draw.random(len(came))
            channels.append(np.clip(np.rint(came * steps + dither), -steps, steps - 1) / steps)
        return Recording(RATE, tuple(channels))
