"""Cars drawn from a seed, what is true of them, and what their recordings got wrong about it.

What is true is worked out here from the filters themselves, never by the analysis.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Any

import numpy as np
from scipy import signal
from sound_car import SHORT, Car, Pair, all_pass, half, peak

from builder.sound.reading import Said, SoundFacts, read_recording
from builder.sound.results import Measured, Refused

LATE_MS, LATE_CROSSING_MS = 0.005, 0.020
LEVEL_DB, ABSOLUTE_DB, CLOCK_PPM = 0.05, 0.3, 0.1
CORNER, ALL_PASS_CORNER, EDGE = 0.03, 0.02, 0.03
ORDERS = ("Butterworth 1", "Butterworth 2", "Butterworth 3", "Butterworth 4",
          "Linkwitz-Riley 2", "Linkwitz-Riley 4", "Bessel 2", "Bessel 4")  # fmt: skip
SAME_SLOPE_HALVES = ("Butterworth 2", "Butterworth 3", "Butterworth 4", "Linkwitz-Riley 2",
                     "Linkwitz-Riley 4")  # fmt: skip


@dataclass
class Trial:
    """A car, what it was drawn to be, and what the meter read at the first pair."""

    car: Car
    how: str  # alike, against, crossing
    turned: tuple[int, float] | None = None  # all-pass: order, corner
    filters: tuple[tuple[str, str, float], ...] = ()  # way, type, corner
    meter_v: float = 0.0
    facts: SoundFacts | None = None
    missed: list[str] = field(default_factory=list)


def drawn(seed: int) -> Trial:
    """A car of one of three kinds, in turn."""
    draw = np.random.default_rng(seed)
    common = [peak(10 ** draw.uniform(1.7, 4.0), draw.uniform(-6, 6), draw.uniform(0.5, 2.5))
              for _ in range(draw.integers(1, 4))]  # fmt: skip
    common.append(half("Butterworth 2", "high", draw.uniform(20, 60)))
    side = str(draw.choice(["left", "right", "both"]))
    volts = draw.uniform(5, 14)
    first, second = (Pair(side, volts, list(common)) for _ in range(2))
    second.polarity = int(draw.choice([1, -1]))
    second.delay_s = draw.uniform(-4e-3, 4e-3)
    how = ("alike", "against", "crossing")[seed % 3]
    trial = Trial(_car(draw, first, second), how)
    {"alike": _alike, "against": _against, "crossing": _crossing}[how](trial, draw, first, second)
    true_v = _size(trial.car, first, 200.0) * volts * 10**-0.5
    trial.meter_v = true_v * (1 + draw.uniform(-0.01, 0.01)) + draw.uniform(-0.05, 0.05)
    return trial


def _car(draw: Any, first: Pair, second: Pair) -> Car:
    steps = np.sort(draw.uniform(-26, 0, 3))
    bass = -np.sort(draw.uniform(-6, 6, 3))
    limits = [(1e9, 1e9), (1e9, draw.uniform(8, 25)), (draw.uniform(3, 12), 1e9)]
    limit_v, rail_v = limits[draw.integers(3)]
    return Car(
        [first, second], tuple(steps), tuple(bass), limit_v, draw.uniform(0.05, 0.12), rail_v,
        noise_v=10 ** draw.uniform(-4, -2.7), ppm=draw.uniform(-300, 300),
        begins_s=draw.uniform(0.3, 3), full_scale_v=1.6, chain_corner_hz=draw.uniform(1.5, 8),
        chain_second=draw.uniform(0, 5e-4), bits=int(draw.choice([16, 24])),
        seed=int(draw.integers(2**31)),
    )  # fmt: skip


def _alike(trial: Trial, draw: Any, first: Pair, second: Pair) -> None:
    """Front and rear: at times with a bell of its own, at times with an all-pass."""
    if draw.random() < 0.5:
        second.filters.append(peak(10 ** draw.uniform(2, 3.7), draw.uniform(-4, 4), 1.0))
    order = int(draw.integers(3))
    if order:
        corner = 10 ** draw.uniform(1.9, 3.4)
        q = 0.0 if order == 1 else draw.uniform(0.5, 2.0)
        second.filters.append(all_pass(corner, q))
        trial.turned = (order, corner)


def _against(trial: Trial, draw: Any, first: Pair, second: Pair) -> None:
    """A woofer, a tweeter or what is between, beside a pair that plays all."""
    kind = str(draw.choice(ORDERS))
    ways = [("low", 60, 200), ("high", 1500, 5000), ("high", 150, 400)]
    way, lowest, highest = ways[draw.integers(3)]
    corner = draw.uniform(lowest, highest)
    second.filters.append(half(kind, way, corner))
    trial.filters = ((way, kind, corner),)


def _crossing(trial: Trial, draw: Any, first: Pair, second: Pair) -> None:
    kind = str(draw.choice(SAME_SLOPE_HALVES))
    corner = draw.uniform(80, 250) if draw.random() < 0.4 else draw.uniform(1500, 4000)
    first.filters.append(half(kind, "low", corner))
    second.filters.append(half(kind, "high", corner))
    second.delay_s = draw.uniform(-1, 1) * min(2e-3, 1 / corner)
    trial.filters = (("high", kind, corner),)


def _size(car: Car, pair: Pair, hz: float) -> float:
    """What a pair gives of a tone at the volume of the sweeps, against its volts; lead included."""
    return float(np.abs(pair.through([hz])[0]))


def tried(seed: int) -> Trial:
    """A car with what its recording says, and what of that is wrong."""
    trial = drawn(seed)
    said = Said(SHORT.choice, (trial.meter_v, None), trial.car.chain_corner_hz)
    trial.facts = facts = read_recording(trial.car.recorded(), said, None)
    _judge(trial, "clock", facts.clock_ppm, trial.car.ppm, CLOCK_PPM)
    for at, pair in enumerate(trial.car.pairs):
        _judge_levels(trial, at, pair)
        _judge_edges(trial, at, pair)
        _judge_clean(trial, at, pair)
    _judge_two(trial)
    return trial


def _judge(trial: Trial, name: str, found: Any, true: float, within: float) -> None:
    """A result has to be within its bound, and within what it says of itself."""
    if isinstance(found, Refused):
        trial.missed.append(f"{name}: refused, {found.reason}")
    elif abs(found.value - true) > within:
        trial.missed.append(f"{name}: {found.value:.5g} for {true:.5g}, bound {within:.3g}")
    elif abs(found.value - true) > found.plus_minus:
        trial.missed.append(f"{name}: {found.value:.6g} for {true:.6g} ± {found.plus_minus:.3g}")


def _gain_db(car: Car, pair: Pair, step: int, hz: float) -> float:
    """What a quiet burst is louder than 1 V, with the bass of its step."""
    low = signal.sosfreqz(signal.butter(1, 120, fs=48_000, output="sos"), [hz], fs=48_000)[1][0]
    bass = 1 + (10 ** (car.bass_db[step - 1] / 20) - 1) * low
    chain = 1 / np.sqrt(1 + (car.chain_corner_hz / hz) ** 2)
    volts = _size(car, pair, hz) * pair.volts * abs(bass) * chain
    return float(20 * np.log10(max(volts, 1e-12))) + car.step_db[step - 1]


def _judge_levels(trial: Trial, at: int, pair: Pair) -> None:
    """In the analysis against the tone for the meter; absolute from 3 V on."""
    facts, car = trial.facts.pairs[at], trial.car
    for step, found in facts.bass_db:
        true = _gain_db(car, pair, step, 40.0) - _gain_db(car, pair, step, 1000.0)
        if isinstance(found, Measured) and not _limited(car, pair, step, 0.1):
            _judge(
                trial, f"{at + 1} bass step {step}", found, true, max(LEVEL_DB, found.plus_minus)
            )
    if at or trial.meter_v < 3:
        return
    for each in facts.steps:
        if isinstance(each.quiet_v_rms, Measured) and not _limited(car, pair, each.step, 0.1):
            found_db = 20 * np.log10(each.quiet_v_rms.value)
            true_db = _gain_db(car, pair, each.step, each.hz) - 20
            error = 20 * np.log10(1 + each.quiet_v_rms.plus_minus / each.quiet_v_rms.value)
            if each.hz == 1000.0 and each.quiet_v_rms.plus_minus < 0.04 * each.quiet_v_rms.value:
                told = Measured(found_db, error)
                _judge(trial, f"level step {each.step}", told, true_db, ABSOLUTE_DB)


def _limited(car: Car, pair: Pair, step: int, share: float) -> bool:
    """Whether a burst of a step, so much of full scale, comes near a limit of the bass or rail."""
    peaks = [2**0.5 * share * 10 ** (_gain_db(car, pair, step, hz) / 20) for hz in (40.0, 1000.0)]
    return peaks[0] > 0.7 * car.limit_v or max(peaks) > 0.97 * car.rail_v


def _judge_edges(trial: Trial, at: int, pair: Pair) -> None:
    car, facts = trial.car, trial.facts.pairs[at]
    hz = np.geomspace(13, 20_500, 60_000)
    db = 20 * np.log10(np.abs(pair.through(hz)) / np.sqrt(1 + (car.chain_corner_hz / hz) ** 2))
    sixths = 1000.0 * 2.0 ** (np.arange(-33, 26) / 6)
    levels = np.array([_mean_db(hz, db, middle) for middle in sixths])
    above = db > _middle_db(levels) - 3
    low_hz, high_hz = hz[np.argmax(above)], hz[len(hz) - 1 - np.argmax(above[::-1])]
    if isinstance(facts.lower_edge_hz, Measured):
        _judge(trial, f"{at + 1} low edge", facts.lower_edge_hz, low_hz, _bound(facts, 0, low_hz))
        if low_hz < 2.9 * car.chain_corner_hz:
            trial.missed.append(f"{at + 1} low edge at {low_hz:.0f} Hz told, chain's own near it")
    if isinstance(facts.upper_edge_hz, Measured):
        _judge(
            trial, f"{at + 1} high edge", facts.upper_edge_hz, high_hz, _bound(facts, 1, high_hz)
        )


def _middle_db(levels: Any) -> float:
    """Half of all weight lies below it, that of each sixth spread evenly around it."""
    weights = {level: min(1.0, max(0.0, (level - max(levels) + 9) / 6)) for level in levels}
    half_of_all, below, before = sum(weights.values()) / 2, 0.0, (0.0, -1e3)
    for level in sorted(weights):
        at = below + weights[level] / 2
        if at >= half_of_all:
            share = (half_of_all - before[0]) / (at - before[0])
            return before[1] + share * (level - before[1])
        below, before = below + weights[level], (at, level)
    return before[1]


def _bound(facts: Any, high: int, hz: float) -> float:
    told = facts.upper_edge_hz if high else facts.lower_edge_hz
    return max(EDGE * hz, told.plus_minus)


def _mean_db(hz: Any, db: Any, middle: float) -> float:
    """By equal steps of frequency, as a sweep's response is divided."""
    inside = (hz >= middle / 2 ** (1 / 12)) & (hz <= middle * 2 ** (1 / 12))
    return float(10 * np.log10(np.average(10 ** (db[inside] / 10), weights=hz[inside])))


def _judge_clean(trial: Trial, at: int, pair: Pair) -> None:
    """The loudest clean step, where the true answer is far from both limits."""
    car, found = trial.car, trial.facts.pairs[at].clean_step
    if isinstance(found, Refused):
        return
    full = all(_size(car, pair, hz) > 0.5 * _top(pair) for hz in (40.0, 1000.0))
    if not full:
        return
    clean = 0
    for step in (1, 2, 3):
        peaks = [2**0.5 * 10 ** (_gain_db(car, pair, step, hz) / 20) for hz in (40.0, 1000.0)]
        worst = max(peaks[0] / car.limit_v, *(each / car.rail_v for each in peaks))
        if 0.85 < worst < 1.5:
            return  # neither clearly clean nor clearly not
        if worst > 1:
            break
        clean = step
    if found.value != clean:
        trial.missed.append(f"{at + 1} clean step {found.value:.0f} for {clean}")


def _top(pair: Pair) -> float:
    return float(np.max(np.abs(pair.through(np.geomspace(20, 18_000, 300)))))


def _judge_two(trial: Trial) -> None:
    (two,) = trial.facts.between
    second = trial.car.pairs[1]
    swapped = two.first == 2
    relation, sign = two.relation, -1 if swapped else 1
    within = LATE_CROSSING_MS if trial.filters else LATE_MS
    if not isinstance(relation.inverted, bool):
        trial.missed.append(f"polarity: {relation.inverted}")
    elif relation.inverted != (second.polarity < 0):
        trial.missed.append("polarity is wrong")
    _judge(trial, "late", relation.late_ms, sign * 1000 * second.delay_s, within)
    if trial.how == "alike":
        _judge_all_pass(trial, two, swapped)
    else:
        _judge_crossover(trial, two)


def _judge_all_pass(trial: Trial, two: Any, swapped: bool) -> None:
    order, corner = trial.turned or (0, 0.0)
    relation = two.relation
    if relation.all_pass_order != order:
        trial.missed.append(
            f"all-pass of order {relation.all_pass_order} for {order}, {corner:.0f}"
        )
    elif order:
        _judge(trial, "all-pass", relation.all_pass_hz, corner, ALL_PASS_CORNER * corner)
        if relation.turns_second == swapped:
            trial.missed.append("the all-pass is in the other pair")


def _judge_crossover(trial: Trial, two: Any) -> None:
    ((way, kind, corner),) = trial.filters
    found = [each for each in two.crossovers if each.way == f"{way}-pass"]
    if len(found) != 1 or len(two.crossovers) != 1:
        trial.missed.append(f"crossovers {[each.way for each in two.crossovers]} for {way} {kind}")
        return
    (half_found,) = found
    if trial.how == "against":
        _judge(trial, "corner", half_found.corner_hz, corner, CORNER * corner)
        if half_found.kind != kind:
            trial.missed.append(f"type {half_found.kind} for {kind}")
    else:
        _judge(trial, "equally loud", two.equal_hz, corner, CORNER * corner)
        if isinstance(half_found.corner_hz, Measured):
            _judge(trial, "corner", half_found.corner_hz, corner, 0.06 * corner)
        if isinstance(half_found.kind, str) and half_found.kind != kind:
            trial.missed.append(f"type {half_found.kind} for {kind}")
    _judge(trial, "slope", half_found.slope_db, 6.0 * int(kind.rsplit(" ", 1)[1]), 0.01)
