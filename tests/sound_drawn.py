"""Cars drawn from a seed, and what is true of them by their filters, never by the analysis."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np
from scipy import signal
from sound_car import Car, Pair, all_pass, half, peak

ORDERS = ("Butterworth 1", "Butterworth 2", "Butterworth 3", "Butterworth 4",
          "Linkwitz-Riley 2", "Linkwitz-Riley 4", "Bessel 2", "Bessel 4")  # fmt: skip
SAME_SLOPE_HALVES = ("Butterworth 2", "Butterworth 3", "Butterworth 4", "Linkwitz-Riley 2",
                     "Linkwitz-Riley 4")  # fmt: skip


@dataclass
class Drawn:
    """A car, what it was drawn to be, and what the meter read at the first pair."""

    car: Car
    how: str  # alike, against, crossing
    turned: tuple[int, float] | None = None  # all-pass: order, corner
    filters: tuple[tuple[str, str, float], ...] = ()  # way, type, corner
    meter_v: float = 0.0
    loop: Car | None = None  # the player through the same lead and recorder


def drawn_car(seed: int) -> Drawn:
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
    drawn = Drawn(_car(draw, first, second), how)
    {"alike": _alike, "against": _against, "crossing": _crossing}[how](drawn, draw, first, second)
    true_v = size(first, 200.0) * volts * 10**-0.5
    drawn.meter_v = true_v * (1 + draw.uniform(-0.01, 0.01)) + draw.uniform(-0.05, 0.05)
    first.apart_db, second.apart_db = (draw.uniform(15, 50) for _ in range(2))
    if seed % 4 == 0:
        drawn.loop = _without_car(drawn.car, draw)
    return drawn


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


def _without_car(car: Car, draw: Any) -> Car:
    """Lead and recorder that take bass away, and the player recorded through them."""
    car.chain_corner_hz = draw.uniform(10, 60)
    return Car(
        [Pair(), Pair()], ppm=car.ppm, begins_s=draw.uniform(0.3, 3), bits=car.bits,
        chain_corner_hz=car.chain_corner_hz, chain_second=car.chain_second,
        seed=int(draw.integers(2**31)),
    )  # fmt: skip


def _alike(drawn: Drawn, draw: Any, first: Pair, second: Pair) -> None:
    """Front and rear: at times with a bell of its own, at times with an all-pass."""
    if draw.random() < 0.5:
        second.filters.append(peak(10 ** draw.uniform(2, 3.7), draw.uniform(-4, 4), 1.0))
    order = int(draw.integers(3))
    if order:
        corner = 10 ** draw.uniform(1.9, 3.4)
        q = 0.0 if order == 1 else draw.uniform(0.5, 2.0)
        second.filters.append(all_pass(corner, q))
        drawn.turned = (order, corner)


def _against(drawn: Drawn, draw: Any, first: Pair, second: Pair) -> None:
    """A woofer, a tweeter or what is between, beside a pair that plays all."""
    kind = str(draw.choice(ORDERS))
    ways = [("low", 60, 200), ("high", 1500, 5000), ("high", 150, 400)]
    way, lowest, highest = ways[draw.integers(3)]
    corner = draw.uniform(lowest, highest)
    second.filters.append(half(kind, way, corner))
    drawn.filters = ((way, kind, corner),)


def _crossing(drawn: Drawn, draw: Any, first: Pair, second: Pair) -> None:
    kind = str(draw.choice(SAME_SLOPE_HALVES))
    corner = draw.uniform(80, 250) if draw.random() < 0.4 else draw.uniform(1500, 4000)
    first.filters.append(half(kind, "low", corner))
    second.filters.append(half(kind, "high", corner))
    second.delay_s = draw.uniform(-1, 1) * min(2e-3, 1 / corner)
    drawn.filters = (("high", kind, corner),)


def size(pair: Pair, hz: float) -> float:
    """What a pair gives of a tone at the volume of the sweeps, against its volts."""
    return float(np.abs(pair.through([hz])[0]))


def sent(pair: Pair, hz: Any) -> Any:
    """What stands at a pair by frequency, with its delay and polarity, against its volts."""
    return pair.polarity * pair.through(hz) * np.exp(-2j * np.pi * hz * pair.delay_s)


def chain(car: Car, hz: Any) -> Any:
    """What lead and recorder let through."""
    return 1 / np.sqrt(1 + (car.chain_corner_hz / hz) ** 2)


def gain_db(car: Car, pair: Pair, step: int, hz: float) -> float:
    """What a burst at 0 dBFS is louder than 1 V at a volume step, with the bass of that step."""
    low = signal.sosfreqz(signal.butter(1, 120, fs=48_000, output="sos"), [hz], fs=48_000)[1][0]
    bass = 1 + (10 ** (car.bass_db[step - 1] / 20) - 1) * low
    volts = size(pair, hz) * pair.volts * abs(bass)
    return float(20 * np.log10(max(volts, 1e-12))) + car.step_db[step - 1]


def is_limited(car: Car, pair: Pair, step: int, share: float) -> bool:
    """Whether a burst of a step, so much of full scale, comes near a limit of the bass or rail."""
    peaks = [2**0.5 * share * 10 ** (gain_db(car, pair, step, hz) / 20) for hz in (40.0, 1000.0)]
    return peaks[0] > 0.7 * car.limit_v or max(peaks) > 0.97 * car.rail_v


def clean_step(car: Car, pair: Pair) -> int | None:
    """The loudest clean step; None where a step is neither clearly clean nor clearly not."""
    clean = 0
    for step in (1, 2, 3):
        peaks = [2**0.5 * 10 ** (gain_db(car, pair, step, hz) / 20) for hz in (40.0, 1000.0)]
        worst = max(peaks[0] / car.limit_v, *(each / car.rail_v for each in peaks))
        if 0.85 < worst < 1.5:
            return None
        if worst > 1:
            break
        clean = step
    return clean


def noise_v(car: Car) -> float:
    """What stands in silence, RMS at the pair: of the car, of the sound card, of its steps."""
    steps = 2.0 ** (1 - car.bits)
    card = np.hypot(car.card_noise, steps / 2)  # two draws of half a step and the rounding
    return float(np.hypot(car.noise_v, card * car.full_scale_v / car.ratio))
