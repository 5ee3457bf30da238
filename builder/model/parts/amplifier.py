"""Amplifiers that a shop fits."""

from __future__ import annotations

from typing import Literal

from builder.declaring import figure, listed, part, record, text, word
from builder.model.forms import ID, LINE, SIZE_AWG, TRI
from builder.model.parts.amplifier_channels import (
    CLASS_MEANS,
    AmplifierChannels,
    AmplifierClass,
)
from builder.model.parts.amplifier_inputs import InputGroup
from builder.model.recorded import OWN_ID, Recorded
from builder.model.words import Tri

InputType = Literal["differential", "ground_referenced", "unknown"]


@record
class AmplifierSupply:
    """What it asks of the 12 V supply."""

    min_v: float = figure(
        "The least supply it works on, in volts.", "V", 9.0, least=4, most=20,
        label="works down to",
    )  # fmt: skip
    idle_a: float = figure(
        "What it draws with no sound, in amperes.", "A", 0.9, least=0, most=20,
        label="draws without sound",
    )  # fmt: skip
    max_a: float | None = figure(
        "The most it draws, in amperes, or unknown.", "A", 55, above=0, most=1000, unknown=True,
        default=None,
        label="at most",
    )  # fmt: skip
    fuse_a: float = figure(
        "The fuses on the amplifier added together, in amperes.", "A", 40, above=0, most=1000,
        label="fuses",
    )  # fmt: skip
    asleep_ma: float | None = figure(
        "What it draws switched off, while the car sleeps, in milliamperes; left out where nobody "
        "knows.", "mA", 1.5, least=0, most=2000, default=None,
        label="draws asleep", absent="",
    )  # fmt: skip


@record
class AmplifierTurnOn:
    """Its turn-on input."""

    draw_ma: float = figure(
        "What the turn-on input draws, in milliamperes.", "mA", 12, least=0, most=5000,
        label="draws", ask="Turn-on input draw in mA", option="turn-on-draw",
    )  # fmt: skip
    threshold_v: float | None = figure(
        "The voltage at which it acts, in volts, or unknown.", "V", 9.5, above=0, most=20,
        unknown=True, default=None,
        label="acts at",
    )  # fmt: skip


@record
class Terminals:
    """The thickest wires its terminals take."""

    power_max_awg: str | None = text(
        "The thickest power wire, as an AWG number.", 4, "1/0", form=SIZE_AWG, default=None,
        label="power",
    )  # fmt: skip
    speaker_max_awg: str | None = text(
        "The thickest speaker wire, as an AWG number.", 12, form=SIZE_AWG, default=None,
        label="speaker",
    )  # fmt: skip
    speaker_plug: Tri = word(
        "Whether its speaker terminals are on a plug that can be pulled; a plan takes what nobody "
        "said as screws, which are turned with the battery off only.", "unknown", form=TRI,
        default="unknown",
        label="speaker terminals on a plug",
    )  # fmt: skip


@record
class Amplifier(Recorded):
    """An amplifier that a shop fits."""

    id: str = text(OWN_ID, "zea-4-example", "template-zea", form=ID)
    name: str = text(
        "What the maker calls it.", "ZEA-4 example", form=LINE,
        ask="Name printed on it",
    )  # fmt: skip
    maker: str = text("Who makes it.", "Example Audio", form=LINE, ask="Maker")
    amplifier_class: AmplifierClass = word(
        "How its output stage works, which sets how much of the supply current becomes sound.",
        "AB", key="class",
        means=CLASS_MEANS,
        label="Class", ask="Class: AB or D",
    )  # fmt: skip
    efficiency: float | None = figure(
        "Measured output power over supply power, as a fraction; leave it out for the house "
        "default of the class.", "fraction", 0.55, least=0.05, most=0.99, default=None,
        label="Efficiency, measured", absent="house default of its class",
    )  # fmt: skip
    channels: tuple[AmplifierChannels, ...] = listed(
        "The channels: one entry for each group of equal ones.", [{"count": 4, "use": "full_range",
        "power": [{"ohm": 4, "w_rms": 60}], "min_ohm": 2, "bridgeable": "no",
        "sensitivity": {"min_v_rms": 0.25, "max_v_rms": 4.0}}], least=1, most=8,
    )  # fmt: skip
    inputs: tuple[InputGroup, ...] = listed(
        "Its line inputs: one entry for each group of them; left out, every channel has an input "
        "of its own, and a subwoofer channel sums left and right where it is given both.",
        [{"name": "inputs 1/2", "count": 2, "feeds": [1, 2], "impedance_ohm": 10000},
        {"name": "inputs 3/4", "count": 2, "feeds": [3, 4], "impedance_ohm": 10000,
        "copies": ["inputs 1/2"]}], most=16, default=(),
        label="Line inputs", absent="one for each channel",
    )  # fmt: skip
    supply: AmplifierSupply = part(
        {"min_v": 9.0, "idle_a": 0.9, "fuse_a": 40},
        label="Supply", ask="Least supply V, idle A, fuse A: the three figures of its data sheet",
    )  # fmt: skip
    turn_on: AmplifierTurnOn = part({"draw_ma": 12, "threshold_v": 9.5}, label="Turn-on input")
    input_type: InputType = word(
        "How its line input is referenced.", "differential",
        means={"differential": "Both wires float; it hears the difference.",
        "ground_referenced": "One wire is its ground.",
        "unknown": "Nobody has looked, or nobody could tell."},
        label="Line input", ask="Line input", answer="unknown",
    )  # fmt: skip
    speaker_level_in: Tri = word(
        "Whether it takes speaker-level signals directly.", "no", form=TRI,
        label="Speaker-level input", ask="Takes speaker level", answer="unknown",
    )  # fmt: skip
    output_floating: Tri = word(
        "Whether neither output leg is ground.", "yes", form=TRI,
        label="Neither output leg is ground", ask="Neither output leg is ground", answer="unknown",
    )  # fmt: skip
    terminals: Terminals | None = part(
        {"power_max_awg": 4, "speaker_max_awg": 12}, default=None,
        label="Thickest wires its terminals take",
    )  # fmt: skip

    def inputs_of(self, channel: int) -> InputGroup | None:
        """The group of inputs that feeds a channel; None where the record names none."""
        return next((each for each in self.inputs if channel in each.feeds), None)

    def group(self, name: str) -> InputGroup | None:
        """The group of inputs of that name, or None."""
        return next((each for each in self.inputs if each.name == name), None)

    @property
    def power_max_awg(self) -> str | None:
        """The thickest power wire its terminals take, as an AWG number."""
        return self.terminals.power_max_awg if self.terminals else None

    @property
    def speaker_max_awg(self) -> str | None:
        """The thickest speaker wire its terminals take, as an AWG number."""
        return self.terminals.speaker_max_awg if self.terminals else None

    @property
    def speakers_pull_off(self) -> bool:
        """Whether its speakers come off by a plug, so that no screw is turned for it."""
        return self.terminals is not None and self.terminals.speaker_plug == "yes"
