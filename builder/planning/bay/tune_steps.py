"""The bench work in the order that keeps speakers whole: gains, then filters, then speakers."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence

from builder.planning.bay.step_line import step
from builder.planning.bay.tune_tests import AGAIN
from builder.planning.bay.tune_words import tune_words
from builder.planning.sheet_rows import Step
from builder.planning.tune_sheet import TuneRow
from builder.planning.work_pack import BayTest

SPEAKERS_OFF = (
    "every speaker off its amplifier: no tone while a filter is flat and a speaker is on, a sine "
    "of the wrong band burns a tweeter"
)
"""What comes before anything is powered."""


def tune_steps(
    tests: Sequence[BayTest], tune: Sequence[TuneRow], name: Callable[[Sequence[BayTest]], str]
) -> Iterator[Step]:
    """Yield the steps from all gains at their lowest to the last reading with the speakers on.

    `name` says which lines of the sheet are meant, in short.
    """
    at = next((at for at, test in enumerate(tests) if test.id.endswith(f"-{AGAIN}")), len(tests))
    bands = "all within their bands"
    yield step(
        "bench",
        f"all gains at their lowest, amplifier filters flat, equaliser off, {_correction(tune)}, "
        "radio at its loudest clean step",
    )
    yield step(
        "bench", f"speakers still off, take {name(tests[:at])}; doors before a subwoofer", bands
    )
    if not tune:
        return
    yield step("bench", "set the filters; nothing loud before this is done",
               lines=tuple(tune_words(row) for row in tune))  # fmt: skip
    for row in tune:
        for asked in row.asked:
            yield step("bench", f"{row.speaker}: nothing loud yet", blocked=asked)
    yield step("bench", "volume at 0, then every speaker on again")
    yield step("bench", f"take {name(tests[at:])}; by ear afterwards only downwards", bands)


def _correction(tune: Sequence[TuneRow]) -> str:
    """Gains hold with the correction as it will be used, so it stands so from the beginning."""
    using = [row.speaker for row in tune if row.correction == "on"]
    if not using:
        return "bass correction off"
    return f"bass correction on for {', '.join(using)} and left on, it is used so"
