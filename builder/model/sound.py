"""What a vehicle plays: the sound on each pair, and sounds that must stay."""

from __future__ import annotations

from typing import Literal

from builder.declaring import figure, listed, part, record, text, when, word
from builder.findings import DataPath
from builder.model.car_forms import BAND
from builder.model.forms import CHANNEL, LINE, TRI
from builder.model.heard import Heard
from builder.model.words import (
    UNKNOWN,
    Band,
    Channel,
    DrivenBy,
    InLine,
    Polarity,
    Tri,
    Volume,
)

Unheard = Literal["unknown"]
"""Stands among protected sounds where nobody has listened for all of them."""
_IN_LINE = {
    "fader": "A fader control between the radio and this pair.",
    "series_capacitor": "The whole pair sits behind a capacitor, so it reads open.",
    "second_speaker": "Another speaker on the same pair, with or without its own filter.",
    "headrest_speaker": "A head-rest speaker on the same pair.",
    "filter": "A passive filter between the output and the speaker.",
}


@record
class Level:
    """How loud the pair gets.

    `clean_max_v_rms` is measured; `label_w` is only printed.
    """

    clean_max_v_rms: float | None = figure(
        "The loudest clean level measured across the pair, in volts RMS, or unknown.", "V", None,
        above=0, most=60, unknown=True, default=None,
        column=("clean level (V)",),
    )  # fmt: skip
    at_volume_step: int | None = figure(
        "The volume shown by the radio at that level.", "step", None, least=0, most=200,
        default=None,
        column=("clean level at volume step",),
    )  # fmt: skip
    speaker_connected: Tri = word(
        "Whether the pair's speaker was connected while that level was measured.", "yes", form=TRI,
        default="unknown",
    )  # fmt: skip
    label_w: float | None = figure(
        "The power printed on the radio or amplifier, in watts a channel, or unknown.", "W", None,
        above=0, most=2000, unknown=True, default=None,
    )  # fmt: skip
    label_ohm: float | None = figure(
        "The load that the printed power is for, in ohms, or unknown.", "Ω", None, above=0,
        most=100,
        unknown=True, default=None,
    )  # fmt: skip


@record
class LineLevel:
    """How loud the line feed of the factory amplifier gets for this pair."""

    clean_max_v_rms: float = figure(
        "The loudest clean level measured across the line pair at the radio, in volts RMS.", "V",
        None, above=0, most=20,
    )  # fmt: skip
    at_volume_step: int | None = figure(
        "The volume shown by the radio at that level.", "step", None, least=0, most=200,
        default=None,
    )  # fmt: skip


@record
class BassPoint:
    """The level at one frequency and volume."""

    volume_step: int = figure("The volume shown by the radio.", "step", None, least=0, most=200)
    hz: float = figure("The frequency, in hertz.", "Hz", None, least=5, most=1000)
    db: float = figure("The level against 200 Hz, in decibels.", "dB", None, least=-60, most=40)


@record
class SpeakerChannel:
    """What one factory speaker pair carries."""

    channel: Channel = word("The pair.", "front-left", form=CHANNEL)
    driven_by: DrivenBy = word(
        "What drives the pair.", "radio", means={"radio": "The radio.", "amplifier": "The factory "
        "amplifier."},
    )  # fmt: skip
    speaker_ohm: float | None = figure(
        "The speaker's nominal resistance in ohms, or unknown.", "Ω", None, "unknown", above=0,
        most=100, unknown=True, default=None,
    )  # fmt: skip
    band: Band = word(
        "Which part of the sound the pair carries.", "full", form=BAND, answer=UNKNOWN,
    )  # fmt: skip
    lowpass_hz: float | None = figure(
        "The frequency above which the factory takes the sound away, in hertz, or unknown.", "Hz",
        None, least=10, most=100000, unknown=True, default=None,
    )  # fmt: skip
    highpass_hz: float | None = figure(
        "The frequency below which the factory takes the sound away, in hertz, or unknown.", "Hz",
        None, least=10, most=100000, unknown=True, default=None,
    )  # fmt: skip
    level: Level | None = part(
        {"clean_max_v_rms": None, "at_volume_step": None, "label_w": None, "label_ohm": None},
        default=None,
        column=("",),
    )  # fmt: skip
    line_level: LineLevel | None = part(
        {"clean_max_v_rms": None, "at_volume_step": None}, default=None,
    )  # fmt: skip
    delay_ms: float | None = figure(
        "How much later it plays than the quickest pair of the same side, in milliseconds, or "
        "unknown.", "ms", None, least=0, most=100, unknown=True, default=None,
    )  # fmt: skip
    polarity: Polarity = word(
        "Whether the pair is wired the right way round.", "normal", means={"normal": "Positive is "
        "positive.", "inverted": "The factory swaps the legs.", "unknown": "Nobody has looked, or "
        "nobody could tell."}, default="unknown",
    )  # fmt: skip
    volume: Volume = word(
        "Whether the level follows the volume control.", "variable", means={"variable": "It does.",
        "fixed": "It does not; the volume is set in the factory amplifier.",
        "unknown": "Nobody has looked, or nobody could tell."}, default="unknown",
    )  # fmt: skip
    upmix: Tri = word(
        "Whether the pair lacks what both sides share, because a centre speaker plays it.", "no",
        form=TRI, default="unknown",
    )  # fmt: skip
    bass_table: tuple[BassPoint, ...] = listed(
        "The bass level at some volumes, against 200 Hz.", [{"volume_step": None, "hz": None,
        "db": None}],
        most=100, default=(),
    )  # fmt: skip
    in_line: tuple[InLine, ...] = listed(
        "What sits between the output and the speaker, or beside the speaker.", ["fader",
        "second_speaker"], most=5, unique=True, means=_IN_LINE,
        item=word("One thing before or beside the speaker.", "fader", means=_IN_LINE), default=(),
    )  # fmt: skip
    shared_return: Tri = word(
        "Whether several speakers share one return wire.", "no", form=TRI, default="unknown",
    )  # fmt: skip
    path: DataPath = ()
    heard: Heard | None = None  # made by `proof.recorded_sound`, never typed

    RULES = (
        when(
            "A low band ends at its lowpass_hz and has no highpass_hz; write unknown "
            "when it was not measured.",
            "band",
            "low",
        )
        .needs("lowpass_hz")
        .bars("highpass_hz"),
        when(
            "A high band starts at its highpass_hz and has no lowpass_hz; write "
            "unknown when it was not measured.",
            "band",
            "high",
        )
        .needs("highpass_hz")
        .bars("lowpass_hz"),
        when(
            "A mid band lies between its highpass_hz and its lowpass_hz; write unknown "
            "for what was not measured.",
            "band",
            "mid",
        ).needs("highpass_hz", "lowpass_hz"),
        when(
            "Only a low, high or mid band has corner frequencies.", "band", "full", "unknown"
        ).bars("lowpass_hz", "highpass_hz"),
    )


@record
class ProtectedSound:
    """One sound that must still be heard."""

    sound: str = text(
        "The sound.", "lights-left-on warning", form=LINE,
        column=("name",),
    )  # fmt: skip
    channels: tuple[Channel, ...] = listed(
        "The pairs that it comes from.", ["front-left"], least=1, most=14, unique=True,
        form=CHANNEL,
    )  # fmt: skip
    plays_key_off: Tri = word(
        "Whether it also plays with the key out.", "yes", form=TRI, answer=UNKNOWN,
    )  # fmt: skip
    path: DataPath = ()
