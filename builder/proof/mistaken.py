"""What a wire is often mistaken for, and the reading that tells the two apart."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import product
from typing import NamedTuple

from builder.model.house_defaults import HouseDefaults
from builder.model.words import Function
from builder.proof.identify.next_test import phrase_of
from builder.proof.identify.splitting import Measurement, deciding_measurement, separation, spans_of
from builder.proof.signatures.of_pins import kinds_of_function
from builder.proof.signatures.shapes import Expected, Kind

OFTEN_TAKEN_FOR: dict[Function, tuple[Function, ...]] = {
    "constant": ("constant_sleeps", "retained", "accessory"),
    "constant_sleeps": ("constant", "retained"),
    "accessory": ("retained", "run", "constant_sleeps", "camera_supply"),
    "run": ("accessory", "retained", "reverse"),
    "retained": ("accessory", "constant_sleeps", "constant"),
    "illumination": ("illumination_return", "accessory", "run"),
    "illumination_return": ("ground", "illumination"),
    "ground": ("illumination_return", "shield", "not_used"),
    "speaker": ("line", "ground", "data_high"),
    "line": ("speaker", "data_high", "microphone"),
    "amplifier_on": ("aerial_on", "accessory", "camera_supply"),
    "aerial_on": ("amplifier_on", "accessory"),
    "mute": ("constant", "ground"),
    "data_high": ("data_low", "line", "microphone"),
    "data_low": ("data_high", "line"),
    "data_single": ("camera_supply", "microphone", "accessory"),
    "shield": ("ground", "not_used"),
    "speed": ("data_single", "run"),
    "reverse": ("run", "accessory"),
    "park_brake": ("ground", "reverse"),
    "camera_supply": ("accessory", "amplifier_on", "data_single"),
    "camera_signal": ("shield", "microphone"),
    "microphone": ("camera_supply", "data_high", "wheel_keys"),
    "wheel_keys": ("microphone", "data_high"),
    "not_used": ("ground", "accessory"),
}
"""What each function is taken for in a trade that goes by colours and by one reading.
Source: common practice, no source."""

BY_HAND: dict[frozenset[Function], str] = {
    frozenset({"run", "reverse"}): "At run, put reverse gear in: only a reverse wire follows.",
    frozenset({"illumination", "illumination_return"}): (
        "Lights on, turn the dimmer down: the feed falls, the return rises."
    ),
    frozenset({"ground", "shield"}): (
        "Follow the wire: a shield is the bare screen of a cable and carries no current."
    ),
    frozenset({"line", "microphone"}): (
        "Play a test tone: a line shows AC volts across its pair, a microphone none."
    ),
    frozenset({"amplifier_on", "aerial_on"}): (
        "Change from the tuner to another source and to a call: an amplifier output stays on "
        "through all of them. One that falls is an aerial output; one that stays may be either."
    ),
    frozenset({"amplifier_on", "accessory"}): (
        "Leave the car at accessory and switch the radio off: the accessory supply stays."
    ),
    frozenset({"aerial_on", "accessory"}): (
        "Leave the car at accessory and switch the radio off: the accessory supply stays."
    ),
    frozenset({"data_high", "data_low"}): (
        "Read both wires of the pair in one go: the high one averages above the low one."
    ),
    frozenset({"data_high", "microphone"}): (
        "Look with a scope, or read AC volts: data never rests, a microphone does."
    ),
    frozenset({"data_single", "microphone"}): (
        "Look with a scope, or read AC volts: data never rests, a microphone does."
    ),
    frozenset({"data_single", "camera_supply"}): (
        "Read AC volts as well: data flickers, a camera supply is steady."
    ),
    frozenset({"data_single", "speed"}): "Roll the car: only a speed wire stops with the wheels.",
    frozenset({"speed", "run"}): "Roll the car: a speed wire toggles, a run wire does not.",
    frozenset({"park_brake", "ground"}): "Work the brake: a ground does not change.",
    frozenset({"park_brake", "reverse"}): "Work the brake, then the gear, at run.",
    frozenset({"camera_signal", "shield"}): (
        "With the picture on, AC volts: the signal shows some, its shield none."
    ),
    frozenset({"camera_signal", "microphone"}): (
        "Put reverse gear in: the picture's AC volts come with it."
    ),
    frozenset({"camera_supply", "microphone"}): (
        "Put reverse gear in and watch: a camera supply comes up or stays stiff at 5 to 8 V."
    ),
    frozenset({"microphone", "wheel_keys"}): "Press each wheel key: only their wire steps.",
    frozenset({"data_high", "wheel_keys"}): "Press each wheel key: only their wire steps.",
}
"""What tells two functions apart where one reading of the signature table does not.
Source: common practice, no source."""


def undecided(function: Function, other: Function) -> str:
    """Say that no one reading tells two functions apart, and what does where anything does."""
    by_hand = BY_HAND.get(frozenset({function, other}), "").rstrip(".")
    said = f"no single reading decides against {phrase_of(other)}"
    return f"{said}. {by_hand}" if by_hand else said


class Telling(NamedTuple):
    """How to tell a wire from what it is taken for.

    `by_hand` is a sentence where one reading of the table does not do; else `measurement` is the
    one that tells, None when there is neither. `settles` is False when only one of the two
    answers rules the other function out. The names are those of the kinds
    compared, "" when it holds for every kind of the function.
    """

    function: Function
    by_hand: str = ""
    measurement: Measurement | None = None
    ours: tuple[Expected, ...] = ()
    theirs: tuple[Expected, ...] = ()
    settles: bool = True
    our_kind: str = ""
    their_kind: str = ""


def tellings_of(function: Function, defaults: HouseDefaults) -> tuple[Telling, ...]:
    """Return what `function` is often taken for, each with the reading that tells."""
    ours = kinds_of_function(function, defaults)
    return tuple(
        Telling(other, by_hand)
        if (by_hand := BY_HAND.get(frozenset({function, other}), ""))
        else _telling(other, ours, kinds_of_function(other, defaults))
        for other in OFTEN_TAKEN_FOR.get(function, ())
    )


def _telling(other: Function, ours: Sequence[Kind], theirs: Sequence[Kind]) -> Telling:
    whole = deciding_measurement(ours, theirs)
    if whole:
        return Telling(other, "", whole, _rows(ours, whole), _rows(theirs, whole))
    for one, two in product(ours, theirs):
        found = deciding_measurement([one], [two])
        if found:
            return _of_two(other, one, two, found, True)
    return _one_sided(other, ours, theirs)


def _rows(kinds: Sequence[Kind], measurement: Measurement) -> tuple[Expected, ...]:
    rows = [spans_of(kind)[measurement].row for kind in kinds]
    return tuple({(row.low, row.high): row for row in rows}.values())


def _of_two(
    other: Function, one: Kind, two: Kind, measurement: Measurement, settles: bool
) -> Telling:
    ours, theirs = _rows([one], measurement), _rows([two], measurement)
    return Telling(other, "", measurement, ours, theirs, settles, one.name, two.name)


def _one_sided(other: Function, ours: Sequence[Kind], theirs: Sequence[Kind]) -> Telling:
    """The cheapest reading in which the two never agree, though only one of them is strict."""
    for one, two in product(ours, theirs):
        apart = list(_apart(one, two))
        if apart:
            cheapest = min(apart, key=lambda measurement: measurement.effort)
            return _of_two(other, one, two, cheapest, False)
    return Telling(other)


def _apart(one: Kind, two: Kind) -> Iterator[Measurement]:
    left, right = spans_of(one), spans_of(two)
    for measurement, span in left.items():
        other = right.get(measurement)
        if other and measurement.load == "none" and separation(span, other) > 0:
            yield measurement
