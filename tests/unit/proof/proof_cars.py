"""Small invented vehicles and readings to grade and judge."""

from __future__ import annotations

from typing import Any

from builder.model.housing import Housing
from builder.model.plugs import Claim, Pin, Plug, Reading, Session
from builder.model.session import MeasuredCar, Meter
from builder.model.sound import SpeakerChannel
from builder.model.vehicle import (
    Battery,
    FactoryAmplifier,
    Features,
    Power,
    Radio,
    Resolution,
    Safety,
    Scope,
    Vehicle,
)


def scope(**changes: Any) -> Scope:
    facts: dict[str, Any] = {
        "year_from": 2016,
        "year_to": 2019,
        "build_from": None,
        "build_to": None,
        "bodies": ("hatch",),
        "markets": ("all",),
        "drive_side": "left",
        "trims": ("base",),
        "options_any": (),
        "options_none": (),
        "radios": ("kr-210",),
    }
    return Scope(**{**facts, **changes})


CAR = ("tag", "year", "built", "trim", "drive_side")
"""What a session says of its car: `car_year=…` of `session` and so on."""


def session(id: str = "s1", by: str = "alder-pit-audio", **changes: Any) -> Session:
    facts: dict[str, Any] = {
        "id": id,
        "by": by,
        "date": "2024-05-13",
        "method": "meter",
        "read_from": "wire_side",
        "against": "battery_negative",
        "meter": Meter(impedance_mohm=10.0, true_rms="yes"),
        "path": ("sessions", 0),
    }
    car = {"tag": f"tag-{by}", "year": 2018, "trim": "base", "drive_side": "left"}
    other = {key: changes.pop(f"car_{key}") for key in CAR if f"car_{key}" in changes}
    return Session(**{**facts, "car": MeasuredCar(**{**car, **other}), **changes})


def reading(state: str, value: float | None, **changes: Any) -> Reading:
    facts: dict[str, Any] = {
        "session": "s1",
        "state": state,
        "quantity": "dc_v",
        "value": value,
        "against": "battery_negative",
        "battery_v": 12.4,
        "load": "none",
        "minutes": 65.0 if state == "asleep" else None,
        "volume_step": None,
        "tone_hz": None,
        "note": None,
        "path": (),
    }
    return Reading(**{**facts, **changes})


def ohm(value: float | None, against: str = "body", **changes: Any) -> Reading:
    facts: dict[str, Any] = {"quantity": "ohm", "against": against, "battery_v": None, **changes}
    return reading("unplugged", value, **facts)


def claim(by: str, method: str, says: str = "constant", **changes: Any) -> Claim:
    facts: dict[str, Any] = {
        "by": by,
        "date": "2024-05-10",
        "method": method,
        "says": says,
        "channel": None,
        "leg": None,
        "source": None,
        "path": (),
    }
    return Claim(**{**facts, **changes})


def pin(cavity: str, function: str, **changes: Any) -> Pin:
    facts: dict[str, Any] = {
        "cavity": cavity,
        "function": function,
        "channel": None,
        "leg": None,
        "wire": None,
        "fuse": None,
        "max_source_ma": None,
        "level_v": None,
        "only_if": None,
        "readings": (),
        "claims": (),
        "note": None,
        "path": ("plugs", 0, "pins", 0),
    }
    return Pin(**{**facts, **changes})


def speaker(cavity: str, leg: str, *readings: Reading, **changes: Any) -> Pin:
    facts = {"channel": "front-left", "leg": leg, "readings": readings, **changes}
    return pin(cavity, "speaker", **facts)


def channel(name: str = "front-left", **changes: Any) -> SpeakerChannel:
    facts: dict[str, Any] = {
        "channel": name,
        "driven_by": "radio",
        "speaker_ohm": 4.0,
        "band": "full",
        "lowpass_hz": None,
        "highpass_hz": None,
        "level": None,
        "delay_ms": None,
        "polarity": "unknown",
        "volume": "unknown",
        "upmix": "unknown",
        "bass_table": (),
        "in_line": (),
        "shared_return": "unknown",
        "path": (),
    }
    return SpeakerChannel(**{**facts, **changes})


def vehicle(
    *pins: Pin,
    sessions: tuple[Session, ...] = (),
    channels: tuple[SpeakerChannel, ...] = (),
    outputs: str = "bridged",
    feed: str = "none",
    resolutions: tuple[Resolution, ...] = (),
    where: Scope | None = None,
) -> Vehicle:
    plug = Plug(
        id="A", name="main plug", unit="radio", location="behind the radio", housing="block-a-8",
        shell_colours=("grey",), read_from="wire_side", pins=pins, path=("plugs", 0),
    )  # fmt: skip
    return Vehicle(
        id="wexlow-quern",
        data="invented",
        make="Wexlow",
        model="Quern",
        variant="hatch, base",
        generation=None,
        scope=where or scope(),
        how_to_tell=(),
        radio=Radio(outputs=outputs, open_load_check="unknown", data_wake="no"),  # type: ignore[arg-type]
        factory_amplifier=FactoryAmplifier(feed=feed),  # type: ignore[arg-type]
        features=Features(
            start_stop="no",
            hybrid="no",
            noise_cancellation="no",
            engine_sound="no",
            emergency_call="no",
        ),
        protected_sounds=(),
        power=Power(battery=Battery(location="front", sensor_on_negative="no")),
        safety=Safety(restraint_zones=(), high_voltage_zones=(), restraint_wait_min=None),
        fuse_positions=(),
        channels=channels,
        sessions=sessions,
        plugs=(plug,),
        accept=(),
        edited=None,
        resolutions=resolutions,
    )


def housing(
    *rows: tuple[str | None, ...], shift: tuple[float, ...] = (), latch: str = "top"
) -> Housing:
    return Housing(
        id="block-a-8", data="invented", name="block", seen_from="wire_side",
        latch=latch, rows=rows,  # type: ignore[arg-type]
        row_shift=shift, blade_mm=1.5, blocked=(),
    )  # fmt: skip


def full_constant(session_id: str = "s1") -> tuple[Reading, ...]:
    return (
        reading("asleep", 12.61, battery_v=12.62, session=session_id),
        reading("run", 12.31, battery_v=12.44, load="1a", session=session_id),
    )


def part_constant(session_id: str = "s1") -> tuple[Reading, ...]:
    return (reading("run", 12.31, battery_v=12.44, load="1a", session=session_id),)
