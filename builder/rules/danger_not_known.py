"""Nobody looked for something that can hurt.

What it catches
---------------
A key of the car that warns of a danger and is unknown: zones of restraint parts or of high voltage,
the wait after battery off, the car's own sounds, the sensor on the battery, noise cancellation and
the like. What is near the radio and what comes off before it has a finding of its own.

Why it matters in the bay
-------------------------
Nobody looked is not the same as nothing there. Every plan takes the worst: each place counts as
near a bag or an orange cable, no pair is taken from a speaker that may give a warning, and the page
says so before anything else.

Example
-------
Fails::

    safety: {restraint_zones: [unknown], high_voltage_zones: [], restraint_wait_min: unknown}

Passes::

    safety: {restraint_zones: [under the left seat], high_voltage_zones: [], restraint_wait_min: 10}

How to mend it
--------------
Ask whom the finding names; then type what is there, or that it is not. Never guess.

Source
------
Chosen by this project.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any, Final

from builder.declaring import Field, fields_of
from builder.findings import DataPath, Fault, Severity
from builder.model.vehicle import Vehicle
from builder.model.words import UNKNOWN
from builder.model.zones import all_known
from builder.rules.rule import Scope, rule

_FOUND_ELSEWHERE = frozenset({"feed", "removal", "restraint"})
"""Keys whose being unknown has a finding of its own."""

_WAIT: Final = "restraint_wait_min"
_ORANGE: Final = "high_voltage_zones"


def check(vehicle: Vehicle) -> Iterator[Fault]:
    """Yield what of the car's dangers nobody knows, all of it at the first."""
    open_keys = [
        (path, each)
        for path, each, value in dangers(vehicle, Vehicle, ())
        if each.key not in _FOUND_ELSEWHERE and is_unknown(value) and not _idle(vehicle, each.key)
    ]
    if open_keys:
        names = ", ".join(_named(each) for _, each in open_keys)
        who = "; ".join(f"{_named(each)}: {each.spec.settles}" for _, each in open_keys)
        message = f"nobody knows {names}: every plan takes the worst"
        yield Fault(open_keys[0][0], message, f"what settles it: {who}")


def dangers(record: Any, cls: type, path: DataPath) -> Iterator[tuple[DataPath, Field, Any]]:
    """Yield each key of danger of a record and of its parts, with its path and its value."""
    for each in fields_of(cls):
        value, here = getattr(record, each.attribute), (*path, each.key)
        if each.spec.settles:
            yield here, each, value
        if each.inner is not None and each.item is None and value is not None:
            yield from dangers(value, each.inner, here)


def is_unknown(value: Any) -> bool:
    """Whether nobody knows it: a word, a figure that nobody has, a list that is not complete."""
    if isinstance(value, tuple):
        return not all_known(tuple(one for one in value if isinstance(one, str)))
    return value is None or value == UNKNOWN


def _idle(vehicle: Vehicle, key: str) -> bool:
    """Whether nobody has to know it: the wait without restraint parts, the zones of no system."""
    if key == _WAIT:
        return not vehicle.safety.restraint_zones
    return key == _ORANGE and vehicle.features.hybrid == "no"


def _named(each: Field) -> str:
    return each.spec.label.lower() or each.key.replace("_", " ").removesuffix(" min")


RULE = rule("SAF118", Severity.NOTE, Scope.RECORD, check, not_known=Severity)
