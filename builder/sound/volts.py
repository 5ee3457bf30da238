"""How a recording becomes volts: by a meter at the pair, or by the calibration of its lead."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from builder.sound.results import Measured, Refused, Result
from builder.sound.tones import Tone
from builder.units import Decibels, VoltsRms, gain_factor_db

METER_SHARE: Final = 0.01
METER_DIGITS: Final = 5
METER_STEP_V: Final = 0.01
"""What a plain meter of 3 1/2 digits may be wrong by on its range of 20 V, between 40 and 400 Hz:
1 % and five of its last digits. Common practice, no source."""
SHOWN_DB: Final = 0.5
"""What the peak that a recorder shows may be wrong by: many show whole decibels. Chosen by this
project."""
LEAST_CLEAR: Final = 10.0
"""How many times its own error the tone of 200 Hz has to be for a meter's reading to count."""
OWN_DB: Final = 0.02
_HEARD: Final = 5.0
_NOISE_SHARE: Final = 0.1
NO_VOLTS: Final = Refused(
    "no meter was read while 200 Hz played and no calibration of the lead counts, so nothing is "
    "known in volts"
)


@dataclass(frozen=True, slots=True)
class Scale:
    """Volts at the pair for what fills the recorder: RMS of a sine whose peaks just reach it.

    `plus_minus_db` is what that is uncertain by.
    """

    full_v_rms: VoltsRms
    plus_minus_db: Decibels


def scale_of(tone: Tone, meter_v_rms: VoltsRms) -> Scale | Refused:
    """Return the scale of a recording by what a meter read while the tone of 200 Hz played.

    Refused where the recording holds next to nothing of the tone: a tweeter plays none of it.
    """
    if tone.rms <= LEAST_CLEAR * tone.error_rms:
        return Refused(
            "200 Hz is not heard on this pair, so what a meter read there says nothing: calibrate "
            "the lead at a pair that plays it"
        )
    error_db = _meter_db(meter_v_rms) + tone.error_db
    return Scale(meter_v_rms / (tone.rms * 2**0.5), error_db)


def calibrated_scale(pair_v_rms: VoltsRms, recorded_dbfs: Decibels) -> Scale:
    """Return the scale by the calibration of a lead, while the recorder's input stays as it was.

    Args:
        pair_v_rms: AC volts of a meter at a pair, recorder attached, 200 Hz playing. [V RMS]
        recorded_dbfs: The peak that the recorder wrote meanwhile, against full scale. [dB]

    >>> calibrated_scale(2.0, -20.0).full_v_rms
    20.0
    """
    return Scale(pair_v_rms / 10 ** (recorded_dbfs / 20), _meter_db(pair_v_rms) + SHOWN_DB)


def chosen_scale(
    tone: Tone, meter_v_rms: VoltsRms | None, calibrated: Scale | None
) -> tuple[Scale | Refused, Decibels | None]:
    """Return the scale of a channel, and by how much its meter contradicts the calibration.

    A meter's reading at the pair goes before the calibration, which may be of another setting of
    the recorder's input. The second is None where both agree within what they may be wrong by.
    """
    by_meter = NO_VOLTS if meter_v_rms is None else scale_of(tone, meter_v_rms)
    if calibrated is None or not isinstance(by_meter, Scale):
        return (by_meter if calibrated is None else calibrated), None
    off_db = gain_factor_db(by_meter.full_v_rms / calibrated.full_v_rms)
    most_db = by_meter.plus_minus_db + calibrated.plus_minus_db
    return by_meter, off_db if abs(off_db) > most_db else None


def _meter_db(meter_v_rms: VoltsRms) -> Decibels:
    return gain_factor_db(1 + METER_SHARE + METER_DIGITS * METER_STEP_V / meter_v_rms)


def level_of(tone: Tone, scale: Scale | Refused) -> Result:
    """Return the volts of a tone at the pair. [V RMS]"""
    if isinstance(scale, Refused):
        return scale
    if tone.rms < _HEARD * tone.error_rms:
        return Refused("it is lost in noise")
    volts = tone.rms * 2**0.5 * scale.full_v_rms
    error_db = scale.plus_minus_db + OWN_DB + tone.error_db
    return Measured(volts, volts * (10 ** (error_db / 20) - 1))


def noise_level(noise_rms: float, scale: Scale | Refused) -> Result:
    """Return the volts of noise at the pair. [V RMS]"""
    if isinstance(scale, Refused):
        return scale
    volts = noise_rms * 2**0.5 * scale.full_v_rms
    share = 10 ** (scale.plus_minus_db / 20) - 1 + _NOISE_SHARE
    return Measured(volts, share * volts)


def peak_dbfs(tone: Tone) -> Result:
    """Return the peak of a tone as it was recorded, against full scale. [dB]"""
    if tone.rms <= LEAST_CLEAR * tone.error_rms:
        return Refused("200 Hz is not heard on this pair")
    error_db = OWN_DB + tone.error_db
    return Measured(gain_factor_db(tone.rms * 2**0.5), error_db)
