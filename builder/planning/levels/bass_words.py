"""How the bass of a pair was counted, in words for levels, gains and the bay sheet."""

from __future__ import annotations

from builder.planning.levels.bass_at_tone import ToneSource
from builder.units import VoltsRms


def bass_steps(tone: ToneSource) -> tuple[str, ...]:
    """Return what the pair gives at the tone and what the converter makes of it, one a step."""
    bass = tone.bass
    if bass is None:
        return ()
    side = "under" if bass.source_db < 0 else "over"
    given = (
        f"at {bass.hz:g} Hz the pair gives {tone.uncorrected_v_rms:.3f} V, "
        f"{abs(bass.source_db):.1f} dB {side} 200 Hz"
    )
    if bass.corrected and bass.residual_db == 0:
        return (f"{given}; the converter's correction, on, gives all of it back",)
    if bass.corrected:
        left = f"the converter's correction, on, leaves {-bass.residual_db:.1f} dB of it"
        return (given, f"{left}: the gain counts {tone.v_rms:.3f} V")
    return (f"{given}: the gain counts that",)


def correction_note(tone: ToneSource, read_v_rms: VoltsRms) -> str:
    """Return what to add to a tone's line where a correction is on, or ""."""
    if tone.bass is None or not tone.bass.corrected:
        return ""
    return f", with the converter's correction on; off it reads {read_v_rms * tone.off_ratio:.2f} V"
