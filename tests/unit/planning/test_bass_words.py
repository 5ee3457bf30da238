"""What a level says of the bass that its gain counts."""

from __future__ import annotations

import pytest

from builder.planning.levels.bass_at_tone import BassAtTone, ToneSource
from builder.planning.levels.bass_words import bass_steps, correction_note


def bass(source_db: float, residual_db: float, corrected: bool = True) -> BassAtTone:
    return BassAtTone(40.0, source_db, residual_db, corrected)


def test_a_tone_at_full_level_says_nothing_of_bass() -> None:
    tone = ToneSource(8.9443, 8.9443)
    assert (bass_steps(tone), correction_note(tone, 4.5)) == ((), "")


def test_where_no_bass_is_missing_the_tone_is_the_whole_level() -> None:
    plain = ToneSource(8.9443, 8.9443)
    assert (plain.full_band_ratio, plain.off_ratio) == (1.0, 1.0)
    left = ToneSource(6.33205, 1.59053, bass(-15.0, -3.0))
    assert left.full_band_ratio == pytest.approx(10 ** (-3 / 20))
    assert left.off_ratio == pytest.approx(10 ** (-12 / 20), abs=1e-4)


@pytest.mark.parametrize("source_db", [0.0, 3.0])
def test_bass_that_is_not_missing_is_not_given_back(source_db: float) -> None:
    said = ("at 40 Hz the pair gives no less than elsewhere",)
    assert bass_steps(ToneSource(8.9443, 8.9443, bass(source_db, 0.0))) == said


def test_what_is_left_of_a_loss_is_said_with_what_the_gain_counts() -> None:
    """8.9443 V less 15 dB are 1.59053 V; of these a correction of 12 dB leaves 3 dB, 6.33205 V."""
    tone = ToneSource(6.33205, 1.59053, bass(-15.0, -3.0))
    assert bass_steps(tone) == (
        "at 40 Hz the pair gives 1.59 V, 15.0 dB under 200 Hz",
        "the converter's correction, on, leaves 3.0 dB of it: the gain counts 6.33 V",
    )
    # A meter on a line of 4.5 V reads a quarter of it when somebody switches the correction off.
    note = ", with the converter's correction on; off it reads 1.13 V"
    assert correction_note(tone, 4.5) == note


def test_a_loss_given_back_whole_or_not_at_all() -> None:
    whole = ToneSource(8.9443, 3.17352, bass(-9.0, 0.0))
    given = "at 40 Hz the pair gives 3.17 V, 9.0 dB under 200 Hz"
    assert bass_steps(whole) == (f"{given}; the converter's correction, on, gives all of it back",)
    none = ToneSource(3.17352, 3.17352, bass(-9.0, -9.0, corrected=False))
    assert bass_steps(none) == (f"{given}: the gain counts that",)
    assert correction_note(none, 4.5) == ""
