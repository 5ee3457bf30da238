"""The order of trade as a table for the handbook: what comes before what, and why."""

from __future__ import annotations

from collections.abc import Mapping

from builder.planning.course.trade import TRADE

WORDS: Mapping[str, str] = {
    "made at the table": "a loom made at the table",
    "at_table": "its ring-out",
    "noted": "noting faults, lit lamps, presets",
    "as_found": "readings of the car as it came",
    "proof": "proof readings with power",
    "proof_dead": "proof readings with the plug off",
    "zones": "pointing out restraint parts",
    "fixed": "fixing the devices",
    "taken through": "taking cables through a bulkhead",
    "laid": "laying cables dry",
    "closed behind it": "closing the way behind them",
    "labelled": "labels",
    "joint": "every joint",
    "ground joint": "joining grounds",
    "ground": "reading the grounds",
    "line joint": "joining line leads",
    "supply joint": "joining the supply",
    "far joint": "joining the far ends",
    "loom in": "the loom between plug and radio",
    "far_end": "reading wires at their far ends",
    "supply ends": "supply ends into the devices",
    "speaker_level ends": "signal ends into the converter",
    "amplified ends": "speaker ends into the amplifier",
    "crossover ends": "speaker ends into a crossover",
    "speakers on": "speakers on",
    "legs": "following each leg to its terminal",
    "loom home": "the loom's plug into the radio",
    "speaker ends capped": "capping speaker ends that wait",
    "closed off": "closing off what stays open",
    "joint of the build": "the joints of the build",
    "built": "looking over what was built",
    "side fuses": "every fuse but the main one",
    "fused": "looking over the fuses",
    "second battery on": "the second battery's negative on",
    "set by hand": "setting switches",
    "gains at their least": "gains at their least",
    "main fuse in": "the main fuse",
    "link fuse in": "the fuse of the link at the battery",
    "turn_on": "reading what switches on",
    "idle": "reading the idle current",
    "silence": "listening into silence",
    "passed_on": "reading what the radio is passed on",
    "level": "reading levels",
    "gain": "setting gains",
    "filters": "setting filters",
    "again": "reading again with filters and speakers",
    "loud": "readings at loud music",
    "sound": "judging by ear",
    "closing": "readings before the trim goes home",
    "whole": "readings of the whole car",
    "driven": "what only a drive shows",
    "tied": "tying the cables",
    "parts tied": "tying the parts of a hold-up",
    "painted over": "painting over bare metal",
    "as noted": "setting again what was noted",
    "handed over": "handing over",
}
"""Each tag of the order of trade as a person calls it."""


def trade_table() -> str:
    """Return a Markdown table with a row for each constraint, in the order of the code."""
    lines = ["| first | then | because |", "|---|---|---|"]
    rows = (f"| {WORDS[row.first]} | {WORDS[row.then]} | {row.because} |" for row in TRADE)
    return "\n".join((*lines, *rows))
