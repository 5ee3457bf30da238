"""Levels by volume step: volts, bass against the middle, distortion and the clean step."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass, replace
from typing import Final

from builder.sound.bands import own_level
from builder.sound.results import Measured, Refused, Result
from builder.sound.tones import Tone
from builder.sound.track import LOUD_DBFS, QUIET_DBFS, Track
from builder.sound.volts import OWN_DB, Scale, level_of
from builder.units import Hertz, gain_factor_db

MOST_DISTORTION: Final = 0.01
MOST_COMPRESSION_DB: Final = 0.5
"""A step is clean with so much at most. A slow limiter bends no wave, so distortion alone would let
it pass. Chosen by this project."""
CLEAR: Final = 100.0
"""How many times its own error a quiet burst has to be for its level to be told."""

_MUTED: Final = Refused("something muted this step while it played")


@dataclass(frozen=True, slots=True)
class StepLevels:
    """What one volume step says at one tone. Shares are of one; levels RMS.

    `compressed_db` is what is missing of the 20 dB between the quiet and the loud burst.
    `distortion` is that of the loud one, `harmonics` its single orders, from the second on.
    """

    step: int
    hz: Hertz
    quiet_v_rms: Result
    loud_v_rms: Result
    compressed_db: Result
    distortion: Result
    harmonics: tuple[tuple[int, Result], ...] = ()


def steps_of(
    track: Track, heard: Mapping[str, Tone], scale: Scale | Refused, muted: Collection[str]
) -> tuple[StepLevels, ...]:
    """Return each volume step at each of its tones, by name of part; what `muted` names is out."""
    found: list[StepLevels] = []
    for step in range(1, track.choice.steps + 1):
        bursts = track.of_step(step)
        tones = [(burst, heard[burst.name]) for burst in bursts]
        gone = {burst.hz for burst in bursts if burst.name in muted}
        found += [refused_step(step, hz, _MUTED) for hz in sorted(gone)]
        quiet, loud = (
            {burst.hz: tone for burst, tone in tones if burst.level_dbfs == level}
            for level in (QUIET_DBFS, LOUD_DBFS)
        )
        found += [_levels(step, quiet[hz], loud[hz], scale) for hz in quiet if hz not in gone]
    return tuple(sorted(found, key=lambda each: (each.step, each.hz)))


def refused_step(step: int, hz: Hertz, why: Refused) -> StepLevels:
    """Return a step of which nothing can be said at a tone."""
    return StepLevels(step, hz, why, why, why, why)


def own_volts(step: StepLevels, chain_corner_hz: Hertz | None) -> StepLevels:
    """Return a step less the volts that lead and recorder may have lowered.

    Args:
        step: As recorded.
        chain_corner_hz: Where lead and recorder are 3 dB down; as in `own_level`.
    """
    quiet, loud = (
        own_level(each, step.hz, chain_corner_hz, in_volts=True)
        for each in (step.quiet_v_rms, step.loud_v_rms)
    )
    return replace(step, quiet_v_rms=quiet, loud_v_rms=loud)


def _levels(step: int, quiet: Tone, loud: Tone, scale: Scale | Refused) -> StepLevels:
    return StepLevels(
        step,
        quiet.hz,
        level_of(quiet, scale),
        level_of(loud, scale),
        _compressed(quiet, loud),
        _share(loud, loud.distortion, loud.distortion_error),
        tuple(
            (order, _share(loud, rms / loud.rms, loud.error_rms / loud.rms))
            for order, rms in enumerate(loud.orders if loud.rms else (), 2)
        ),
    )


def _compressed(quiet: Tone, loud: Tone) -> Result:
    if quiet.rms < CLEAR * quiet.error_rms:
        return Refused("the quiet burst is too near the noise")
    missing_db = LOUD_DBFS - QUIET_DBFS - gain_factor_db(loud.rms / quiet.rms)
    return Measured(missing_db, OWN_DB + quiet.error_db)


def _share(loud: Tone, share: float, error: float) -> Result:
    """A share of the loud burst, told where all orders together are clear of noise."""
    if loud.distortion_error > MOST_DISTORTION / 4:
        return Refused("the loud burst is too near the noise")
    return Measured(share, 2 * error + 0.02 * share)


def clean_step_of(steps: Iterable[StepLevels], plays_hz: Collection[Hertz]) -> Result:
    """Return the highest step up to which all are clean at every tone that the pair plays.

    0 says that not even the first is. That the last step is clean says nothing of louder ones.
    """
    clean, told = 0, False
    by_step: dict[int, list[StepLevels]] = {}
    for each in (each for each in steps if each.hz in plays_hz):
        by_step.setdefault(each.step, []).append(each)
    for step, tones in sorted(by_step.items()):
        judged = [verdict for tone in tones if (verdict := _is_clean(tone)) is not None]
        if not judged and told:
            break
        told = told or bool(judged)
        if not all(judged):
            break
        clean = step if judged else clean
    if not told:
        return Refused("neither 40 Hz nor 1 kHz is what this pair plays clearly enough to judge")
    return Measured(float(clean), 0.0)


def _is_clean(tone: StepLevels) -> bool | None:
    """Whether a tone is clean; None when the recording cannot say."""
    bent, missing = tone.distortion, tone.compressed_db
    if isinstance(bent, Refused) or isinstance(missing, Refused):
        return None
    return bent.value <= MOST_DISTORTION and missing.value <= MOST_COMPRESSION_DB


def bass_by_step(
    track: Track, heard: Mapping[str, Tone], muted: Collection[str]
) -> tuple[tuple[int, Result], ...]:
    """Return how much louder 40 Hz is than 1 kHz at each step, both quiet. [dB]"""
    found: list[tuple[int, Result]] = []
    for step in range(1, track.choice.steps + 1):
        quiet = track.of_step(step)[:2]
        if any(burst.name in muted for burst in quiet):
            found.append((step, _MUTED))
        else:
            found.append((step, _bass(*(heard[burst.name] for burst in quiet))))
    return tuple(found)


def _bass(bass: Tone, middle: Tone) -> Result:
    for tone in (bass, middle):
        if tone.rms < CLEAR * tone.error_rms:
            return Refused(f"{tone.hz:.0f} Hz is not heard clearly enough on this pair")
    error_db = OWN_DB + bass.error_db + middle.error_db
    return Measured(gain_factor_db(bass.rms / middle.rms), error_db)
