"""What the hands need for the common acts of a job, for estimates of visits and jobs.

Common practice, no source: a shop that times itself puts its own figures into its settings.
"""

from __future__ import annotations

from builder.declaring import record
from builder.model.house_default import house_default as _default


@record(slots=False)
class HandMinutes:
    """Minutes by hand; each is for one person who has done it before."""

    hand_battery_min: float = _default(3.0, "min", "battery off, or on again")
    hand_panel_min: float = _default(4.0, "min", "a panel off or on, where the record gives none")
    hand_seat_min: float = _default(10.0, "min", "a seat out or in, where the record gives none")
    hand_radio_min: float = _default(8.0, "min", "the radio out or in, where the record gives none")
    hand_plug_min: float = _default(1.0, "min", "a plug off or home")
    hand_key_min: float = _default(0.5, "min", "the key or the radio to another state")
    hand_restart_min: float = _default(2.0, "min", "an engine start or restart waited for")
    hand_reading_min: float = _default(1.0, "min", "one reading, probe in and figure written down")
    hand_joint_min: float = _default(4.0, "min", "one crimped or soldered joint, closed")
    hand_terminal_min: float = _default(1.5, "min", "one end into a terminal or on a stud")
    hand_lay_a_metre_min: float = _default(3.0, "min", "laying and tying a metre of cable")
    hand_label_min: float = _default(0.5, "min", "one label")
    hand_hole_min: float = _default(10.0, "min", "one hole, looked behind, smoothed and painted")
    hand_mount_min: float = _default(12.0, "min", "one device fixed")
    hand_loom_min: float = _default(6.0, "min", "one wire of a loom made and rung out at the table")
    hand_filter_min: float = _default(2.0, "min", "the filters of one channel")
