"""Small invented jobs for the tests of work packs, and the jobs of the shipped book."""

from __future__ import annotations

from dataclasses import replace
from functools import cache
from pathlib import Path
from typing import Any

from plan_cars import converter
from shipped_cars import CARS, car

from builder.declaring import read
from builder.loading import load_file
from builder.model.book import Shelf
from builder.model.house_defaults import HouseDefaults
from builder.model.job import Job
from builder.model.parts import Amplifier, Cable, Converter
from builder.model.vehicle import Vehicle
from builder.parsing import parse_record
from builder.planning.job.make_pack import make_pack
from builder.planning.pack_details import GainSetting, LevelChain
from builder.planning.work_pack import JobParts, WorkPack

Data = dict[str, Any]
HOUSE = HouseDefaults()
BOOK = Path(__file__).parents[3] / "pinouts"
EXAMPLE = "TEMPLATE"
CORNERS = ("front-left", "front-right", "rear-left", "rear-right")


# -- parts ------------------------------------------------------------------------------------


def _channels(count: int, use: str, power: dict[float, float], low: float, high: float) -> Data:
    return {
        "count": count, "use": use, "min_ohm": min(power), "bridgeable": "no",
        "power": [{"ohm": ohm, "w_rms": watts} for ohm, watts in power.items()],
        "sensitivity": {"min_v_rms": low, "max_v_rms": high},
    }  # fmt: skip


def amplifier(identity: str, **more: Any) -> Amplifier:
    """One of the amplifiers of the worked jobs."""
    kind, channels, supply, turn_on = _AMPLIFIERS[identity]
    inputs = {"inputs": _INPUTS[identity]} if identity in _INPUTS else {}
    return read(Amplifier, {
        "id": identity, "data": "invented", "name": identity.upper(), "maker": "Odmarsh",
        "class": kind, "channels": channels, "supply": supply, "turn_on": turn_on,
        "input_type": "differential", "speaker_level_in": "no", "output_floating": "yes",
    } | inputs | more)  # fmt: skip


_INPUTS: dict[str, list[Data]] = {
    "amn-600": [{"name": "line in", "count": 2, "feeds": [1], "impedance_ohm": 10000,
                 "sum": "average"}],
}  # fmt: skip
_AMPLIFIERS: dict[str, tuple[str, list[Data], Data, Data]] = {
    "amn-600": (
        "D", [_channels(1, "sub", {2: 600, 4: 350}, 0.2, 5.0)],
        {"min_v": 8.5, "idle_a": 0.75, "fuse_a": 60}, {"draw_ma": 12, "threshold_v": 9.5},
    ),
    "amn-1200": (
        "D", [_channels(1, "sub", {1: 1200, 2: 700}, 0.2, 5.0)],
        {"min_v": 9.0, "idle_a": 1.4, "fuse_a": 120}, {"draw_ma": 25, "threshold_v": 9.0},
    ),
    "amn-4": (
        "AB", [_channels(4, "full_range", {4: 60, 2: 85}, 0.25, 4.0)],
        {"min_v": 9.0, "idle_a": 0.9, "fuse_a": 40}, {"draw_ma": 12, "threshold_v": 9.0},
    ),
    "amn-3": (
        "D", [_channels(2, "full_range", {4: 100}, 0.3, 6.0),
              _channels(1, "sub", {2: 400}, 0.3, 6.0)],
        {"min_v": 9.0, "idle_a": 0.85, "fuse_a": 60}, {"draw_ma": 15, "threshold_v": 9.0},
    ),
}  # fmt: skip


def cable(identity: str) -> Cable:
    """One of the cables of the worked jobs."""
    pairs, singles, size, use = _CABLES[identity]
    return read(Cable, {
        "id": identity, "data": "invented", "name": identity, "use": use, "size_awg": size,
        "material": "copper", "jacket": "black", "shield": "no",
        "pairs": [{"positive": {"base": base}, "negative": {"base": other, **stripe}}
                  for base, other, stripe in pairs],
        "singles": [{"base": base} for base in singles],
    })  # fmt: skip


_BLACK = {"stripe": "black"}
_CABLES: dict[str, tuple[list[tuple[str, str, Data]], list[str], int, str]] = {
    "5c": ([("brown", "brown", _BLACK), ("orange", "orange", _BLACK)], ["blue"], 18,
           "multi_conductor"),
    "3c": ([], ["red", "black", "yellow"], 18, "multi_conductor"),
    "2c": ([("red", "black", {})], [], 16, "speaker_pair"),
}  # fmt: skip


# -- jobs -------------------------------------------------------------------------------------


def door(channel: str, number: int, **more: Any) -> Data:
    """A factory door speaker on its factory wire, 50 W into 4 Ω."""
    return {
        "name": f"{channel} door", "channel": channel, "nominal_ohm": 4, "rated_w_rms": 50,
        "existing": "yes", "existing_lead": {"size_awg": 20, "length_m": 4.5},
        "driven_by": {"amplifier": "doors", "channel": number}, "from": [channel],
    } | more  # fmt: skip


def subwoofer(*plays: str, amp: str = "sub amp", number: int = 1, **more: Any) -> Data:
    """A new subwoofer of 500 W into 2 Ω."""
    return {
        "name": "subwoofer", "channel": "sub", "nominal_ohm": 2, "rated_w_rms": 500,
        "existing": "no", "lead": {"length_m": 1.0},
        "driven_by": {"amplifier": amp, "channel": number}, "from": list(plays),
    } | more  # fmt: skip


def route(start: str, end: str, carries: str, metres: float, *zones: str) -> Data:
    return {"from": start, "to": end, "carries": carries, "length_m": metres, "zones": list(zones)}


def supply(out: float, back: float, **more: Any) -> Data:
    return {
        "supply_lead_m": out, "ground_lead_m": back, "fuse_to_battery_m": 0.3,
        "fuse_family": "maxi", "material": "copper", "ground_point": "body_side",
        "listening": "heavy",
    } | more  # fmt: skip


def job(speakers: list[Data], routes: list[Data], power: Data, **more: Any) -> Job:
    """A job in this car; the parts are named by `parts_of`."""
    return read(Job, {
        "id": "job", "data": "invented", "title": "a job", "vehicle": "car",
        "car": {"tag": "k7m2", "answers": []}, "wanted": "more", "protect": [],
        "converter": "converter", "converter_place": "luggage bay", "amplifiers": [],
        "speakers": speakers, "treatment": "auto", "routes": routes, "cables": [],
        "supply": power, "other_turn_on_loads": [],
    } | more)  # fmt: skip


def parts_of(
    vehicle: Vehicle,
    what: Job,
    device: Converter | str,
    amplifiers: dict[str, str],
    cables: tuple[str, ...] = ("5c",),
    shelf: tuple[str, ...] = ("cvn-2a", "cvn-4a", "cvn-6s", "cvn-2p"),
) -> JobParts:
    """The job with its records; `amplifiers` gives the record of each name."""
    known = {name: converter(name) for name in shelf}
    chosen = converter(device) if isinstance(device, str) else device
    found = {name: amplifier(part) for name, part in amplifiers.items()}
    stock = tuple(cable(name) for name in cables)
    return JobParts(what, vehicle, chosen, found, stock, Shelf(converters=known))


def pack_of(*args: Any, **more: Any) -> WorkPack:
    """A pack that names other converters, each after the job was planned with it."""
    parts = parts_of(*args, **more)

    def again(device: Converter) -> bool:
        other = replace(parts, job=replace(parts.job, converter=device.id), converter=device)
        return unadvised_pack(other).kind == "tap_plan"

    return make_pack(parts, defaults=HOUSE, would_do=again)


# -- what a pack says -------------------------------------------------------------------------


def chain(pack: WorkPack, speaker: str) -> LevelChain:
    return next(each for each in pack.levels if each.speaker == speaker)


def gain(pack: WorkPack, speaker: str) -> GainSetting:
    return next(each for each in pack.gains if each.speaker == speaker)


def said(pack: WorkPack) -> str:
    reasons = (
        *pack.treatments, *pack.because, *pack.alternatives, *pack.refusals,
        *(pack.power.because if pack.power else ()),
    )  # fmt: skip
    lines = [f"{reason.decision}: {reason.because}" for reason in reasons]
    return "\n".join((*lines, *pack.losses, *(flag.says for flag in pack.flags)))


def flag_kinds(pack: WorkPack) -> set[str]:
    return {flag.kind for flag in pack.flags}


# -- the shipped book -------------------------------------------------------------------------


def _files(folder: str) -> list[Path]:
    return [path for path in sorted(BOOK.joinpath(folder).rglob("*.yaml")) if path.stem != EXAMPLE]


@cache
def _records(folder: str, kind: str) -> dict[str, Any]:
    found = {}
    for path in _files(folder):
        data = load_file(path, path.name).data
        assert data is not None
        found[path.stem] = parse_record(kind, data)
    return found


SHIPPED = tuple(path.stem for path in _files("jobs"))
"""Ids of the jobs of the book."""


VEHICLES: dict[str, Vehicle] = {name: car(name) for name in CARS}
CONVERTERS: dict[str, Converter] = _records("converters", "converter")
"""Cars and converters of the book, by id."""


def settled(parts: JobParts) -> JobParts:
    """The same job after the radio went to "all seats": its bands arrive together."""
    channels = tuple(
        replace(each, delay_ms=0.03) if (each.delay_ms or 0) > 0.03 else each
        for each in parts.vehicle.channels
    )
    return replace(parts, vehicle=replace(parts.vehicle, channels=channels))


def shipped_parts(name: str) -> JobParts:
    """A job of the book with every record it names."""
    converters, amplifiers = (
        _records("converters", "converter"),
        _records("amplifiers", "amplifier"),
    )
    cables, what = _records("cables", "cable"), _records("jobs", "job")[name]
    return JobParts(
        what,
        VEHICLES[what.vehicle],
        converters[what.converter],
        {each.name: amplifiers[each.part] for each in what.amplifiers},
        tuple(cables[each] for each in what.cables),
        Shelf(
            converters=converters,
            amplifiers=amplifiers,
            cables=cables,
            interfaces=_records("interfaces", "interface"),
            looms=_records("looms", "loom"),
            housings=_records("housings", "housing"),
        ),
    )


def unadvised_pack(parts: JobParts) -> WorkPack:
    """A pack that names no other converter: to try them all takes most of the time."""
    return make_pack(parts, defaults=HOUSE)


@cache
def shipped_pack(name: str) -> WorkPack:
    return make_pack(shipped_parts(name), defaults=HOUSE)


def with_supply(parts: JobParts, **more: Any) -> JobParts:
    """The same job with these figures of its supply replaced."""
    return replace(parts, job=replace(parts.job, supply=replace(parts.job.supply, **more)))
