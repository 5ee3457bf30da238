"""Cautions that a vehicle's record calls for. They stand on every page that concerns it."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from builder.model.job import Job
from builder.model.vehicle import Vehicle
from builder.model.words import Tri
from builder.planning.car.access import radio_parts
from builder.planning.sheet_rows import Step
from builder.rendering.pages.caution import Caution, near_restraints, wait_words
from builder.rendering.pages.job_cautions import (
    cautions_of_course,
    cautions_of_places,
    cautions_of_second_battery,
)


def cautions_of(
    vehicle: Vehicle, job: Job | None = None, steps: Sequence[Step] = ()
) -> tuple[Caution, ...]:
    """Every caution that applies to this vehicle, and to this job on it; those for people first.

    `steps` are those of the job, where it has any: what they take off is what comes off.
    """
    found = [caution for look in _LOOKS for caution in look(vehicle)]
    found += cautions_of_second_battery(job) if job else []
    found += (
        cautions_of_course(vehicle, steps)
        if steps
        else cautions_of_places(vehicle, job)
        if job
        else []
    )
    return tuple(sorted(found, key=lambda caution: caution.weight != "danger"))


def _restraints(vehicle: Vehicle) -> list[Caution]:
    safety = vehicle.safety
    if not safety.restraint_zones:
        return []
    return [
        Caution(
            "danger",
            "Restraint parts near the work: " + "; ".join(safety.restraint_zones),
            f"{wait_words(safety.restraint_wait_min)} Never probe, tap, tie to or ground on yellow "
            "plugs or sleeves. A seat with a bag: slide it on its rails only, and never switch on "
            "with its plug apart.",
            "restraints",
        )
    ]


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
    found = near_restraints("Restraint part near the radio", near, vehicle)
    if hazards:
        found.append(Caution("care", "Taking the radio out", "; ".join(hazards), "removal"))
    return found


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
