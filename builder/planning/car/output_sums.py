"""Line outputs that the converter adds up from several pairs: is there room for the sum?"""

from __future__ import annotations

from collections.abc import Iterable

from builder.model.names import channel_name
from builder.model.parts import Converter
from builder.model.words import SPLIT_BANDS, Channel
from builder.planning.car.selection import LineOutput
from builder.planning.objections import Objection, object_to
from builder.planning.plan import LevelCheck, Reason
from builder.planning.tables import DEVICE_RECORD

_CORNERS: dict[Channel, Channel] = {
    band: corner for corner, bands in SPLIT_BANDS.items() for band in bands
}


def corner_of(channel: Channel) -> Channel:
    """Return the place in the car: "front-left" of "front-left-tweeter"."""
    return _CORNERS.get(channel, channel)


def corners_of(channels: Iterable[Channel]) -> tuple[Channel, ...]:
    """Return the distinct places of some channels, in their order."""
    return tuple(dict.fromkeys(corner_of(channel) for channel in channels))


def judge_output_sums(
    outputs: tuple[LineOutput, ...], checks: tuple[LevelCheck, ...], converter: Converter
) -> tuple[list[Reason], list[Objection]]:
    """Return what to say of outputs that add up several corners of the car.

    Equal content of two corners doubles the volts; two bands of one corner do not add up.
    """
    reasons: list[Reason] = []
    objections: list[Objection] = []
    for output in outputs:
        if not output.joined or len(corners_of(output.channels)) < 2:
            continue
        together = _together_v_rms(output, checks, converter)
        decision, because, clips = _judge(output, together, converter)
        if clips:
            objections.append(object_to(decision, because, DEVICE_RECORD))
        else:
            reasons.append(Reason(decision, because, DEVICE_RECORD))
    return reasons, objections


def _together_v_rms(
    output: LineOutput, checks: tuple[LevelCheck, ...], converter: Converter
) -> float:
    """The loudest band of each corner, all corners in step. [V RMS]"""
    loudest: dict[Channel, float] = {}
    for check in checks:
        if check.channel in output.channels:
            corner = corner_of(check.channel)
            volts = behind_pad_v_rms(check)
            loudest[corner] = max(volts, loudest.get(corner, 0.0))
    return sum(loudest.values())


def behind_pad_v_rms(check: LevelCheck) -> float:
    """Return what reaches the input of a check whose margin counts its pad. [V RMS]"""
    reached = check.converter_max_v_rms / 10 ** (check.converter_margin_db / 20)
    return min(check.source_v_rms, reached)


def _judge(output: LineOutput, together: float, converter: Converter) -> tuple[str, str, bool]:
    names = " and ".join(channel_name(each) for each in output.channels)
    because = f"{names} together reach {together:.1f} V, as bass is the same on both"
    limit = converter.input.after_sum_max_v_rms
    if limit is None:
        because += "; what the converter takes after the sum is not recorded"
    elif together > limit:
        because += f", more than the {limit:g} V it takes after the sum"
        return "the sum would clip", because, True
    else:
        because += f", within the {limit:g} V it takes after the sum"
    return f"add up {names} in the converter", because, False
