"""The tone a pair is measured with: one that its band carries at full level."""

from __future__ import annotations

from collections.abc import Sequence
from math import inf, sqrt

from builder.model.sound import SpeakerChannel
from builder.planning.power.tables import BASS_TONE_HZ, DOOR_TONE_HZ, OCTAVE, TREBLE_TONE_HZ
from builder.planning.words import SpeakerUse
from builder.units import Hertz

Span = tuple[Hertz, Hertz]


def pair_tone_hz(carries: SpeakerChannel | None) -> Span:
    """Return the door tone where the pair carries it, else one inside its band. [Hz]

    Inside is an octave from its corner, where a second-order crossover takes 0.3 dB (Butterworth)
    or 2 dB (two equal first-order sections); the middle of a band too narrow for that. A band
    whose corner nobody recorded is taken at its word: low gets the subwoofer's tone, high the
    treble tone.
    """
    low, high = _corners(carries)
    if OCTAVE * low <= DOOR_TONE_HZ <= high / OCTAVE:
        return DOOR_TONE_HZ, DOOR_TONE_HZ
    if not low or (OCTAVE * low <= BASS_TONE_HZ[0] and high >= BASS_TONE_HZ[1]):
        return BASS_TONE_HZ
    tone = OCTAVE * low if OCTAVE * low <= high / OCTAVE else sqrt(low * high)
    return tone, tone


def _corners(carries: SpeakerChannel | None) -> Span:
    """The band of a pair, open at an end that nobody limited."""
    if carries is None:
        return 0.0, inf
    low = carries.highpass_hz or (TREBLE_TONE_HZ / OCTAVE if carries.band == "high" else 0.0)
    unnamed = BASS_TONE_HZ[1] if carries.band == "low" else inf
    return low, carries.lowpass_hz or unnamed


def shared_tone_hz(use: SpeakerUse, sources: Sequence[SpeakerChannel | None]) -> Span:
    """Return the tone for a channel fed from these pairs: the first that reaches it. [Hz]

    A subwoofer is set with bass whatever feeds it. A door fed from woofer and tweeter hears the
    door tone through its woofer; a channel fed from tweeters alone never does.
    """
    if use == "sub":
        return BASS_TONE_HZ
    tones = [pair_tone_hz(each) for each in sources]
    door = (DOOR_TONE_HZ, DOOR_TONE_HZ)
    return door if door in tones or not tones else tones[0]


def tone_words(tone: Span) -> str:
    """Return "1 kHz", "40 to 50 Hz", "6 kHz"."""
    low, high = tone
    if low != high:
        return f"{low:g} to {high:g} Hz"
    return f"{low / 1000:g} kHz" if low >= 1000 else f"{low:g} Hz"
