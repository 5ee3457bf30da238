"""What recordings add to the sound of a pair: made by `proof.recorded_sound`, never typed."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal

from builder.findings import DataPath
from builder.model.recorded_sound import RecordedBetween, RecordedPair
from builder.model.words import Channel

Filled = Literal["band", "lowpass_hz", "highpass_hz", "level", "delay_ms", "bass_table"]
"""Keys of a pair that a recording can tell."""


@dataclass(frozen=True, slots=True)
class Heard:
    """The newest recording of a pair.

    `filled` are the keys of the pair that nobody typed and that come from it. `beside` is what it
    told of the pair and another, by the other's channel, whichever of the two stands first there.
    `source` is the recording in words.
    """

    source: str
    path: DataPath
    pair: RecordedPair
    beside: Mapping[Channel, RecordedBetween]
    filled: frozenset[Filled] = frozenset()
