"""A vehicle record: scope, features, power, safety and channels. Plugs are in `plugs.py`."""

from __future__ import annotations

from builder.model.sound import BassPoint, Level, ProtectedSound, SpeakerChannel
from builder.model.vehicle import (
    Acceptance,
    Answer,
    Battery,
    FactoryAmplifier,
    Fastener,
    Features,
    Power,
    Question,
    Radio,
    Removal,
    Resolution,
    Safety,
    Scope,
    Vehicle,
)
from builder.parsing.plugs import parse_fuse_position, parse_plug, parse_session, parse_wire
from builder.parsing.values import Data, number, section, text_or_none, texts

__all__ = ["parse_vehicle", "parse_wire"]


def parse_vehicle(data: Data) -> Vehicle:
    """Return the typed vehicle."""
    sessions = tuple(
        parse_session(item, ("sessions", index))
        for index, item in enumerate(data.get("sessions", ()))
    )
    references = {session.id: session.against for session in sessions}
    return Vehicle(
        id=data["id"],
        data=data["data"],
        make=data["make"],
        model=data["model"],
        variant=data["variant"],
        generation=text_or_none(data, "generation"),
        scope=parse_scope(data["scope"]),
        how_to_tell=tuple(
            _question(item, index) for index, item in enumerate(data.get("how_to_tell", ()))
        ),
        radio=_radio(data["radio"]),
        factory_amplifier=FactoryAmplifier(
            data["factory_amplifier"]["feed"],
            text_or_none(data["factory_amplifier"], "location"),
            number(data["factory_amplifier"], "rail_v"),
        ),
        features=Features(**data["features"]),
        protected_sounds=tuple(
            _protected_sound(item, index)
            for index, item in enumerate(data.get("protected_sounds", ()))
        ),
        power=_power(section(data, "power")),
        safety=_safety(data["safety"]),
        fuse_positions=tuple(
            parse_fuse_position(item, ("fuse_positions", index), references)
            for index, item in enumerate(data.get("fuse_positions", ()))
        ),
        channels=tuple(
            _channel(item, index) for index, item in enumerate(data.get("channels", ()))
        ),
        sessions=sessions,
        plugs=tuple(
            parse_plug(item, ("plugs", index), references)
            for index, item in enumerate(data["plugs"])
        ),
        accept=tuple(
            Acceptance(item["rule"], item.get("at"), item["reason"], item["who"], ("accept", index))
            for index, item in enumerate(data.get("accept", ()))
        ),
        edited=text_or_none(data, "edited"),
        resolutions=tuple(
            _resolution(item, index) for index, item in enumerate(data.get("resolutions", ()))
        ),
    )


def _resolution(data: Data, index: int) -> Resolution:
    return Resolution(
        data["pin"],
        data["by"],
        data["date"],
        data["deciding"],
        texts(data, "retires"),
        ("resolutions", index),
        text_or_none(data, "outcome"),
    )


def parse_scope(data: Data) -> Scope:
    """Return the typed scope."""
    return Scope(
        year_from=data["year_from"],
        year_to=data["year_to"],
        build_from=data.get("build_from"),
        build_to=data.get("build_to"),
        bodies=texts(data, "bodies"),
        markets=texts(data, "markets"),
        drive_side=data["drive_side"],
        trims=texts(data, "trims"),
        options_any=texts(data, "options_any"),
        options_none=texts(data, "options_none"),
        radios=texts(data, "radios"),
    )


def _question(data: Data, index: int) -> Question:
    answers = tuple(Answer(item["answer"], item["means"]) for item in data["answers"])
    return Question(data["question"], data["cost"], answers, ("how_to_tell", index))


def _radio(data: Data) -> Radio:
    return Radio(
        outputs=data["outputs"],
        label_w=number(data, "label_w"),
        open_load_check=data["open_load_check"],
        data_wake=data["data_wake"],
        removal=_removal(data["removal"]) if "removal" in data else None,
    )


def _removal(data: Data) -> Removal:
    fasteners = tuple(Fastener(item["head"], item["count"]) for item in data.get("fasteners", ()))
    return Removal(texts(data, "steps"), fasteners, texts(data, "hazards"))


def _protected_sound(data: Data, index: int) -> ProtectedSound:
    return ProtectedSound(
        data["sound"],
        tuple(data["channels"]),
        data["plays_key_off"],
        ("protected_sounds", index),
    )


def _power(data: Data) -> Power:
    battery, charging = section(data, "battery"), section(data, "charging")
    return Power(
        battery=Battery(
            battery.get("location", "unknown"),
            number(battery, "capacity_ah"),
            battery.get("sensor_on_negative", "unknown"),
        ),
        charging_by=charging.get("by"),
        charging_a=number(charging, "rated_a"),
        base_load_a=number(data, "base_load_a"),
        base_load_key_off_a=number(data, "base_load_key_off_a"),
        supply_lead_m=number(data, "supply_lead_m"),
        ground_lead_m=number(data, "ground_lead_m"),
        charging_idle_a=number(charging, "idle_a"),
    )


def _safety(data: Data) -> Safety:
    return Safety(
        restraint_zones=texts(data, "restraint_zones"),
        high_voltage_zones=texts(data, "high_voltage_zones"),
        restraint_wait_min=number(data, "restraint_wait_min"),
        cautions=texts(data, "cautions"),
    )


def _channel(data: Data, index: int) -> SpeakerChannel:
    return SpeakerChannel(
        channel=data["channel"],
        driven_by=data["driven_by"],
        speaker_ohm=number(data, "speaker_ohm"),
        band=data["band"],
        lowpass_hz=number(data, "lowpass_hz"),
        highpass_hz=number(data, "highpass_hz"),
        level=_level(data["level"]) if "level" in data else None,
        delay_ms=number(data, "delay_ms"),
        polarity=data.get("polarity", "unknown"),
        volume=data.get("volume", "unknown"),
        upmix=data.get("upmix", "unknown"),
        bass_table=tuple(
            BassPoint(item["volume_step"], item["hz"], item["db"])
            for item in data.get("bass_table", ())
        ),
        in_line=tuple(data.get("in_line", ())),
        shared_return=data.get("shared_return", "unknown"),
        path=("channels", index),
    )


def _level(data: Data) -> Level:
    return Level(
        number(data, "clean_max_v_rms"),
        data.get("at_volume_step"),
        number(data, "label_w"),
        number(data, "label_ohm"),
    )
