"""What a plan takes from a recording, and why that differs from a plan without it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import Final

from builder.figures import shown
from builder.model.heard import Filled
from builder.model.sound import SpeakerChannel
from builder.planning.car.pairs import Pair
from builder.planning.plan import Reason
from builder.planning.tables import RECORDING

_ORDER: Final[tuple[Filled, ...]] = (
    "band", "lowpass_hz", "highpass_hz", "level", "delay_ms", "bass_table",
)  # fmt: skip


def heard_reasons(pairs: Iterable[Pair]) -> tuple[Reason, ...]:
    """Return a reason for each pair of which a recording told what nobody typed."""
    found: dict[str, Reason] = {}
    for pair in pairs:
        carries = pair.carries
        if carries is None or carries.heard is None or pair.is_line:
            continue
        told = [each for key in _ORDER for each in _told(carries, key)]
        if told:
            because = f"{'; '.join(told)}; nobody typed it: {carries.heard.source}"
            decision = f"take what {pair.named} carries from a recording"
            found[pair.channel] = Reason(decision, because, RECORDING)
    return tuple(found.values())


def _told(carries: SpeakerChannel, key: Filled) -> Iterator[str]:
    """What was filled of one key, in words."""
    if carries.heard is None or key not in carries.heard.filled:
        return
    level = carries.level
    if key == "band":
        yield f"its band is {carries.band}"
    if key == "lowpass_hz" and carries.lowpass_hz is not None:
        yield f"it ends at {shown(carries.lowpass_hz, 0)} Hz"
    if key == "highpass_hz" and carries.highpass_hz is not None:
        yield f"it begins at {shown(carries.highpass_hz, 0)} Hz"
    if key == "level" and level is not None and level.clean_max_v_rms is not None:
        at = f"volume step {level.at_volume_step}"
        yield f"{shown(level.clean_max_v_rms, 2)} V RMS is clean at {at}, the next step is not"
    if key == "delay_ms" and carries.delay_ms is not None:
        yield f"it comes {shown(carries.delay_ms, 2)} ms after the quickest of its side"
    if key == "bass_table":
        yield f"its bass changes by {shown(_swing_db(carries), 1)} dB over the volume steps"


def _swing_db(carries: SpeakerChannel) -> float:
    levels = [point.db for point in carries.bass_table]
    return max(levels) - min(levels)
