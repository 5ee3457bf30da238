"""Readings of a comeback that lie at no point of a link: draws, looks, the lines of the sheet."""

from __future__ import annotations

from collections.abc import Iterator

from builder.planning.bay import bands
from builder.planning.bay.ids import speakable
from builder.planning.bay.insulation_tests import SUPPLY_INSULATION
from builder.planning.bay.line import measure
from builder.planning.bay.tune_tests import CORRECTION_STANDS
from builder.planning.circuit.terminal_names import supply_of, turn_on_input, turn_on_of
from builder.planning.comeback import symptoms
from builder.planning.comeback.bay_looks import bay_looks
from builder.planning.comeback.device_faults import (
    CARS_OWN_DRAW,
    CARS_OWN_LAMP,
    CORRECTION,
    LINE_LEADS,
)
from builder.planning.comeback.handed_over import HandedOver
from builder.planning.comeback.looks import (
    Look,
    free_of,
    high_if,
    ohms_between,
    switched_at,
    yes_if,
)
from builder.planning.comeback.passed_on import passed_on_readings
from builder.planning.comeback.points import point_readings
from builder.planning.comeback.reading_made import Reading, asked, ohms, places_of, volts
from builder.planning.power.asleep_draws import asleep_draws
from builder.planning.words import MAIN_FUSE, Turn
from builder.planning.work_pack import BayTest
from builder.proof.band import Band

_BEFORE_OR_WHOLE: tuple[Turn, ...] = (
    "at_table", "as_found", "proof", "proof_dead", "whole", "driven",
)  # fmt: skip
_TOLD_BY = ("battery-rest",)
"""Lines of the car as it came that tell as much of it when it is back."""
_THE_SYMPTOM_ITSELF = (
    "whine", "switch-on-thump", "restarts", SUPPLY_INSULATION, CORRECTION_STANDS,
)  # fmt: skip
"""Lines that ask what the customer said already, that ask for every device to be taken off, or
that an own question asks where the thing is."""


def all_readings(job: HandedOver) -> tuple[Reading, ...]:
    """Return everything that may be asked of a job, lines of its bay sheet first."""
    found: dict[str, Reading] = {}
    for reading in (*_lines(job), *point_readings(job), *_draws(job), *_looks(job)):
        found.setdefault(reading.test.id, reading)
    return tuple(found.values())


def _lines(job: HandedOver) -> Iterator[Reading]:
    looks = bay_looks(job)
    for test in job.pack.tests:
        wanted = test.turn not in _BEFORE_OR_WHOLE and test.id not in _THE_SYMPTOM_ITSELF
        if test.id in looks and (wanted or test.id in _TOLD_BY):
            dead = test.state == "battery_off"
            places = places_of(job.index, test.probes[:1] if not dead else test.probes)
            yield Reading(test, places, looks[test.id], opened=dead)


def _draws(job: HandedOver) -> Iterator[Reading]:
    """What each device draws asleep, and what the car draws without all of it."""
    asleep = asleep_draws(job.parts, job.pack.plan.turn_on)
    for name in job.devices:
        end = supply_of(name)
        if end in job.index.terminals:
            most = asleep.get(name) or job.house.device_asleep_ma
            look = _awake(job, name)
            yield _current(f"asleep draw of {name}", f"supply of {name}, clamp or across its fuse",
                           most, places_of(job.index, (end,)), look)  # fmt: skip
    yield Reading(
        _parked_without(), ("battery",), high_if(lambda now: now.has("car", CARS_OWN_DRAW))
    )


def _parked_without() -> BayTest:
    said = f"{MAIN_FUSE} and every other fuse of the job out: parked draw"
    why = "what is left is the car's own"
    return measure(
        "parked-without", "closing", said, "asleep", "ma", None, bands.PARKED_MAX_MA, why
    )


def _current(name: str, what: str, most_ma: float, places: tuple[str, ...], look: Look) -> Reading:
    why = "what stays awake draws"
    test = measure(speakable(name), "closing", what, "asleep", "ma", None, most_ma, why)
    return Reading(test, places, look)


def _looks(job: HandedOver) -> Iterator[Reading]:
    yield asked(
        "radio plays", "the radio itself lights up and plays", "tuner", (),
        yes_if(lambda now: now.day.radio_works),
    )  # fmt: skip
    yield asked(
        "lamp is new", "the lamp is not among those that were lit before work began", "run", (),
        free_of("car", CARS_OWN_LAMP),
    )  # fmt: skip
    yield from _settings(job)
    yield from passed_on_readings(job)
    yield from _past(job)
    yield from _key_off(job)
    yield from _at_speakers(job)
    yield from _at_radio(job)
    for part in job.restraint_parts:
        yield asked(
            f"home {part.name}", f"{', '.join(part.plugs)} of the {part.name}: home, seen and felt",
            "battery_off", part.uncovers[:1],
            free_of("restraint_plug", part.name),
        )  # fmt: skip


def _settings(job: HandedOver) -> Iterator[Reading]:
    converter = job.index.units[job.whole.day.converter]
    if job.parts.converter.bass_rolloff_correction is not None:
        yield asked(
            "correction", f"the correction of {converter.id} stands as on the levels sheet",
            "radio_on_zero", (converter.place,),
            free_of("setting", CORRECTION),
        )  # fmt: skip
    for link in job.circuit.links:
        if link.set_by:
            unit = job.index.unit_of(link.finishes)
            yield asked(
                f"switch {link.id}", f"{unit.id}: {link.set_by}", "radio_on_zero", (unit.place,),
                free_of("setting", link.id),
            )  # fmt: skip
    yield asked(
        "spare lead", "a spare line lead laid loosely through the car: the whine stays as it was",
        "engine", (converter.place,), free_of("noise", LINE_LEADS),
    )  # fmt: skip


def _past(job: HandedOver) -> Iterator[Reading]:
    """Whether a turn-on is taken where the converter's own comes in."""
    end = turn_on_input(job.whole.day.converter)
    if end in job.index.terminals:
        yield asked(
            f"one wire at {end}", f"at {end} sits nothing but the wire of its own label",
            "radio_on_zero", places_of(job.index, (end,)),
            yes_if(lambda now: not now.has("past_converter")),
        )  # fmt: skip


def _key_off(job: HandedOver) -> Iterator[Reading]:
    """Whether the amplifiers stay on for the sounds that come with the key off."""
    for name in job.amplifiers:
        live = switched_at(turn_on_of(name), "key_off")
        if live(job.whole):
            end = turn_on_of(name)
            yield volts(f"key off {end}", f"{end} to bare body, while the sound plays", "retained",
                        10.5, None, places_of(job.index, (end,)), yes_if(live))  # fmt: skip


def _at_speakers(job: HandedOver) -> Iterator[Reading]:
    for name in job.speakers:
        place = job.index.units[name].place
        yield ohms(
            f"speaker {name}", f"{name} by itself, its wires off: across its own terminals", None,
            job.house.speaker_max_ohm, (place,),
            _open_inside(name),
        )  # fmt: skip


def _at_radio(job: HandedOver) -> Iterator[Reading]:
    for unit in job.circuit.units:
        if unit.kind == "plug":
            yield asked(
                f"home {unit.id}", f"{unit.id}: home, it clicks and holds when pulled",
                "radio_on_zero", (unit.id,), _plug_home(job, unit.id),
            )  # fmt: skip
    for joint in job.circuit.joints:
        if joint.kind == "plug_home":
            end = joint.joins[-1]
            yield asked(
                f"contact {' '.join(joint.joins)}",
                f"{end}: its contact sits firmly, pushed from behind and pulled by its wire",
                "radio_on_zero", places_of(job.index, (end,)),
                _in_place(joint.id),
            )  # fmt: skip
    for plus, minus in job.loaded_pairs:
        band = Band(None, (0.0, job.house.joined_max_ohm))
        yield ohms(
            f"load {plus}", f"what {plus} and {minus} meet in their plug, across both", None,
            job.house.joined_max_ohm, places_of(job.index, (plus,)),
            ohms_between(((plus, minus),), band),
        )  # fmt: skip


def _awake(job: HandedOver, device: str) -> Look:
    return high_if(lambda now: device in symptoms.awake(job, now))


def _open_inside(speaker: str) -> Look:
    return high_if(lambda now: now.has("car", speaker))


def _in_place(joint: str) -> Look:
    return yes_if(lambda now: joint in now.index.joints)


def _plug_home(job: HandedOver, plug: str) -> Look:
    """Whether a plug is in its socket: some contact of it meets."""
    joints = [each for each in job.circuit.joints if each.kind == "plug_home"]
    mine = {each.id for each in joints if plug in each.place}
    return yes_if(lambda now: not mine or not mine.isdisjoint(now.index.joints))
