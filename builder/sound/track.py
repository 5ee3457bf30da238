"""The test track as data: what stands in it, from when to when, and how loud.

Nothing here makes a sample, and nothing needs numpy. Whoever plays, simulates or reads the track
asks this list, so that all three mean the same track.

dBFS: 0 is a sine whose peaks just reach full scale.
Source of the sweep: exponential sweeps for transfer and distortion, as in common practice since
Farina, AES convention paper 5093 (2000), from memory. The order of parts and all levels: chosen by
this project.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from math import isfinite
from typing import Final, Literal

Kind = Literal["rising_mark", "falling_mark", "sweep", "tone", "silence"]
Sides = Literal["both", "left", "right"]

SWEEP_FROM_HZ: Final = 10.0
SWEEP_TO_HZ: Final = 22_000.0
QUIET_DBFS: Final = -20.0
LOUD_SWEEP_DBFS: Final = -3.0
LOUD_DBFS: Final = 0.0
METER_HZ: Final = 200.0
METER_DBFS: Final = -10.0
BASS_HZ: Final = 40.0
MIDDLE_HZ: Final = 1000.0
SIDE_TONES_HZ: Final = (60.0, 1000.0, 8000.0)
"""Each side is told by a low, a middle and a high tone, so that a woofer and a tweeter hear one."""

START_MARKS_S: Final = (0.0, 0.8, 2.1)
END_MARKS_S: Final = (0.0, 1.1)
"""When the marks of a group begin, from the first: no two distances are alike."""
MARK_S: Final = 0.5
BURST_S: Final = 0.9
"""No loud tone lasts longer than one second: it is what a speaker and a radio are spared."""
GAP_S: Final = 0.3
TAIL_S: Final = 1.5
BEEP_S: Final = 0.12
LONG_BEEP_S: Final = 0.5
BEEPS_IN_A_LONG_ONE: Final = 5
LONGEST_S: Final = 900.0


@dataclass(frozen=True, slots=True)
class Choice:
    """What may differ from one track to another; who reads a recording has to say the same.

    `steps` are places in the track for that many steps of the radio's volume. [1 to 30]
    `rate_hz` is that of the file. `sweep_s`, `turn_s`, `meter_s` and `silence_s` are lengths: of
    each sweep, of the time to turn the volume, of the tone for the meter, of the silence.
    """

    steps: int = 8
    rate_hz: int = 48_000
    sweep_s: float = 10.0
    turn_s: float = 5.0
    meter_s: float = 15.0
    silence_s: float = 3.0

    def __post_init__(self) -> None:
        lengths = (self.sweep_s, self.turn_s, self.meter_s, self.silence_s)
        if not 1 <= self.steps <= 30:
            raise ValueError(f"a track has 1 to 30 steps, not {self.steps}")
        if not 8_000 <= self.rate_hz <= 192_000:
            raise ValueError(f"a track has 8000 to 192000 samples a second, not {self.rate_hz}")
        if not all(isfinite(length) and 0.5 <= length <= 60 for length in lengths):
            raise ValueError("a part of the track lasts 0.5 to 60 seconds")

    @property
    def sweep_to_hz(self) -> float:
        """Where the sweep ends: at 22 kHz, or just below half the rate of a slower file."""
        return min(SWEEP_TO_HZ, 0.4989 * self.rate_hz)


@dataclass(frozen=True, slots=True)
class Part:
    """One sound of the track. `hz` is that of a tone; `step` counts from 1, 0 stands for none."""

    name: str
    kind: Kind
    start_s: float
    length_s: float
    level_dbfs: float
    hz: float = 0.0
    sides: Sides = "both"
    step: int = 0

    @property
    def end_s(self) -> float:
        """When it is over."""
        return self.start_s + self.length_s


@dataclass(frozen=True, slots=True)
class Track:
    """The whole of it: parts in their order, silence between them, and its length."""

    choice: Choice
    parts: tuple[Part, ...]
    length_s: float

    def named(self, name: str) -> Part:
        """Return the part of a name that stands once.

        Raises:
            KeyError: there is none.
        """
        return {part.name: part for part in self.parts}[name]

    def of_step(self, step: int) -> tuple[Part, ...]:
        """Return the four bursts of a step: 40 Hz and 1 kHz, each quiet, then each loud."""
        return tuple(part for part in self.parts if part.step == step and "burst" in part.name)


FIRST_SWEEP, LOUD_SWEEP, LAST_SWEEP = "sweep at the start", "loud sweep", "sweep at the end"
METER_TONE, SILENCE = "tone for the meter", "silence"
TURN_BACK = "turn the volume back"


def plan_track(choice: Choice) -> Track:
    """Return what stands in a track, each part with its place.

    The three sweeps are at one volume, which is why the last step is followed by time to turn back.
    """
    placed: list[Part] = []
    now_s = 1.0
    for gap_s, part in _parts(choice):
        now_s = round(now_s + gap_s, 6)
        placed.append(replace(part, start_s=now_s))
        now_s = round(placed[-1].end_s, 6)
    return Track(choice, tuple(placed), round(now_s + 1.0, 6))


def _parts(choice: Choice) -> Iterator[tuple[float, Part]]:
    """Each part with the silence before it; places come later."""
    yield from _marks("rising_mark", START_MARKS_S)
    yield 1.0, _sweep(FIRST_SWEEP, QUIET_DBFS, choice)
    yield TAIL_S, _tone(METER_TONE, METER_HZ, METER_DBFS, choice.meter_s)
    yield from _sides()
    yield 1.0, Part(SILENCE, "silence", 0, choice.silence_s, QUIET_DBFS)
    yield 0.5, _sweep(LOUD_SWEEP, LOUD_SWEEP_DBFS, choice)
    yield TAIL_S, Part("rest", "silence", 0, 0.5, QUIET_DBFS)
    for step in range(1, choice.steps + 1):
        yield from _beeps(step)
        yield from _bursts(step, choice.turn_s)
    yield 1.0, _tone(TURN_BACK, 2 * MIDDLE_HZ, QUIET_DBFS, 1.0)
    yield choice.turn_s + 1.0, _sweep(LAST_SWEEP, QUIET_DBFS, choice)
    yield TAIL_S, Part("rest before the end", "silence", 0, 0.2, QUIET_DBFS)
    yield from _marks("falling_mark", END_MARKS_S)


def _marks(kind: Kind, begins_s: tuple[float, ...]) -> Iterator[tuple[float, Part]]:
    before_s = 0.0
    for number, begin_s in enumerate(begins_s, 1):
        where = "start" if kind == "rising_mark" else "end"
        yield begin_s - before_s, Part(f"{where} mark {number}", kind, 0, MARK_S, QUIET_DBFS)
        before_s = begin_s + MARK_S


def _sweep(name: str, level_dbfs: float, choice: Choice) -> Part:
    return Part(name, "sweep", 0, choice.sweep_s, level_dbfs)


def _tone(name: str, hz: float, level_dbfs: float, length_s: float) -> Part:
    return Part(name, "tone", 0, length_s, level_dbfs, hz)


def _sides() -> Iterator[tuple[float, Part]]:
    sides: tuple[Sides, ...] = ("left", "right")
    for side in sides:
        for hz in SIDE_TONES_HZ:
            tone = _tone(f"{side} alone, {hz:.0f} Hz", hz, QUIET_DBFS, BURST_S)
            yield GAP_S, replace(tone, sides=side)


def _beeps(step: int) -> Iterator[tuple[float, Part]]:
    """The number of a step for the ear: a long beep stands for five."""
    long_ones, short_ones = divmod(step, BEEPS_IN_A_LONG_ONE)
    for number in range(long_ones + short_ones):
        length_s = LONG_BEEP_S if number < long_ones else BEEP_S
        beep = _tone(f"step {step}, beep {number + 1}", MIDDLE_HZ, QUIET_DBFS, length_s)
        yield 1.0 if number == 0 else GAP_S, replace(beep, step=step)


def _bursts(step: int, turn_s: float) -> Iterator[tuple[float, Part]]:
    """Quiet ones first: what a limiter does to a loud one is over when the next step comes."""
    before_s = turn_s
    for level_dbfs in (QUIET_DBFS, LOUD_DBFS):
        for hz in (BASS_HZ, MIDDLE_HZ):
            name = f"step {step}, burst of {hz:.0f} Hz at {level_dbfs:.0f} dBFS"
            yield before_s, replace(_tone(name, hz, level_dbfs, BURST_S), step=step)
            before_s = GAP_S
