"""A unit has sound but no supply or no ground.

What it catches
---------------
A radio or amplifier with described speaker or line pins, but without any supply pin or
without any ground pin. A radio that is woken by data is left out.

Why it matters in the bay
-------------------------
Every unit that makes sound has both. If they are missing, another plug was overlooked, and
the wanted switched wire may be on it.

Example
-------
Fails::

    plugs:
      - id: A
        unit: radio
        pins:
          - {cavity: 1, function: speaker, channel: front-left, leg: positive}
          - {cavity: 2, function: speaker, channel: front-left, leg: negative}

Passes::

    plugs:
      - id: A
        unit: radio
        pins:
          - {cavity: 1, function: speaker, channel: front-left, leg: positive}
          - {cavity: 2, function: speaker, channel: front-left, leg: negative}
          - {cavity: 7, function: constant}
          - {cavity: 8, function: ground}

How to mend it
--------------
Look for the plug that carries them and describe it, or accept the finding with the reason.

Source
------
Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.findings import Fault, Severity
from builder.model.plugs import Plug
from builder.model.vehicle import Vehicle
from builder.model.words import PAIRED, SUPPLIES, Unit
from builder.rules.rule import Scope, rule

_POWERED: tuple[Unit, ...] = ("radio", "amplifier")


def check(vehicle: Vehicle) -> Iterator[Fault]:
    """Yield units that make sound from nothing."""
    for unit in _POWERED:
        plugs = [plug for plug in vehicle.plugs if plug.unit == unit]
        functions = {pin.function for plug in plugs for pin in plug.pins}
        if not functions & PAIRED or _fed_by_data(vehicle, unit):
            continue
        if not functions & SUPPLIES:
            yield _fault(plugs[0], unit, "supply", "constant")
        if "ground" not in functions:
            yield _fault(plugs[0], unit, "ground", "ground")


def _fed_by_data(vehicle: Vehicle, unit: Unit) -> bool:
    return unit == "radio" and vehicle.radio.data_wake == "yes"


def _fault(plug: Plug, unit: str, what: str, function: str) -> Fault:
    return Fault(
        (*plug.path, "pins"),
        f"the {unit} has sound but no {what} among its described pins: "
        "a plug, or a cavity of this one, was overlooked",
        f"find it and add a pin with function: {function}",
    )


RULE = rule("PIN112", Severity.WARN, Scope.RECORD, check, not_known=Severity)
