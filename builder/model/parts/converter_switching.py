"""What a converter asks of 12 V, what switches it on, what it switches on, and its bass."""

from __future__ import annotations

from builder.declaring import figure, part, record, word
from builder.model.forms import YesNo


@record
class ConverterSupply:
    """What it asks of the 12 V supply; active converters only."""

    min_v: float = figure(
        "The least supply it works on, in volts.", "V", 9.0, least=4, most=20,
        label="works down to",
    )  # fmt: skip
    idle_a: float = figure(
        "What it draws with no sound, in amperes.", "A", 0.15, least=0, most=20,
        label="draws without sound",
    )  # fmt: skip
    max_a: float | None = figure(
        "The most it draws, in amperes, or unknown.", "A", 0.4, above=0, most=100, unknown=True,
        default=None,
        label="at most",
    )  # fmt: skip
    fuse_a: float = figure(
        "The fuse its maker asks for, in amperes.", "A", 2, above=0, most=100,
        label="fuse",
    )  # fmt: skip
    asleep_ma: float | None = figure(
        "What it draws switched off, while the car sleeps, in milliamperes; left out where nobody "
        "knows.", "mA", 1.5, least=0, most=2000, default=None,
        label="draws asleep", absent="",
    )  # fmt: skip


@record
class RemoteIn:
    """Its turn-on input, or no."""

    draw_ma: float = figure(
        "What the turn-on input draws, in milliamperes.", "mA", 8, least=0, most=5000,
        label="draws",
    )  # fmt: skip
    threshold_v: float | None = figure(
        "The voltage at which it acts, in volts, or unknown.", "V", 7.0, above=0, most=20,
        unknown=True, default=None,
        label="acts at",
    )  # fmt: skip


@record
class OffsetWake:
    """Wakes when both legs of input 1 rise from 0 V together, or no."""

    min_v: float = figure(
        "The least bias that wakes it, in volts.", "V", 2.0, above=0, most=12,
        label="from",
    )  # fmt: skip


@record
class SignalWake:
    """Wakes on sound, or no."""

    hold_s: float = figure(
        "How long it stays on after the last sound, in seconds.", "s", 60, least=0, most=7200,
        label="held for",
    )  # fmt: skip


@record
class TurnOn:
    """What can switch it on; active converters only."""

    remote_in: RemoteIn | None = part(
        {"draw_ma": 8, "threshold_v": 7.0}, "no",
        means={"no": "It has no turn-on input."},
        label="Turn-on input", ask="Turn-on input draw in mA, or no", option="remote-in",
    )  # fmt: skip
    offset_wake: OffsetWake | None = part(
        {"min_v": 2.0}, "no",
        means={"no": "It does not wake on the bias of a speaker pair."},
        label="Wakes on offset", ask="Wakes on bias from how many V, or no", answer="no",
        option="offset-wake",
    )  # fmt: skip
    signal_wake: SignalWake | None = part(
        {"hold_s": 60}, "no",
        means={"no": "It does not wake on sound."},
        label="Wakes on sound", ask="Wakes on sound and holds how many s, or no", answer="no",
        option="signal-wake",
    )  # fmt: skip


@record
class RemoteOut:
    """Its turn-on output for the amplifier, or none."""

    max_ma: float = figure(
        "The most the output gives, in milliamperes.", "mA", 200, above=0, most=20000,
        label="up to",
    )  # fmt: skip
    delay_s: float | None = figure(
        "How long after its own turn-on it acts, in seconds, or unknown.", "s", 1.0, least=0,
        most=60, unknown=True, default=None,
        label="after",
    )  # fmt: skip


@record
class BassCorrection:
    """How much factory bass loss it can give back, or no."""

    max_db: float = figure(
        "The most it gives back, in decibels.", "dB", 12, above=0, most=40,
        label="up to",
    )  # fmt: skip
    hz: float = figure(
        "The frequency at which it does so, in hertz.", "Hz", 40, least=5, most=500,
        label="at",
    )  # fmt: skip
    follows_level: YesNo = word(
        "Whether it gives back as much as is missing at each volume; yes when left out.", "yes",
        means={"yes": "It follows the volume: much where much is missing, nothing where nothing "
        "is.", "no": "A fixed boost, the same at every volume."},
        default="yes",
        label="follows the volume:",
    )  # fmt: skip
