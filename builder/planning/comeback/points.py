"""Readings at every point of a circuit that the bay sheet has no line for: ends of each link."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from builder.planning.bay import bands
from builder.planning.circuit.model import EndId, Link
from builder.planning.circuit.terminal_names import shield_of
from builder.planning.comeback.handed_over import HandedOver
from builder.planning.comeback.looks import (
    Look,
    apart,
    drops_between,
    free_of,
    high_if,
    sound_between,
    supply_at,
    switched_at,
    to_body,
    yes_if,
)
from builder.planning.comeback.reading_made import (
    Reading,
    lost,
    lost_by_lamp,
    ohms,
    places_of,
    sound,
    volts,
)
from builder.planning.views.names import element_words, wire_words


def point_readings(job: HandedOver) -> Iterator[Reading]:
    """Yield a reading at each point of each link, and of what it must not meet."""
    for link in job.circuit.links:
        if link.carries == "supply":
            yield from _supply(job, link)
        elif link.carries == "ground":
            yield from _ground(job, link)
        elif link.carries == "control":
            yield from _control(job, link)
        elif link.carries == "through":
            yield from _through(job, link)
        else:
            yield from _sounds(job, link)


def _ends(job: HandedOver, link: Link) -> Iterator[tuple[EndId, str]]:
    """The points of a link that a probe reaches, with their words: both sides of each part."""
    for each in link.path:
        part = job.index.elements.get(each)
        if each in job.index.terminals:
            yield each, each
        elif part is not None:
            said = element_words(part)
            yield part.ends[0], f"{said}, the side of {link.begins}"
            yield part.ends[1], f"{said}, the side of {link.finishes}"


def _supply(job: HandedOver, link: Link) -> Iterator[Reading]:
    for end, said in _ends(job, link):
        if end != link.begins:
            yield volts(
                f"volts {end}", f"{said} to bare body", "radio_on_zero",
                bands.TURN_ON_MIN_V, None, places_of(job.index, (end,)), supply_at(job, end),
            )  # fmt: skip
    yield from _drops(job, link)
    yield from _off_the_body(job, link)


def _drops(job: HandedOver, link: Link) -> Iterator[Reading]:
    """What each stretch under current loses: a bad joint in it."""
    points, device = list(_ends(job, link)), _small_device(job, link)
    for (one, said), (other, there) in pairwise(points):
        parts = job.index.owners.get(one), job.index.owners.get(other)
        if parts[0] is None or parts[0] is not parts[1]:
            yield _lost(
                f"drop {one} {other}", f"{said} to {there}", device,
                places_of(job.index, (one, other)), drops_between(job, one, other),
            )  # fmt: skip


def _small_device(job: HandedOver, link: Link) -> str:
    """The device that a link feeds or grounds, where it draws little; "" for any other."""
    ends = (link.begins, link.finishes)
    units = [job.index.unit_of(end).id for end in ends if end in job.index.terminals]
    small = [unit for unit in units if unit in job.devices and unit not in job.amplifiers]
    return small[0] if small else ""


def _lost(
    name: str, what: str, device: str, places: tuple[str, ...], look: Look
) -> Reading:  # fmt: skip
    if device:
        return lost_by_lamp(name, what, device, places, look)
    return lost(name, what, bands.GROUND_RISE_MAX_V, places, look)


def _off_the_body(job: HandedOver, link: Link) -> Iterator[Reading]:
    """What a fuse that blows again has behind it."""
    least, end = job.house.body_open_ohm, link.finishes
    yield ohms(
        f"{end} to body", f"{end}, its wire off the device: to bare body", least, None,
        places_of(job.index, (end,)), to_body((end,), least),
    )  # fmt: skip
    yield from _alone(job, link)


def _alone(job: HandedOver, link: Link) -> Iterator[Reading]:
    """Each wire of a link by itself, whatever device it goes into."""
    for wire in job.index.wires_of(link):
        if not wire.stays:
            yield ohms(
                f"alone {wire.id}", f"{wire_words(wire)}, both its ends off: to bare body",
                job.house.body_open_ohm, None, places_of(job.index, (wire.ends[0], link.finishes)),
                free_of("short_to_body", wire.id),
            )  # fmt: skip


def _ground(job: HandedOver, link: Link) -> Iterator[Reading]:
    yield from _drops(job, link)
    unit = job.index.unit_of(link.begins)
    if unit.id in job.devices:
        yield _lost(
            f"ground {link.begins}", f"{link.begins} to battery −", _small_device(job, link),
            places_of(job.index, (link.begins,)),
            drops_between(job, link.begins, link.finishes),
        )  # fmt: skip


def _control(job: HandedOver, link: Link) -> Iterator[Reading]:
    for end, said in _ends(job, link):
        yield volts(
            f"volts {end}", f"{said} to bare body", "radio_on_zero", bands.TURN_ON_MIN_V, None,
            places_of(job.index, (end,)), yes_if(switched_at(end)),
        )  # fmt: skip
    end = link.finishes
    place = places_of(job.index, (end,))
    yield volts(
        f"lights {end}", f"{end} to bare body", "lights_on", bands.TURN_ON_MIN_V, None, place,
        yes_if(switched_at(end, "lights")),
    )  # fmt: skip
    yield volts(
        f"asleep {end}", f"{end} to bare body", "asleep", None, bands.TURN_ON_OFF_MAX_V, place,
        high_if(switched_at(end, "asleep")),
    )  # fmt: skip
    yield from _off_the_body(job, link)
    yield _whole_way(job, link)


def _whole_way(job: HandedOver, link: Link) -> Reading:
    """From end to end of a link, so that a leg at another's place shows."""
    parts = [part for part in job.index.elements_of(link) if part.kind == "resistor"]
    most = 1.0 + sum(part.value for part in parts)
    return ohms(
        f"way {link.id}", f"{link.begins} to {link.finishes}, test leads' ohms taken off",
        None, most, places_of(job.index, (link.begins, link.finishes)),
        apart(link.begins, link.finishes),
    )  # fmt: skip


def _through(job: HandedOver, link: Link) -> Iterator[Reading]:
    """What a loom passes on: the loom by itself, then each of its plugs."""
    terminals = [each for each in link.path if each in job.index.terminals]
    for one, other in pairwise(terminals):
        yield ohms(
            f"way {one} {other}", f"{one} to {other}, test leads' ohms taken off", None, 1.0,
            places_of(job.index, (one, other)), apart(one, other),
        )  # fmt: skip
    yield _whole_way(job, link)
    yield from _off_the_body(job, link)


def _sounds(job: HandedOver, link: Link) -> Iterator[Reading]:
    """The sound at each point of a pair or a line lead, both of its legs at once."""
    if not any(each in job.index.joints for each in link.path):
        return  # made by a switch inside a device, where no probe comes
    legs = [each for each in link.path if each in job.index.terminals]
    for leg, mate in zip(legs, _mates(job, link), strict=False):
        if leg != mate:
            yield sound(
                f"sound {leg}", f"{leg} to {mate}", bands.HEARD_MIN_AC_V,
                places_of(job.index, (leg,)), sound_between(link.carries, leg, mate),
            )  # fmt: skip
    yield from _shield(job, link)
    if link.carries == "line" and not link.begins.endswith("shield"):
        yield from _alone(job, link)
    if link.finishes.endswith("+"):
        yield _whole_way(job, link)
    if link.finishes.endswith("+") and link.carries == "speaker_level":
        ends = (link.finishes, *_mates(job, link)[-1:])
        said = f"{' and '.join(ends)}, either leg to bare body"
        yield ohms(
            f"{link.finishes} to body", said, job.house.body_open_ohm, None,
            places_of(job.index, ends), to_body(ends, job.house.body_open_ohm),
        )  # fmt: skip


def _mates(job: HandedOver, link: Link) -> list[EndId]:
    """The other leg of each point of a link that is a + or a centre; none of any other."""
    if link.carries == "line":
        if link.begins.endswith("shield"):
            return []
        return [shield_of(each) for each in link.path if each in job.index.terminals]
    mate = job.index.links.get(link.mate or "")
    if mate is None or not link.finishes.endswith("+"):
        return []
    return [each for each in mate.path if each in job.index.terminals]


def _shield(job: HandedOver, link: Link) -> Iterator[Reading]:
    if link.carries == "line" and link.begins.endswith("shield"):
        yield ohms(
            f"way {link.id}", f"{link.begins} to {link.finishes}, test leads' ohms taken off",
            None, 1.0, places_of(job.index, (link.begins, link.finishes)),
            apart(link.begins, link.finishes),
        )  # fmt: skip
