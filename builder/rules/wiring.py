"""What many rules look up about a vehicle, worked out once for each vehicle.

A rule asks `wiring_of(vehicle)`.
"""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass, replace
from typing import NamedTuple

from builder.model.legs import legs_of_pairs
from builder.model.plugs import Fuse, FusePosition, Pin, Plug, Reading, Session
from builder.model.sound import SpeakerChannel
from builder.model.vehicle import Vehicle
from builder.model.words import GROUND_REFERENCES, Channel, Function, Leg, Unit
from builder.planning.trust import position_as_pin
from builder.proof.set_aside import counted_vehicle
from builder.rules.memory import LastAnswer


class Site(NamedTuple):
    """A described cavity: the pin and the plug it is in."""

    plug: Plug
    pin: Pin

    @property
    def name(self) -> str:
        """The cavity as people say it, for example "A.4", or "cabin fuse F14"."""
        joint = "." if self.plug.housing else " "
        return f"{self.plug.id}{joint}{self.pin.cavity}"


class Pair(NamedTuple):
    """The described legs of one channel at one unit."""

    function: Function  # speaker or line
    channel: Channel
    unit: Unit
    positives: tuple[Site, ...]
    negatives: tuple[Site, ...]


@dataclass(frozen=True, slots=True)
class Wiring:
    """Look-ups over one vehicle, of the readings that count: what a resolution set aside is gone.

    `sites`, `by_cavity` and `pairs` are about plugs. `by_function`, `measured` and `ohms` also
    hold the fuse positions, which a plan may use as a turn-on source.
    """

    sites: tuple[Site, ...]
    by_function: dict[Function, tuple[Site, ...]]
    by_cavity: dict[tuple[str, str], tuple[Site, ...]]
    pairs: tuple[Pair, ...]
    sessions: dict[str, Session]
    channels: dict[Channel, SpeakerChannel]
    measured: tuple[tuple[Site, Reading], ...]
    ohms: tuple[tuple[Site, Reading], ...]

    def having(self, *functions: Function) -> list[Site]:
        """Every described cavity with one of these functions."""
        return [site for name in functions for site in self.by_function.get(name, ())]

    def carried(self, site: Site) -> SpeakerChannel | None:
        """What the record says of the pair that a cavity belongs to, if it says anything."""
        return self.channels.get(site.pin.channel) if site.pin.channel else None

    def target(self, site: Site, against: str) -> tuple[Site, ...]:
        """The described cavity that a reading at `site` was taken against, if it is one."""
        if against in GROUND_REFERENCES:
            return ()
        plug, dot, cavity = against.partition(".")
        return self.by_cavity.get((plug, cavity) if dot else (site.plug.id, against), ())


def _build(whole: Vehicle) -> Wiring:
    vehicle = counted_vehicle(whole)
    sites = tuple(Site(plug, pin) for plug in vehicle.plugs for pin in plug.pins)
    by_function: defaultdict[Function, list[Site]] = defaultdict(list)
    by_cavity: defaultdict[tuple[str, str], list[Site]] = defaultdict(list)
    everything = (*sites, *map(_fuse_site, vehicle.fuse_positions))
    for site in everything:
        by_function[site.pin.function].append(site)
    for site in sites:
        by_cavity[site.plug.id, site.pin.cavity].append(site)
    measured = tuple((site, reading) for site in everything for reading in site.pin.readings)
    return Wiring(
        sites=sites,
        by_function={key: tuple(found) for key, found in by_function.items()},
        by_cavity={key: tuple(found) for key, found in by_cavity.items()},
        pairs=_pairs(vehicle),
        sessions={session.id: session for session in vehicle.sessions},
        channels={channel.channel: channel for channel in vehicle.channels},
        measured=measured,
        ohms=tuple(entry for entry in measured if entry[1].quantity == "ohm"),
    )


def _fuse_site(position: FusePosition) -> Site:
    """A fuse position in the shape of a pin, in a plug without a housing."""
    fuse = Fuse(place=position.position, rating_a=position.rating_a)
    pin = replace(position_as_pin(position), fuse=fuse)
    name = f"{position.panel} fuse"
    panel = Plug(
        id=name,
        name=name,
        unit="fuse_panel",
        location=name,
        housing="",
        shell_colours=(),
        read_from="moulded",
        pins=(pin,),
        path=position.path,
    )
    return Site(panel, pin)


_LEGS: tuple[Leg, Leg] = ("positive", "negative")


def _pairs(vehicle: Vehicle) -> tuple[Pair, ...]:
    found = sorted(legs_of_pairs(vehicle).items(), key=lambda each: each[0][0])
    return tuple(
        Pair(*name, *(tuple(Site(*spot) for spot in legs.get(leg, ())) for leg in _LEGS))
        for name, legs in found
    )


wiring_of = LastAnswer(_build)
"""The look-ups of a vehicle."""
