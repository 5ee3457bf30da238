"""What a customer notices of a fault: worked out from the job as it then stands, never listed."""

from __future__ import annotations

from collections.abc import Callable, Iterable

from builder.model.sound import ProtectedSound
from builder.model.words import Function
from builder.planning.circuit.model import Link
from builder.planning.circuit.terminal_names import (
    BATTERY_MINUS,
    ground_of,
    legs_of,
    pair_input,
    shield_of,
    supply_of,
)
from builder.planning.comeback.condition import Condition, FaultyBench
from builder.planning.comeback.device_faults import (
    BATTERY_ITSELF,
    CARS_OWN_DRAW,
    CARS_OWN_LAMP,
    CORRECTION,
)
from builder.planning.comeback.handed_over import HandedOver
from builder.planning.comeback.once import once
from builder.planning.comeback.words import SYMPTOMS, Symptom, When
from builder.planning.words import ElementKind


@once
def symptoms_of(job: HandedOver, now: Condition) -> frozenset[Symptom]:
    """Return what a customer comes back with when the job stands like this."""
    return frozenset(symptom for symptom in SYMPTOMS if is_noticed(job, now, symptom))


def is_noticed(job: HandedOver, now: Condition, symptom: Symptom) -> bool:
    """Whether a customer comes back with one of them."""
    return _NOTICED[symptom](job, now)


def heard(job: HandedOver, now: Condition, when: When, speakers: Iterable[str]) -> list[str]:
    """Return which of some speakers play at a time."""
    bench = now.at(when)
    return [each for each in speakers if bench.speaker_heard(each)]


def _dead(job: HandedOver, now: Condition) -> bool:
    return not heard(job, now, "day", job.added) and not heard(job, now, "lights", job.added)


def _dead_by_day(job: HandedOver, now: Condition) -> bool:
    return not heard(job, now, "day", job.added) and bool(heard(job, now, "lights", job.added))


def _one_side_silent(job: HandedOver, now: Condition) -> bool:
    playing = heard(job, now, "day", job.speakers)
    if _dead(job, now) or _dead_by_day(job, now):
        return False
    return len(playing) < len(job.speakers)


@once
def awake(job: HandedOver, now: Condition) -> list[str]:
    """Return the devices that draw while the car sleeps."""
    bench = now.at("asleep")
    found = [name for name in job.amplifiers if bench.works(name)]
    fed = supply_of(bench.converter) in bench.index.terminals
    found += [bench.converter] if fed and bench.converter_on else []
    restless = (name for name in job.devices if now.has("stays_awake", name))
    found += [name for name in restless if bench.supplied(name)]
    return list(dict.fromkeys(found))


def _flat_battery(job: HandedOver, now: Condition) -> bool:
    elsewhere = now.has("car", BATTERY_ITSELF) or now.has("car", CARS_OWN_DRAW)
    return elsewhere or bool(awake(job, now))


def weak_ground(job: HandedOver, now: Condition) -> list[str]:
    """Return the devices whose ground hangs on a joint that conducts badly."""
    return _weak_to(job, now, BATTERY_MINUS, ground_of)


def weak_supply(job: HandedOver, now: Condition) -> list[str]:
    """Return the devices whose supply hangs on a joint that conducts badly."""
    return [
        name
        for name in job.devices
        if now.day.supplied(name)
        and not now.strong.supplied(name)
        and name not in weak_ground(job, now)
    ]


def _weak_to(job: HandedOver, now: Condition, to: str, terminal: Callable[[str], str]) -> list[str]:
    return [
        name
        for name in job.devices
        if now.day.joined(terminal(name), to) and not now.strong.joined(terminal(name), to)
    ]


def shields_open(job: HandedOver, now: Condition) -> list[str]:
    """Return the line inputs that have their centre and no shield."""
    found: list[str] = []
    for channel in job.healthy.sound.inputs.values():
        for end in channel:
            outs = [out for out in job.healthy.sound.plays if now.day.joined(out, end)]
            bare = [out for out in outs if not now.day.joined(shield_of(out), shield_of(end))]
            found += [end] if bare else []
    return found


def _whine(job: HandedOver, now: Condition) -> bool:
    picked_up = now.has("noise") or now.has("gain")
    return picked_up or bool(weak_ground(job, now)) or bool(shields_open(job, now))


def _pops(job: HandedOver, now: Condition) -> bool:
    ill = now.has("past_converter") or now.has("output_dc")
    return ill or bool(weak_supply(job, now)) or not held_up(job, now)


def held_up(job: HandedOver, now: Condition) -> bool:
    """Whether what shall carry the turn-on over a restart is there and filled, if there is any."""
    kind: ElementKind = "capacitor"
    stores = [part.id for part in job.circuit.elements if part.kind == kind]
    wanted = [store for store in stores if job.whole.day.charged(store)]
    there = now.day.index.elements
    return all(store in there and now.day.charged(store) for store in wanted)


@once
def turned(job: HandedOver, now: Condition) -> list[str]:
    """Return the speakers that play the other way round than as handed over."""
    bench, whole = now.day, job.whole.day
    inputs = {n for n in _numbers(job) if _input_turned(whole, bench, n)}
    found = []
    for name in heard(job, now, "day", job.speakers):
        through = _inputs_of(job, name)
        turns = bool(inputs & through) != _speaker_turned(job, bench, name)
        found += [name] if turns else []
    return found


def _numbers(job: HandedOver) -> set[int]:
    return {number for numbers in job.healthy.sound.plays.values() for number in numbers}


def _input_turned(whole: FaultyBench, bench: FaultyBench, number: int) -> bool:
    plus, minus = (pair_input(whole.converter, number, sign) for sign in ("+", "−"))
    was = whole.leg_at(plus), whole.leg_at(minus)
    return None not in was and (bench.leg_at(minus), bench.leg_at(plus)) == was


def _inputs_of(job: HandedOver, speaker: str) -> set[int]:
    """The converter's inputs that a speaker of the job plays."""
    channel, sound = channel_of_speaker(job, speaker), job.healthy.sound
    heard_at = sound.inputs.get(channel, ())
    outputs = [out for out in sound.plays if any(job.whole.day.joined(out, x) for x in heard_at)]
    return {number for out in outputs for number in sound.plays[out]}


def channel_of_speaker(job: HandedOver, speaker: str) -> str:
    """Return the amplifier channel that drives a speaker, or "" for the car's own sound."""
    bench, legs = job.whole.day, legs_of(speaker)
    for channel in job.healthy.sound.inputs:
        ends = legs_of(channel)
        if any(bench.joined(end, leg) for end in ends for leg in legs):
            return channel
    return ""


def _speaker_turned(job: HandedOver, bench: FaultyBench, speaker: str) -> bool:
    """Whether the legs of a speaker are not at those of its channel, or of its pair, as before."""
    plus, minus = legs_of(speaker)
    channel = channel_of_speaker(job, speaker)
    if channel:
        ends = legs_of(channel)
        straight = job.whole.day.joined(ends[0], plus)
        return bench.joined(ends[0], plus) != straight and bench.joined(ends[1], plus)
    was = job.whole.day.leg_at(plus), job.whole.day.leg_at(minus)
    return None not in was and (bench.leg_at(minus), bench.leg_at(plus)) == was


def _reversed(job: HandedOver, now: Condition) -> bool:
    return bool(turned(job, now))


def passed_on(job: HandedOver, now: Condition) -> bool:
    """Whether all that a loom passes on still reaches the radio."""
    return all(brought(now.day, link) for link in job.passed_on)


def brought(bench: FaultyBench, link: Link) -> bool:
    """Whether what a link passes on comes through: joined, and not lying on the body."""
    return bench.joined(link.begins, link.finishes) and not bench.on_body(link.begins)


def _sound_gone(job: HandedOver, now: Condition) -> bool:
    sounds = job.parts.vehicle.sounds
    gone = any(is_heard(job, job.whole, each) and not is_heard(job, now, each) for each in sounds)
    return gone or not passed_on(job, now) or not now.day.radio_works


def is_heard(job: HandedOver, now: Condition, sound: ProtectedSound) -> bool:
    """Whether a sound comes through any of its channels while it has to."""
    when: When = "day" if sound.plays_key_off == "no" else "key_off"
    named = [speaker for speaker in job.speakers if any(x in speaker for x in sound.channels)]
    placed = [each.name for each in job.parts.job.speakers if each.channel in sound.channels]
    mine = [each for each in job.speakers if each in placed or each in named]
    return bool(heard(job, now, when, mine))


def _fault_lamp(job: HandedOver, now: Condition) -> bool:
    lamp = now.has("restraint_plug") or now.has("car", CARS_OWN_LAMP)
    return lamp or _data_lost(job, now) or bool(loads_missing(job, now))


def _data_lost(job: HandedOver, now: Condition) -> bool:
    """Whether a loom no longer passes a data wire on: the car tells of that."""
    wires: tuple[Function, ...] = ("data_high", "data_low", "data_single")
    pins = [(plug, pin) for plug in job.parts.vehicle.plugs for pin in plug.pins]
    data = {f"{plug.id}.{pin.cavity}" for plug, pin in pins if pin.function in wires}
    links = (link for link in job.circuit.links if link.begins in data)
    return not all(brought(now.day, link) for link in links)


def loads_missing(job: HandedOver, now: Condition) -> list[str]:
    """Return the outputs of a radio that looks for its speakers, and finds one no more."""
    if job.parts.vehicle.radio.open_load_check == "no":
        return []
    return [plus for plus, minus in job.loaded_pairs if not job.loaded(now, plus, minus)]


def _distorts(job: HandedOver, now: Condition) -> bool:
    return now.has("gain") or now.has("setting", CORRECTION)


_NOTICED: dict[Symptom, Callable[[HandedOver, Condition], bool]] = {
    "dead": _dead,
    "dead_by_day": _dead_by_day,
    "flat_battery": _flat_battery,
    "whine": _whine,
    "pops": _pops,
    "one_side_silent": _one_side_silent,
    "reversed": _reversed,
    "sound_gone": _sound_gone,
    "fault_lamp": _fault_lamp,
    "distorts": _distorts,
}
