"""Cautions that a vehicle's record calls for. They stand on every page that concerns it."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Literal, NamedTuple

from builder.model.access import AccessPart
from builder.model.glossary import CARE, DANGER
from builder.model.job import Job
from builder.model.vehicle import Vehicle
from builder.model.words import Tri
from builder.planning.car.access import fastener_words, job_parts, radio_parts

Weight = Literal["danger", "care"]
"""Whether a caution is about a person or about the car."""


class Caution(NamedTuple):
    """One caution: its weight, then what and why.

    `topic` says what it is about, so that a sheet shows those that concern it: restraints,
    high_voltage, stated, removal, battery, radio or the name of a feature.
    """

    weight: Weight
    title: str
    text: str
    topic: str

    @property
    def word(self) -> str:
        """The weight as a printed word, so that colour never carries it alone."""
        return DANGER if self.weight == "danger" else CARE


def cautions_of(vehicle: Vehicle, job: Job | None = None) -> tuple[Caution, ...]:
    """Every caution that applies to this vehicle, and to this job on it; those for people first."""
    found = [caution for look in _LOOKS for caution in look(vehicle)]
    found += _of_job(vehicle, job) if job else []
    return tuple(sorted(found, key=lambda caution: caution.weight != "danger"))


def _restraints(vehicle: Vehicle) -> list[Caution]:
    safety = vehicle.safety
    if not safety.restraint_zones:
        return []
    return [
        Caution(
            "danger",
            "Restraint parts near the work: " + "; ".join(safety.restraint_zones),
            f"{_wait(safety.restraint_wait_min)} Never probe, tap, tie to or ground on yellow "
            "plugs or sleeves. A seat with a bag: slide it on its rails only, and never switch on "
            "with its plug apart.",
            "restraints",
        )
    ]


def _wait(minutes: float | None) -> str:
    """How long after the battery is off; a figure nobody has is looked up, never guessed."""
    if minutes is not None:
        return (
            f"Battery negative off, then wait {minutes:g} min (the figure recorded from the "
            "vehicle maker), before anything there is unplugged."
        )
    return (
        "Battery negative off, then a wait whose length nobody has recorded: look it up in the "
        "maker's instructions before any restraint plug is touched. Until then that step is "
        "blocked."
    )


def _high_voltage(vehicle: Vehicle) -> list[Caution]:
    zones = vehicle.safety.high_voltage_zones
    hybrid = vehicle.features.hybrid
    if not zones and hybrid == "no":
        return []
    if hybrid == "unknown" and not zones:
        text = (
            "The record does not say whether this car has a high-voltage system. Find out before "
            "you route anything; orange cable or sleeve means that it has."
        )
        return [Caution("danger", "High voltage not ruled out", text, "high_voltage")]
    where = ": " + "; ".join(zones) if zones else ", zones not recorded"
    text = (
        "Keep every route clear of orange cable, share no grommet with it, and leave the service "
        "plug to people licensed for it. The 12 V side is fed by a DC-DC converter, not an "
        "alternator."
    )
    return [Caution("danger", f"High-voltage system{where}", text, "high_voltage")]


def _stated(vehicle: Vehicle) -> list[Caution]:
    stated = vehicle.safety.cautions
    if not stated:
        return []
    return [Caution("danger", "Stated for this car", "; ".join(stated), "stated")]


def _removal(vehicle: Vehicle) -> list[Caution]:
    removal = vehicle.radio.removal
    if not removal:
        return []
    before = radio_parts(vehicle)
    hazards = [*(hazard for part in before for hazard in part.hazards), *removal.hazards]
    near = [("the radio", removal.restraint), *((part.name, part.restraint) for part in before)]
    found = _near_restraints("Restraint part near the radio", near, vehicle)
    if hazards:
        found.append(Caution("care", "Taking the radio out", "; ".join(hazards), "removal"))
    return found


def _of_job(vehicle: Vehicle, job: Job) -> list[Caution]:
    """What comes off for the places of a job, and what is near it; the radio speaks for itself."""
    radio = radio_parts(vehicle) if vehicle.radio.removal else ()
    parts = [part for part in job_parts(vehicle, job) if part not in radio]
    if not parts:
        return []
    near = [(part.name, part.restraint) for part in parts]
    found = _near_restraints("Restraint part near what comes off", near, vehicle)
    off = [_off_words(part) for part in parts]
    return [*found, Caution("care", "Comes off for this job", "; ".join(off), "removal")]


def _off_words(part: AccessPart) -> str:
    """A part with what holds it and what to mind: "trim (4 × cross 2): its clips break"."""
    held = fastener_words(part.fasteners)
    said = f"{part.name} ({held})" if held else part.name
    return f"{said}: {', '.join(part.hazards)}" if part.hazards else said


def _near_restraints(
    title: str, near: Sequence[tuple[str, Tri]], vehicle: Vehicle
) -> list[Caution]:
    """Where the work has a restraint part within reach, or nobody said that it has none."""
    said = [
        f"{words}: {', '.join(names)}."
        for answer, words in _REACH.items()
        if (names := [name for name, has in near if has == answer])
    ]
    if not said:
        return []
    safety = vehicle.safety
    wait = _FIRST_OFF if safety.restraint_zones else _wait(safety.restraint_wait_min)
    return [Caution("danger", title, f"{' '.join(said)} {wait}", "restraints")]


_FIRST_OFF = (
    "Battery negative off and the whole wait first."  # the zones' own caution has its length
)
_REACH: dict[Tri, str] = {
    "yes": "Within reach of the work on",
    "unknown": "Not said, so take it as near, for",
}


def _battery(vehicle: Vehicle) -> list[Caution]:
    sensor = vehicle.power.battery.sensor_on_negative
    if sensor == "no":
        return []
    text = (
        "Return the amplifier's ground to the body, never to the battery post: current that "
        "bypasses the sensor is not counted, and charging and start-stop suffer."
    )
    title = "Battery sensor on the negative post"
    said = title if sensor == "yes" else f"{title} not ruled out"
    return [Caution("care", said, text, "battery")]


def _feature(name: str, title: str, text: str) -> Callable[[Vehicle], list[Caution]]:
    """A caution for a feature that the car has, or may have."""

    def look(vehicle: Vehicle) -> list[Caution]:
        has: Tri = getattr(vehicle.features, name)
        if has == "no":
            return []
        said = title if has == "yes" else f"{title}: not known, so check"
        return [Caution("care", said, text, name)]

    return look


def _radio(vehicle: Vehicle) -> list[Caution]:
    found = []
    if vehicle.radio.outputs == "bridged":
        text = "Neither leg of a pair is ground. Never join a leg to the body or to another pair."
        found.append(Caution("care", "Bridged radio outputs", text, "radio"))
    if vehicle.radio.outputs == "unknown":
        text = "Treat every leg as bridged: join none to the body until both have been measured."
        found.append(Caution("care", "Kind of radio outputs not known", text, "radio"))
    if vehicle.radio.open_load_check == "yes":
        text = "With no speaker connected it mutes or stores a fault: stand in for the speaker."
        found.append(Caution("care", "The radio checks its loads", text, "radio"))
    if vehicle.factory_amplifier.feed == "unknown":
        text = "Find out first. Pins at the radio may carry nothing, or a fixed level."
        found.append(Caution("care", "Factory amplifier not ruled out", text, "radio"))
    return found


_LOOKS: tuple[Callable[[Vehicle], list[Caution]], ...] = (
    _restraints,
    _high_voltage,
    _stated,
    _battery,
    _feature(
        "start_stop",
        "Start-stop",
        "The supply dips at each restart. Check that converter and amplifier stay on through it.",
    ),
    _feature(
        "emergency_call",
        "Emergency call",
        "Its voice must be heard with the added amplifier off or broken. Do not route it through.",
    ),
    _feature(
        "noise_cancellation",
        "Noise cancellation",
        "With an added subwoofer it can drone. Unplug its microphones, and record it.",
    ),
    _feature(
        "engine_sound",
        "Engine sound from the speakers",
        "Amplified, it booms. Leave the sounder that warns people outside the car alone.",
    ),
    _radio,
    _removal,
)
