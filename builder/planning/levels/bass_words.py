"""How the bass of a pair was counted, in words for levels, gains and the bay sheet."""

from __future__ import annotations

from builder.figures import at_most, read_as, shown
from builder.planning.levels.bass_at_tone import ToneSource
from builder.units import VoltsRms


def bass_steps(tone: ToneSource) -> tuple[str, ...]:
    """Return what the pair gives at the tone and what the converter makes of it, one a step."""
    bass = tone.bass
    if bass is None:
        return ()
    if bass.source_db >= 0:
        return (f"at {shown(bass.hz)} Hz the pair gives no less than elsewhere",)
    given = (
        f"at {shown(bass.hz)} Hz the pair gives {read_as(tone.uncorrected_v_rms, 'V')} V, "
        f"{shown(-bass.source_db, 1, beside=0)} dB under 200 Hz"
    )
    if bass.corrected and bass.residual_db == 0:
        return (f"{given}; the converter's correction, on, gives all of it back",)
    if bass.corrected:
        left = shown(-bass.residual_db, 1, beside=0)
        counts = f"the gain counts {read_as(tone.v_rms, 'V')} V"
        return (given, f"the converter's correction, on, leaves {left} dB of it: {counts}")
    return (f"{given}: the gain counts that",)


def correction_note(tone: ToneSource, read_v_rms: VoltsRms) -> str:
    """Return what to add to a tone's line where a correction is on, or "".

    What it reads with the correction off is a limit as what it reads with it on is.
    """
    if tone.bass is None or not tone.bass.corrected:
        return ""
    off = at_most(read_v_rms * tone.off_ratio, "V")
    return f", with the converter's correction on; off it reads {off} V"
