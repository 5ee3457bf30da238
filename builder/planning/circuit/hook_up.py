"""Single wires between devices that no cable of the job carries: how long, how thick."""

from __future__ import annotations

from builder.model.job import AT_CONVERTER, Route
from builder.planning.cables.cut_lengths import cut_length_m, line_lead_m
from builder.planning.circuit.single_wires import Length
from builder.planning.circuit.work import CircuitWork
from builder.planning.power.conductors import Conductor, choice_awg, fuse_ceiling_a

BESIDE = "house default, side by side"
THINNEST_AWG = "18"
"""A single wire that nothing holds breaks when it is thinner. Common practice, no source."""


def between(work: CircuitWork, amplifier: str) -> Route | None:
    """Return the shortest measured way between the converter and an amplifier, or None."""
    ends = {AT_CONVERTER, amplifier}
    found = [route for route in work.parts.job.routes if {route.from_place, route.to_place} == ends]
    return min(found, key=lambda route: route.length_m, default=None)


def hook_up(work: CircuitWork, amplifier: str) -> Length:
    """Return the length of a wire between converter and amplifier: measured, or side by side;
    unknown to one that nobody has chosen.
    """
    if amplifier in work.unchosen:
        return Length(None)
    route = between(work, amplifier)
    return side_by_side(work) if route is None else along(work, route)


def along(work: CircuitWork, route: Route) -> Length:
    """Return the length of a wire along a measured way, with its slack."""
    return Length(
        cut_length_m(route.length_m, work.defaults), route.length_m, way=", ".join(route.zones)
    )


def side_by_side(work: CircuitWork) -> Length:
    """Return the length of a wire between devices whose way nobody measured."""
    return Length(work.defaults.beside_m, taken=BESIDE)


def line_length_m(work: CircuitWork, amplifier: str) -> float | None:
    """Return the line lead sold that reaches from the converter to an amplifier, or None."""
    if amplifier in work.unchosen:
        return None
    route = between(work, amplifier)
    return line_lead_m(work.defaults.beside_m if route is None else route.length_m, work.defaults)


def thin_enough(work: CircuitWork, fuse_a: float) -> Conductor:
    """Return the thinnest copper wire that a fuse protects, no thinner than hands can work."""
    sizes = choice_awg()
    least = next(each for each in sizes if each.size_awg == THINNEST_AWG)
    return next(
        each
        for each in sizes[sizes.index(least) :]
        if fuse_ceiling_a(each, work.defaults) >= fuse_a
    )
