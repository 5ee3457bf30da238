"""Whether a converter's input may be joined to a pair at all: what its negative terminal is."""

from __future__ import annotations

from builder.model.parts import Converter
from builder.planning.car.pairs import Leg, Pair
from builder.planning.car.selection import Selection
from builder.planning.objections import Objection, object_to
from builder.planning.plan import Reason
from builder.planning.tables import COMMON_PRACTICE, DEVICE_RECORD
from builder.planning.words import Topology


def input_objections(selection: Selection, converter: Converter) -> list[Objection]:
    """Return why the converter's input must not be joined to these pairs."""
    if converter.input.type == "ground_referenced":
        return _ground_referenced(selection, converter)
    high = _too_high(selection, converter)
    return [high] if high else []


def _ground_referenced(selection: Selection, converter: Converter) -> list[Objection]:
    pairs = [tap.pair for tap in selection.taps]
    bridged = [pair.named for pair in pairs if pair.topology == "bridged"]
    unknown = [pair.named for pair in pairs if pair.topology == "unknown"]
    if bridged:
        because = (
            f"the negative input of {converter.name} is ground, and both legs of "
            f"{', '.join(bridged)} are driven: joining them shorts an output of the radio or "
            "amplifier and can destroy it. Use a converter with floating inputs"
        )
        return [object_to("never join these", because, COMMON_PRACTICE)]
    if unknown:
        because = (
            f"the negative input of {converter.name} is ground, and nobody knows whether both "
            f"legs of {', '.join(unknown)} are driven. Use a converter with floating inputs"
        )
        return [object_to("never join these unmeasured", because, COMMON_PRACTICE)]
    return []


def _too_high(selection: Selection, converter: Converter) -> Objection | None:
    limit = converter.input.common_mode_max_v
    if limit is None:
        return None
    high = [
        (tap.pair.named, tap.pair.bias.high_v)
        for tap in selection.taps
        if tap.pair.bias is not None and tap.pair.bias.high_v > limit
    ]
    if not high:
        return None
    names = ", ".join(f"{channel} {volts:.1f} V" for channel, volts in high)
    because = f"both legs sit higher above ground than the {limit:g} V the input allows: {names}"
    return object_to("the input does not stand the bias", because, DEVICE_RECORD)


def input_reasons(selection: Selection, converter: Converter) -> list[Reason]:
    """Return what to say of joining these pairs to this input."""
    if not selection.taps:
        return []
    topologies = {tap.pair.topology for tap in selection.taps}
    reasons = list(input_switch(selection, converter))
    if converter.kind == "passive" and converter.input.type != "ground_referenced":
        reasons.append(_transformers(converter))
    elif converter.input.common_mode_max_v is None and "bridged" in topologies:
        because = "how high its inputs may sit above ground is not on record; ask the maker"
        reasons.append(Reason("common-mode limit unknown", because, DEVICE_RECORD))
    return reasons + polarity_reasons(selection, converter)


def _transformers(converter: Converter) -> Reason:
    """What windings change: nothing of the car's ground, or of a bias, gets through them."""
    low = f" Bass below {converter.band.from_hz:g} Hz is lost in them." if converter.band else ""
    because = (
        "its inputs are windings of their own: a bias on both legs does not matter, and no ground "
        f"loop closes through the shields of the line leads.{low}"
    )
    return Reason("its transformers part the grounds", because, DEVICE_RECORD)


def input_switch(selection: Selection, converter: Converter) -> tuple[Reason, ...]:
    """Return how switchable inputs are set, and why; nothing for others."""
    if converter.input.type != "switchable" or not selection.taps:
        return ()
    topologies: set[Topology] = {tap.pair.topology for tap in selection.taps}
    because = "the negative legs are driven, or may be"
    if topologies == {"common_ground"}:
        because = "floating inputs work on common-ground outputs too, and bring less hum"
    return (Reason("set its input switches to floating", because, COMMON_PRACTICE),)


def swaps_legs(pair: Pair, converter: Converter) -> bool:
    """Whether the converter's positive terminal goes to the negative leg of this pair.

    Never on an input whose negative terminal is ground: it would short the driven leg.
    """
    return pair.inverted and converter.input.type != "ground_referenced"


def fed_legs(pair: Pair, converter: Converter) -> tuple[Leg, Leg]:
    """Return the legs of a pair that go to the positive and the negative terminal."""
    return (pair.negative, pair.positive) if swaps_legs(pair, converter) else pair.legs


def polarity_reasons(selection: Selection, converter: Converter) -> list[Reason]:
    """Return why legs are swapped, or why they are not although the pair is inverted."""
    inverted = [tap.pair for tap in selection.taps if tap.pair.inverted]
    swapped = [pair.named for pair in inverted if swaps_legs(pair, converter)]
    kept = [pair.named for pair in inverted if not swaps_legs(pair, converter)]
    reasons = []
    if swapped:
        because = "the record says this pair is inverted; swapping the legs puts it in phase"
        reasons.append(Reason(f"swap the legs of {', '.join(swapped)}", because, COMMON_PRACTICE))
    if kept:
        because = "its negative input is ground, so turn the phase behind the converter instead"
        reasons.append(Reason(f"leave {', '.join(kept)} as it is", because, COMMON_PRACTICE))
    return reasons
