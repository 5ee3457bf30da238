"""Groups of equal channels of an amplifier: their power, their load, what drives them."""

from __future__ import annotations

from typing import Literal

from builder.declaring import figure, listed, part, record, when, word
from builder.model.forms import TRI
from builder.model.parts.filters import Filters
from builder.model.words import Tri

AmplifierClass = Literal["AB", "D"]
CLASS_MEANS: dict[AmplifierClass, str] = {
    "AB": "Linear output stage.",
    "D": "Switching output stage.",
}
ChannelUse = Literal["full_range", "sub"]


@record
class PowerAt:
    """The power at one load."""

    ohm: float = figure("The load in ohms.", "Ω", 4, least=0.25, most=32, label="into")
    w_rms: float = figure(
        "The power a channel into that load, in watts RMS.", "W", 60, above=0, most=20000,
        label="",
    )  # fmt: skip


@record
class Sensitivity:
    """The input that gives full power, at either end of the gain control."""

    min_v_rms: float = figure(
        "Input for full power with the gain at its most, in volts RMS.", "V", 0.25, above=0,
        most=60,
        label="from",
    )  # fmt: skip
    max_v_rms: float = figure(
        "Input for full power with the gain at its least, in volts RMS.", "V", 4.0, above=0,
        most=60,
        label="to",
    )  # fmt: skip


@record
class Bridged:
    """Two of the channels bridged: one output of its own limits."""

    power: tuple[PowerAt, ...] = listed(
        "The stated power at each load, of both together.", [{"ohm": 4, "w_rms": 170}], least=1,
        most=10,
        label="power",
    )  # fmt: skip
    min_ohm: float = figure(
        "The least load that two bridged channels may see, in ohms.", "Ω", 4, least=0.5, most=32,
        label="least load",
    )  # fmt: skip


@record
class AmplifierChannels:
    """A group of equal channels."""

    count: int = figure(
        "How many channels are like this.", "channels", 4, least=1, most=16,
        label="Channels", ask="Number of channels", option="channels",
    )  # fmt: skip
    use: ChannelUse = word(
        "What the channels are made for.", "full_range",
        means={"full_range": "Speakers of any kind.", "sub": "A subwoofer only."},
        label="Made for", ask="full_range or sub", option="use",
    )  # fmt: skip
    power: tuple[PowerAt, ...] = listed(
        "The stated power at each load.", [{"ohm": 4, "w_rms": 60}, {"ohm": 2, "w_rms": 85}],
        least=1, most=10,
        label="Power of a channel",
        ask="Watts into ohms of one channel, WATTS into OHMS, parted by commas",
        option="power",
    )  # fmt: skip
    min_ohm: float = figure(
        "The least load a channel may see, in ohms.", "Ω", 2, least=0.25, most=32,
        label="Least load",
    )  # fmt: skip
    bridgeable: Tri = word(
        "Whether two of the channels may be bridged.", "no", form=TRI,
        label="Bridgeable", ask="Bridgeable", answer="unknown", option="bridgeable",
    )  # fmt: skip
    sensitivity: Sensitivity = part(
        {"min_v_rms": 0.25, "max_v_rms": 4.0},
        label="Input for full power", ask="Input for full power in V RMS, LEAST-MOST",
        option="sensitivity",
    )  # fmt: skip
    own_class: AmplifierClass | None = word(
        "How the output stages of these channels work, where the amplifier mixes two kinds; left "
        "out, as the amplifier.", "D", key="class", means=CLASS_MEANS, default=None,
        label="Class of these channels", absent="as the amplifier",
    )  # fmt: skip
    efficiency: float | None = figure(
        "Measured output power over supply power of these channels, as a fraction; left out, the "
        "house default of their class, or as the amplifier.", "fraction", 0.8, least=0.05,
        most=0.99, default=None,
        label="Efficiency of these channels, measured", absent="as the amplifier",
    )  # fmt: skip

    bridged: Bridged | None = part(
        {"power": [{"ohm": 4, "w_rms": 170}], "min_ohm": 4}, default=None,
        label="Two bridged", absent="",
    )  # fmt: skip
    filters: Filters | None = part(
        {"high_pass": {"from_hz": 40, "to_hz": 250}, "low_pass": "none", "subsonic": "none",
        "slopes_db_per_octave": [12]}, default=None,
        label="Filters", absent="not recorded",
    )  # fmt: skip

    RULES = (
        when("Channels that cannot be bridged have no bridged power.", "bridgeable", "no").bars(
            "bridged"
        ),
    )

    @property
    def power_w(self) -> dict[float, float]:
        """Watts RMS by the load in ohms."""
        return {each.ohm: each.w_rms for each in self.power}
