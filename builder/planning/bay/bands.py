"""Bands of the bay sheet that no record and no house default holds. Common practice, no source."""

from __future__ import annotations

PARKED_MAX_MA = 50.0
"""A convention, not a limit: most cars draw less once everything sleeps. [mA]"""

INSULATION_MIN_OHM = 100_000.0
"""Least from an unfused supply lead to the body. [Ω]"""

GROUND_MAX_OHM = 0.3
"""Most from a ground to the body beside the battery's strap, test leads taken off: it finds the
gross fault; millivolts under current come later. [Ω]"""

TAPPED_MAX_OHM = 1.0
"""Most from a cavity to what its wire switches or feeds: a joint or two, a small fuse. [Ω]"""

JOINT_PULL_N = 40.0
"""What a joint of 18 AWG holds. [N]"""

PAIR_APART_MIN_OHM = 10_000.0
"""Least from a speaker pair to another pair. [Ω]"""

TURN_ON_MIN_V = 10.5
"""Least at the amplifier's turn-on terminal when on. [V]"""

TURN_ON_OFF_MAX_V = 0.5
"""Most there when off. [V]"""

SILENT_MAX_AC_V = 0.005
SILENT_MAX_DC_V = 0.05
"""Most at a line output at volume 0. [V]"""

LEVEL_BAND = 0.1
"""How far a level may be from the plan's, as a share."""

HEARD_MIN_AC_V = 0.05
"""Least of a tone that is there at all, wherever it is listened to. [V]"""

GAIN_LOW_SHARE = 0.95
"""A gain is set from below; up to this share under the target counts as set."""

GROUND_RISE_MAX_V = 0.1
"""Most between an amplifier's ground and the battery negative at full power. [V]"""

LAMP_DROP_MAX_V = 0.2
"""Most lost on the way of a device that draws little, with a 0.4 A lamp across its terminals: half
an ohm, where a good fuse, holder and joint have a fifth. Common practice, no source. [V]"""

PHASE_HZ = 80.0
"""Where each side alone is compared with both. [Hz]"""
