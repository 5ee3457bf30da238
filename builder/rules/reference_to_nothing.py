"""A name that refers to nothing.

What it catches
---------------
A housing, visit, channel, plug, cavity or record named in a vehicle record that does not
exist: in `housing`, `session`, `channel`, `look_alikes`, `against`, `means`,
`protected_sounds`, `resolutions`, or in `mates_with` of a housing in use.

Why it matters in the bay
-------------------------
A reading without its visit has no date and no meter; a channel nobody describes has no
level. What looks proved is not.

Example
-------
Fails::

    sessions:
      - {id: s1, by: alder-pit-audio}
    readings:
      - {session: s2, state: run, quantity: dc_v, value: 12.3, battery_v: 12.4}

Passes::

    sessions:
      - {id: s1, by: alder-pit-audio}
    readings:
      - {session: s1, state: run, quantity: dc_v, value: 12.3, battery_v: 12.4}

How to mend it
--------------
Correct the spelling (the finding names the nearest), or add what is missing.

Source
------
Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Container, Iterator

from builder.findings import Fault, Severity
from builder.model.book import Shelf
from builder.model.plugs import Plug
from builder.model.vehicle import Vehicle
from builder.model.words import GROUND_REFERENCES, THIS, UNKNOWN
from builder.rules.rule import Scope, rule
from builder.rules.wiring import Wiring, wiring_of
from builder.rules.wording import missing, no_housing


def check(vehicle: Vehicle, shelf: Shelf) -> Iterator[Fault]:
    """Yield every name in the record that leads nowhere."""
    wiring = wiring_of(vehicle)
    yield from _plugs(vehicle, shelf)
    yield from _sessions(wiring)
    yield from _against(vehicle, shelf, wiring)
    yield from _channels(vehicle, wiring)
    yield from _questions(vehicle, shelf)
    yield from _resolutions(vehicle, wiring)


def _plugs(vehicle: Vehicle, shelf: Shelf) -> Iterator[Fault]:
    plug_ids = [plug.id for plug in vehicle.plugs]
    for plug in vehicle.plugs:
        path = (*plug.path, "housing")
        housing = shelf.housings.get(plug.housing)
        if housing is None:
            yield no_housing(path, plug.housing, shelf.housings, "it cannot be drawn")
        for mate in housing.mates_with if housing else ():
            if mate != UNKNOWN and mate not in shelf.housings:
                why = f'housing "{plug.housing}" says that it mates with it'
                yield missing(path, "housing", mate, shelf.housings, why)
        yield from _look_alikes(plug, plug_ids, shelf)


def _look_alikes(plug: Plug, plug_ids: list[str], shelf: Shelf) -> Iterator[Fault]:
    why = "nobody can look out for it"
    for entry in plug.look_alikes:
        if entry.plug is not None and entry.plug not in plug_ids:
            yield missing((*entry.path, "plug"), "plug", entry.plug, plug_ids, why)
        if entry.housing is not None and entry.housing not in shelf.housings:
            path = (*entry.path, "housing")
            yield no_housing(path, entry.housing, shelf.housings, why)


def _sessions(wiring: Wiring) -> Iterator[Fault]:
    why = "the reading has no date, meter or car"
    for _, reading in wiring.measured:
        if reading.session not in wiring.sessions:
            path = (*reading.path, "session")
            yield missing(path, "visit", reading.session, wiring.sessions, why)


def _against(vehicle: Vehicle, shelf: Shelf, wiring: Wiring) -> Iterator[Fault]:
    for site, reading in wiring.measured:
        if reading.against in GROUND_REFERENCES or wiring.target(site, reading.against):
            continue
        plug_id, dot, cavity = reading.against.partition(".")
        plug = vehicle.plug(plug_id) if dot else site.plug
        known = _cavities(plug, shelf)
        if (cavity if dot else plug_id) not in known:
            why = "the reading has no second point"
            path = (*reading.path, "against")
            yield missing(path, "cavity", reading.against, GROUND_REFERENCES, why)


def _cavities(plug: Plug | None, shelf: Shelf) -> Container[str]:
    housing = shelf.housings.get(plug.housing) if plug else None
    return housing.cavities if housing else ()


def _channels(vehicle: Vehicle, wiring: Wiring) -> Iterator[Fault]:
    why = "nothing under `channels` says what it carries"
    for site in wiring.sites:
        channel = site.pin.channel
        if channel is not None and channel not in wiring.channels:
            path = (*site.pin.path, "channel")
            yield missing(path, "channel", channel, wiring.channels, why)
    for sound in vehicle.sounds:
        for index, channel in enumerate(sound.channels):
            if channel not in wiring.channels:
                path = (*sound.path, "channels", index)
                yield missing(path, "channel", channel, wiring.channels, why)


def _questions(vehicle: Vehicle, shelf: Shelf) -> Iterator[Fault]:
    for question in vehicle.how_to_tell:
        for index, answer in enumerate(question.answers):
            if answer.means != THIS and answer.means not in shelf.vehicle_ids:
                path = (*question.path, "answers", index, "means")
                why = "the answer leads nowhere"
                yield missing(path, "vehicle record", answer.means, shelf.vehicle_ids, why)


def _resolutions(vehicle: Vehicle, wiring: Wiring) -> Iterator[Fault]:
    described = {site.name for site in wiring.sites}
    for resolution in vehicle.resolutions:
        if resolution.pin not in described:
            why = "the resolution settles nothing"
            yield missing((*resolution.path, "pin"), "pin", resolution.pin, described, why)


RULE = rule("PIN108", Severity.STOP, Scope.VEHICLE, check, partly=(Severity.STOP,))
