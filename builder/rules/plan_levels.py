"""Where the level of a pair stands in a vehicle record, and what is said of it."""

from __future__ import annotations

from builder.figures import shown
from builder.findings import DataPath
from builder.model.names import channel_name
from builder.model.vehicle import Vehicle
from builder.model.words import Channel
from builder.planning.plan import LevelCheck


def level_path(vehicle: Vehicle, channel: Channel) -> DataPath:
    """The level of a channel, the channel where it has none, `channels` where nobody wrote it."""
    carries = vehicle.channel(channel)
    if carries is None:
        return ("channels",)
    return carries.path if carries.level is None else (*carries.path, "level")


def over_words(level: LevelCheck, converter: str) -> str:
    """That a pair is louder than the input stands."""
    gives = shown(level.source_v_rms, 2, beside=level.converter_max_v_rms)
    much = shown(-level.converter_margin_db, 2, beside=0)
    takes = f"{converter} takes {shown(level.converter_max_v_rms)} V"
    return f"{channel_name(level.channel)} gives {gives} V and {takes}: {much} dB too much"


def thin_words(level: LevelCheck, converter: str, wanted_db: float) -> str:
    """That a pair has less room than the house wants."""
    room = shown(level.converter_margin_db, 2, beside=(0, wanted_db))
    return (
        f"{channel_name(level.channel)} leaves {room} dB to the "
        f"{shown(level.converter_max_v_rms)} V that {converter} takes (at least "
        f"{shown(wanted_db)} dB): it may clip on loud passages"
    )
