"""A line holds for a trim that the record is not about.

What it catches
---------------
A trim under `only_if` that is none of the trims of the scope, where the scope names its trims.

Why it matters in the bay
-------------------------
No car of the record has such a trim, so the line counts for none of them: a wire that is there is
not tapped, and a cavity that holds two lines for two trims holds one.

Example
-------
Fails::

    scope: {trims: [base, sport]}
    pins:
      - {cavity: 18, function: amplifier_on, only_if: {trims: [sprot]}}

Passes::

    scope: {trims: [base, sport]}
    pins:
      - {cavity: 18, function: amplifier_on, only_if: {trims: [sport]}}

How to mend it
--------------
Correct the trim, or add it to the trims of the scope when the record is about such cars too.
`loombook mend` types a trim that is only misspelt.

Source
------
Chosen by this project.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.findings import Fault, Severity
from builder.model.book import Shelf
from builder.model.vehicle import Vehicle
from builder.model.words import ALL
from builder.rules.rule import Scope, rule
from builder.rules.wording import did_you_mean, sure_fix


def check(vehicle: Vehicle, shelf: Shelf) -> Iterator[Fault]:
    """Yield each trim of a line that the scope does not have."""
    trims = vehicle.scope.trims
    if ALL in trims:
        return
    for plug in vehicle.plugs:
        for pin in plug.pins:
            for at, trim in enumerate(pin.only_if.trims if pin.only_if else ()):
                if trim not in trims:
                    path = (*pin.path, "only_if", "trims", at)
                    yield Fault(
                        path,
                        f'{plug.id}.{pin.cavity} holds for the trim "{trim}", and the record is '
                        f"about {', '.join(trims)}: it counts for no car",
                        did_you_mean(trim, trims),
                        fix=sure_fix(path, trim, trims),
                    )


RULE = rule("PIN132", Severity.FIX, Scope.VEHICLE, check)
