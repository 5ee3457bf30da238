"""Each ground of a device before any power: the gross fault, found with an ohmmeter."""

from __future__ import annotations

from collections.abc import Iterator

from builder.planning.bay import bands
from builder.planning.bay.ids import speakable
from builder.planning.bay.line import WITH_THE_CIRCUIT, measure
from builder.planning.bay.second_battery_lines import second_rest
from builder.planning.bay.work import BayWork
from builder.planning.car.interface_supply import joined_legs
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
    yield from second_rest(parts.job.supply, work.defaults)
    yield from _at_plugs(work)


def _at_plugs(work: BayWork) -> Iterator[BayTest]:
    """Yield a line for each device that takes its ground from a wire of the car at a plug.

    Through a loom it is read when that is in, else before anything else is joined.
    """
    for device, plug, cavity in _grounds_at_plugs(work):
        where = f"{plug}.{cavity}"
        yield measure(
            speakable(device, "plug ground ohms"), "built" if plug in work.looms else "ground",
            f"ground terminal of {device} to bare body beside the battery's strap, through {where} "
            "of the car, test leads' ohms taken off", "battery_off", "ohm", None,
            bands.GROUND_MAX_OHM, "a wire that is no ground, or a joint that is none",
            (ground_of(device), where), WITH_THE_CIRCUIT,
        )  # fmt: skip


def _grounds_at_plugs(work: BayWork) -> Iterator[tuple[str, str, str]]:
    """Each device with plug and cavity of its ground."""
    for at in work.plan.supplied_at:
        if at.function == "ground" and at.plug is not None and at.cavity is not None:
            yield work.parts.converter.name, at.plug, at.cavity
    interface = work.parts.shelf.interfaces.get(work.plan.turn_on.interface or "")
    if interface is None:
        return
    for leg in joined_legs(work.parts.vehicle, interface):
        if leg.pin.function == "ground":
            yield interface.name, leg.plug.id, leg.pin.cavity
