"""The answer strip: what an installer came for, first on the page."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable
from typing import Literal, NamedTuple

from markupsafe import Markup

from builder.model.names import LEG_SIGNS
from builder.model.plugs import Pin, Plug
from builder.model.said.functions import SWITCHED
from builder.model.vehicle import Vehicle
from builder.model.words import CHANNELS, Function
from builder.proof.pin_proof import UNGRADED, PinProof, Proofs
from builder.rendering.drawings.swatch import swatch
from builder.rendering.drawings.wire_colours import wire_words
from builder.rendering.pages.pins import condition_words
from builder.rendering.pages.wording import pin_anchor, plain

Asked = Literal["Constant", "Switched", "Ground", "Turn-on", "Illumination"]
"""The rows of the strip that ask for a function, as they are headed."""

_ROWS: tuple[tuple[Asked, tuple[Function, ...]], ...] = (
    ("Constant", ("constant",)),
    ("Switched", SWITCHED),
    ("Ground", ("ground",)),
    ("Turn-on", ("amplifier_on",)),
    ("Illumination", ("illumination",)),
)
_SWITCHED_NOTES: dict[Function, str] = {
    "retained": "retained: stays on after key off",
    "accessory": "accessory",
    "run": "run only: off in accessory",
}
_MISSING: dict[Asked, str] = {
    "Constant": "none proved or claimed on the plugs described here",
    "Switched": "none on the plugs described here",
    "Ground": "none on the plugs described here",
    "Turn-on": "no turn-on output on the plugs described here",
    "Illumination": "none on the plugs described here",
}


class Lead(NamedTuple):
    """One wire of an answer: where it is and what it looks like."""

    sign: str  # "+", "−" or ""
    plug: str
    cavity: str
    anchor: str
    swatch: Markup
    wire: str


class AnswerEntry(NamedTuple):
    """One answer: a wire, or the two wires of a pair, with the grade of the weaker."""

    leads: tuple[Lead, ...]
    proof: PinProof
    note: str


class Answer(NamedTuple):
    """One row of the strip. Without entries, `missing` says so in words."""

    label: str
    entries: tuple[AnswerEntry, ...]
    missing: str


Site = tuple[Plug, Pin]


def answers(vehicle: Vehicle, proofs: Proofs) -> tuple[Answer, ...]:
    """Return the rows of the strip: supplies, ground, turn-on, illumination, speaker pairs."""
    sites: defaultdict[Function, list[Site]] = defaultdict(list)
    for plug in vehicle.plugs:
        for pin in plug.pins:
            sites[pin.function].append((plug, pin))
    single = [_single(label, functions, sites, vehicle, proofs) for label, functions in _ROWS]
    return tuple(
        single + _pairs(sites["speaker"], "", proofs) + _pairs(sites["line"], "line ", proofs)
    )


def _single(
    label: Asked,
    functions: Iterable[Function],
    sites: dict[Function, list[Site]],
    vehicle: Vehicle,
    proofs: Proofs,
) -> Answer:
    found = [site for function in functions for site in sites.get(function, ())]
    entries = tuple(
        AnswerEntry((_lead(*site),), _proof(site, proofs), _note(site)) for site in found
    )
    return Answer(label, entries, _missing(label, sites, vehicle))


def _note(site: Site) -> str:
    plug, pin = site
    where = "" if plug.unit == "radio" else f"at the {plain(plug.unit)}"
    words = (_SWITCHED_NOTES.get(pin.function, ""), where, condition_words(pin.only_if))
    return "; ".join(word for word in words if word)


def _missing(label: Asked, sites: dict[Function, list[Site]], vehicle: Vehicle) -> str:
    if label == "Constant" and sites.get("constant_sleeps"):
        plug, pin = sites["constant_sleeps"][0]
        return f"none; {plug.id}.{pin.cavity} sleeps with the network and is no constant"
    if label == "Switched" and vehicle.radio.data_wake == "yes":
        return "none: this radio is woken by a data message, no wire follows the key"
    return _MISSING[label]


def _pairs(sites: list[Site], word: str, proofs: Proofs) -> list[Answer]:
    """Return one row a channel; legs are put together within one unit."""
    pairs: defaultdict[str, defaultdict[tuple[str, str], list[Site]]] = defaultdict(
        lambda: defaultdict(list)
    )
    for plug, pin in sites:
        key = (plug.unit, condition_words(pin.only_if))
        pairs[pin.channel or "unknown"][key].append((plug, pin))
    return [
        Answer(
            f"{word}{plain(channel)}".capitalize(),
            tuple(_pair_entry(legs, proofs) for legs in units.values()),
            "",
        )
        for channel, units in sorted(pairs.items(), key=lambda pair: _order(pair[0]))
    ]


def _order(channel: str) -> int:
    """Place of a channel in the closed list: front before rear, left before right."""
    return CHANNELS.index(channel) if channel in CHANNELS else len(CHANNELS)


def _pair_entry(legs: list[Site], proofs: Proofs) -> AnswerEntry:
    ordered = sorted(legs, key=lambda site: site[1].leg != "positive")
    weakest = min((_proof(site, proofs) for site in ordered), key=_rank)
    note = _note(ordered[0])
    if len({pin.leg for _, pin in ordered}) < 2:
        note = f"{note}; only one leg recorded" if note else "only one leg recorded"
    return AnswerEntry(tuple(_lead(*site) for site in ordered), weakest, note)


def _rank(proof: PinProof) -> tuple[bool, float]:
    return (proof.band != "disputed", proof.score)


def _lead(plug: Plug, pin: Pin) -> Lead:
    sign = LEG_SIGNS[pin.leg] if pin.leg else ""
    return Lead(
        sign,
        plug.id,
        pin.cavity,
        pin_anchor(plug.id, pin.cavity),
        swatch(pin.wire),
        wire_words(pin.wire),
    )


def _proof(site: Site, proofs: Proofs) -> PinProof:
    return proofs.get(site[1].path, UNGRADED)
