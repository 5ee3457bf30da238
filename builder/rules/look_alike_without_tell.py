"""Two plugs look alike and nothing tells them apart.

What it catches
---------------
Two plugs with the same housing, or with the same number of cavities at the same unit, and
no `look_alikes` entry that says how to tell them apart (fix), or only one tell (note).

Why it matters in the bay
-------------------------
A second plug that fits mechanically puts 12 V into a camera or an aerial. The housing's colour
alone is no tell: greys fade and suppliers change.

Example
-------
Fails::

    plugs:
      - {id: A, unit: radio, housing: two-row-16}
      - {id: B, unit: radio, housing: two-row-16}

Passes::

    plugs:
      - {id: A, unit: radio, housing: two-row-16}
      - id: B
        unit: radio
        housing: two-row-16
        look_alikes:
          - plug: A
            fits: "no"
            tell:
              - A has two thick wires in 1 and 9
              - B has a bare shield wire in 16

How to mend it
--------------
Add a `look_alikes` entry to one of the two plugs with two tells that do not depend on each
other, for example a thick wire and a colour at a named cavity.

Source
------
Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations

from builder.findings import Fault, Severity
from builder.model.book import Shelf
from builder.model.plugs import Plug
from builder.model.vehicle import Vehicle
from builder.proof.faces.look_alike import look_alike
from builder.rules.rule import Scope, rule

_TELLS_WANTED = 2


def check(vehicle: Vehicle, shelf: Shelf) -> Iterator[Fault]:
    """Yield the later of every two look-alike plugs with fewer than two tells."""
    for first, second in combinations(vehicle.plugs, 2):
        if first.id == second.id or not look_alike(first, second, shelf.housings):
            continue
        tells = _tells(first, second) | _tells(second, first)
        if len(tells) < _TELLS_WANTED:
            yield _fault(first, second, len(tells))


def _tells(plug: Plug, other: Plug) -> set[str]:
    return {tell for entry in plug.look_alikes if entry.plug == other.id for tell in entry.tell}


def _fault(first: Plug, second: Plug, tells: int) -> Fault:
    known = "nothing tells them apart" if tells == 0 else "one tell alone can mislead"
    return Fault(
        (*second.path, "housing"),
        f'plugs "{first.id}" and "{second.id}" look alike and {known}: '
        "power on the wrong one destroys what is behind it",
        f"add look_alikes: [{{plug: {first.id}, fits: unknown, tell: [...]}}] "
        "with two tells that do not depend on each other",
        Severity.NOTE if tells else None,
    )


RULE = rule("PIN107", Severity.FIX, Scope.VEHICLE, check, not_known=Severity)
