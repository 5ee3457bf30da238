"""Lines of the bay sheet between the gains and anything loud: filters, speakers on, read again."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from builder.planning.bay import bands
from builder.planning.bay.ids import speakable
from builder.planning.bay.line import WITH_THE_CIRCUIT, measure, tick
from builder.planning.circuit.terminal_names import channel_of, legs_of
from builder.planning.tune_sheet import TuneRow
from builder.planning.work_pack import BayTest

FILTERS_SET = "filters-set"


def tune_tests(tune: Sequence[TuneRow]) -> Iterator[BayTest]:
    """Yield that the filters are set, then what each channel reads with its speaker on."""
    if not tune:
        return
    yield tick(
        FILTERS_SET, "bench", "every filter at its value of the tune sheet, speakers still off",
        "radio_on_zero", "a tone or music that is not divided yet burns a tweeter first",
        since=WITH_THE_CIRCUIT,
    )  # fmt: skip
    for row in tune:
        yield measure(
            speakable(row.speaker, "again"), "bench",
            f"{row.amplifier} channel {row.channel}, filters set, {row.speaker} on: the same tone "
            "as for its gain, two seconds at most",
            "radio_on_tone", "ac_v", row.again_least_v_rms * (1 - bands.LEVEL_BAND),
            min(row.tone_v_rms, row.again_most_v_rms * (1 + bands.LEVEL_BAND)),
            "what its filters leave of the tone; more than the gain was set to means a filter "
            "that lifts",
            legs_of(channel_of(row.amplifier, row.channel)), WITH_THE_CIRCUIT,
        )  # fmt: skip
