"""Signatures of speaker legs and balanced line legs.

Every band is common practice without a published source, except where a line names one;
the figures that a shop may change are house defaults.
"""

from __future__ import annotations

from builder.model.words import State
from builder.proof.signatures.row_making import (
    at,
    house,
    line,
    off,
    ohms,
)
from builder.proof.signatures.shapes import Limit, Row, Signature
from builder.proof.words import Defining

_PAIR: dict[Defining, str] = {
    "bias": "radio on at volume zero, volts of this leg",
    "other_bias": "radio on at volume zero, volts of the other leg",
    "across": "ohms across the two legs, plug off",
    "body": "ohms from a leg to the body, plug off",
}
_SILENT_PAIR: tuple[State, ...] = ("radio_on_zero", "radio_on_tone")
_ACROSS = ohms(
    house("speaker_min_ohm"), house("speaker_max_ohm"), against="other_leg", proves=("across",)
)
_ACROSS_CAPACITOR = ohms(
    at(1000),
    None,
    against="other_leg",
    proves=("across",),
    note="a capacitor reads open; use a tone or an impedance meter",
)
_BODY_OPEN = ohms(house("body_open_ohm"), None, proves=("body",))
_TONE = line(("radio_on_tone",), at(0.02), at(40), quantity="ac_v", against="other_leg")
_LEGS_ALIKE = line(
    _SILENT_PAIR,
    house("leg_difference_stop_v", -1),
    house("leg_difference_stop_v"),
    against="other_leg",
    note="the two legs of a bridge differ little",
)


def _biased(low: Limit, high: Limit) -> tuple[Row, ...]:
    return (
        off(("asleep", "radio_off")),
        line(_SILENT_PAIR, low, high, proves=("bias",)),
        _LEGS_ALIKE,
        _TONE,
    )


_BRIDGED = _biased(house("bridge_leg_min_v"), house("bridge_leg_max_v"))
_BOOSTED = _biased(house("bridge_leg_min_v"), house("boosted_leg_max_v"))
_UNBIASED = (
    off(("asleep", "radio_off")),
    line(_SILENT_PAIR, house("silent_leg_max_v", -1), house("silent_leg_max_v"), proves=("bias",)),
    _TONE,
)

BRIDGED_LEG = Signature(
    "speaker_bridged",
    "speaker",
    "bridged speaker leg",
    _PAIR,
    (*_BRIDGED, _ACROSS, _BODY_OPEN),
    partner="speaker_bridged",
)
BRIDGED_CAPACITOR = Signature(
    "speaker_bridged_capacitor",
    "speaker",
    "bridged tweeter leg behind a capacitor",
    _PAIR,
    (*_BRIDGED, _ACROSS_CAPACITOR, _BODY_OPEN),
    partner="speaker_bridged_capacitor",
)
AMPLIFIER_LEG = Signature(
    "speaker_amplifier",
    "speaker",
    "speaker leg of a factory amplifier",
    _PAIR,
    (*_BOOSTED, _ACROSS, _BODY_OPEN),
    partner="speaker_amplifier",
    note="A switching amplifier's carrier shows as AC volts on a simple meter. Legs that rest "
    "higher belong to a raised supply: a record says so with rail_v.",
)
AMPLIFIER_CAPACITOR = Signature(
    "speaker_amplifier_capacitor",
    "speaker",
    "factory amplifier's tweeter leg behind a capacitor",
    _PAIR,
    (*_BOOSTED, _ACROSS_CAPACITOR, _BODY_OPEN),
    partner="speaker_amplifier_capacitor",
)
RAIL_BIAS_SHARE = 0.1
"""How far a leg may rest from half of a stated rail, as a share. Chosen by this project."""


def legs_on_rail(rail_v: float) -> tuple[Signature, ...]:
    """Return the legs of a factory amplifier whose record states a raised rail.

    A bridge rests at half its supply, so a stated rail moves the band of the bias with it. They
    stand in for the signatures of the same ids, which know of no rail.
    """
    low, high = (at(rail_v / 2 * (1 + share)) for share in (-RAIL_BIAS_SHARE, RAIL_BIAS_SHARE))
    raised = _biased(low, high)
    return (
        AMPLIFIER_LEG._replace(rows=(*raised, _ACROSS, _BODY_OPEN)),
        AMPLIFIER_CAPACITOR._replace(rows=(*raised, _ACROSS_CAPACITOR, _BODY_OPEN)),
    )


COMMON_SIGNAL = Signature(
    "speaker_common_signal",
    "speaker",
    "signal leg of a common-ground output",
    _PAIR,
    (
        *_UNBIASED,
        _ACROSS,
        ohms(house("speaker_min_ohm"), house("speaker_max_ohm"), proves=("body",)),
    ),
    partner="speaker_common_return",
    note="The body reading goes through the speaker to its grounded return.",
)
COMMON_RETURN = Signature(
    "speaker_common_return",
    "speaker",
    "return leg of a common-ground output",
    _PAIR,
    (*_UNBIASED, _ACROSS, ohms(None, house("body_short_ohm"), proves=("body",))),
    partner="speaker_common_signal",
)
COMMON_SIGNAL_CAPACITOR = Signature(
    "speaker_common_signal_capacitor",
    "speaker",
    "common-ground signal leg behind a tweeter's capacitor",
    _PAIR,
    (*_UNBIASED, _ACROSS_CAPACITOR, ohms(at(1000), None, proves=("body",))),
    partner="speaker_common_return_capacitor",
)
COMMON_RETURN_CAPACITOR = Signature(
    "speaker_common_return_capacitor",
    "speaker",
    "common-ground return leg of a tweeter behind a capacitor",
    _PAIR,
    (*_UNBIASED, _ACROSS_CAPACITOR, ohms(None, house("body_short_ohm"), proves=("body",))),
    partner="speaker_common_signal_capacitor",
)

LINE_LEG = Signature(
    "line_balanced",
    "line",
    "balanced line leg",
    {name: said for name, said in _PAIR.items() if name != "body"},
    (
        off(("asleep",)),
        line(_SILENT_PAIR, house("line_bias_min_v"), house("line_bias_max_v"), proves=("bias",)),
        line(
            ("radio_on_tone",),
            at(0.02),
            house("line_max_v_rms"),
            quantity="ac_v",
            against="other_leg",
        ),
        ohms(house("body_open_ohm"), None, against="other_leg", proves=("across",)),
    ),
    partner="line_balanced",
)

PAIR_SIGNATURES = (
    BRIDGED_LEG,
    BRIDGED_CAPACITOR,
    AMPLIFIER_LEG,
    AMPLIFIER_CAPACITOR,
    COMMON_SIGNAL,
    COMMON_RETURN,
    COMMON_SIGNAL_CAPACITOR,
    COMMON_RETURN_CAPACITOR,
    LINE_LEG,
)
