"""Cautions that a vehicle's record calls for. They stand on every page that concerns it."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from builder.model.car import (
    Battery,
    FactoryAmplifier,
    Features,
    Radio,
    Safety,
)
from builder.model.job import Job
from builder.model.vehicle import Vehicle
from builder.model.words import Tri
from builder.model.zones import all_known, known
from builder.planning.car.access import radio_parts
from builder.planning.sheet_rows import Step
from builder.rendering.pages.caution import Caution, near_restraints, settled, wait_words
from builder.rendering.pages.job_cautions import (
    cautions_of_course,
    cautions_of_places,
    cautions_of_second_battery,
)


def cautions_of(
    vehicle: Vehicle, job: Job | None = None, steps: Sequence[Step] = ()
) -> tuple[Caution, ...]:
    """Every caution that applies to this vehicle, and to this job on it; those for people first.

    `steps` are those of the job, where it has any: what they take off is what comes off. Of dangers
    to people, what nobody knows comes first: it is taken as there until somebody settles it.
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
    return tuple(sorted(found, key=lambda each: (each.weight != "danger", not each.unknown)))


def _restraints(vehicle: Vehicle) -> list[Caution]:
    safety = vehicle.safety
    named, looked = known(safety.restraint_zones), all_known(safety.restraint_zones)
    if looked and not named:
        return []
    never = (
        f"{wait_words(safety.restraint_wait_min)} Never probe, tap, tie to or ground on yellow "
        "plugs or sleeves. A seat with a bag: slide it on its rails only, and never switch on with "
        "its plug apart."
    )
    if looked:
        title = "Restraint parts near the work: " + "; ".join(named)
        return [Caution("danger", title, never, "restraints")]
    title = "Restraint parts not looked for" + (f", known of: {'; '.join(named)}" if named else "")
    text = f"Take every place as near one. {settled(Safety, 'restraint_zones')} {never}"
    return [Caution("danger", title, text, "restraints", unknown=True)]


def _high_voltage(vehicle: Vehicle) -> list[Caution]:
    zones, hybrid = vehicle.safety.high_voltage_zones, vehicle.features.hybrid
    named, looked = known(zones), all_known(zones)
    if not named and hybrid == "no":
        return []
    if hybrid == "unknown" and not named:
        text = (
            "The record does not say whether this car has a high-voltage system. Find out before "
            "you route anything; orange cable or sleeve means that it has. "
            f"{settled(Features, 'hybrid')}"
        )
        title = "High voltage not ruled out"
        return [Caution("danger", title, text, "high_voltage", unknown=True)]
    nowhere = ", no zone named" if looked else ", zones not recorded"
    where = ": " + "; ".join(named) if named else nowhere
    text = (
        "Keep every route clear of orange cable, share no grommet with it, and leave the service "
        "plug to people licensed for it. The 12 V side is fed by a DC-DC converter, not an "
        "alternator."
    )
    if looked or hybrid == "no":
        return [Caution("danger", f"High-voltage system{where}", text, "high_voltage")]
    text = (
        f"Take every place as near an orange cable. {settled(Safety, 'high_voltage_zones')} {text}"
    )
    return [Caution("danger", f"High-voltage system{where}", text, "high_voltage", unknown=True)]


def _sounds(vehicle: Vehicle) -> list[Caution]:
    if vehicle.sounds_known:
        return []
    text = (
        "Any speaker may give a warning of the car, so no pair is taken from it. "
        f"{settled(Vehicle, 'protected_sounds')}"
    )
    return [
        Caution("danger", "The car's own sounds not listened for", text, "sounds", unknown=True)
    ]


def _stated(vehicle: Vehicle) -> list[Caution]:
    stated = vehicle.safety.cautions
    if not stated:
        return []
    return [Caution("danger", "Stated for this car", "; ".join(stated), "stated")]


def _removal(vehicle: Vehicle) -> list[Caution]:
    removal = vehicle.radio.removal
    before = radio_parts(vehicle)
    mind = removal.hazards if removal else ()
    hazards = [*(f"{part.name}: {each}" for part in before for each in part.hazards), *mind]
    out: Tri = removal.restraint if removal else "unknown"
    near = [("the radio", out), *((part.name, part.restraint) for part in before)]
    found = near_restraints("Restraint part near the radio", near, vehicle)
    if removal is None:
        title = "How the radio comes out is not recorded"
        text = f"Nothing is forced. {settled(Radio, 'removal')}"
        found.append(Caution("care", title, text, "removal", unknown=True))
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
    if sensor == "yes":
        return [Caution("care", title, text, "battery")]
    text = f"{text} {settled(Battery, 'sensor_on_negative')}"
    return [Caution("care", f"{title} not ruled out", text, "battery", unknown=True)]


def _feature(name: str, title: str, text: str) -> Callable[[Vehicle], list[Caution]]:
    """A caution for a feature that the car has, or may have."""

    def look(vehicle: Vehicle) -> list[Caution]:
        has: Tri = getattr(vehicle.features, name)
        if has == "no":
            return []
        if has == "yes":
            return [Caution("care", title, text, name)]
        more = f"{text} {settled(Features, name)}"
        return [Caution("care", f"{title}: not known, so check", more, name, unknown=True)]

    return look


def _radio(vehicle: Vehicle) -> list[Caution]:
    found = []
    if vehicle.radio.outputs == "bridged":
        text = "Neither leg of a pair is ground. Never join a leg to the body or to another pair."
        found.append(Caution("care", "Bridged radio outputs", text, "radio"))
    if vehicle.radio.outputs == "unknown":
        text = "Treat every leg as bridged: join none to the body until both have been measured."
        text = f"{text} {settled(Radio, 'outputs')}"
        found.append(
            Caution("care", "Kind of radio outputs not known", text, "radio", unknown=True)
        )
    if vehicle.radio.open_load_check == "yes":
        text = "With no speaker connected it mutes or stores a fault: stand in for the speaker."
        found.append(Caution("care", "The radio checks its loads", text, "radio"))
    if vehicle.radio.open_load_check == "unknown":
        text = "It may mute or store a fault with no speaker connected: stand in for the speaker."
        text = f"{text} {settled(Radio, 'open_load_check')}"
        title = "Whether the radio checks its loads: not known"
        found.append(Caution("care", title, text, "radio", unknown=True))
    if vehicle.factory_amplifier.feed == "unknown":
        text = "Find out first. Pins at the radio may carry nothing, or a fixed level."
        text = f"{text} {settled(FactoryAmplifier, 'feed')}"
        found.append(
            Caution("care", "Factory amplifier not ruled out", text, "radio", unknown=True)
        )
    return found


_LOOKS: tuple[Callable[[Vehicle], list[Caution]], ...] = (
    _restraints,
    _high_voltage,
    _sounds,
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
