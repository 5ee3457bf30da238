"""What each amplifier channel is tuned to before anything is loud: starting values, not the end."""

from __future__ import annotations

from builder.declaring import answer, figure, listed, text, word
from builder.model.job.filters import Turned
from builder.model.words import Channel
from builder.planning.plan import Reason
from builder.planning.words import Correction


@answer
class HeldBack:
    """A pair that waits at the converter's input for a later one, before both are added."""

    channel: Channel = word("The pair.", "front-left-tweeter")
    delay_ms: float = figure("How long it waits.", "ms", 0.8, above=0)


@answer
class EqualiserPoint:
    """One bell of an equaliser, to begin with."""

    hz: float = figure("Its middle.", "Hz", above=0)
    gain_db: float = figure("What it gives there; below 0 it cuts.", "dB")
    q: float = figure("Its Q.", "", above=0)


@answer
class TuneRow:
    """One speaker's channel. A corner that is null is off, or open where `asked` says so."""

    speaker: str = text("The job's name of the speaker.")
    amplifier: str = text("The job's name of the amplifier.")
    channel: str = text("Its channel, or both of two bridged ones.", "1", "1+2")
    set_at: str = text("Where its filters are set: the amplifier or the converter.")
    high_pass_hz: float | None = figure("Corner of the high-pass; null: off.", "Hz", above=0)
    low_pass_hz: float | None = figure("Corner of the low-pass; null: off.", "Hz", above=0)
    subsonic_hz: float | None = figure("Corner of the subsonic filter; null: off.", "Hz", above=0)
    slope_db_per_octave: int = figure("How steep they are.", "dB/octave", least=6)
    polarity: Turned = word("How it starts; the ear or the meter decides.")
    delay_ms: float = figure("How long it is held back at first.", "ms", least=0)
    delay_at: str = text("Where that is set: the amplifier or the converter; empty without.")
    held_back: tuple[HeldBack, ...] = listed("The pairs that wait before they are added.")
    correction: Correction = word("The converter's bass correction as it will be used.")
    tone_v_rms: float = figure("What the gain was set to at its tone, filters flat.", "V", above=0)
    again_least_v_rms: float = figure(
        "The least that the same tone reads once the filters are set.", "V", above=0,
    )  # fmt: skip
    again_most_v_rms: float = figure("The most that it reads then.", "V", above=0)
    correction_off_line_v_rms: float | None = figure(
        "What the line output reads with the correction off; null where it is not on.", "V",
    )  # fmt: skip
    correction_off_tone_v_rms: float | None = figure(
        "What the gain's meter reads with the correction off; null where it is not on.", "V",
    )  # fmt: skip
    equaliser: tuple[EqualiserPoint, ...] = listed(
        "Bells that take back what the factory's equaliser does, by a recording.", default=(),
    )  # fmt: skip
    all_pass_order: int | None = figure(
        "Order of the all-pass that turns this channel as the factory turns another; null: none.",
        "", least=1, default=None,
    )  # fmt: skip
    all_pass_hz: float | None = figure("Its corner; null: none.", "Hz", above=0, default=None)
    stays: tuple[str, ...] = listed(
        "What the factory did that nothing here undoes, by a recording.", default=(),
    )  # fmt: skip
    asked: tuple[str, ...] = listed("What has to be found out before it is loud.", default=())
    because: tuple[Reason, ...] = listed("Where each value comes from.", default=())
