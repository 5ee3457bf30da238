"""What many rules look up about a vehicle, worked out once for each vehicle.

A rule asks `wiring_of(vehicle)`. The last answer is kept, because a vehicle goes through the
whole catalogue before the next one comes; keeping it changes no result.
"""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass
from typing import NamedTuple

from builder.model.vehicle import Pin, Plug, Reading, Session, SpeakerChannel, Vehicle
from builder.model.words import PAIRED

GROUND_REFERENCES = frozenset({"battery_negative", "body"})
"""Points of a car that count as 0 V for a reading."""


class Site(NamedTuple):
    """A described cavity: the pin and the plug it is in."""

    plug: Plug
    pin: Pin

    @property
    def name(self) -> str:
        """The cavity as people say it, for example "A.4"."""
        return f"{self.plug.id}.{self.pin.cavity}"


class Pair(NamedTuple):
    """The described legs of one channel at one unit."""

    function: str  # speaker | line
    channel: str
    unit: str
    positives: tuple[Site, ...]
    negatives: tuple[Site, ...]


@dataclass(frozen=True, slots=True)
class Wiring:
    """Look-ups over one vehicle. `volts` holds DC volts to ground, by pin path and state."""

    sites: tuple[Site, ...]
    by_function: dict[str, tuple[Site, ...]]
    by_cavity: dict[tuple[str, str], tuple[Site, ...]]
    pairs: tuple[Pair, ...]
    sessions: dict[str, Session]
    channels: dict[str, SpeakerChannel]
    measured: tuple[tuple[Site, Reading], ...]

    def having(self, *functions: str) -> list[Site]:
        """Every described cavity with one of these functions."""
        return [site for name in functions for site in self.by_function.get(name, ())]

    def target(self, site: Site, against: str) -> tuple[Site, ...]:
        """The described cavity that a reading at `site` was taken against, if it is one."""
        if against in GROUND_REFERENCES:
            return ()
        plug, dot, cavity = against.partition(".")
        return self.by_cavity.get((plug, cavity) if dot else (site.plug.id, against), ())


_last: list[tuple[Vehicle, Wiring]] = []


def wiring_of(vehicle: Vehicle) -> Wiring:
    """The look-ups of this vehicle."""
    if not _last or _last[0][0] is not vehicle:
        _last[:] = [(vehicle, _build(vehicle))]
    return _last[0][1]


def _build(vehicle: Vehicle) -> Wiring:
    sites = tuple(Site(plug, pin) for plug in vehicle.plugs for pin in plug.pins)
    by_function: defaultdict[str, list[Site]] = defaultdict(list)
    by_cavity: defaultdict[tuple[str, str], list[Site]] = defaultdict(list)
    for site in sites:
        by_function[site.pin.function].append(site)
        by_cavity[site.plug.id, site.pin.cavity].append(site)
    return Wiring(
        sites=sites,
        by_function={key: tuple(found) for key, found in by_function.items()},
        by_cavity={key: tuple(found) for key, found in by_cavity.items()},
        pairs=_pairs(by_function),
        sessions={session.id: session for session in vehicle.sessions},
        channels={str(channel.channel): channel for channel in vehicle.channels},
        measured=tuple((site, reading) for site in sites for reading in site.pin.readings),
    )


def _pairs(by_function: dict[str, list[Site]]) -> tuple[Pair, ...]:
    legs: defaultdict[tuple[str, str, str], dict[str, list[Site]]] = defaultdict(
        lambda: {"positive": [], "negative": []}
    )
    for function in sorted(PAIRED):
        for site in by_function.get(function, ()):
            if site.pin.channel is not None and site.pin.leg is not None:
                legs[function, site.pin.channel, site.plug.unit][site.pin.leg].append(site)
    return tuple(
        Pair(*key, tuple(found["positive"]), tuple(found["negative"]))
        for key, found in legs.items()
    )
