"""A name in a job that leads nowhere.

What it catches
---------------
A vehicle, converter, data interface, amplifier, cable or loom that is not in the book; an amplifier
name, amplifier channel, factory pair, plug of a loom, question, sound, place of a route or way
through a bulkhead that nothing in the job or its vehicle record has; a plug that two looms are to
go to.

Why it matters in the bay
-------------------------
A job with a wrong name is planned for another part, or not at all. The lead is cut for a place
that nobody can find.

Example
-------
Fails::

    converter: cvn-2
    routes:
      - {from: radio, to: amp1, carries: signal, length_m: 3.6, zones: []}

Passes::

    converter: cvn-2a
    routes:
      - {from: radio, to: amp 1, carries: signal, length_m: 3.6, zones: []}

How to mend it
--------------
Correct the spelling (the finding names the nearest), or add the record or the part that is
missing. Of a job that is begun, copy back the file that the finding names.

Source
------
Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from builder.findings import Fault, Severity
from builder.model.book import Shelf
from builder.model.job import Job
from builder.model.job.places import BOARD
from builder.model.names import crossover_name
from builder.model.vehicle import Vehicle
from builder.planning.circuit.terminal_names import SECOND
from builder.planning.words import BLOCK
from builder.rules.rule import Scope, rule
from builder.rules.wording import missing
from builder.speller import nearest

_PLACES = (
    "radio",
    "factory amplifier",
    "fuse panel",
    "battery",
    "converter",
    "distribution block",
)
"""Places of a route that every job has."""


def check(job: Job, shelf: Shelf, vehicle: Vehicle | None) -> Iterator[Fault]:
    """Yield every name in the job that leads nowhere."""
    yield from _records(job, shelf)
    yield from _amplifiers(job, shelf)
    if vehicle is None and job.vehicle not in shelf.vehicle_ids:
        yield _no_car(job, shelf)
    if vehicle is not None:
        yield from _pairs(job, vehicle)
        yield from _plugs(job, vehicle)
        yield from _places(job, vehicle)
        yield from _passes(job, vehicle)
        yield from _sounds(job, vehicle)


def _no_car(job: Job, shelf: Shelf) -> Fault:
    """A job that is built names a record that was there: what brings it back is one file."""
    why = "nothing is known of the car"
    fault = missing(("vehicle",), "vehicle record", job.vehicle, shelf.vehicle_ids, why)
    if nearest(job.vehicle, sorted(shelf.vehicle_ids)):
        return fault
    if job.begun is not None:
        back = (
            f"copy {job.id}.begun.json back from a backup, beside the job's record: the car's "
            "record as it was that day is in it"
        )
        return replace(fault, help=back)
    if job.results:
        back = f"copy {job.vehicle}.yaml back from a backup into the folder vehicles"
        return replace(fault, help=back)
    return fault


def _records(job: Job, shelf: Shelf) -> Iterator[Fault]:
    if job.converter not in shelf.converters:
        why = "no level or turn-on can be worked out"
        yield missing(("converter",), "converter", job.converter, shelf.converters, why)
    for index, interface in enumerate(job.interfaces):
        if interface not in shelf.interfaces:
            why = "nobody knows what it gives and what it fits"
            yield missing(("interfaces", index), "interface", interface, shelf.interfaces, why)
    for amplifier in job.amplifiers:
        if amplifier.part not in shelf.amplifiers:
            path, why = (*amplifier.path, "part"), "no gain or fuse can be worked out"
            yield missing(path, "amplifier", amplifier.part, shelf.amplifiers, why)
    for index, cable in enumerate(job.cables):
        if cable not in shelf.cables:
            why = "nobody knows what conductors it has"
            yield missing(("cables", index), "cable", cable, shelf.cables, why)
    for loom in job.looms:
        if loom.record not in shelf.looms:
            path, why = (*loom.path, "record"), "nobody knows what goes through it"
            yield missing(path, "loom", loom.record, shelf.looms, why)


def _amplifiers(job: Job, shelf: Shelf) -> Iterator[Fault]:
    names = [each.name for each in job.amplifiers]
    for speaker in job.speakers:
        path = (*speaker.path, "driven_by")
        amplifier = job.amplifier(speaker.amplifier)
        part = shelf.amplifiers.get(amplifier.part) if amplifier else None
        count = sum(group.count for group in part.channels) if part else None
        if amplifier is None:
            why = f"nothing drives {speaker.name}"
            yield missing((*path, "amplifier"), "amplifier", speaker.amplifier, names, why)
        elif count is not None and speaker.amplifier_channel > count:
            yield Fault(
                (*path, "channel"),
                f"{speaker.name} hangs on channel {speaker.amplifier_channel} of "
                f"{speaker.amplifier}, which has {count} (counted from 1 through its groups)",
                "type the number of a channel that it has",
            )
    fixed = [*_devices(job, shelf, names)]
    for mount in job.mounts:
        if mount.device not in fixed:
            where = (*mount.path, "device")
            yield missing(where, "device", mount.device, fixed, "nothing of that name is fitted")
    for index, branch in enumerate(job.supply.branches):
        if branch.amplifier not in names:
            where = (*job.supply.path, "distribution", "branches", index, "amplifier")
            yield missing(where, "amplifier", branch.amplifier, names, "the branch feeds nothing")


def _devices(job: Job, shelf: Shelf, amplifiers: list[str]) -> Iterator[str]:
    """Whatever a mount can hold, as the sheets name it."""
    yield from ("converter", *amplifiers, *(each.name for each in job.speakers))
    yield from (each.name for each in job.other_turn_on_loads)
    yield from (crossover_name(each.channel) for each in job.speakers if each.crossover)
    yield from (shelf.interfaces[each].name for each in job.interfaces if each in shelf.interfaces)
    yield from [BLOCK] if job.supply.branches else []
    yield from [SECOND] if job.supply.second_battery else []
    yield BOARD


def _pairs(job: Job, vehicle: Vehicle) -> Iterator[Fault]:
    known = [each.channel for each in vehicle.channels]
    why = f'the record "{vehicle.id}" describes no such pair'
    for speaker in job.speakers:
        for index, name in enumerate(speaker.plays):
            if name not in known:
                yield missing((*speaker.path, "from", index), "pair", name, known, why)
    for name in job.treatment:
        if name not in known:
            yield missing(("treatment", name), "pair", name, known, why)


def _plugs(job: Job, vehicle: Vehicle) -> Iterator[Fault]:
    known = [plug.id for plug in vehicle.plugs]
    for at, loom in enumerate(job.looms):
        if loom.plug not in known:
            why = f'the record "{vehicle.id}" describes no such plug'
            yield missing((*loom.path, "plug"), "plug", loom.plug, known, why)
        elif loom.plug in [each.plug for each in job.looms[:at]]:
            yield Fault(
                (*loom.path, "plug"),
                f"plug {loom.plug} goes into two looms",
                "name the plug that this one takes, or take one of the two out",
            )


def _places(job: Job, vehicle: Vehicle) -> Iterator[Fault]:
    known = _known_places(job, vehicle)
    for route in job.routes:
        ends = (("from", route.from_place), ("to", route.to_place))
        strange = [(key, place) for key, place in ends if place not in known]
        for key, place in strange:
            # A tap half-way has no name in any record, so one end may be in free words, but
            # not in words that look like a slip of the pen.
            if len(strange) == len(ends) or nearest(place, known, least=0.75):
                why = "the route cannot be found in the car"
                yield missing((*route.path, key), "place", place, known, why)


def _known_places(job: Job, vehicle: Vehicle) -> list[str]:
    found = [
        *_PLACES,
        *(each.name for each in job.amplifiers),
        *(each.name for each in job.speakers),
        *job.interfaces,
        *(plug.location for plug in vehicle.plugs),
        *(position.position for position in vehicle.fuse_positions),
    ]
    return list(dict.fromkeys(found))


def _passes(job: Job, vehicle: Vehicle) -> Iterator[Fault]:
    known = [*(each.name for each in vehicle.passages), *(hole.where for hole in job.holes)]
    for one in job.passes:
        if one.through not in known:
            why = "nobody knows what the cable goes through"
            yield missing((*one.path, "through"), "passage or hole", one.through, known, why)


def _sounds(job: Job, vehicle: Vehicle) -> Iterator[Fault]:
    questions = [each.question for each in vehicle.how_to_tell]
    for index, told in enumerate(job.car.answers):
        if told.question not in questions:
            why = f'the record "{vehicle.id}" does not ask it'
            path = ("car", "answers", index, "question")
            yield missing(path, "question", told.question, questions, why)
    sounds = [each.sound for each in vehicle.sounds]
    for index, sound in enumerate(job.protect):
        if sound not in sounds:
            why = "nobody knows which speaker it comes from, so nobody can keep it"
            yield missing(("protect", index), "protected sound", sound, sounds, why)


RULE = rule("TOP101", Severity.STOP, Scope.NAMES, check)
