"""Which unit's speaker pairs may be tapped: the radio's or the factory amplifier's, and why."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from builder.model.house_defaults import HouseDefaults
from builder.model.names import COST_WORDS, channel_name
from builder.model.vehicle import Question, Vehicle
from builder.model.words import AmplifierFeed, Channel
from builder.planning.car.pairs import Pair, find_line_pairs, find_pairs
from builder.planning.objections import Objection, object_to
from builder.planning.plan import Reason
from builder.planning.tables import COMMON_PRACTICE, RECORD
from builder.planning.trust import Trust, holds_for_whole_scope
from builder.proof.sisters.questions import cheapest_first

_RADIO_SIDE: dict[AmplifierFeed, str] = {
    "analogue_fixed": "the radio sends one fixed level; the volume lives in the factory amplifier",
    "digital": "the radio sends sound over a digital link; its speaker cavities carry nothing",
    "analogue_variable": "the radio feeds the factory amplifier, and the amplifier the speakers",
}


@dataclass(frozen=True, slots=True)
class Sources:
    """The pairs a plan may choose from, by channel, and what was left out and why."""

    pairs: dict[Channel, Pair]
    barred: dict[Channel, str]  # channel: why its pair must not be used
    barred_pairs: dict[Channel, Pair]
    reasons: tuple[Reason, ...]
    objections: tuple[Objection, ...]


def find_sources(
    vehicle: Vehicle,
    trust: Trust,
    defaults: HouseDefaults,
    line_taps: frozenset[Channel] = frozenset(),
) -> Sources:
    """Return the usable pairs of the unit that really drives the speakers.

    Of the channels in `line_taps` it is the line feed of the factory amplifier instead.
    """
    feed = vehicle.factory_amplifier.feed
    if feed == "unknown":
        return _nothing(_amplifier_unknown(vehicle))
    found = find_pairs(vehicle, defaults)
    right_unit = [pair for pair in found if at_the_right_unit(vehicle, pair)]
    usable: dict[Channel, Pair] = {}
    barred: dict[Channel, str] = {}
    barred_pairs: dict[Channel, Pair] = {}
    asked = find_line_pairs(vehicle, defaults) if line_taps else {}
    for channel in line_taps:
        if channel not in asked:
            barred[channel] = _no_line(vehicle, channel)
    lines = [pair for channel, pair in asked.items() if channel in line_taps]
    for pair in (*lines, *(pair for pair in right_unit if pair.channel not in line_taps)):
        why = _line_unusable(vehicle, pair) or _unusable(vehicle, pair, trust)
        if why is None:
            usable.setdefault(pair.channel, pair)
        else:
            barred.setdefault(pair.channel, why)
            barred_pairs.setdefault(pair.channel, pair)
    reasons = (*_unit_reasons(vehicle, usable), *_barred_reasons(barred, usable))
    objections = () if usable else (_no_pair(vehicle, bool(found), barred),)
    return Sources(usable, barred, barred_pairs, reasons, objections)


def _nothing(objection: Objection) -> Sources:
    return Sources({}, {}, {}, (), (objection,))


def _amplifier_unknown(vehicle: Vehicle) -> Objection:
    steps = asked_in_order(vehicle.how_to_tell)
    because = (
        "nobody looked whether this car has a factory amplifier, and the pins to tap depend on it. "
        + (f"Ask, cheapest first: {steps}" if steps else "Look for one before anything else.")
    )
    return object_to("no pair can be chosen", because, RECORD)


def asked_in_order(questions: Iterable[Question]) -> str:
    """Questions in the order in which they are asked, each with what it costs, in words."""
    return " Then: ".join(
        f"{each.question} ({COST_WORDS[each.cost]})" for each in cheapest_first(questions)
    )


def at_the_right_unit(vehicle: Vehicle, pair: Pair) -> bool:
    """Whether this pair carries what the speaker gets, not what a factory amplifier is sent."""
    feed = vehicle.factory_amplifier.feed
    if feed == "none":
        return pair.driven_by == "radio"
    if pair.positive.plug.unit != "radio":
        return True
    direct = pair.carries is not None and pair.carries.driven_by == "radio"
    return feed == "analogue_variable" and direct


def _unusable(vehicle: Vehicle, pair: Pair, trust: Trust) -> str | None:
    for leg in pair.legs:
        bar = trust.bar(leg.pin.path)
        if bar is not None:
            return f"{leg.name}: {bar}"
        if not holds_for_whole_scope(vehicle, leg.pin.only_if):
            return f"{leg.name} is so only in a part of the cars this record is about"
    if pair.carries is not None and pair.carries.volume == "fixed":
        return "its level does not follow the volume knob"
    return None


def _line_unusable(vehicle: Vehicle, pair: Pair) -> str | None:
    """Why a line feed gives no sound to use: its level has to follow the volume knob."""
    feed = vehicle.factory_amplifier.feed
    return None if not pair.is_line or feed == "analogue_variable" else _RADIO_SIDE.get(feed)


def _no_line(vehicle: Vehicle, channel: Channel) -> str:
    feed = vehicle.factory_amplifier.feed
    if feed == "digital":
        return _RADIO_SIDE["digital"]
    return f"no complete line feed of {channel} is described at the radio"


def _unit_reasons(vehicle: Vehicle, usable: Mapping[Channel, Pair]) -> tuple[Reason, ...]:
    if any(pair.is_line for pair in usable.values()):
        because = "the job listens to what the radio sends, before the factory amplifier shapes it"
        return (Reason("join beside the line feed at the radio", because, RECORD),)
    said = _RADIO_SIDE.get(vehicle.factory_amplifier.feed)
    if said is None:
        return ()
    place = vehicle.factory_amplifier.location or "place not recorded"
    decision = f"tap at the outputs of the factory amplifier ({place}), not at the radio"
    return (Reason(decision, said, RECORD),)


def _barred_reasons(barred: dict[Channel, str], usable: dict[Channel, Pair]) -> tuple[Reason, ...]:
    return tuple(
        Reason(f"the {channel_name(channel)} pair is left alone", why, RECORD)
        for channel, why in barred.items()
        if channel not in usable
    )


def _no_pair(vehicle: Vehicle, any_described: bool, barred: dict[Channel, str]) -> Objection:
    if barred:
        because = "; ".join(f"{channel}: {why}" for channel, why in barred.items())
        return object_to("no pair may be used", because, RECORD)
    feed = vehicle.factory_amplifier.feed
    if feed != "none":
        where = "is described only at the radio" if any_described else "is described"
        because = (
            f"{_RADIO_SIDE[feed]}. No pair {where}; describe the amplifier's speaker plug to get "
            "a plan"
        )
        return object_to("nothing here can be tapped", because, RECORD)
    if vehicle.radio.outputs == "line":
        because = "the radio gives line level, which an amplifier takes without a converter"
        return object_to("no converter is needed", because, COMMON_PRACTICE)
    because = "the record describes no complete speaker pair; describe both legs of one"
    return object_to("nothing here can be tapped", because, RECORD)
