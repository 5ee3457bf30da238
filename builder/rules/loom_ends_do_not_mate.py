"""Ends of a loom that do not go into each other.

What it catches
---------------
A loom between radio and car whose two plugs would not go into each other: another number of
cavities, another place of the keyed corner or of a cavity, other blades, or housings that name
their mates and not each other. Where neither housing names any mate, nobody knows, and it is a
warning.

Why it matters in the bay
-------------------------
The radio end goes in the place of the car's plug, and the car end takes that plug: so the two ends
of a loom fit each other. Two plugs of one gender, or a key on the wrong side, are found with the
radio out and the customer waiting.

Example
-------
Fails::

    # no record says that a plug goes into a plug
    ends:
      - {name: radio end, housing: two-row-16, plugs_into: radio, read_from: wire_side}
      - {name: car end, housing: two-row-16, plugs_into: car, read_from: wire_side}

Passes::

    # two-row-16 says: mates_with: [socket-16]
    ends:
      - {name: radio end, housing: two-row-16, plugs_into: radio, read_from: wire_side}
      - {name: car end, housing: socket-16, plugs_into: car, read_from: wire_side}

How to mend it
--------------
Push the two ends together. When they fit, write it down under `mates_with` of both housings; when
they do not, name the housings that they are.

Source
------
Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.findings import DataPath, Fault, Severity
from builder.model.book import Shelf
from builder.model.housing import Housing
from builder.model.parts import Loom
from builder.planning.looms.mates import mates_said, mismatches
from builder.rules.rule import Scope, rule

_HELP = "push them together; name the housings that they are, or what they mate with"


def check(loom: Loom, shelf: Shelf) -> Iterator[Fault]:
    """Yield what keeps the plug of the car's end from taking that of each other end."""
    for at, end in enumerate(loom.ends):
        if end.plugs_into == "car":
            takes = shelf.housings.get(end.housing)
            for other in loom.ends:
                plug = shelf.housings.get(other.housing)
                if other.plugs_into != "car" and takes and plug:
                    yield from _unfit(("ends", at, "housing"), takes, plug)


def _unfit(path: DataPath, takes: Housing, plug: Housing) -> Iterator[Fault]:
    said = mates_said(takes, plug)
    pair = f'"{takes.id}" and "{plug.id}"'
    if said != "yes" and takes is plug:
        pair = f'two of "{plug.id}"'
    if said == "no":
        yield Fault(path, f"{pair} do not mate: their records name other housings", _HELP)
    elif said == "not recorded":
        message = f"nobody wrote down whether {pair} mate"
        yield Fault(path, message, _HELP, severity=Severity.WARN)
    if takes is not plug:
        for why in mismatches(takes, plug):
            yield Fault(path, f"{pair} cannot mate: {why}", _HELP)


RULE = rule("LOM108", Severity.STOP, Scope.PART, check, kinds=("loom",), not_known=(Severity.WARN,))
