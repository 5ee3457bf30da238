"""What makes a recording lead harm a radio, a person or a figure: asked of every lead there is."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final

from builder.figures import shown
from builder.model.recording_lead import RecorderSupply, RecordingLead

HIGHEST_LEG_V: Final = 36.0
"""What a leg of a factory amplifier with a raised rail may stand at."""
MOST_GROUNDED_MA: Final = 2.0
"""What may flow from a leg when its clip slips onto the body: nothing notices it. Like the supply
above chosen by this project."""
MOST_AT_THE_END_V: Final = 1.0
LOUDEST_PAIR_V: Final = 25.0
"""A pair of 25 V RMS may give at most a volt at the far end: less than a line input is damaged
by."""
LEAST_INSULATION_V: Final = 100.0
MOST_DISTORTION_PERCENT: Final = 0.1
"""A tenth of what makes a volume step no longer clean. These: chosen by this project."""
MOST_COMMON_V: Final = 1.0
_LEGS_APART: Final = 2.0


@dataclass(frozen=True, slots=True)
class LeadFault:
    """A key of a lead, what is wrong with it, and what to do."""

    key: str
    message: str
    help: str


def grounded_ma(lead: RecordingLead) -> float:
    """Return what flows from a leg at 36 V when its clip touches the body, I = U/R. [mA]

    Infinite without a resistor in the clip.
    """
    return 1000 * HIGHEST_LEG_V / lead.clip_ohm if lead.clip_ohm else float("inf")


def common_v(lead: RecordingLead) -> float:
    """Return what both legs of a balanced input have in common, half of 36 V divided. [V]"""
    reference = lead.reference_ohm or float("inf")
    if reference == float("inf"):
        return HIGHEST_LEG_V / _LEGS_APART
    return HIGHEST_LEG_V / _LEGS_APART * reference / (reference + lead.clip_ohm)


def lead_faults(lead: RecordingLead) -> Iterator[LeadFault]:
    """Yield what a lead must not be used with; none says that it may be clipped on."""
    yield from _of_clips(lead)
    yield from _of_isolation(lead)
    yield from _of_recorder(lead)


def _of_clips(lead: RecordingLead) -> Iterator[LeadFault]:
    if grounded_ma(lead) > MOST_GROUNDED_MA:
        flows = "all that the radio gives flows" if not lead.clip_ohm else (
            f"{shown(grounded_ma(lead), 1, beside=MOST_GROUNDED_MA)} mA flow"
        )  # fmt: skip
        yield LeadFault(
            "clip_ohm",
            f"a clip that slips onto the body grounds its leg: with {shown(HIGHEST_LEG_V)} V on it "
            f"{flows}, at most {shown(MOST_GROUNDED_MA)} mA may",
            "put 22 kΩ, 1 %, 0.5 W inside each clip; a plain RCA or 3.5 mm lead is never used",
        )
    if lead.clip_ohm and LOUDEST_PAIR_V / lead.ratio > MOST_AT_THE_END_V:
        end_v = shown(LOUDEST_PAIR_V / lead.ratio, 2, beside=MOST_AT_THE_END_V)
        yield LeadFault(
            "across_ohm",
            f"a pair of {shown(LOUDEST_PAIR_V)} V gives {end_v} V at the far end, at most "
            f"{shown(MOST_AT_THE_END_V)} V may come there",
            "put 1 kΩ across the far end of clips with 22 kΩ: 1 to 45",
        )
    if lead.on_body != "no":
        known = "is joined" if lead.on_body == "yes" else "may be joined, since nobody looked,"
        yield LeadFault(
            "on_body",
            f"a clip or screen of it {known} to the car's body: that grounds the recorder there",
            "take it off the body, measure that it is open against it, and type on_body: no",
        )
    if lead.clamp == "small_diodes":
        yield LeadFault(
            "clamp",
            "small diodes across bend the wave that they are to protect",
            "take them out: the resistors protect the input",
        )


def _of_isolation(lead: RecordingLead) -> Iterator[LeadFault]:
    if lead.isolation == "none":
        yield LeadFault(
            "isolation",
            "nothing keeps the recorder's ground from the pair: one leg of a bridge is grounded, "
            "and two pairs on one stereo input are joined",
            "put a 1:1 transformer behind each pair, or use a balanced input for each",
        )
    if lead.isolation == "balanced" and common_v(lead) > MOST_COMMON_V:
        held_v = shown(common_v(lead), 1, beside=MOST_COMMON_V)
        yield LeadFault(
            "reference_ohm",
            f"both legs stand at up to {held_v} V together, at most {shown(MOST_COMMON_V)} V may "
            "be left of it at the input",
            "put 510 Ω from each leg to the reference of the input: what is across alone leaves it",
        )
    if lead.isolation == "transformer":
        yield from _of_transformer(lead)


def _of_transformer(lead: RecordingLead) -> Iterator[LeadFault]:
    if (lead.insulation_v or 0) < LEAST_INSULATION_V:
        yield LeadFault(
            "insulation_v",
            f"its windings bear {shown(lead.insulation_v or 0, 0, beside=LEAST_INSULATION_V)} V, "
            f"at least {shown(LEAST_INSULATION_V)} V are wanted",
            "take a transformer that states its insulation",
        )
    if lead.distortion_percent is None or lead.distortion_percent > MOST_DISTORTION_PERCENT:
        bent = lead.distortion_percent
        said = "nobody knows what" if bent is None else f"{shown(bent, 2)} % is what"
        yield LeadFault(
            "distortion_percent",
            f"{said} it distorts at 20 Hz, at most {shown(MOST_DISTORTION_PERCENT)} % may be",
            "take a larger transformer: what it bends is read as the radio's",
        )


def _of_recorder(lead: RecordingLead) -> Iterator[LeadFault]:
    if lead.input in ("headset", "phone"):
        yield LeadFault(
            "input",
            "such an input is mono, cuts the bass and sets its own gain",
            "use a sound card or recorder whose gain stays where it is set",
        )
    if lead.input == "line" and lead.isolation == "balanced":
        yield LeadFault(
            "input",
            "an unbalanced input grounds one leg, whatever stands before it",
            "use a balanced input, or a transformer",
        )
    tied: dict[RecorderSupply, str] = {
        "car": "charges from the car",
        "player": "hangs on the player",
    }
    if lead.recorder_supply in tied and lead.isolation != "transformer":
        yield LeadFault(
            "recorder_supply",
            f"the recorder {tied[lead.recorder_supply]}: its ground is the car's",
            "run it from its own battery, or put a transformer in the lead",
        )
