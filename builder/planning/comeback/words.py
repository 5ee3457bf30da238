"""The words of a comeback: what the customer says, and what can be wrong."""

from __future__ import annotations

from typing import Final, Literal, get_args

Symptom = Literal[
    "dead",
    "dead_by_day",
    "flat_battery",
    "whine",
    "pops",
    "one_side_silent",
    "reversed",
    "sound_gone",
    "fault_lamp",
    "distorts",
]
"""What a customer comes back with."""
SYMPTOMS: Final[tuple[Symptom, ...]] = get_args(Symptom)

SYMPTOM_NAMES: Final[dict[Symptom, str]] = {
    "dead": "nothing that was added plays, at any time",
    "dead_by_day": "nothing that was added plays by day; with the lights on it does",
    "flat_battery": "the battery is flat after standing",
    "whine": "it whines or hums with the engine",
    "pops": "it pops, thumps or drops out for a moment",
    "one_side_silent": "one side or one speaker is silent, the rest plays",
    "reversed": "a speaker plays the wrong way round: thin bass, voices from nowhere",
    "sound_gone": "a chime or another sound or function of the car is gone",
    "fault_lamp": "a warning lamp or a message of the car is lit",
    "distorts": "it distorts, or is much louder than before",
}  # fmt: skip

FaultKind = Literal[
    "open",
    "fuse",
    "changed_over",
    "exchanged",
    "short_to_body",
    "touching",
    "weak",
    "wrong_pin",
    "wrong_cavity",
    "past_converter",
    "device",
    "stays_awake",
    "gain",
    "setting",
    "noise",
    "output_dc",
    "restraint_plug",
    "car",
]
"""What can be wrong: an end that came off, a fuse that is out, two legs or wires changed over, two
pairs or leads in each other's place, a wire on the body, two wires on each other, a joint that
conducts badly, a turn-on wire in another cavity, any other wire or pair in one, an amplifier that
is switched past the converter, a device that does nothing, one that never sleeps, a gain, a switch
or correction set otherwise, what lies or earths so that it picks up noise, DC at an output, a plug
near a restraint part, a part of the car's own."""

When = Literal["day", "lights", "key_off", "asleep"]
"""When a source of the car is live: radio on by day, the same with lights on, key off and not yet
asleep, asleep."""
WHENS: Final[tuple[When, ...]] = get_args(When)
