"""Converter, amplifier and cable records."""

from __future__ import annotations

from builder.model.parts import (
    Amplifier,
    AmplifierChannels,
    BassCorrection,
    Cable,
    CablePair,
    Converter,
    ConverterInput,
    Gain,
    RemoteIn,
    RemoteOut,
    Supply,
)
from builder.parsing.values import Data, number, section, text_or_none
from builder.parsing.vehicle import parse_wire


def parse_converter(data: Data) -> Converter:
    """Return the typed converter."""
    output, turn_on = data["output"], section(data, "turn_on")
    remote_out = section(data, "remote_out")
    correction = section(data, "bass_rolloff_correction")
    return Converter(
        id=data["id"],
        data=data["data"],
        name=data["name"],
        maker=data["maker"],
        kind=data["kind"],
        inputs=data["inputs"],
        outputs=data["outputs"],
        input=_converter_input(data["input"]),
        sum=data["sum"],
        gain=_gain(data["gain"]),
        output_max_v_rms=output["max_v_rms"],
        output_at_supply_v=number(output, "at_supply_v"),
        output_impedance_ohm=number(output, "impedance_ohm"),
        band_hz=(data["band"]["from_hz"], data["band"]["to_hz"]) if "band" in data else None,
        supply=_supply(data["supply"]) if "supply" in data else None,
        remote_in=_remote_in(section(turn_on, "remote_in")),
        offset_wake_min_v=number(section(turn_on, "offset_wake"), "min_v"),
        signal_wake_hold_s=number(section(turn_on, "signal_wake"), "hold_s"),
        remote_out=RemoteOut(remote_out["max_ma"], number(remote_out, "delay_s"))
        if remote_out
        else None,
        bass_rolloff_correction=_correction(correction) if correction else None,
        input_load_ohm=number(data, "input_load_ohm"),
        delay_adjust=data.get("delay_adjust", "no"),
    )


def _correction(data: Data) -> BassCorrection:
    """What was recorded before the key was there was the kind that follows the level."""
    return BassCorrection(data["max_db"], data["hz"], data.get("follows_level", "yes") == "yes")


def _converter_input(data: Data) -> ConverterInput:
    return ConverterInput(
        type=data["type"],
        max_v_rms=data["max_v_rms"],
        after_sum_max_v_rms=number(data, "after_sum_max_v_rms"),
        impedance_ohm=data["impedance_ohm"],
        common_mode_max_v=number(data, "common_mode_max_v"),
    )


def _gain(data: Data) -> Gain:
    if data["kind"] == "fixed":
        return Gain(data["value"], data["value"])
    return Gain(data["min"], data["max"])


def _supply(data: Data) -> Supply:
    return Supply(data["min_v"], data["idle_a"], number(data, "max_a"), data["fuse_a"])


def _remote_in(data: Data) -> RemoteIn | None:
    return RemoteIn(data["draw_ma"], number(data, "threshold_v")) if data else None


def parse_amplifier(data: Data) -> Amplifier:
    """Return the typed amplifier."""
    terminals = section(data, "terminals")
    turn_on = data["turn_on"]
    return Amplifier(
        id=data["id"],
        data=data["data"],
        name=data["name"],
        maker=data["maker"],
        amplifier_class=data["class"],
        efficiency=number(data, "efficiency"),
        channels=tuple(_amplifier_channels(group) for group in data["channels"]),
        supply=_supply(data["supply"]),
        turn_on=RemoteIn(turn_on["draw_ma"], number(turn_on, "threshold_v")),
        input_type=data["input_type"],
        speaker_level_in=data.get("speaker_level_in", "unknown"),
        output_floating=data["output_floating"],
        power_max_awg=text_or_none(terminals, "power_max_awg"),
        speaker_max_awg=text_or_none(terminals, "speaker_max_awg"),
    )


def _amplifier_channels(data: Data) -> AmplifierChannels:
    sensitivity = data["sensitivity"]
    return AmplifierChannels(
        count=data["count"],
        use=data["use"],
        power_w={float(entry["ohm"]): entry["w_rms"] for entry in data["power"]},
        min_ohm=data["min_ohm"],
        bridgeable=data["bridgeable"],
        sensitivity_min_v_rms=sensitivity["min_v_rms"],
        sensitivity_max_v_rms=sensitivity["max_v_rms"],
    )


def parse_cable(data: Data) -> Cable:
    """Return the typed cable."""
    return Cable(
        id=data["id"],
        data=data["data"],
        name=data["name"],
        use=data["use"],
        size_awg=text_or_none(data, "size_awg"),
        size_mm2=number(data, "size_mm2"),
        material=data["material"],
        jacket=data["jacket"],
        pairs=tuple(
            CablePair(parse_wire(pair["positive"]), parse_wire(pair["negative"]))
            for pair in data.get("pairs", ())
        ),
        singles=tuple(parse_wire(wire) for wire in data.get("singles", ())),
        shield=data.get("shield", "no"),
        on_reel_m=number(data, "on_reel_m"),
    )
