"""Sounds the customer wants kept, against those the record knows a speaker of."""

from __future__ import annotations

from builder.model.job import Job
from builder.model.vehicle import Vehicle
from builder.planning.car.doubt_readings import key_off_reading
from builder.planning.car.route_zones import touches
from builder.planning.car.selection import Selection
from builder.planning.objections import Objection, object_to
from builder.planning.tables import RECORD


def asked_sound_objections(job: Job, vehicle: Vehicle, selection: Selection) -> list[Objection]:
    """Return the doubt about sounds that may come through a broken pair, for all that is recorded.

    A record without any sound says that somebody looked and no speaker gives one; where nobody did,
    any of them may.
    """
    if not selection.broken or not vehicle.protected_sounds:
        return []
    known = [sound.sound for sound in vehicle.sounds]
    unknown = [asked for asked in job.protect if not any(touches(asked, name) for name in known)]
    return [_find_it(asked, selection) for asked in unknown]


def _find_it(sound: str, selection: Selection) -> Objection:
    because = (
        f"the customer wants the {sound} kept, and the record does not say which speaker gives it"
    )
    readings = [key_off_reading(tap.pair, sound) for tap in selection.broken]
    return object_to(f"find the {sound} first", because, RECORD, settled_by=readings)
