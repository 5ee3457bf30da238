"""Where the level of a pair stands in a vehicle record."""

from __future__ import annotations

from builder.findings import DataPath
from builder.model.vehicle import Vehicle
from builder.model.words import Channel


def level_path(vehicle: Vehicle, channel: Channel) -> DataPath:
    """The level of a channel, the channel where it has none, `channels` where nobody wrote it."""
    carries = vehicle.channel(channel)
    if carries is None:
        return ("channels",)
    return carries.path if carries.level is None else (*carries.path, "level")
