"""What a recording of the test track told of a car's pairs: facts with their source, thinned."""

from __future__ import annotations

from typing import Literal

from builder.declaring import Form, figure, listed, part, record, text, word
from builder.findings import DataPath
from builder.model.forms import CHANNEL, ID, LINE, SENTENCE, YES_NO, YesNo
from builder.model.recorded_figures import (
    CurvePoint,
    DelayPoint,
    RecordedBass,
    RecordedFigure,
    RecordedStep,
)
from builder.model.recording_lead import RecordingLead
from builder.model.words import Channel, MadeBy, RecordedOn

SweepMethod = Literal["sweep", "sweep_freed"]
Plays = Literal["alike", "part_of_first", "above_first", "apart"]
Stands = Literal["same", "inverted", "unknown"]
CrossoverWay = Literal["high_pass", "low_pass"]

_SHA256 = Form("", "", {"type": "string", "pattern": "^[0-9a-f]{64}$", "maxLength": 64,
    "not": {"type": "string", "pattern": "[\\n\\r\\t]"},
    "formMeaning": "64 digits of 0 to 9 and a to f"})  # fmt: skip


@record
class RecordedPair:
    """What one channel of a recording told of its pair; left out is what it cannot tell."""

    channel: Channel = word("The pair.", "front-left", form=CHANNEL)
    recorded_on: RecordedOn = word(
        "What hung on the pair meanwhile.", "speaker", means={"speaker": "Its speaker.",
        "resistor_4_ohm": "A resistor of 4 Ω in its place.", "open": "Nothing."},
    )  # fmt: skip
    meter_v_rms: float | None = figure(
        "What a meter read across the pair while 200 Hz played, in volts RMS.", "V", None, above=0,
        most=60, default=None,
    )  # fmt: skip
    level_v_rms: RecordedFigure | None = part(
        {"value": None, "plus_minus": None}, unit="V",
        description="The tone of 200 Hz at the pair, in volts "
        "RMS.", default=None,
    )  # fmt: skip
    noise_v_rms: RecordedFigure | None = part(
        {"value": None, "plus_minus": None}, unit="V",
        description="What is heard in silence, in volts RMS.",
        default=None,
    )  # fmt: skip
    lower_edge_hz: RecordedFigure | None = part(
        {"value": None, "plus_minus": None}, unit="Hz",
        description="Where it is 3 dB down at the low end, in "
        "hertz.", default=None,
    )  # fmt: skip
    upper_edge_hz: RecordedFigure | None = part(
        {"value": None, "plus_minus": None}, unit="Hz",
        description="Where it is 3 dB down at the high end, "
        "in hertz.", default=None,
    )  # fmt: skip
    clean_step: int | None = figure(
        "The loudest volume up to which all recorded ones are clean.", "step", None, least=0,
        most=200, default=None,
    )  # fmt: skip
    louder_is_not_clean: YesNo = word(
        "Whether a louder step was recorded and is not clean: without one the pair may go further.",
        "yes", form=YES_NO, default="no",
    )  # fmt: skip
    volume_steps: tuple[RecordedStep, ...] = listed(
        "Each volume step at each tone.", [], most=80, default=(),
        item=part({"volume_step": None, "hz": None}),
    )  # fmt: skip
    bass_by_step: tuple[RecordedBass, ...] = listed(
        "How loud 40 Hz is against 1 kHz at each volume step.", [], most=40, default=(),
        item=part({"volume_step": None, "db": None, "plus_minus": None}),
    )  # fmt: skip
    shape: tuple[CurvePoint, ...] = listed(
        "Its response by sixths of an octave, against its own level.", [], most=70, default=(),
        item=part({"hz": None, "db": None}),
    )  # fmt: skip
    not_told: tuple[str, ...] = listed(
        "What the recording cannot tell of it, and why.", ["upper_edge_hz: it lies above 21340 Hz, "
        "where the sweep ends"], most=40, form=SENTENCE, default=(),
    )  # fmt: skip
    path: DataPath = ()


@record
class RecordedAllPass:
    """An all-pass that one of two pairs has and the other has not."""

    order: int = figure("Its order.", "", 1, least=1, most=2)
    in_pair: Channel = word("The pair that has it.", "front-left", form=CHANNEL)
    corner_hz: RecordedFigure = part(
        {"value": None, "plus_minus": None}, unit="Hz",
        description="Its corner, in hertz.",
    )  # fmt: skip
    q: RecordedFigure | None = part(
        {"value": None, "plus_minus": None}, description="Its Q; the first order has none.",
        default=None,
    )  # fmt: skip


@record
class RecordedCrossover:
    """One half of a crossover."""

    way: CrossoverWay = word(
        "Which half it is.", "high_pass", means={"high_pass": "It takes the low part away.",
        "low_pass": "It takes the high part away."},
    )  # fmt: skip
    corner_hz: RecordedFigure | None = part(
        {"value": None, "plus_minus": None}, unit="Hz",
        description="Its corner, in hertz.", default=None,
    )  # fmt: skip
    slope_db_per_octave: float | None = figure(
        "How steep it is, in decibels an octave.", "dB/octave", 12, least=0, most=200,
        default=None,
    )  # fmt: skip
    type: str | None = text("Its type.", "Butterworth 2", form=LINE, default=None)


@record
class RecordedBetween:
    """What two pairs of one recording are to each other."""

    first: Channel = word("The first pair.", "front-left-woofer", form=CHANNEL)
    second: Channel = word("The second pair.", "front-left-tweeter", form=CHANNEL)
    plays: Plays = word(
        "What the second plays.", "above_first", means={"alike": "The same band.",
        "part_of_first": "A part of what is on the first.", "above_first": "What lies above it.",
        "apart": "Nothing that is also on the first."},
    )  # fmt: skip
    late_ms: RecordedFigure | None = part(
        {"value": None, "plus_minus": None}, unit="ms",
        description="By how much later the second comes, in "
        "milliseconds.", default=None,
    )  # fmt: skip
    polarity: Stands = word(
        "How the second stands to the first at the low end.", "same", means={"same": "Both go the "
        "same way.", "inverted": "It goes down where the first goes up.",
        "unknown": "The recording cannot tell."}, default="unknown",
    )  # fmt: skip
    all_pass: RecordedAllPass | None = part(
        {"order": 1, "in_pair": "front-left", "corner_hz": {"value": None, "plus_minus": None}},
        default=None,
    )  # fmt: skip
    crossovers: tuple[RecordedCrossover, ...] = listed(
        "The crossovers of the pair that plays less.", [], most=2, default=(),
        item=part({"way": "high_pass"}),
    )  # fmt: skip
    meet_hz: RecordedFigure | None = part(
        {"value": None, "plus_minus": None}, unit="Hz",
        description="Where a low and a high pair are equally "
        "loud, in hertz.", default=None,
    )  # fmt: skip
    sum: tuple[CurvePoint, ...] = listed(
        "What joining both as they are takes away, by sixths of an octave.", [], most=70,
        default=(), item=part({"hz": None, "db": None}),
    )  # fmt: skip
    in_step: tuple[CurvePoint, ...] = listed(
        "The same once the delay between them is made good.", [], most=70, default=(),
        item=part({"hz": None, "db": None}),
    )  # fmt: skip
    in_step_turned: YesNo = word(
        "Whether the legs of one pair change places for that.", "no", form=YES_NO, default="no",
    )  # fmt: skip
    group_delay: tuple[DelayPoint, ...] = listed(
        "By how much later the second comes, by sixths of an octave.", [], most=70, default=(),
        item=part({"hz": None, "ms": None}),
    )  # fmt: skip
    not_told: tuple[str, ...] = listed(
        "What the recording cannot tell of them, and why.", ["late_ms: the two pairs play nothing "
        "in common that is heard"], most=20, form=SENTENCE, default=(),
    )  # fmt: skip
    path: DataPath = ()


@record(shared="recorded_sound")
class RecordedSound:
    """One recording of the test track, read: its source, its pairs, and each two of them."""

    session: str = text("The id of the visit it belongs to.", "s1", form=ID)
    file: str = text("What the recording is called.", "front.wav", form=LINE)
    sha256: str = text(
        "The sum of its file.", "0" * 64, form=_SHA256,
    )  # fmt: skip
    made_by: MadeBy = word(
        "What made it.", "recorder", means={"recorder": "A recorder, in the car.",
        "simulator": "A computed car: no radio was recorded."},
    )  # fmt: skip
    method: SweepMethod = word(
        "How it was read.", "sweep", means={"sweep": "Divided by the sweep; tones by least "
        "squares.", "sweep_freed": "The same, and freed of lead and recorder by a recording "
        "without the car."},
    )  # fmt: skip
    clock_ppm: RecordedFigure = part(
        {"value": None, "plus_minus": None}, description="The recorder's clock against the "
        "player's, in millionths.",
    )  # fmt: skip
    at_volume_step: int | None = figure(
        "The volume shown by the radio during the sweeps.", "step", None, least=0, most=200,
        default=None,
    )  # fmt: skip
    set_to: str | None = text(
        "How the radio was set: seat, tone, effects.", "all seats, tone in the middle, no effects",
        form=SENTENCE, default=None,
    )  # fmt: skip
    lead: RecordingLead = part(
        {"id": "lead-1", "clip_ohm": None, "across_ohm": None, "isolation": "balanced",
        "reference_ohm": None, "on_body": "no", "input": "balanced", "recorder_supply": "battery",
        "polarity": "kept"}, description="The recording lead, as it was that day.",
    )  # fmt: skip
    pairs: tuple[RecordedPair, ...] = listed(
        "What it told of each pair.", [{"channel": "front-left", "recorded_on": "speaker"}],
        least=1, most=14,
        item=part({"channel": "front-left", "recorded_on": "speaker"}),
    )  # fmt: skip
    between: tuple[RecordedBetween, ...] = listed(
        "What it told of each two of them.", [], most=91, default=(),
        item=part({"first": "front-left-woofer", "second": "front-left-tweeter",
        "plays": "above_first"}),
    )  # fmt: skip
    path: DataPath = ()

    def pair(self, channel: Channel) -> RecordedPair | None:
        """What it told of a pair, or None."""
        return next((each for each in self.pairs if each.channel == channel), None)
