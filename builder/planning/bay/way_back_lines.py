"""The way back to stock, from the battery off to the battery on: nothing of the car stays open."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from builder.model.access import AccessPart
from builder.model.job import AT_RADIO
from builder.model.vehicle import Vehicle
from builder.planning.bay.closed_holes import closed_holes
from builder.planning.bay.second_battery_lines import negatives
from builder.planning.car.access import fastener_words, in_order, job_parts, parts_over, radio_parts
from builder.planning.car.kept_sounds import microphones_out
from builder.planning.car.route_zones import restraint_zones_touched, touches
from builder.planning.car.selection import Selection
from builder.planning.work_pack import JobParts


def revert_list(
    parts: JobParts, selection: Selection, undone: Sequence[str], undone_at: Sequence[str]
) -> tuple[str, ...]:
    """Return what is undone, in order, to have the car as it left the factory.

    `undone` are the joints on the car's own wires, from the circuit, `undone_at` their places.
    """
    off = negatives(parts.job.supply)
    vehicle, way = parts.vehicle, _Open(parts, undone_at)
    lines = [f"Main fuse out and {off} first; wait as for the work itself.", *way.opened(), *undone]
    if microphones_out(vehicle, selection):
        lines.append("Plug the noise-cancellation microphones in again, each where it was noted.")
    lines.append("Take supply, ground and cables out; seal every hole and grommet.")
    lines += closed_holes(parts.job)
    lines += way.closed()
    lines += [f"Put back as found: {zone}." for zone in restraint_zones_touched(parts.job, vehicle)]
    lines.append("The car's battery negative on again, when all of it is closed.")
    lines.append("Lamps, faults and sounds as written down before the work.")
    return tuple(lines)


class _Open:
    """What is opened to reach the joints that are undone, and closed again in reverse."""

    def __init__(self, parts: JobParts, undone_at: Sequence[str]) -> None:
        vehicle = parts.vehicle
        self.radio = [place for place in undone_at if touches(place, AT_RADIO)]
        self.elsewhere = [place for place in undone_at if place not in self.radio]
        over = [part.name for place in self.elsewhere for part in parts_over(vehicle, place)]
        over += [part.name for part in job_parts(vehicle, parts.job)]
        over += [part.name for part in radio_parts(vehicle)] if self.radio else []
        self.parts = in_order(vehicle, over)
        self.vehicle = vehicle

    def opened(self) -> Iterator[str]:
        for part in self.parts:
            yield _off(part)
        for place in self._untold:
            yield f"Open the {place}: how is not on record; write down what comes off."
        if self.radio:
            yield _radio_out(self.vehicle)

    def closed(self) -> Iterator[str]:
        if self.radio:
            yield (
                "Radio home: each plug in until it clicks, no wire pinched behind it, and what "
                "held it back in reverse order."
            )
        for place in reversed(self._untold):
            yield f"Close the {place} again, with whatever was taken off."
        if self.parts:
            yield f"On again, in this order: {'; '.join(map(_home, reversed(self.parts)))}."

    @property
    def _untold(self) -> list[str]:
        """Places that something covers, and of which the record does not say what."""
        return [each for each in self.elsewhere if not parts_over(self.vehicle, each)]


def _off(part: AccessPart) -> str:
    held = fastener_words(part.fasteners)
    plugs = f"its plugs off: {', '.join(part.plugs)}" if part.plugs else ""
    said = "; ".join((*part.steps, *([plugs] if plugs else ())))
    return f"Off: {part.name}{f' ({held})' if held else ''}{f': {said}' if said else ''}."


def _home(part: AccessPart) -> str:
    return part.name + (f", its plugs home ({', '.join(part.plugs)})" if part.plugs else "")


def _radio_out(vehicle: Vehicle) -> str:
    removal = vehicle.radio.removal
    if removal is None:
        return "Radio out: how is not on record; write down what comes off."
    mind = f" Mind: {'; '.join(removal.hazards)}." if removal.hazards else ""
    return f"Radio out: {'; '.join(removal.steps)}.{mind}"
