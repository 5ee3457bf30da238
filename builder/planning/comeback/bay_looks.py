"""What each line of a bay sheet finds on a job with one fault, as far as the circuit decides it."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from functools import cache

from builder.model.sound import ProtectedSound
from builder.planning.bay import bands
from builder.planning.bay.feed_tests import FEED, small_feeds
from builder.planning.bay.foretold import BALANCE, IDLE, outcome, working
from builder.planning.bay.ids import speakable
from builder.planning.bay.insulation_tests import (
    PAIRS_APART,
    SIGNAL_INSULATION,
    SUPPLY_INSULATION,
    supply_ends,
)
from builder.planning.bay.kept_lines import EMERGENCY_CALL
from builder.planning.bay.second_battery_lines import LINK_INSULATION
from builder.planning.bay.tune_tests import CORRECTION_STANDS
from builder.planning.car.sound_kinds import is_call
from builder.planning.circuit.model import EndId, Link
from builder.planning.circuit.second_battery_links import THE_LINK
from builder.planning.circuit.terminal_names import (
    BATTERY_MINUS,
    BODY_AT_STRAP,
    channel_of,
    legs_of,
    turn_on_of,
)
from builder.planning.comeback import symptoms
from builder.planning.comeback.band_looks import band_looks
from builder.planning.comeback.condition import Condition
from builder.planning.comeback.device_faults import (
    BATTERY_ITSELF,
    CARS_OWN_DRAW,
    CARS_OWN_LAMP,
    CORRECTION,
)
from builder.planning.comeback.handed_over import HandedOver
from builder.planning.comeback.looks import (
    Look,
    all_apart,
    drops_between,
    high_if,
    joined_all,
    ohms_between,
    own_and_no_other,
    pairs_apart,
    passed_on_all,
    switched_at,
    to_body,
    yes_if,
)
from builder.planning.comeback.words import Symptom
from builder.planning.power.asleep_draws import PARKED_SECOND, on_second
from builder.planning.words import Turn
from builder.planning.work_pack import BayTest
from builder.proof.band import Where


def bay_looks(job: HandedOver) -> dict[str, Look]:
    """Return the look of each line of the sheet by its id; a line that needs more has none."""
    whole_job = dict(_of_whole_job(job))
    found: dict[str, Look] = {}
    for test in job.pack.tests:
        look = whole_job.get(test.id) or _by_probes(job, test)
        if look is not None:
            found[test.id] = look
    return found


def _pairs(probes: Sequence[EndId]) -> tuple[tuple[EndId, EndId], ...]:
    return tuple(zip(probes[::2], probes[1::2], strict=False))


_PASSED_ON: tuple[Turn, ...] = ("passed_on", "driven")
"""When is looked at what looms pass on: at the bench, and what only a drive shows, at the end."""


def _by_probes(job: HandedOver, test: BayTest) -> Look | None:
    """The look of a line that names what it looks at."""
    if not test.probes:
        return None
    pairs = _pairs(test.probes)
    if test.quantity == "ohm":
        return ohms_between(pairs, test.band)
    if test.id == BALANCE:
        return yes_if(lambda now: _as_before(job, now))
    if test.quantity == "check":
        if test.turn == "legs":
            return own_and_no_other(pairs, job.whole)
        return passed_on_all(pairs) if test.turn in _PASSED_ON else joined_all(pairs)
    return _volts(job, test) if test.quantity == "dc_v" else _sound(job, test)


def _as_before(job: HandedOver, now: Condition) -> bool:
    """Whether every speaker plays, and what it played before."""
    bench, whole = now.day, job.whole.day
    return all(map(bench.speaker_heard, job.speakers)) and all(
        bench.speaker_plays(each) == whole.speaker_plays(each) for each in job.added
    )


def _volts(job: HandedOver, test: BayTest) -> Look:
    first, *rest = test.probes
    if first not in job.index.terminals:
        return yes_if(lambda now: symptoms.held_up(job, now))
    if rest:
        return drops_between(job, first, rest[0])
    unit = job.index.unit_of(first)
    if unit.kind == "turn_on_load":  # its coil needs a way back too
        return yes_if(lambda now: now.day.switched_on(unit.id))
    return yes_if(switched_at(first))


def _sound(job: HandedOver, test: BayTest) -> Look:
    """Sound where it listens; a gain or a correction that stands otherwise reads high."""
    legs = test.probes[0].removesuffix(" +")
    corrected = "correction" in test.what

    def found(now: Condition) -> bool:
        return now.has("gain", legs) or (corrected and now.has("setting", CORRECTION))

    right = cache(lambda: outcome(test, job.whole.day))

    def there(now: Condition) -> bool:
        try:
            return outcome(test, now.day) == right()
        except KeyError:  # an input that the fault takes out of the circuit
            return False

    return lambda now: "high" if found(now) else "in" if there(now) else "low"


def _of_whole_job(job: HandedOver) -> Iterator[tuple[str, Look]]:
    """The lines that look at more than two ends, by the ids that the sheet gives them."""
    yield IDLE, lambda now: _idle(job, now)
    yield "battery-rest", yes_if(lambda now: not now.has("car", BATTERY_ITSELF))
    yield "parked-after", high_if(lambda now: _draws(job, now))
    yield (
        PARKED_SECOND,
        high_if(lambda now: bool(on_second(job.parts) & {*symptoms.awake(job, now)})),
    )
    yield "line-noise", high_if(lambda now: _noise_made(job, now))
    yield "line-dc", high_if(lambda now: now.has("output_dc"))
    yield "sum-phase", yes_if(lambda now: not symptoms.turned(job, now))
    yield "whine", _unnoticed(job, "whine")
    yield "switch-on-thump", _unnoticed(job, "pops")
    yield "restarts", _unnoticed(job, "pops")
    yield CORRECTION_STANDS, yes_if(lambda now: not now.has("setting", CORRECTION))
    lamp = yes_if(lambda now: not now.has("restraint_plug") and not now.has("car", CARS_OWN_LAMP))
    yield "restraint-lamp", lamp
    yield from _insulation(job)
    yield "strap", high_if(lambda now: not now.strong.joined(BODY_AT_STRAP, BATTERY_MINUS))
    for name in job.amplifiers:
        asleep = switched_at(turn_on_of(name), "asleep")
        yield speakable(name, "turn on asleep"), high_if(asleep)
        yield speakable(name, "turn on restart"), yes_if(lambda now: symptoms.held_up(job, now))
    yield from _legs_to_body(job)
    yield from _feeds(job)
    yield from band_looks(job)
    yield from _sounds(job)


def _insulation(job: HandedOver) -> Iterator[tuple[str, Look]]:
    """What is read between wires: supply leads, signal legs and speaker pairs, all device ends
    open."""
    least, signals = bands.INSULATION_MIN_OHM, _signal_legs(job)
    outs = list(dict.fromkeys(map(legs_of, job.healthy.sound.inputs)))
    speakers = [leg for legs in outs for leg in legs]
    legs = (*signals, *speakers)
    yield SUPPLY_INSULATION, all_apart(tuple(supply_ends(job.circuit, THE_LINK)), legs, least)
    yield LINK_INSULATION, all_apart(_link_ends(job), legs, least)
    yield SIGNAL_INSULATION, all_apart(signals, speakers, job.house.body_open_ohm)
    yield PAIRS_APART, pairs_apart(outs, bands.PAIR_APART_MIN_OHM)


def _signal_legs(job: HandedOver) -> tuple[EndId, ...]:
    """The legs that the signal line reads, by its probes."""
    line = next((test for test in job.pack.tests if test.id == SIGNAL_INSULATION), None)
    return line.probes[::2] if line else ()


def _link_ends(job: HandedOver) -> list[EndId]:
    """The ends of every lead between the car's battery and a second one."""
    links = [link for link in job.circuit.links if link.id == THE_LINK]
    return [end for link in links for wire in job.index.wires_of(link) for end in wire.ends]


def _unnoticed(job: HandedOver, symptom: Symptom) -> Look:
    return yes_if(lambda now: not symptoms.is_noticed(job, now, symptom))


def _idle(job: HandedOver, now: Condition) -> Where:
    drawing, healthy = list(working(now.day)), list(working(job.whole.day))
    return "in" if drawing == healthy else "low" if len(drawing) < len(healthy) else "high"


def _draws(job: HandedOver, now: Condition) -> bool:
    """Whether the car's own battery gives more: not for what hangs on a second one."""
    awake = {*symptoms.awake(job, now)} - on_second(job.parts)
    return now.has("car", CARS_OWN_DRAW) or bool(awake)


def _noise_made(job: HandedOver, now: Condition) -> bool:
    """Whether noise is there before the line leads: of the converter, or of its ground."""
    converter = now.day.converter
    return now.has("noise", converter) or converter in symptoms.weak_ground(job, now)


def _legs_to_body(job: HandedOver) -> Iterator[tuple[str, Look]]:
    """Each pair from the open amplifier end to the body, by the names of both kinds of lead."""
    speakers = job.parts.job.speakers
    for names in ([each.plays for each in speakers], [(each.channel,) for each in speakers]):
        for speaker, channels in zip(speakers, names, strict=True):
            ends = legs_of(channel_of(speaker.amplifier, speaker.channel_name))
            look = to_body(ends, job.house.body_open_ohm)
            yield speakable(speaker.name, "lead to body"), look
            for channel in channels:  # its own wire before one that it only copies
                yield speakable(channel, "return to body"), look


def _feeds(job: HandedOver) -> Iterator[tuple[str, Look]]:
    """What reaches each small device under a lamp: less where a joint of its own feed is bad, for
    the milliohms of a bad joint before that are found at the amplifier's amperes."""
    for name, *links in small_feeds(job.circuit):
        yield speakable(name, FEED), yes_if(_well_fed(name, links))


def _well_fed(device: str, links: Sequence[Link]) -> Callable[[Condition], bool]:
    def found(now: Condition) -> bool:
        ways = (now.strong.joined(link.begins, link.finishes) for link in links)
        return now.day.supplied(device) and all(ways)

    return found


def _sounds(job: HandedOver) -> Iterator[tuple[str, Look]]:
    for sound in job.parts.vehicle.sounds:
        if symptoms.is_heard(job, job.whole, sound):
            look = _still_heard(job, sound)
            yield speakable("after", sound.sound), look
            if is_call(sound.sound):
                yield EMERGENCY_CALL, look


def _still_heard(job: HandedOver, sound: ProtectedSound) -> Look:
    return yes_if(lambda now: symptoms.is_heard(job, now, sound))
