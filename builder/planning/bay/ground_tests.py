"""Each ground of a device before any power: the gross fault, found with an ohmmeter."""

from __future__ import annotations

from collections.abc import Iterator

from builder.planning.bay import bands
from builder.planning.bay.line import WITH_THE_CIRCUIT, measure
from builder.planning.bay.work import BayWork
from builder.planning.circuit.terminal_names import BODY_AT_STRAP, ground_of
from builder.planning.power.joiners import powered_joiner
from builder.planning.work_pack import BayTest


def ground_tests(work: BayWork) -> Iterator[BayTest]:
    """Yield one line for all devices that have a ground of their own at the body."""
    parts = work.parts
    own = parts.converter.kind == "active" and not work.plan.supplied_at
    joiner = powered_joiner(parts.job.supply.second_battery)
    names = [*parts.amplifiers, *([parts.converter.name] if own else [])]
    names += [] if joiner is None else [joiner]
    yield measure(
        "ground-ohms", "ground",
        f"ground terminal of {' and of '.join(names)} to bare body beside the battery's strap, "
        "test leads' ohms taken off; the highest counts", "battery_off", "ohm", None,
        bands.GROUND_MAX_OHM, "without its ground a device grounds itself through its line leads",
        tuple(end for name in names for end in (ground_of(name), BODY_AT_STRAP)), WITH_THE_CIRCUIT,
    )  # fmt: skip
