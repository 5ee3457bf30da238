"""A woofer pair and a tweeter pair joined into one full band: does it close, does it add up?"""

from __future__ import annotations

from math import cos, pi

from builder.figures import shown
from builder.model.house_defaults import HouseDefaults
from builder.model.parts import Converter
from builder.planning.car.doubt_readings import band_phase_reading, corner_reading
from builder.planning.car.pairs import Pair
from builder.planning.feeds.recorded_sum import RecordedSum, recorded_sum
from builder.planning.objections import Objection, object_to
from builder.planning.plan import Reason
from builder.planning.tables import COMMON_PRACTICE, HOUSE_DEFAULT, RECORDING
from builder.units import Decibels, Hertz, Milliseconds, gain_factor_db, require_positive


def crossover_hz(lowpass_hz: Hertz, highpass_hz: Hertz) -> Hertz:
    """Return the frequency half-way between the two corners. [Hz] Chosen by this project.

    >>> crossover_hz(2800.0, 3000.0)
    2900.0
    """
    return (lowpass_hz + highpass_hz) / 2


def phase_deg(crossover: Hertz, delay_ms: Milliseconds) -> float:
    """Return the phase between the bands at the crossover, 360·f·Δt. [°]

    >>> round(phase_deg(2900.0, 0.04), 1)
    41.8
    """
    return 360 * crossover * delay_ms / 1000


def sum_loss_db(crossover: Hertz, delay_ms: Milliseconds) -> Decibels:
    """Return what a delay costs at the crossover, 20·log10|cos(φ/2)|. [dB] 0 or less.

    The bands are taken to be in phase at the crossover apart from the delay.

    >>> round(sum_loss_db(2900.0, 0.04), 2)
    -0.59
    """
    return gain_factor_db(abs(cos(phase_deg(crossover, delay_ms) * pi / 360)))


def delay_limit_ms(crossover: Hertz) -> Milliseconds:
    """Return the delay that costs 3 dB at the crossover, 1/(4·f). [ms]

    Raises:
        ValueError: the frequency is not positive and finite.

    >>> delay_limit_ms(2500.0)
    0.1
    """
    return 1000 / (4 * require_positive("crossover", crossover))


def check_sum(
    woofer: Pair, tweeter: Pair, converter: Converter, defaults: HouseDefaults
) -> tuple[tuple[Reason, ...], tuple[Objection, ...]]:
    """Return the reasons and objections of joining two bands of one side in the converter."""
    low = woofer.carries.lowpass_hz if woofer.carries else None
    high = tweeter.carries.highpass_hz if tweeter.carries else None
    if low is None or high is None:
        return (), (_corners_unknown(woofer, tweeter),)
    if high > defaults.band_gap_ratio * low:
        return (), (_gap(woofer, tweeter, low, high, defaults),)
    heard = recorded_sum(woofer.carries, tweeter.carries, converter)
    if heard is not None:
        return _check_recorded(woofer, tweeter, heard, crossover_hz(low, high))
    return _check_delay(woofer, tweeter, converter, crossover_hz(low, high))


def _check_recorded(
    woofer: Pair, tweeter: Pair, heard: RecordedSum, crossover: Hertz
) -> tuple[tuple[Reason, ...], tuple[Objection, ...]]:
    """By the complex responses of both: what a delay and a corner alone do not tell is in them."""
    if heard.holds:
        decision = f"join {woofer.named} and {tweeter.named} in the converter"
        return (Reason(decision, heard.words, RECORDING),), ()
    because = (
        f"{woofer.named} and {tweeter.named}: {heard.words}. Set the radio's seat setting to all "
        "seats and record again, take the woofer pair alone, or use a converter that can delay"
    )
    phase = band_phase_reading(woofer, tweeter, crossover)
    return (), (object_to("the bands cancel", because, RECORDING, settled_by=(phase,)),)


def _corners_unknown(woofer: Pair, tweeter: Pair) -> Objection:
    because = f"where {woofer.named} ends and {tweeter.named} begins is not recorded"
    corners = (corner_reading(woofer), corner_reading(tweeter))
    return object_to("measure the crossover first", because, COMMON_PRACTICE, settled_by=corners)


def _gap(
    woofer: Pair, tweeter: Pair, low: Hertz, high: Hertz, defaults: HouseDefaults
) -> Objection:
    because = (
        f"{woofer.named} ends at {shown(low)} Hz and {tweeter.named} begins at {shown(high)} "
        f"Hz, more than {shown(defaults.band_gap_ratio)} times as high: what lies between is "
        "missing. Add the pair that carries it, or measure the corners again"
    )
    corners = (corner_reading(woofer), corner_reading(tweeter))
    return object_to("the bands leave a hole", because, HOUSE_DEFAULT, settled_by=corners)


def _check_delay(
    woofer: Pair, tweeter: Pair, converter: Converter, crossover: Hertz
) -> tuple[tuple[Reason, ...], tuple[Objection, ...]]:
    phase = band_phase_reading(woofer, tweeter, crossover)
    between = _delay_between_ms(woofer, tweeter)
    if between is None:
        because = f"nobody measured the delay between {woofer.named} and {tweeter.named}"
        unknown = object_to(
            "measure the delay first", because, COMMON_PRACTICE, settled_by=(phase,)
        )
        return (), (unknown,)
    said = _delay_words(crossover, between)
    if between <= delay_limit_ms(crossover) or converter.delay_adjust == "yes":
        decision = f"join {woofer.named} and {tweeter.named} in the converter"
        return (Reason(decision, said, COMMON_PRACTICE),), ()
    because = (
        f"{woofer.named} and {tweeter.named}: {said}. Set the radio's seat setting to all "
        "seats and measure again, take the woofer pair alone, or use a converter that can delay"
    )
    late = object_to("the bands cancel", because, COMMON_PRACTICE, settled_by=(phase,))
    return (), (late,)


def _delay_between_ms(woofer: Pair, tweeter: Pair) -> Milliseconds | None:
    """The delay between two bands, or None when it is not known.

    Delays count from the quickest pair of a side, so one late pair alone tells both.
    """
    known = [pair.carries.delay_ms if pair.carries else None for pair in (woofer, tweeter)]
    first, second = known
    if first is not None and second is not None:
        return abs(second - first)
    return first or second or None


def _delay_words(crossover: Hertz, delay_ms: Milliseconds) -> str:
    most = delay_limit_ms(crossover)
    return (
        f"{shown(delay_ms)} ms apart is {shown(phase_deg(crossover, delay_ms), 1)}° at "
        f"{shown(crossover, 0)} Hz, {shown(sum_loss_db(crossover, delay_ms), 2, beside=-3)} dB if "
        "they are in phase otherwise; the limit is "
        f"{shown(1000 * most, 0, beside=1000 * delay_ms)} µs (3 dB)"
    )
