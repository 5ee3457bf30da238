"""Line-level converters."""

from __future__ import annotations

from typing import Literal

from builder.declaring import figure, part, record, text, when, word
from builder.model.forms import (
    ID,
    LINE,
    SIZE_AWG,
    YES_NO,
    YesNo,
)
from builder.model.parts.converter_signal import Band, ConverterInput, Gain, Output
from builder.model.parts.converter_switching import (
    BassCorrection,
    ConverterSupply,
    RemoteIn,
    RemoteOut,
    TurnOn,
)
from builder.model.parts.filters import Filters
from builder.model.recorded import OWN_ID, Recorded

Kind = Literal["active", "passive"]

Sum = Literal["none", "same_side", "any"]


@record
class Terminals:
    """The wires its terminals take."""

    wire_min_awg: str | None = text(
        "The thinnest wire, as an AWG number.", 22, form=SIZE_AWG, default=None,
        label="thinnest",
    )  # fmt: skip
    wire_max_awg: str | None = text(
        "The thickest wire, as an AWG number.", 14, form=SIZE_AWG, default=None,
        label="thickest",
    )  # fmt: skip


@record
class Converter(Recorded):
    """A line-level converter: speaker level in, line level out."""

    id: str = text(OWN_ID, "zec-2-example", "template-zec", form=ID)
    name: str = text(
        "What the maker calls it.", "ZEC-2 example", form=LINE,
        ask="Name printed on it",
    )  # fmt: skip
    maker: str = text("Who makes it.", "Example Audio", form=LINE, ask="Maker")
    kind: Kind = word(
        "Whether it needs a supply.", "active",
        means={"active": "It has a supply and a turn-on.",
        "passive": "Transformers or resistors only; no supply, no turn-on."},
        label="Kind", ask="active (has a supply) or passive",
    )  # fmt: skip
    inputs: int = figure(
        "How many speaker-level input pairs it has.", "inputs", 2, least=1, most=16,
        label="Inputs", ask="Number of inputs",
    )  # fmt: skip
    outputs: int = figure(
        "How many line-level outputs it has.", "outputs", 2, least=1, most=16,
        label="Outputs", ask="Number of outputs",
    )  # fmt: skip
    input: ConverterInput = part(
        {"type": "floating", "max_v_rms": 20, "impedance_ohm": 10000, "common_mode_max_v": 16},
    )  # fmt: skip
    sum: Sum = word(
        "Which inputs it can add into one output.", "none",
        means={"none": "None.", "same_side": "Two inputs of one side into one output.",
        "any": "Any inputs into one output."},
        label="Sums", ask="Summing: none, same_side or any", answer="none",
    )  # fmt: skip
    gain: Gain = part(
        {"kind": "adjustable", "min": 0.05, "max": 2.0}, {"kind": "fixed", "value": 0.2},
        label="Gain, line out over speaker in",
        ask="Gain, line out for speaker in: LEAST-MOST, or one figure when it is fixed",
    )  # fmt: skip
    output: Output = part({"max_v_rms": 8.0, "at_supply_v": 13.8, "impedance_ohm": 100})
    band: Band | None = part({"from_hz": 10, "to_hz": 60000}, default=None, label="Band")
    supply: ConverterSupply | None = part(
        {"min_v": 9.0, "idle_a": 0.15, "max_a": 0.4, "fuse_a": 2}, default=None,
        label="Supply", absent="none: it is passive",
        ask="Least supply V, idle A, fuse A: the three figures of its data sheet",
    )  # fmt: skip
    turn_on: TurnOn | None = part(
        {"remote_in": {"draw_ma": 8, "threshold_v": 7.0}, "offset_wake": "no", "signal_wake": "no"},
        default=None,
    )  # fmt: skip
    remote_out: RemoteOut | None = part(
        {"max_ma": 200, "delay_s": 1.0}, "none",
        means={"none": "It cannot switch the next device on."},
        default=None,
        label="Turn-on output", absent="none", ask="Turn-on output in mA, or none",
    )  # fmt: skip
    bass_rolloff_correction: BassCorrection | None = part(
        {"max_db": 12, "hz": 40}, {"max_db": 12, "hz": 40, "follows_level": "no"}, "no",
        means={"no": "It gives no bass back."},
        label="Gives back lost bass", ask="Bass given back: DB at HZ, or no",
        answer="no", option="bass-correction",
    )  # fmt: skip
    input_load_ohm: float | None = figure(
        "A resistor across each input that stands in for the speaker, in ohms, or none.", "Ω", 47,
        "none", above=0, most=10000,
        means={"none": "There is no such resistor."},
        label="Resistor across each input", ask="Load resistor across each input in ohms, or none",
        answer="none", option="input-load",
    )  # fmt: skip
    delay_adjust: YesNo = word(
        "Whether it can align two inputs in time.", "no", form=YES_NO,
        label="Aligns inputs in time", ask="Can it align two inputs in time", answer="no",
    )  # fmt: skip
    filters: Filters | None = part(
        {"high_pass": {"from_hz": 20, "to_hz": 20000}, "low_pass": {"from_hz": 20,
        "to_hz": 20000}, "subsonic": {"from_hz": 10, "to_hz": 60}, "slopes_db_per_octave": [12, 24],
        "polarity_switch": "yes", "delay_max_ms": 8}, default=None,
        label="Filters of each output", absent="none",
    )  # fmt: skip
    terminals: Terminals | None = part(
        {"wire_min_awg": 22, "wire_max_awg": 14}, default=None,
        label="Wires its terminals take",
    )  # fmt: skip
    RULES = (
        when(
            "An active converter needs its supply, its turn_on and its remote_out.",
            "kind",
            "active",
        ).needs("supply", "turn_on", "remote_out"),
        when("A passive converter has no supply and nothing to turn on.", "kind", "passive")
        .bars("supply", "turn_on")
        .limits("remote_out", "none"),
        when(
            "A converter that sums has a limit after the sum; unknown is allowed.",
            "sum",
            "same_side",
            "any",
        ).needs("input.after_sum_max_v_rms"),
    )

    @property
    def remote_in(self) -> RemoteIn | None:
        """Its turn-on input, None without one."""
        return self.turn_on.remote_in if self.turn_on else None

    @property
    def offset_wake_min_v(self) -> float | None:
        """The least bias that wakes it [V]; None when it does not wake so."""
        wake = self.turn_on.offset_wake if self.turn_on else None
        return wake.min_v if wake else None

    @property
    def signal_wake_hold_s(self) -> float | None:
        """How long it stays on after the last sound [s]; None when sound does not wake it."""
        wake = self.turn_on.signal_wake if self.turn_on else None
        return wake.hold_s if wake else None
