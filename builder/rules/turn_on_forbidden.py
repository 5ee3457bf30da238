"""A turn-on taken from where nothing may be taken.

What it catches
---------------
A control route of the job that begins at a fuse position which is always live, sleeps with the
network, or belongs to restraints, brakes, steering or the engine; or a chosen pin with such a
function.

Why it matters in the bay
-------------------------
A flat battery in the mild case. In the other an airbag lamp, or an engine that stops.

Example
-------
Fails::

    fuse_positions: [{position: F27, label: comfort, function: constant_sleeps}]
    routes: [{from: F27, to: converter, carries: control, length_m: 5.0, zones: []}]

Passes::

    fuse_positions: [{position: F14, label: rear accessory, function: accessory}]
    routes: [{from: F14, to: converter, carries: control, length_m: 5.0, zones: []}]

How to mend it
--------------
Take the turn-on that the plan names.

Source
------
Common practice, no source.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from builder.findings import Fault, Severity
from builder.model.plugs import FusePosition
from builder.model.words import Function
from builder.planning.turn_on.loads import turn_on_pin
from builder.planning.work_pack import JobParts, WorkPack
from builder.rules.rule import Scope, rule
from builder.rules.wording import function_words

ALLOWED: frozenset[Function] = frozenset(
    {"accessory", "retained", "run", "amplifier_on", "speaker"}
)
"""Functions that may turn something on. Common practice."""
_KEEP_OFF = (
    "airbag",
    "restraint",
    "srs",
    "belt",
    "brake",
    "abs",
    "steering",
    "engine",
    "injection",
)


def check(pack: WorkPack, parts: JobParts) -> Iterator[Fault]:
    """Yield each control route and chosen pin that must not be used."""
    positions = {each.position: each for each in parts.vehicle.fuse_positions}
    for route in parts.job.routes:
        position = positions.get(route.from_place) if route.carries == "control" else None
        why = _against(position) if position else None
        if why is not None:
            yield Fault(
                (*route.path, "from"),
                f"{route.from_place} {why}: it must not turn anything on",
                "take the turn-on that the plan names",
            )
    pin = turn_on_pin(parts.vehicle, pack.plan.turn_on)
    if pin is not None and pin.function not in ALLOWED:
        yield Fault(
            ("converter",),
            f"the turn-on is {function_words(pin.function)}, which must not turn anything on",
            "take another turn-on",
        )


def _against(position: FusePosition) -> str | None:
    words = set(re.findall(r"[a-z]+", position.label.lower()))
    kept = next((word for word in _KEEP_OFF if word in words), None)
    if kept is not None:
        return f'feeds "{position.label}"'
    if position.function not in ALLOWED:
        return f"is {function_words(position.function)}"
    return None


RULE = rule("ONN102", Severity.STOP, Scope.JOB, check, hazard=True)
