"""Amplifiers that a shop fits."""

from __future__ import annotations

from typing import Literal

from builder.declaring import figure, listed, part, record, text, word
from builder.model.forms import ID, LINE, OWN_ID, SIZE_AWG, TRI, Recorded
from builder.model.words import Tri

AmplifierClass = Literal["AB", "D"]
ChannelUse = Literal["full_range", "sub"]
InputType = Literal["differential", "ground_referenced", "unknown"]


@record
class PowerAt:
    """The power at one load."""

    ohm: float = figure("The load in ohms.", "Ω", 4, least=0.25, most=32)
    w_rms: float = figure(
        "The power a channel into that load, in watts RMS.", "W", 60, above=0, most=20000
    )


@record
class Sensitivity:
    """The input that gives full power, at either end of the gain control."""

    min_v_rms: float = figure(
        "Input for full power with the gain at its most, in volts RMS.", "V", 0.25, above=0, most=60
    )
    max_v_rms: float = figure(
        "Input for full power with the gain at its least, in volts RMS.", "V", 4.0, above=0, most=60
    )


@record
class AmplifierChannels:
    """A group of equal channels."""

    count: int = figure("How many channels are like this.", "channels", 4, least=1, most=16)
    use: ChannelUse = word(
        "What the channels are made for.",
        "full_range",
        means={"full_range": "Speakers of any kind.", "sub": "A subwoofer only."},
    )
    power: tuple[PowerAt, ...] = listed(
        "The stated power at each load.",
        [{"ohm": 4, "w_rms": 60}, {"ohm": 2, "w_rms": 85}],
        least=1,
        most=10,
    )
    min_ohm: float = figure(
        "The least load a channel may see, in ohms.", "Ω", 2, least=0.25, most=32
    )
    bridgeable: Tri = word("Whether two of the channels may be bridged.", "no", form=TRI)
    sensitivity: Sensitivity = part(
        {"min_v_rms": 0.25, "max_v_rms": 4.0},
    )

    @property
    def power_w(self) -> dict[float, float]:
        """Watts RMS by the load in ohms."""
        return {each.ohm: each.w_rms for each in self.power}


@record
class AmplifierSupply:
    """What it asks of the 12 V supply."""

    min_v: float = figure("The least supply it works on, in volts.", "V", 9.0, least=4, most=20)
    idle_a: float = figure("What it draws with no sound, in amperes.", "A", 0.9, least=0, most=20)
    max_a: float | None = figure(
        "The most it draws, in amperes, or unknown.",
        "A",
        55,
        above=0,
        most=1000,
        unknown=True,
        default=None,
    )
    fuse_a: float = figure(
        "The fuses on the amplifier added together, in amperes.", "A", 40, above=0, most=1000
    )


@record
class AmplifierTurnOn:
    """Its turn-on input."""

    draw_ma: float = figure(
        "What the turn-on input draws, in milliamperes.", "mA", 12, least=0, most=5000
    )
    threshold_v: float | None = figure(
        "The voltage at which it acts, in volts, or unknown.",
        "V",
        9.5,
        above=0,
        most=20,
        unknown=True,
        default=None,
    )


@record
class Terminals:
    """The thickest wires its terminals take."""

    power_max_awg: str | None = text(
        "The thickest power wire, as an AWG number.", 4, "1/0", form=SIZE_AWG, default=None
    )
    speaker_max_awg: str | None = text(
        "The thickest speaker wire, as an AWG number.", 12, form=SIZE_AWG, default=None
    )


@record
class Amplifier(Recorded):
    """An amplifier that a shop fits."""

    id: str = text(
        OWN_ID,
        "ax-4-example",
        "template-ax",
        form=ID,
    )
    name: str = text("What the maker calls it.", "AX-4 example", form=LINE)
    maker: str = text("Who makes it.", "Example Audio", form=LINE)
    amplifier_class: AmplifierClass = word(
        "How its output stage works, which sets how much of the supply current becomes sound.",
        "AB",
        key="class",
        means={"AB": "Linear output stage.", "D": "Switching output stage."},
    )
    efficiency: float | None = figure(
        "Measured output power over supply power, as a fraction; leave it out "
        "for the house default of the class.",
        "fraction",
        0.55,
        least=0.05,
        most=0.99,
        default=None,
    )
    channels: tuple[AmplifierChannels, ...] = listed(
        "The channels: one entry for each group of equal ones.",
        [
            {
                "count": 4,
                "use": "full_range",
                "power": [{"ohm": 4, "w_rms": 60}],
                "min_ohm": 2,
                "bridgeable": "no",
                "sensitivity": {"min_v_rms": 0.25, "max_v_rms": 4.0},
            }
        ],
        least=1,
        most=8,
    )
    supply: AmplifierSupply = part({"min_v": 9.0, "idle_a": 0.9, "fuse_a": 40})
    turn_on: AmplifierTurnOn = part({"draw_ma": 12, "threshold_v": 9.5})
    input_type: InputType = word(
        "How its line input is referenced.",
        "differential",
        means={
            "differential": "Both wires float; it hears the difference.",
            "ground_referenced": "One wire is its ground.",
            "unknown": "Nobody has looked, or nobody could tell.",
        },
    )
    speaker_level_in: Tri = word("Whether it takes speaker-level signals directly.", "no", form=TRI)
    output_floating: Tri = word("Whether neither output leg is ground.", "yes", form=TRI)
    terminals: Terminals | None = part(
        {"power_max_awg": 4, "speaker_max_awg": 12},
        default=None,
    )

    @property
    def power_max_awg(self) -> str | None:
        """The thickest power wire its terminals take, as an AWG number."""
        return self.terminals.power_max_awg if self.terminals else None

    @property
    def speaker_max_awg(self) -> str | None:
        """The thickest speaker wire its terminals take, as an AWG number."""
        return self.terminals.speaker_max_awg if self.terminals else None
