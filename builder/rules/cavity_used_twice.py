"""A cavity is described twice.

What it catches
---------------
Two entries of one plug that name the same cavity and hold for the same car. Two entries
are allowed when their `only_if` conditions cannot both be true.

Why it matters in the bay
-------------------------
One terminal has one job. If the page shows both, somebody connects a speaker output to a
wire that carries battery voltage, and the radio is gone.

Example
-------
Fails::

    pins:
      - {cavity: 4, function: constant}
      - {cavity: 4, function: illumination}

Passes::

    pins:
      - {cavity: 4, function: constant, only_if: {trims: [base]}}
      - {cavity: 4, function: illumination, only_if: {trims: [sport]}}

How to mend it
--------------
Correct the cavity of one entry, delete the wrong one, or say with `only_if` which trims or
options each holds for. If whole plugs differ, write two records.

Source
------
Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.findings import Fault, Severity
from builder.model.vehicle import Vehicle
from builder.rules.conditions import clashes
from builder.rules.rule import Scope, rule
from builder.rules.wiring import wiring_of
from builder.rules.wording import called


def check(vehicle: Vehicle) -> Iterator[Fault]:
    """Yield the later entry of every two that describe one cavity of one car."""
    for sites in wiring_of(vehicle).by_cavity.values():
        for first, second in clashes(sites):
            yield Fault(
                (*second.pin.path, "cavity"),
                f"plug {second.plug.id}, cavity {second.pin.cavity} is described twice: "
                f"first as {called(first)}, here as {called(second)}; a terminal has one job",
                "correct the cavity of one entry, or add only_if with different trims to both",
            )


RULE = rule("PIN101", Severity.STOP, Scope.RECORD, check)
