"""Some eyes cannot tell two wires of one plug apart.

What it catches
---------------
Wires of one plug with different colours that differ by less than the house default
`wires_confusable_de00` to normal eyes, or to eyes that lack the red, the green or the blue
cones; and wires with the same two colours in opposite order, such as white/black and
black/white. Bases are compared with each other and stripes with each other; a plain wire counts
as its own stripe. Left out are bare wires and wires of one job. Two wires count when one is a
supply, a ground, a speaker or line wire or a turn-on output, or when they are one data pair;
other wires only when they are alike to all eyes or in opposite order.

Why it matters in the bay
-------------------------
One man in twelve sees red and green otherwise than the person who wrote the record. To eyes
without red cones a red supply and a brown ground are one colour.

Example
-------
Fails::

    pins:
      - {cavity: 9, function: constant, wire: {base: red}}
      - {cavity: 18, function: ground, wire: {base: brown}}

Passes::

    pins:
      - {cavity: 9, function: constant, wire: {base: red}}
      - {cavity: 18, function: ground, wire: {base: black}}

How to mend it
--------------
Nothing is wrong with the record; the colours are the car's. Leave the note: the vehicle's page
lists the pairs, so that the reader goes by the cavity and the meter. Correct the colour if it
was written down wrongly.

Source
------
CIEDE2000: Sharma, Wu, Dalal 2005 (second hand). Missing cones: Machado, Oliveira, Fernandes
2009, severity 1 (second hand); most affected eyes are milder. One man in twelve: common
knowledge (memory). What a colour word looks like and the limit are chosen by this project: 11
catches the well-known brown and green (10.5 to eyes without green cones) and stays under blue
and dark blue (14 or more to all eyes), which a record-keeper tells apart.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.findings import Fault, Severity
from builder.model.book import Shelf
from builder.model.plugs import Pin, Plug
from builder.model.vehicle import Vehicle
from builder.proof.confusable import (
    ConfusablePair,
    colours_in_words,
    confusable_pairs,
    eyes_in_words,
)
from builder.rules.house import prints
from builder.rules.rule import Scope, rule
from builder.rules.wiring import Site
from builder.rules.wording import called

_NAMED = 3  # pairs named in a finding; the vehicle's page names them all


@prints("wires_confusable_de00")
def check(vehicle: Vehicle, shelf: Shelf) -> Iterator[Fault]:
    """Yield each plug with wires that somebody would take for each other."""
    for plug in vehicle.plugs:
        pairs = confusable_pairs(plug.pins, shelf.defaults.wires_confusable_de00)
        if pairs:
            yield _fault(plug, pairs)


def _fault(plug: Plug, pairs: tuple[ConfusablePair, ...]) -> Fault:
    named = [_pair(plug, pair) for pair in pairs[:_NAMED]]
    more = [f"and {len(pairs) - _NAMED} more"] if len(pairs) > _NAMED else []
    return Fault(
        (*plug.path, "pins"),
        f'wires of plug "{plug.id}" look alike: {"; ".join(named + more)}',
        "go by the cavity and the meter, never by these colours; nothing need be changed",
    )


def _pair(plug: Plug, pair: ConfusablePair) -> str:
    first, second = _wire(plug, pair.first), _wire(plug, pair.second)
    return f"{first} and {second}, {eyes_in_words(pair.likeness)}"


def _wire(plug: Plug, pin: Pin) -> str:
    return f"{called(Site(plug, pin))} {colours_in_words(pin.wire)}"


RULE = rule("PIN120", Severity.NOTE, Scope.VEHICLE, check)
