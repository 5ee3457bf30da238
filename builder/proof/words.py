"""The word lists of what is proved, as types: each word stands here once, with its meaning."""

from __future__ import annotations

from typing import Literal

from builder.model.words import ClaimMethod

Method = Literal["full", "part"] | ClaimMethod
"""What a piece of evidence is: "full" readings of every defining state, "part" of some, or what
a claim was taken from."""

Defining = Literal[
    "accessory",
    "across",
    "asleep",
    "awake",
    "bias",
    "body",
    "flicker",
    "ground",
    "lights_dimmed",
    "lights_off",
    "lights_on",
    "loaded",
    "ohms",
    "other_bias",
    "pulses",
    "radio_off",
    "radio_on",
    "retained",
    "run",
    "source",
    "tuner",
]
"""What has to be measured of a kind of pin before it is proved. Each signature says in words what
its own are: "across" are ohms from one leg to the other, "bias" the rest volts of a leg."""

SetsVerdict = Literal["agree", "view mix-up", "conflict", "too few"]
"""Two pin sets of one plug: they agree, they would if one were seen from the other face or upside
down, they do not, or they have too few pins in common to tell."""
