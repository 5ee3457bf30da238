"""The lead between a pair and a recorder: a setting of a book, and a part of each recording."""

from __future__ import annotations

from typing import Literal

from builder.declaring import figure, part, record, text, when, word
from builder.findings import DataPath
from builder.model.forms import DATE, ID, TRI
from builder.model.words import Tri

LeadIsolation = Literal["transformer", "balanced", "none"]
LeadClamp = Literal["none", "small_diodes", "other"]
RecorderInput = Literal["balanced", "line", "headset", "phone"]
RecorderSupply = Literal["battery", "mains", "car", "player"]
LeadPolarity = Literal["kept", "turned", "unknown"]


@record
class LeadCalibration:
    """What a meter read at a pair while 200 Hz played, and what the recorder then wrote."""

    date: str = text(
        "The day, as YYYY-MM-DD.", "2024-05-13", form=DATE,
        label="Calibrated on",
    )  # fmt: skip
    pair_v_rms: float = figure(
        "AC volts of the meter across the pair, recorder attached.", "V", None, above=0, most=60,
        label="At the pair", absent="",
    )  # fmt: skip
    recorded_dbfs: float = figure(
        "The peak that the recorder showed meanwhile, in decibels below full scale.", "dB", None,
        least=-120, most=0,
        label="Recorded", absent="",
    )  # fmt: skip


@record(shared="recording_lead")
class RecordingLead:
    """A recording lead with what hangs on it: what has to be known so that it harms nothing."""

    id: str = text(
        "What the shop calls it.", "lead-1", form=ID,
        label="Lead",
    )  # fmt: skip
    clip_ohm: float = figure(
        "The resistor inside each clip, in ohms; 0 where there is none.", "Ω", None, least=0,
        most=1000000,
        label="In each clip", absent="",
    )  # fmt: skip
    across_ohm: float = figure(
        "The resistor across the far end, in ohms.", "Ω", None, above=0, most=100000,
        label="Across the far end", absent="",
    )  # fmt: skip
    isolation: LeadIsolation = word(
        "What keeps the recorder's ground from the pair.", "transformer",
        means={"transformer": "A 1:1 audio transformer.",
        "balanced": "A balanced input, with a resistor from each leg to its reference.",
        "none": "Nothing."},
        label="Keeps the grounds apart", absent="",
    )  # fmt: skip
    insulation_v: float | None = figure(
        "What the transformer bears between its windings, in volts.", "V", None, above=0,
        most=10000, default=None,
        label="Insulation", absent="",
    )  # fmt: skip
    distortion_percent: float | None = figure(
        "The most that the transformer distorts at 20 Hz, in percent.", "%", None, least=0,
        most=100, default=None,
        label="Distortion at 20 Hz", absent="",
    )  # fmt: skip
    leg_capacitor_uf: float | None = figure(
        "The film capacitor in each leg before the transformer, in microfarads.", "µF", None,
        above=0, most=1000, default=None,
        label="In each leg", absent="",
    )  # fmt: skip
    reference_ohm: float | None = figure(
        "The resistor from each leg to the reference of a balanced input, in ohms.", "Ω", None,
        above=0, most=100000, default=None,
        label="From each leg to the reference", absent="",
    )  # fmt: skip
    clamp: LeadClamp = word(
        "What limits the voltage across its far end.", "none",
        means={"none": "Nothing: the resistors do.", "small_diodes": "Small-signal diodes.",
        "other": "Something else."}, default="none",
        label="Limits the voltage", absent="",
    )  # fmt: skip
    on_body: Tri = word(
        "Whether a clip or a screen of it is joined to the car's body.", "no", form=TRI,
        default="unknown",
        label="On the body", absent="",
    )  # fmt: skip
    input: RecorderInput = word(
        "What it is plugged into.", "balanced", means={"balanced": "A balanced input.",
        "line": "An unbalanced line input.", "headset": "The input of a headset.",
        "phone": "A phone or tablet."},
        label="Plugged into", absent="",
    )  # fmt: skip
    recorder_supply: RecorderSupply = word(
        "What the recorder runs from.", "battery", means={"battery": "Its own battery.",
        "mains": "The mains, by a supply of its own.", "car": "It charges from the car.",
        "player": "It hangs on the player, or is the player."},
        label="Recorder runs from", absent="",
    )  # fmt: skip
    polarity: LeadPolarity = word(
        "Which way a 1.5 V cell at the clips moved the recording, plus on plus.", "kept",
        means={"kept": "Upwards.", "turned": "Downwards.", "unknown": "Nobody has tried."},
        default="unknown",
        label="Polarity", absent="",
    )  # fmt: skip
    corner_hz: float | None = figure(
        "Where lead and recorder are 3 dB down at the low end, in hertz.", "Hz", None, above=0,
        most=200, default=None,
        label="3 dB down at", absent="",
    )  # fmt: skip
    calibration: LeadCalibration | None = part(
        {"date": "2024-05-13", "pair_v_rms": None, "recorded_dbfs": None}, default=None,
    )  # fmt: skip
    path: DataPath = ()

    RULES = (
        when("A transformer has its insulation and its distortion.", "isolation", "transformer")
        .needs("insulation_v", "distortion_percent"),
        when("A balanced input has a resistor from each leg to its reference.", "isolation",
        "balanced").needs("reference_ohm"),
    )  # fmt: skip

    @property
    def ratio(self) -> float:
        """Volts of the pair for a volt at the far end, by its resistors alone."""
        return (2 * self.clip_ohm + self.across_ohm) / self.across_ohm
