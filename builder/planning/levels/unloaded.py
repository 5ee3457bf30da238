"""A level that was read with its speaker connected, once the cut has taken the speaker away."""

from __future__ import annotations

from dataclasses import replace

from builder.figures import shown
from builder.model.house_defaults import HouseDefaults
from builder.planning.car.pairs import Pair
from builder.planning.levels.signal_levels import SourceLevel
from builder.planning.words import TappedAs
from builder.units import db_to_ratio


def without_speaker(
    source: SourceLevel, pair: Pair, treatment: TappedAs, defaults: HouseDefaults
) -> SourceLevel:
    """Return the level as it will be: what the output's own resistance took comes back.

    Only a level that was measured under its speaker rises, and only where the pair is cut; one
    from a label or from the supply says nothing of a load.
    """
    level = pair.carries.level if pair.carries else None
    under_load = level is not None and level.speaker_connected == "yes"
    if source.basis != "measured" or treatment != "intercept" or not under_load:
        return source
    rise_db = defaults.unloaded_rise_db
    risen = source.v_rms * db_to_ratio(rise_db)
    because = (
        f"{source.because} with its speaker connected, {shown(source.v_rms, 2)} V; cut from it the "
        f"pair gives up to {shown(rise_db)} dB more, {shown(risen, 2)} V"
    )
    return replace(source, v_rms=risen, because=because, read_v_rms=source.v_rms)
