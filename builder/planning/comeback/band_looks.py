"""What the lines of the bay sheet find that hear whether a crossover parts its bands."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from functools import cache
from typing import get_args

from builder.planning.bay.crossover_tests import BANDS
from builder.planning.bay.ids import speakable
from builder.planning.circuit.crossover_links import CrossoverBand, output_of
from builder.planning.circuit.model import EndId
from builder.planning.circuit.terminal_names import legs_of
from builder.planning.comeback.condition import Condition
from builder.planning.comeback.handed_over import HandedOver
from builder.planning.comeback.looks import Look, yes_if

LED_OHM = 0.5
"""Below it two plus legs are one wire: less than any coil has. Common practice, no source. [Ω]"""


def band_looks(job: HandedOver) -> Iterator[tuple[str, Look]]:
    """Whether each output of a crossover leads to what it led to, and to nothing else."""
    for unit in job.circuit.units:
        if unit.kind == "crossover":
            outs = [legs_of(output_of(unit.id, band))[0] for band in get_args(CrossoverBand)]
            ends = [legs_of(each)[0] for each in job.speakers]
            yield speakable(unit.id, BANDS), yes_if(_led_as_before(job, outs, ends))


def _led_as_before(
    job: HandedOver, outs: Sequence[EndId], ends: Sequence[EndId]
) -> Callable[[Condition], bool]:
    """No sound is asked: what an ohmmeter finds behind each plus, where a capacitor is no way."""

    def led(now: Condition) -> list[bool]:
        return [now.day.ohms(out, end) < LED_OHM for out in outs for end in ends]

    whole = cache(lambda: led(job.whole))
    return lambda now: led(now) == whole()
