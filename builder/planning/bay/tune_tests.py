"""Lines of the bay sheet between the gains and anything loud: filters, speakers on, read again."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from builder.figures import shown
from builder.planning.bay.ids import speakable
from builder.planning.bay.line import WITH_THE_CIRCUIT, measure, tick
from builder.planning.bay.tune_words import again_limits_v, correction_words
from builder.planning.circuit.terminal_names import channel_of, legs_of
from builder.planning.tune_sheet import TuneRow
from builder.planning.work_pack import BayTest


def corner_tests(tune: Sequence[TuneRow]) -> Iterator[BayTest]:
    """Yield each channel that begins turned round: what is louder at its corner stays."""
    for row in tune:
        corner_hz = row.low_pass_hz or row.high_pass_hz
        if row.polarity == "inverted" and corner_hz:
            yield tick(
                speakable(row.speaker, "at corner"), "sound",
                f"volume low, {shown(corner_hz)} Hz tone: {row.speaker} inverted is louder than "
                "normal; where it is not, normal stays (wires change places with the key off)",
                "radio_on_tone", "two filters at one corner add up one way and cancel the other",
                since=WITH_THE_CIRCUIT,
            )  # fmt: skip


AGAIN = "again"
"""What ends the id of each of these lines."""


CORRECTION_STANDS = "correction"


def tune_tests(tune: Sequence[TuneRow], *, corrects: bool) -> Iterator[BayTest]:
    """Yield what each channel reads once its filters are set and its speaker is on.

    `corrects` says that the converter has a bass correction whose stand no level tells.
    """
    for row in tune:
        yield measure(
            speakable(row.speaker, AGAIN), "again",
            f"{row.amplifier} channel {row.channel}, filters set, {row.speaker} on: its gain's "
            "tone for 2 s",
            "radio_on_tone", "ac_v", *again_limits_v(row),
            "what its filters leave of the tone",
            legs_of(channel_of(row.amplifier, row.channel)), WITH_THE_CIRCUIT,
        )  # fmt: skip
    if corrects and tune:
        yield tick(
            CORRECTION_STANDS, "again",
            f"{correction_words(tune)}, seen at its switch: as it stood while gains were set",
            "radio_on_tone", "switched on afterwards it asks amplifier and speaker for more bass "
            "than they were set for", since=WITH_THE_CIRCUIT,
        )  # fmt: skip
