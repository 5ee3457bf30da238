"""How the bass of a pair was counted, in words for levels, gains and the bay sheet."""

from __future__ import annotations

from builder.figures import shown
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
        f"at {shown(bass.hz)} Hz the pair gives {shown(tone.uncorrected_v_rms, 3)} V, "
        f"{shown(-bass.source_db, 1, beside=0)} dB under 200 Hz"
    )
    if bass.corrected and bass.residual_db == 0:
        return (f"{given}; the converter's correction, on, gives all of it back",)
    if bass.corrected:
        left = shown(-bass.residual_db, 1, beside=0)
        counts = f"the gain counts {shown(tone.v_rms, 3)} V"
        return (given, f"the converter's correction, on, leaves {left} dB of it: {counts}")
    return (f"{given}: the gain counts that",)


def correction_note(tone: ToneSource, read_v_rms: VoltsRms) -> str:
    """Return what to add to a tone's line where a correction is on, or ""."""
    if tone.bass is None or not tone.bass.corrected:
        return ""
    off = shown(read_v_rms * tone.off_ratio, 2, beside=read_v_rms)
    return f", with the converter's correction on; off it reads {off} V"
