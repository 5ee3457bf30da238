"""Cautions of one job: what its steps take off and slide, and what is near that."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from builder.model.access import AccessPart, Removal
from builder.model.job import Job
from builder.model.vehicle import Vehicle
from builder.planning.car.access import fastener_words, job_parts, radio_parts
from builder.planning.course.car_states import RADIO
from builder.planning.sheet_rows import Step
from builder.planning.words import HowItStands
from builder.rendering.pages.caution import Caution, near_restraints


def cautions_of_course(vehicle: Vehicle, steps: Sequence[Step]) -> list[Caution]:
    """Return what the steps take off, the radio too, and what they only slide; in their order."""
    known = {part.name: part for part in vehicle.access}
    off = [known[name] for name in _brought(steps, "off") if name in known]
    said = [_off_words(part, vehicle) for part in off]
    if RADIO in _brought(steps, "pulled"):
        said.append(_held(RADIO, vehicle.radio.removal))
    slid = [name for name in _brought(steps, "slid") if name in known]
    return [
        *_near_what_is_off(vehicle, off),
        *([Caution("care", _OFF, "; ".join(said), "removal")] if said else []),
        *([Caution("care", _SLID, "; ".join(slid), "removal")] if slid else []),
    ]


_OFF: Final = "Comes off for this job"
_SLID: Final = "Slid on its rails and bolted all the time"


def _brought(steps: Sequence[Step], to: HowItStands) -> tuple[str, ...]:
    """What is brought to stand so, each once, in the order of the steps."""
    return tuple(dict.fromkeys(x.what for step in steps for x in step.moves if x.value == to))


def cautions_of_places(vehicle: Vehicle, job: Job) -> list[Caution]:
    """Return what would come off for the places of a job without steps; the radio speaks for
    itself."""
    radio = _before_radio(vehicle)
    parts = [part for part in job_parts(vehicle, job) if part not in radio]
    if not parts:
        return []
    off = "; ".join(_off_words(part, vehicle) for part in parts)
    return [*_near_what_is_off(vehicle, parts), Caution("care", _OFF, off, "removal")]


def _before_radio(vehicle: Vehicle) -> tuple[AccessPart, ...]:
    """The parts before the radio: its own cautions speak of them."""
    return radio_parts(vehicle)


def _near_what_is_off(vehicle: Vehicle, parts: Sequence[AccessPart]) -> list[Caution]:
    radio = _before_radio(vehicle)
    near = [(part.name, part.restraint) for part in parts if part not in radio]
    return near_restraints("Restraint part near what comes off", near, vehicle)


def _off_words(part: AccessPart, vehicle: Vehicle) -> str:
    """A part with what holds it and what to mind: "trim (4 × cross 2): its clips break"."""
    said = _held(part.name, part)
    told = part not in _before_radio(vehicle) and part.hazards
    return f"{said}: {', '.join(part.hazards)}" if told else said


def _held(name: str, part: AccessPart | Removal | None) -> str:
    """What holds a part or the radio: "trim (4 × cross 2)"."""
    held = fastener_words(part.fasteners) if part else ""
    return f"{name} ({held})" if held else name


def cautions_of_second_battery(job: Job) -> list[Caution]:
    """Return what a battery asks for that stands where people sit. Common practice, no source."""
    second = job.supply.second_battery
    if second is None:
        return []
    vented = second.type != "lithium"
    air = "; if it can give off gas, its vent led outside the cab by a hose" if vented else ""
    text = (
        "It stays live with the car's own off. Held so that no crash moves it, both posts "
        f"covered{air}. While it is in and its negative on, no bare tool over its posts: ring and "
        "watch off."
    )
    return [Caution("care", f"A second battery {second.place}", text, "battery")]
