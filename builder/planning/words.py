"""The word lists of what is planned, as types: each word stands here once, with its meaning.

`schema/work-pack.schema.json` and `schema/data-file.schema.json` hold those that leave the house;
a test keeps both in step.
"""

from __future__ import annotations

from typing import Final, Literal

from builder.model.names import FUNCTION_NAMES
from builder.model.words import Quantity, State

PlanKind = Literal["tap_plan", "probe_plan", "no_plan"]
"""What is known well enough to be joined, what has to be measured first, or why not at all."""

JobState = Literal["planned", "begun", "failing", "done", "recalled"]
"""How far a job is: nothing joined; joined, with lines open; a line failed; every line passed; the
book speaks against what is joined."""

UseKind = Literal["plan", "job"]
"""What relies on a pin."""

TappedAs = Literal["addon", "intercept", "line_tap"]
"""A pair that is listened to beside its speaker, one that is cut for a new amplifier, and the line
feed of a factory amplifier, listened to beside it."""

Topology = Literal["bridged", "common_ground", "unknown"]
"""How an output drives its pair: both legs, one leg against ground, or nobody knows."""

RungKind = Literal[
    "amplifier_on",
    "retained",
    "accessory",
    "fuse_position",
    "offset_wake",
    "data_interface",
    "run",
    "signal_wake",
]
"""The rungs of the turn-on ladder, best first."""

TurnOnKind = RungKind | Literal["none"]
"""The same of what was chosen; "none" for a converter that needs no turn-on."""

RUNG_NAMES: dict[TurnOnKind, str] = {
    "amplifier_on": FUNCTION_NAMES["amplifier_on"],
    "retained": FUNCTION_NAMES["retained"],
    "accessory": FUNCTION_NAMES["accessory"],
    "fuse_position": "fuse position",
    "offset_wake": "offset wake",
    "data_interface": "data interface",
    "run": FUNCTION_NAMES["run"],
    "signal_wake": "signal wake",
    "none": "none",
}
"""What they are called; the wires of the car as everywhere else."""

RungVerdict = Literal["chosen", "possible", "unproved", "refused", "absent"]
"""What became of a rung: taken, not needed, passed over until somebody measures, impossible, or
not there in this car."""

PlaceVerdict = Literal["fit", "weak", "refused", "absent"]
"""What one place is worth as a turn-on; a reading would make a weak one fit."""

LevelBasis = Literal["measured", "label", "rail", "amplifier_label", "leg_bias"]
"""Where the loudest clean level of a source comes from."""

LevelVerdict = Literal["fine", "thin", "over"]
"""Whether a source leaves the house's margin at the converter's input, less, or none."""

GainBasis = Literal["target", "fixed", "speaker_limited", "gain_limited", "least_gain", "common"]
"""Why a line level is what it is."""

LimitedBy = Literal["amplifier", "speaker"]
"""What sets how loud a speaker may play."""

LadderStage = Literal["converter input", "converter output", "amplifier input", "speaker"]
"""The stages at which a level is set beside its limit."""

Correction = Literal["on", "off", "unknown"]
"""The converter's bass correction, as it will be used."""

SpeakerUse = Literal["door", "sub"]
"""What a speaker is wired and set as."""

End = Literal["front", "rear"]
WishFor = End | Literal["sub"]
"""What a converter's inputs are shared out to."""

DemandKind = Literal["signal", "amplified", "supply", "control"]
"""Classes of conductors, in the order in which they are laid out."""

DemandClass = DemandKind | Literal["line", "ground", "through", "spare"]
"""The same of a conductor of the job; a spare one carries nothing."""

MAIN_FUSE: Final = "main fuse"
"""What the fuse at the battery is called."""

SUPPLY_WAY: Final = "way of the supply through the bulkhead"
"""What it is called while nobody said which of the car's it is."""

BLOCK: Final = "distribution block"
"""What parts one supply into branches."""

LinkClass = Literal["speaker_level", "line", "amplified", "control", "supply", "ground", "through"]
"""What a link of the circuit carries. A control link switches; a line link goes to an amplifier;
what a loom passes on is the car's own affair."""

UnitKind = Literal[
    "radio", "plug", "factory_speaker", "factory_input", "fuse_position", "battery", "body",
    "loom", "converter", "interface", "amplifier", "speaker", "distribution", "driver",
    "battery_joiner", "y_lead", "turn_on_load", "crossover",
]  # fmt: skip
"""What has terminals in a circuit. A radio is the socket, a plug what the car puts into it."""

TerminalRole = Literal["drives", "takes", "passes"]
"""Whether a terminal is a source, a load, or only a place where wires meet."""

ElementKind = Literal[
    "fuse", "resistor", "capacitor", "diode", "coil", "relay", "charger", "low-pass", "high-pass"
]
"""Parts with two leads; a coil is one of a speaker, a low-pass or high-pass of a crossover."""

EndName = Literal["from", "to"]

JointKind = Literal[
    "plug_home", "splice", "tap", "y_lead", "inside", "ring", "terminal", "line_plug",
    "element_lead",
]  # fmt: skip
"""How ends touch: a plug in its socket, a crimp or solder joint, a wire joined beside one that
stays whole, what a Y-lead or a crossover joins inside, a ring on a stud, a wire in a terminal, a
line plug in its socket, the lead of a part."""

UndoneHow = Literal["unplug", "rejoin", "take_off", "put_back", "with_part"]
"""The way back: pull the plug, join the two ends of the car's wire again, take the joint off a
wire that stayed whole, put the car's own speaker back in its place, or nothing of the car's own: it
leaves with the part."""

FeedPlace = Literal["amplifier", "block", "radio", "fuse_position"]
"""Where the supply of the converter is taken."""

Phase = Literal["before", "build", "bench", "close"]
"""When a line of the bay sheet or a step is due."""

Turn = Literal[
    "at_table",
    "as_found",
    "proof",
    "proof_dead",
    "ground",
    "far_end",
    "legs",
    "built",
    "fused",
    "turn_on",
    "idle",
    "silence",
    "passed_on",
    "level",
    "gain",
    "again",
    "loud",
    "sound",
    "closing",
    "whole",
    "driven",
]
"""Whose turn it is in the order of the work, in that order: a loom on the table, the car as it
came, pins under power and dead, grounds, pairs whose device end is still open, legs, all that is
joined and dead, the fuses in it; then under power: what switches on, idle current, silence, what a
loom passes on, levels, gains with the speakers off, the same with filters and speakers, loud, by
ear; then before the trim, with the car whole, and on a drive, the last of all."""

HowItStands = Literal[
    "on", "off", "loose", "fitted", "pulled", "home", "in loom", "loomed", "waited", "absent",
    "out", "in", "open", "asleep", "door_open", "retained", "accessory", "run", "crank", "engine",
    "lights_on", "lights_dimmed", "lights_off", "auto_restart", "zero", "quiet", "tone", "tuner",
    "other", "loud", "least", "set", "noted", "laid", "capped", "slid",
]  # fmt: skip
"""How a thing of the car or the job can stand while it is worked on. A seat is loose when it stands
at its place with every plug home and no bolt in, slid when it was moved on its rails, bolted and
plugged; a tone is quiet while its volume is brought up from 0 to what a reading asks for; a plug
is in a loom when that has no unit yet, loomed when it has; cables are absent, then laid; speakers
are open, their ends capped or not, then on; what a radio lost is set for readings, then as it was
noted; a battery is waited when it is off and the restraint
system's wait is over."""

PHASE_OF: dict[Turn, Phase] = {
    "at_table": "before", "as_found": "before", "proof": "before", "proof_dead": "before",
    "ground": "build", "far_end": "build", "legs": "build", "built": "build",
    "fused": "build",
    "turn_on": "bench", "idle": "bench", "silence": "bench", "passed_on": "bench",
    "level": "bench", "gain": "bench", "again": "bench", "loud": "bench", "sound": "bench",
    "closing": "close", "whole": "close", "driven": "close",
}  # fmt: skip
"""The part of the work that each turn is of."""

TestQuantity = Quantity | Literal["a", "check"]
"""What a line of the bay sheet asks for; a "check" is answered with yes or no."""

TestState = State | Literal["step"]

TestUnit = Literal["V", "A", "mA", "Ω", "Hz", "%", ""]
PartUnit = Literal["m", ""]

PowerFlagKind = Literal[
    "no_fuse_fits",
    "fuse_above_ceiling",
    "fuse_below_full_current",
    "fuse_below_on_board",
    "drop_above_limit",
    "copper_clad",
    "metal_unknown",
    "ground_thinner",
    "ground_long",
    "fuse_far",
    "radio_tap_heavy",
    "loop_drop_high",
    "strap_unread",
    "reserve_short",
    "supply_dips",
]
LineFlagKind = Literal[
    "gain_out_of_range", "line_above_output", "line_above_input", "line_below_sensitivity"
]
LeadFlagKind = Literal["current", "loss", "damping"]
CableFlagKind = Literal[
    "no_conductor_fits",
    "classes_mixed",
    "pair_split",
    "conductor_twice",
    "conductor_overloaded",
]
LoomFlagKind = Literal[
    "loom_unfit", "loom_cavity_dead", "loom_undescribed", "loom_crossed", "loom_thin",
    "loom_no_size", "loom_idle",
]  # fmt: skip
FlagKind = (
    PowerFlagKind
    | LineFlagKind
    | CableFlagKind
    | LoomFlagKind
    | Literal[
        "lead_overloaded",
        "lead_loss",
        "lead_damping",
        "signal_beside_supply",
        "reel_short",
        "ground_before_sensor",
        "latch_heavy",
        "turn_on_weak",
        "coil_without_diode",
        "restart_drops_turn_on",
        "step_untested",
        "course_broken",
        "box_not_said",
    ]
)
"""Shortcomings of a job. Each has the rule that finds it; its text says what it means."""
