"""The signature table: what a pin of each kind reads in each state of the car."""

from __future__ import annotations

from builder.model.words import Cost, State
from builder.proof.signatures.control import CONTROL_SIGNATURES
from builder.proof.signatures.pairs import PAIR_SIGNATURES
from builder.proof.signatures.shapes import Against, Signature
from builder.proof.signatures.signals import SIGNAL_SIGNATURES
from builder.proof.signatures.supplies import SUPPLY_SIGNATURES

SIGNATURES: tuple[Signature, ...] = (
    *SUPPLY_SIGNATURES,
    *CONTROL_SIGNATURES,
    *PAIR_SIGNATURES,
    *SIGNAL_SIGNATURES,
)

STATE_COST: dict[State, Cost] = {
    "asleep": "radio",
    "door_open": "look",
    "accessory": "look",
    "run": "look",
    "crank": "panel",
    "engine": "panel",
    "lights_on": "look",
    "lights_dimmed": "look",
    "lights_off": "look",
    "retained": "look",
    "radio_off": "look",
    "radio_on_zero": "look",
    "radio_on_tone": "look",
    "tuner": "look",
    "other_source": "look",
    "auto_restart": "radio",
    "unplugged": "panel",
    "battery_off": "radio",
}
"""What it costs to bring the car into a state, in the words used for tell-apart questions:
look = turn or press something; panel = a few minutes or a second person; radio = the better
part of an hour, or work on the battery. Chosen by this project."""

COST_WEIGHT: dict[Cost, int] = {"look": 1, "panel": 3, "radio": 8}
"""How the costs compare. Chosen by this project."""

LOAD_EFFORT = 2
"""Added to the cost of a state when a load has to be put on. Chosen by this project."""

AGAINST_WORDS: dict[Against, str] = {
    "ground": "battery negative or body",
    "other_leg": "the other wire of the pair",
    "elsewhere": "another cavity",
}
