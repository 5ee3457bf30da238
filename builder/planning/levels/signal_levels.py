"""How loud each source gets, against what the converter's input takes."""

from __future__ import annotations

from dataclasses import dataclass

from builder.figures import shown
from builder.model.house_defaults import HouseDefaults
from builder.model.names import channel_name
from builder.model.parts import Converter
from builder.model.vehicle import Vehicle
from builder.model.words import Channel
from builder.planning.car.pairs import Pair
from builder.planning.levels.level_pad import ohm_words, pad_resistor_ohm
from builder.planning.levels.rail_limit import amplifier_limit
from builder.planning.objections import Objection, object_to
from builder.planning.plan import LevelCheck, Reason
from builder.planning.tables import (
    COMMON_PRACTICE,
    DEVICE_RECORD,
    E12_SOURCE,
    HOUSE_DEFAULT,
    bridge_clean_v_rms,
    bridge_one_percent_v_rms,
    bridge_square_v,
    single_ended_clean_v_rms,
)
from builder.planning.words import LevelBasis, LevelVerdict
from builder.units import (
    Decibels,
    VoltsRms,
    voltage_ratio_db,
    volts_for_power,
)


@dataclass(frozen=True, slots=True)
class SourceLevel:
    """The loudest clean level of a pair and where the figure comes from."""

    v_rms: VoltsRms
    basis: LevelBasis
    because: str
    read_v_rms: VoltsRms | None = None  # with the speaker connected, where it will be gone


def source_level(vehicle: Vehicle, pair: Pair, defaults: HouseDefaults) -> SourceLevel | None:
    """Return how loud a pair gets, or None when nothing in the record bounds it."""
    level = pair.carries.level if pair.carries else None
    if level is not None and level.clean_max_v_rms is not None:
        step = "" if level.at_volume_step is None else f" at volume step {level.at_volume_step}"
        heard = pair.carries.heard if pair.carries else None
        how = "recorded" if heard and "level" in heard.filled else "measured"
        return SourceLevel(level.clean_max_v_rms, "measured", f"{how} clean{step}")
    labelled = _label_v_rms(vehicle, pair)
    if pair.is_line:
        return None
    if pair.driven_by == "amplifier":
        return _amplifier_level(vehicle, pair, labelled)
    return _radio_level(pair, labelled, defaults)


def _label_v_rms(vehicle: Vehicle, pair: Pair) -> VoltsRms | None:
    carries, level = pair.carries, pair.carries.level if pair.carries else None
    watts = level.label_w if level else None
    if watts is None and pair.driven_by == "radio":
        watts = vehicle.radio.label_w
    ohms = (level.label_ohm if level else None) or (carries.speaker_ohm if carries else None)
    return None if watts is None or ohms is None else volts_for_power(watts, ohms)


def _amplifier_level(vehicle: Vehicle, pair: Pair, labelled: VoltsRms | None) -> SourceLevel | None:
    limit = amplifier_limit(vehicle, pair)
    if labelled is not None and (limit is None or labelled <= limit.v_rms):
        because = "√(P·R) of the factory amplifier's label"
        return SourceLevel(labelled, "amplifier_label", because)
    if limit is None:
        return None
    said = "no level on record"
    if labelled is not None:
        said = f"the label would mean {shown(labelled, 1, beside=limit.v_rms)} V"
    return SourceLevel(limit.v_rms, limit.basis, f"{said}; {limit.because} can give no more")


def _radio_level(
    pair: Pair, labelled: VoltsRms | None, defaults: HouseDefaults
) -> SourceLevel | None:
    if pair.topology == "common_ground":
        rail, what = single_ended_clean_v_rms(), "a single-ended output on half of 14.4 V"
    else:
        rail, what = defaults.clean_level_v_rms, "an unboosted bridge on 14.4 V"
    if labelled is not None and labelled <= rail:
        return SourceLevel(labelled, "label", "√(P·R) of the label, which the supply allows")
    because = f"{rail:.2f} V is what {what} gives clean"
    if labelled is not None:
        because += f"; the label would mean {labelled:.1f} V, which it cannot give as a clean sine"
    return SourceLevel(rail, "rail", because)


def check_level(
    channel: Channel,
    source: SourceLevel,
    pair: Pair,
    converter: Converter,
    defaults: HouseDefaults,
    *,
    summed: bool = False,
) -> LevelCheck:
    """Return one source against the converter's input; its margin is unrounded. [dB]

    `summed` says that it shares an input stage with another band, whose limit then counts.
    """
    limit = _limit_v_rms(converter, summed)
    margin = voltage_ratio_db(limit, source.v_rms)
    drives_speaker = pair.driven_by == "radio" and not pair.is_line
    unboosted = drives_speaker and pair.topology != "common_ground"
    square = bridge_square_v() if unboosted else None
    room = shown(abs(margin), 1, beside=(0, defaults.margin_thin_db))
    side = "over" if margin < 0 else "under"
    said = f"{source.because}; {room} dB {side} the {shown(limit)} V the input takes"
    if square is not None:
        said += _cross_checks(limit, square, defaults)
    return LevelCheck(
        channel,
        source.v_rms,
        source.basis,
        square,
        limit,
        margin,
        level_verdict(margin, defaults),
        said,
        defaults.margin_thin_db,
        driven_by=pair.driven_by,
        read_v_rms=source.read_v_rms,
    )


def _limit_v_rms(converter: Converter, summed: bool) -> VoltsRms:
    after_sum = converter.input.after_sum_max_v_rms
    if summed and after_sum is not None:
        return min(after_sum, converter.input.max_v_rms)
    return converter.input.max_v_rms


def level_verdict(margin_db: Decibels, defaults: HouseDefaults) -> LevelVerdict:
    """Return over, thin or fine for an input margin.

    >>> level_verdict(1.26, HouseDefaults())
    'thin'
    """
    if margin_db < 0:
        return "over"
    return "thin" if margin_db < defaults.margin_thin_db else "fine"


def _cross_checks(limit: VoltsRms, square: VoltsRms, defaults: HouseDefaults) -> str:
    typical, rail = bridge_one_percent_v_rms(), defaults.clean_level_v_rms
    return (
        f". Beside it: {voltage_ratio_db(limit, rail):.1f} dB at {rail:.2f} V, a cautious clean "
        f"level; {voltage_ratio_db(limit, typical):.1f} dB at {typical:.2f} V, the typical "
        f"1 % point of a bridge (published); {voltage_ratio_db(limit, square):.1f} dB "
        f"at {square:.1f} V, hard-clipped to a square wave"
    )


def level_objection(
    check: LevelCheck, converter: Converter, defaults: HouseDefaults
) -> Objection | None:
    """Return the refusal of an input that would be overdriven, with the pad that would cure it."""
    if check.verdict != "over":
        return None
    because = (
        f"{channel_name(check.channel)} gives {shown(check.source_v_rms, 2)} V, "
        f"{shown(-check.converter_margin_db, 1, beside=0)} dB more than the "
        f"{shown(converter.input.max_v_rms)} V RMS that the input takes{_behind(check)}. "
        f"{_cure(check, converter, defaults)}"
    )
    return object_to("the input would be overdriven", because, f"{DEVICE_RECORD}; {E12_SOURCE}")


def _behind(check: LevelCheck) -> str:
    return (
        f" behind {ohm_words(check.pad_ohm_per_leg)} in each leg" if check.pad_ohm_per_leg else ""
    )


def _cure(check: LevelCheck, converter: Converter, defaults: HouseDefaults) -> str:
    if converter.input.type == "ground_referenced":
        return "Its negative input is ground and takes no resistor: take one with more input range"
    ohm = pad_resistor_ohm(
        check.source_v_rms,
        check.converter_max_v_rms,
        converter.input.impedance_ohm,
        defaults.margin_thin_db,
    )
    return (
        f"A resistor of {ohm_words(ohm)} in each leg (the next E12 value) leaves "
        f"{shown(defaults.margin_thin_db)} dB"
    )


def level_contradiction(vehicle: Vehicle, check: LevelCheck, pair: Pair) -> Reason | None:
    """Return the reason to doubt a level that the bias of the pair's own legs cannot carry."""
    if (
        pair.is_line
        or pair.bias is None
        or check.basis in ("rail", "leg_bias")
        or pair.topology != "bridged"
    ):
        return None
    ceiling = bridge_clean_v_rms(pair.bias.at_audio_supply_v)
    if pair.driven_by == "amplifier":
        limit = amplifier_limit(vehicle, pair)
        ceiling = ceiling if limit is None else limit.v_rms
    if (check.read_v_rms or check.source_v_rms) <= ceiling:
        return None
    because = (
        f"legs biased at {pair.bias.high_v:.2f} V can give {max(ceiling, 0):.2f} V clean, "
        f"(2·bias − 1.5)/√2 with the bias carried to 14.4 V where it follows the battery; the "
        f"record says {check.source_v_rms:.2f} V. Measure the level again"
    )
    return Reason(f"the level of {pair.named} is doubtful", because, COMMON_PRACTICE)


def thin_reason(checks: tuple[LevelCheck, ...], defaults: HouseDefaults) -> Reason | None:
    """Return what to say of inputs with little room, or None."""
    thin = [check for check in checks if check.verdict == "thin"]
    if not thin:
        return None
    least = defaults.margin_thin_db
    names = ", ".join(
        f"{channel_name(check.channel)} {shown(check.converter_margin_db, 1, beside=least)} dB"
        for check in thin
    )
    because = f"under {shown(least)} dB to spare: {names}. Hold the volume down or pad"
    return Reason("the input has little room", because, HOUSE_DEFAULT)
