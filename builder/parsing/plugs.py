"""The plugs of a vehicle: shells, pins, wires, readings and claims."""

from __future__ import annotations

from builder.declaring import read
from builder.findings import DataPath
from builder.model.plugs import (
    Claim,
    Condition,
    Fuse,
    FusePosition,
    LookAlike,
    Pin,
    Plug,
    Reading,
    Session,
)
from builder.model.wire import Wire
from builder.model.words import BATTERY_NEGATIVE, Reference
from builder.parsing.values import Data, name, number, section, text_or_none, texts

_OPEN = "open"

References = dict[str, Reference]
"""What each session measured against, by session id."""


def parse_plug(data: Data, path: DataPath, references: References) -> Plug:
    """Return the plug whose data stands at `path`."""
    return Plug(
        id=data["id"],
        name=data["name"],
        unit=data["unit"],
        location=data["location"],
        housing=data["housing"],
        shell_colours=texts(data, "shell_colours"),
        read_from=data["read_from"],
        empty=texts(data, "empty"),
        look_alikes=tuple(
            _look_alike(item, (*path, "look_alikes", index))
            for index, item in enumerate(data.get("look_alikes", ()))
        ),
        pins=tuple(
            parse_pin(item, (*path, "pins", index), references)
            for index, item in enumerate(data.get("pins", ()))
        ),
        path=path,
    )


def _look_alike(data: Data, path: DataPath) -> LookAlike:
    return LookAlike(data.get("plug"), data.get("housing"), data["fits"], texts(data, "tell"), path)


def parse_pin(data: Data, path: DataPath, references: References) -> Pin:
    """Return the pin whose data stands at `path`."""
    fuse = section(data, "fuse")
    return Pin(
        cavity=name(data["cavity"]),
        function=data["function"],
        channel=data.get("channel"),
        leg=data.get("leg"),
        wire=parse_wire(data["wire"]) if "wire" in data else None,
        fuse=Fuse(fuse["place"], number(fuse, "rating_a")) if fuse else None,
        max_source_ma=number(data, "max_source_ma"),
        level_v=number(data, "level_v"),
        only_if=_condition(data["only_if"]) if "only_if" in data else None,
        readings=parse_readings(data, path, references),
        claims=tuple(
            _claim(item, (*path, "claims", index))
            for index, item in enumerate(data.get("claims", ()))
        ),
        note=text_or_none(data, "note"),
        path=path,
    )


def parse_wire(data: Data) -> Wire:
    """Return the wire; base colour first, stripe second."""
    return read(Wire, data)


def _condition(data: Data) -> Condition:
    return Condition(texts(data, "trims"), texts(data, "options_any"), texts(data, "options_none"))


def parse_readings(data: Data, path: DataPath, references: References) -> tuple[Reading, ...]:
    """Return the readings listed under a pin or fuse position at `path`.

    A reading that names no reference point was taken against what its session was.
    """
    return tuple(
        _reading(item, (*path, "readings", index), references)
        for index, item in enumerate(data.get("readings", ()))
    )


def _reading(data: Data, path: DataPath, references: References) -> Reading:
    value, session = data["value"], data["session"]
    return Reading(
        session=session,
        state=data["state"],
        quantity=data["quantity"],
        value=None if value == _OPEN else value,
        against=name(data.get("against") or references.get(session, BATTERY_NEGATIVE)),
        battery_v=number(data, "battery_v"),
        load=data.get("load", "none"),
        minutes=number(data, "minutes"),
        volume_step=data.get("volume_step"),
        tone_hz=number(data, "tone_hz"),
        note=text_or_none(data, "note"),
        path=path,
        lasts_s=number(data, "lasts_s"),
        from_v=number(data, "from_v"),
    )


def _claim(data: Data, path: DataPath) -> Claim:
    return Claim(
        data["by"],
        data["date"],
        data["method"],
        data["says"],
        data.get("channel"),
        data.get("leg"),
        text_or_none(data, "source"),
        path,
        data.get("read_from"),
    )


def parse_session(data: Data, path: DataPath) -> Session:
    """Return the measuring session at `path`."""
    car, meter = data["car"], section(data, "meter")
    return Session(
        id=data["id"],
        by=data["by"],
        date=data["date"],
        car_tag=car["tag"],
        car_year=car.get("year") if isinstance(car.get("year"), int) else None,
        car_built=car.get("built"),
        car_trim=car.get("trim"),
        car_drive_side=car.get("drive_side"),
        method=data["method"],
        read_from=data["read_from"],
        against=data["against"],
        impedance_mohm=number(meter, "impedance_mohm"),
        true_rms=meter.get("true_rms", "unknown"),
        path=path,
    )


def parse_fuse_position(data: Data, path: DataPath, references: References) -> FusePosition:
    """Return the fuse-panel position at `path`."""
    return FusePosition(
        position=data["position"],
        panel=data["panel"],
        label=data["label"],
        function=data["function"],
        rating_a=number(data, "rating_a"),
        readings=parse_readings(data, path, references),
        path=path,
    )
