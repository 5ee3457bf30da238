"""The order of trade: what is done before what, and why. Constraints, not a script.

What each row calls first or later are tags of acts. Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise
from typing import Final, get_args

from builder.planning.course.joining import CAPPED, SPEAKERS_ON
from builder.planning.course.model import Before
from builder.planning.course.second_on import SECOND_ON
from builder.planning.words import Phase

NOTED, FIXED, LAID, LABELLED = "noted", "fixed", "laid", "labelled"
PASSED, SEALED = "taken through", "closed behind it"
ZONES, LOOM_MADE, LOOM_IN, LOOM_HOME = "zones", "made at the table", "loom in", "loom home"
CLOSED, SIDE_FUSES, MAIN_IN, LINK_IN, LEAST, FILTERS, TOLD = (
    "closed off", "side fuses", "main fuse in", "link fuse in", "gains at their least",
    "filters", "handed over",
)  # fmt: skip
SET = "set by hand"
TIED, PAINTED_OVER, AS_NOTED = "tied", "painted over", "as noted"
PARTS_TIED = "parts tied"

TRADE: Final[tuple[Before, ...]] = (
    Before(LOOM_MADE, "at_table", "a loom is rung out when it is made"),
    Before("at_table", NOTED, "no plug of the car comes off for a loom that nobody rang out"),
    Before(NOTED, "as_found", "what was there before cannot be noted afterwards"),
    Before(NOTED, "proof", "what was there before cannot be noted afterwards"),
    Before("proof", "proof_dead", "power is still there"),
    Before(ZONES, FIXED, "nobody drills beside a restraint part that nobody pointed out"),
    Before(ZONES, LAID, "nobody lays beside a restraint part that nobody pointed out"),
    Before(FIXED, LAID, "cables are cut to where the devices are"),
    Before(ZONES, PASSED, "nobody reaches beside a restraint part that nobody pointed out"),
    Before(FIXED, PASSED, "a way that is drilled has to be there"),
    Before(PASSED, LAID, "a cable is cut when it lies all its way"),
    Before(LAID, SEALED, "what is sealed is not drawn through any more"),
    Before(SEALED, "built", "a seal is looked at when it is there"),
    Before(LAID, LABELLED, "a label sits on what is cut to length"),
    Before(LABELLED, "joint", "a stripped end without a label is anybody's"),
    Before(LABELLED, TIED, "a cable is tied when it is cut and named"),
    Before(TIED, "built", "what is held is looked at when it is held"),
    Before("ground", PAINTED_OVER, "paint goes over a joint that has read well"),
    Before(PAINTED_OVER, "built", "a joint is looked at when it is closed"),
    Before("ground joint", "ground", "a joint is made before it is read"),
    Before("ground", "line joint", "without its ground a device grounds through its line leads"),
    Before("ground", MAIN_IN, "without its ground a device grounds through its line leads"),
    Before("ground", "supply joint", "ground first: it is there when the supply comes"),
    Before("far joint", "far_end", "a joint is made before it is read"),
    Before(LOOM_IN, "far_end", "the loom's wires are read through it"),
    Before("supply joint", "far_end", "a joint is made before it is read"),
    Before("far_end", "supply ends", "an end is read while it is open"),
    Before("far_end", "speaker_level ends", "an end is read while it is open"),
    Before("far_end", "amplified ends", "an end is read while it is open"),
    Before("far_end", "crossover ends", "an end is read while it is open"),
    Before("crossover ends", "legs", "a leg is followed to the terminal"),
    Before("far_end", SPEAKERS_ON, "an end is read while it is open"),
    Before("speaker_level ends", "legs", "a leg is followed to the terminal"),
    Before("legs", LOOM_HOME, "the radio would lie across every leg"),
    Before("far_end", CAPPED, "an end is read while it is open"),
    Before("legs", CAPPED, "an end is read while it is open"),
    Before(CAPPED, "built", "a cap is looked at with every other closed end"),
    Before(CAPPED, MAIN_IN, "under power no end hangs bare"),
    Before("joint of the build", CLOSED, "what is still open then is open on purpose"),
    Before("joint of the build", "built", "a joint is made before it is read"),
    Before("joint of the build", PARTS_TIED, "a part is tied when its leads are joined"),
    Before(PARTS_TIED, "built", "what is held is looked at when it is held"),
    Before(CLOSED, "built", "an open end is looked at when it is closed off"),
    Before(LOOM_HOME, "built", "a joint is made before it is read"),
    Before("built", SIDE_FUSES, "a fuse goes into a way that was read"),
    Before(SIDE_FUSES, "fused", "a fuse is looked at when it is in"),
    Before("fused", MAIN_IN, "the main fuse is the last"),
    Before(SIDE_FUSES, SECOND_ON, "a battery goes onto a way that was read"),
    Before(SECOND_ON, MAIN_IN, "the main fuse is the last"),
    Before(SIDE_FUSES, MAIN_IN, "the main fuse is the last"),
    Before(SET, MAIN_IN, "a switch is set while nothing is powered"),
    Before(LEAST, MAIN_IN, "nothing is loud when power comes"),
    Before(MAIN_IN, LINK_IN, "what a battery feeds alone is tried before two are joined"),
    Before(SECOND_ON, LINK_IN, "two batteries are joined when both have their ground"),
    Before(LINK_IN, "turn_on", "without it the second battery is not charged"),
    Before(MAIN_IN, "turn_on", "without it nothing switches on"),
    Before("turn_on", "idle", "what is off draws nothing"),
    Before("idle", "silence", "what draws too much is not listened to"),
    Before("silence", "level", "a level is read above a known silence"),
    Before("passed_on", "level", "a radio that lacks a wire plays wrong levels"),
    Before("level", "gain", "a gain is set to a level that is right"),
    Before("gain", FILTERS, "a filter would hide what a gain is set by"),
    Before(FILTERS, SPEAKERS_ON, "a tone without a filter burns a tweeter"),
    Before(FILTERS, "again", "read with the filters in"),
    Before(SPEAKERS_ON, "again", "read with the speakers on"),
    Before("again", "loud", "loud only when gains and filters are right"),
    Before("again", "sound", "judged by ear when gains and filters are right"),
    Before("loud", "sound", "a supply that sags sounds bad everywhere"),
    Before("closing", "whole", "the trim goes home when nothing has to be mended any more"),
    Before("as_found", "whole", "what was there before is known before it is compared"),
    Before("proof", "whole", "the car is looked at as it is left"),
    Before("proof_dead", "whole", "the car is looked at as it is left"),
    Before("as_found", TOLD, "readings are sent in when they are all taken"),
    Before("proof", TOLD, "readings are sent in when they are all taken"),
    Before("proof_dead", TOLD, "readings are sent in when they are all taken"),
    Before("whole", AS_NOTED, "what was off is set again when nothing goes off any more"),
    Before("whole", "driven", "nobody drives before the lamp and every plug were looked at"),
    Before(AS_NOTED, "driven", "the radio is driven with as its owner left it"),
    Before("driven", TOLD, "the car is handed over when nothing has to be read any more"),
    Before(AS_NOTED, TOLD, "the car is handed over as it came"),
    Before("whole", TOLD, "the car is handed over whole"),
)

ORDER_OF_PHASES: Final[tuple[Phase, ...]] = get_args(Phase)


def every_constraint() -> Iterator[Before]:
    """Yield the rows above, and that each part of the work ends before the next begins."""
    yield from TRADE
    for first, then in pairwise(ORDER_OF_PHASES):
        yield Before(phase_tag(first), phase_tag(then), "each part of the work ends first")


def phase_tag(phase: Phase) -> str:
    """Return the tag of every act of a phase."""
    return f"phase {phase}"
