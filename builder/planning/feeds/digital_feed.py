"""A factory amplifier on a digital link: no wire before it carries sound, and what remains."""

from __future__ import annotations

from collections.abc import Collection, Iterable

from builder.model.names import channel_name
from builder.model.parts import Interface
from builder.model.vehicle import Vehicle
from builder.model.words import Channel
from builder.planning.car.interface_fit import plug_for
from builder.planning.car.sources import Sources
from builder.planning.objections import Objection, object_to
from builder.planning.tables import RECORD


def digital_objections(
    vehicle: Vehicle,
    sources: Sources,
    line_taps: Collection[Channel],
    interfaces: Iterable[Interface],
) -> list[Objection]:
    """Return why a digital feed is not joined by wire, with the ways there are; else nothing.

    Asked for where a job wants the feed itself, or where the car has no pair behind it to use.
    """
    asked = bool(line_taps) or not sources.pairs
    if vehicle.factory_amplifier.feed != "digital" or not asked:
        return []
    because = " ".join((
        "The radio sends numbers, which no converter hears.", _behind(vehicle, sources),
        _by_interface(vehicle, interfaces),
    ))  # fmt: skip
    return [object_to("not by wire: these are the ways", because, RECORD)]


def _behind(vehicle: Vehicle, sources: Sources) -> str:
    place = vehicle.factory_amplifier.location or "nobody recorded where it is"
    pairs = [channel_name(channel) for channel in sources.pairs]
    if pairs:
        return f"At the outputs of the factory amplifier ({place}): {', '.join(pairs)}."
    return (
        f"At the outputs of the factory amplifier ({place}), once the record describes its "
        "speaker pairs."
    )


def _by_interface(vehicle: Vehicle, interfaces: Iterable[Interface]) -> str:
    giving = [each for each in interfaces if each.sound_outputs]
    fitting = [each for each in giving if plug_for(each, vehicle) is not None]
    if fitting:
        said = ", ".join(f"{each.name} ({each.sound_outputs} line outputs)" for each in fitting)
        return f"By a data interface that gives the link's sound as line level: {said}."
    why = "none that does fits this car" if giving else "none does"
    return f"No interface on this shelf gives the link's sound as line level: {why}."
