"""Cars drawn from a seed, played, recorded and read: each fact held against what is true.

Every judgement is kept with its error, so that a trial can say how near it came, and not only that
it passed.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Any, NamedTuple

import numpy as np
from sound_car import SHORT, Pair
from sound_drawn import (
    Drawn,
    chain,
    clean_step,
    drawn_car,
    gain_db,
    is_limited,
    noise_v,
    sent,
    size,
)

from builder.sound.reading import Said, SoundFacts, read_recording
from builder.sound.results import Measured, Refused


class Fact(NamedTuple):
    """What is judged, and within what: a share of the true value, or so many of its unit.

    `own` says that a recording may name more, where noise hides the rest. A fact without a limit
    has to be the true one. `always` says that a refusal is a miss.
    """

    name: str
    within: float = 0.0
    unit: str = ""
    own: bool = False
    always: bool = True


CLOCK = Fact("the recorder's clock", 0.1, "ppm")
SIDE = Fact("which side a pair plays")
MUTED = Fact("nothing was muted")
POLARITY = Fact("polarity of two pairs")
ALL_PASS = Fact("order of an all-pass, or that there is none")
ALL_PASS_PAIR = Fact("which pair has the all-pass")
ALL_PASS_HZ = Fact("corner of an all-pass", 0.02, "of it")
LATE = Fact("delay of pairs that play alike", 0.005, "ms")
LATE_CROSSING = Fact("delay with a crossover between", 0.020, "ms")
CROSSOVER = Fact("which crossovers there are")
TYPE = Fact("type of a crossover, against a pair that plays all")
CORNER = Fact("its corner", 0.03, "of it")
SLOPE = Fact("its slope, also where two halves cross", 0.01, "dB an octave")
EQUAL = Fact("where two halves are equally loud", 0.03, "of it")
TYPE_CROSSING = Fact("type of a crossover, where two halves cross", always=False)
CORNER_CROSSING = Fact("its corner there", 0.03, "of it", always=False)
EDGES = (
    Fact("3 dB down at the low end", 0.03, "of it", own=True, always=False),
    Fact("3 dB down at the high end", 0.03, "of it", own=True, always=False),
)
CHAIN_EDGE = Fact("no low edge below three times the chain's own corner")
SHAPE = Fact("shape, each sixth of an octave", 0.05, "dB", own=True, always=False)
BASS = Fact("40 Hz against 1 kHz at a step", 0.05, "dB", own=True, always=False)
VOLTS = Fact("volts of a step, by a meter from 3 V on", 0.3, "dB", always=False)
CLEAN = Fact("loudest clean step", always=False)
APART = Fact("how far the sides are apart", 0.05, "dB", own=True, always=False)
NOISE = Fact("noise in silence, by a meter from 3 V on", 0.1, "of it", own=True)
SUM = Fact("what joining takes away, by sixths of an octave", 0.05, "dB", own=True, always=False)
FACTS = (
    CLOCK, SIDE, MUTED, POLARITY, LATE, LATE_CROSSING, ALL_PASS, ALL_PASS_PAIR, ALL_PASS_HZ,
    CROSSOVER, TYPE, CORNER, SLOPE, EQUAL, TYPE_CROSSING, CORNER_CROSSING, *EDGES, CHAIN_EDGE,
    SHAPE, BASS, VOLTS, CLEAN, APART, NOISE, SUM,
)  # fmt: skip
DEEP_DB = -20.0
"""Where joining takes more away, the depth is that of a null, which the least noise fills."""


class Judged(NamedTuple):
    """One fact of one car: how far from the truth, and what is wrong with it, if anything.

    `error` is in the fact's unit, a share where its limit is one; None where it was refused.
    """

    fact: Fact
    error: float | None
    missed: str = ""


@dataclass
class Trial:
    """A car, what its recording says, and each judgement of it."""

    drawn: Drawn
    facts: SoundFacts
    judged: list[Judged] = field(default_factory=list)

    @property
    def how(self) -> str:
        return self.drawn.how

    @property
    def missed(self) -> list[str]:
        """What is wrong."""
        return [each.missed for each in self.judged if each.missed]


def tried(seed: int) -> Trial:
    """A car with what its recording says, and what of that is wrong."""
    drawn = drawn_car(seed)
    said = Said(SHORT.choice, (drawn.meter_v, None), drawn.car.chain_corner_hz)
    loop_back = drawn.loop.recorded() if drawn.loop else None
    trial = Trial(drawn, read_recording(drawn.car.recorded(), said, loop_back))
    _figure(trial, CLOCK, "", trial.facts.clock_ppm, drawn.car.ppm)
    for at, pair in enumerate(drawn.car.pairs):
        _judge_pair(trial, at, pair)
        _judge_shape(trial, at, pair)
    if drawn.meter_v >= 3:
        _judge_volts(trial)
    _judge_two(trial)
    _judge_sum(trial)
    return trial


def _figure(trial: Trial, fact: Fact, where: str, found: Any, true: float) -> None:
    """A figure has to be within its limit, and within what it says of itself."""
    if isinstance(found, Refused):
        missed = f"{fact.name}{where}: refused, {found.reason}" if fact.always else ""
        trial.judged.append(Judged(fact, None, missed))
        return
    scale = abs(true) if fact.unit == "of it" else 1.0
    error, own = abs(found.value - true) / scale, found.plus_minus / scale
    most = max(fact.within, own) if fact.own else fact.within
    missed = ""
    if error > min(most, own):
        missed = f"{fact.name}{where}: {found.value:.6g} ± {found.plus_minus:.3g} for {true:.6g}"
    trial.judged.append(Judged(fact, error, missed))


def _same(trial: Trial, fact: Fact, where: str, found: Any, true: Any) -> None:
    """What is no figure has to be what is true."""
    refused = isinstance(found, Refused) and not fact.always
    missed = "" if refused or found == true else f"{fact.name}{where}: {found} for {true}"
    trial.judged.append(Judged(fact, None if refused else float(found != true), missed))


def _judge_pair(trial: Trial, at: int, pair: Pair) -> None:
    """What one channel says of its pair, beside its shape."""
    facts, car, where = trial.facts.pairs[at], trial.drawn.car, f", pair {at + 1}"
    _same(trial, SIDE, where, facts.side, pair.side)
    _same(trial, MUTED, where, facts.muted, ())
    for step, found in facts.bass_db:
        if not is_limited(car, pair, step, 0.1):
            true = gain_db(car, pair, step, 40.0) - gain_db(car, pair, step, 1000.0)
            _figure(trial, BASS, f"{where}, step {step}", found, true)
    if pair.side != "both":
        _figure(trial, APART, where, facts.apart_db, pair.apart_db)
    top = float(np.max(np.abs(pair.through(np.geomspace(20, 18_000, 300)))))
    clean = clean_step(car, pair)
    if clean is not None and all(size(pair, hz) > 0.5 * top for hz in (40.0, 1000.0)):
        found = facts.clean_step
        clean_found = found if isinstance(found, Refused) else found.value
        _same(trial, CLEAN, where, clean_found, float(clean))


def _judge_volts(trial: Trial) -> None:
    """Volts of the first pair, at which a meter was read."""
    facts, car, pair = trial.facts.pairs[0], trial.drawn.car, trial.drawn.car.pairs[0]
    _figure(trial, NOISE, "", facts.noise_v_rms, noise_v(car))
    for each in facts.steps:
        if is_limited(car, pair, each.step, 0.1):
            continue
        told: Any = each.quiet_v_rms
        if isinstance(told, Measured):
            error_db = 20 * np.log10(1 + told.plus_minus / told.value)
            told = Measured(float(20 * np.log10(told.value)), float(error_db))
        true_db = gain_db(car, pair, each.step, each.hz) - 20
        _figure(trial, VOLTS, f", step {each.step}", told, true_db)


def _judge_shape(trial: Trial, at: int, pair: Pair) -> None:
    """Edges and shape against the response of its filters."""
    car, facts, where = trial.drawn.car, trial.facts.pairs[at], f", pair {at + 1}"
    hz = np.geomspace(13, 20_500, 60_000)
    db = 20 * np.log10(np.abs(pair.through(hz)))
    levels = {middle: _mean_db(hz, db, middle) for middle, _ in facts.shape}
    middle_db = _middle_db(np.array([*levels.values()]))
    above = db > middle_db - 3
    ends = hz[np.argmax(above)], hz[len(hz) - 1 - np.argmax(above[::-1])]
    for fact, found, true in zip(
        EDGES, (facts.lower_edge_hz, facts.upper_edge_hz), ends, strict=True
    ):
        _figure(trial, fact, where, found, float(true))
    heard_db = db + 20 * np.log10(chain(car, hz))
    recorded_hz = hz[np.argmax(heard_db > middle_db - 3)]
    if recorded_hz < 2.9 * car.chain_corner_hz and trial.drawn.loop is None:
        _same(trial, CHAIN_EDGE, where, isinstance(facts.lower_edge_hz, Refused), True)
    for middle, found in facts.shape:
        _figure(trial, SHAPE, f"{where}, {middle:.0f} Hz", found, levels[middle] - middle_db)


def _middle_db(levels: Any) -> float:
    """Half of all weight lies below it, that of each sixth spread evenly around it."""
    weights = {level: min(1.0, max(0.0, (level - max(levels) + 9) / 6)) for level in levels}
    half_of_all, below, before = sum(weights.values()) / 2, 0.0, (0.0, -1e3)
    for level in sorted(weights):
        at = below + weights[level] / 2
        if at >= half_of_all:
            share = (half_of_all - before[0]) / (at - before[0])
            return float(before[1] + share * (level - before[1]))
        below, before = below + weights[level], (at, level)
    return float(before[1])


def _mean_db(hz: Any, db: Any, middle: float) -> float:
    """By equal steps of frequency, as a sweep's response is divided."""
    inside = (hz >= middle / 2 ** (1 / 12)) & (hz <= middle * 2 ** (1 / 12))
    return float(10 * np.log10(np.average(10 ** (db[inside] / 10), weights=hz[inside])))


def _judge_two(trial: Trial) -> None:
    (two,) = trial.facts.between
    second = trial.drawn.car.pairs[1]
    swapped = two.first == 2
    _same(trial, POLARITY, "", two.relation.inverted, second.polarity < 0)
    fact = LATE_CROSSING if trial.drawn.filters else LATE
    true_ms = (-1 if swapped else 1) * 1000 * second.delay_s
    _figure(trial, fact, "", two.relation.late_ms, true_ms)
    if trial.how == "alike":
        _judge_all_pass(trial, two, swapped)
    else:
        _judge_crossover(trial, two)


def _judge_all_pass(trial: Trial, two: Any, swapped: bool) -> None:
    order, corner = trial.drawn.turned or (0, 0.0)
    _same(trial, ALL_PASS, f" at {corner:.0f} Hz", two.relation.all_pass_order, order)
    if order and two.relation.all_pass_order == order:
        _figure(trial, ALL_PASS_HZ, "", two.relation.all_pass_hz, corner)
        _same(trial, ALL_PASS_PAIR, "", two.relation.turns_second, not swapped)


def _judge_crossover(trial: Trial, two: Any) -> None:
    ((way, kind, corner),) = trial.drawn.filters
    _same(trial, CROSSOVER, f" ({kind})", [each.way for each in two.crossovers], [f"{way}-pass"])
    if [each.way for each in two.crossovers] != [f"{way}-pass"]:
        return
    (found,) = two.crossovers
    against = trial.how == "against"
    where = f" ({kind} at {corner:.0f} Hz)"
    _same(trial, TYPE if against else TYPE_CROSSING, where, found.kind, kind)
    _figure(trial, CORNER if against else CORNER_CROSSING, where, found.corner_hz, corner)
    _figure(trial, SLOPE, where, found.slope_db, 6.0 * int(kind.rsplit(" ", 1)[1]))
    if not against:
        _figure(trial, EQUAL, where, two.equal_hz, corner)


def _judge_sum(trial: Trial) -> None:
    """What joining takes away, against the sum of what both filters send."""
    (two,) = trial.facts.between
    for middle, found in two.sum_db:
        hz = np.linspace(middle / 2 ** (1 / 12), middle * 2 ** (1 / 12), 2000)
        one, other = (sent(pair, hz) for pair in trial.drawn.car.pairs)
        share = np.abs(one + other) / (np.abs(one) + np.abs(other))
        true_db = float(20 * np.log10(np.min(share)))
        if true_db > DEEP_DB:
            _figure(trial, SUM, f", {middle:.0f} Hz", found, true_db)
