"""Two outputs that were recorded together, against delay and polarity of their tune."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final

from builder.figures import shown
from builder.model.sound import SpeakerChannel
from builder.pipeline.answers.sound_aims import Aimed
from builder.planning.job.tune_polarity import recorded_together
from builder.planning.tune_sheet import TuneRow
from builder.sound.pairs import PairsFacts
from builder.sound.results import Refused
from builder.units import Milliseconds

NEAREST_MS: Final = 0.1
"""How far a delay may be from its aim: 3.4 cm of air, and a control goes by steps. Chosen by this
project."""


@dataclass(frozen=True, slots=True)
class TunedOutput:
    """An output that was recorded: its tune, and the car's pairs that it plays."""

    row: TuneRow
    carried: Sequence[SpeakerChannel | None]

    @property
    def late_ms(self) -> Milliseconds | None:
        """By how much it comes late with its tune; None where its pairs are not in step."""
        late = {(each.delay_ms or 0.0) if each else 0.0 for each in self.carried}
        if len(late) > 1 and not self.row.held_back:
            return None
        return max(late, default=0.0) + self.row.delay_ms


def aims_between(one: TunedOutput, other: TunedOutput, facts: PairsFacts) -> Iterator[Aimed]:
    """Yield how two outputs stand to each other, against what their tune asks for.

    Args:
        one: The output that the facts call the first.
        other: That which they call the second.
        facts: What one recording of both says.
    """
    yield _delay(one, other, facts)
    yield _polarity(one, other, facts)
    if one.row.all_pass_order or other.row.all_pass_order:
        yield _all_pass(one, other, facts)


def _named(one: TunedOutput, other: TunedOutput) -> str:
    return f"{other.row.speaker} against {one.row.speaker}"


def _delay(one: TunedOutput, other: TunedOutput, facts: PairsFacts) -> Aimed:
    name, what, late = _named(one, other), "delay", facts.relation.late_ms
    if one.late_ms is None or other.late_ms is None:
        why = "one of them adds pairs that the radio plays at different times"
        return Aimed(name, what, "not told", "none", None, why)
    aim_ms = other.late_ms - one.late_ms
    aim = f"{shown(aim_ms, 2)} ms later"
    if isinstance(late, Refused):
        return Aimed(name, what, "not told", aim, None, late.reason)
    found = f"{shown(late.value, 2)} ± {shown(late.plus_minus, 3, beside=0.0)} ms later"
    off_ms = late.value - aim_ms
    passes = abs(off_ms) <= NEAREST_MS
    return Aimed(name, what, found, aim, passes, "" if passes else _wait(one, other, off_ms))


def _wait(one: TunedOutput, other: TunedOutput, off_ms: Milliseconds) -> str:
    """What waits longer, or less where its delay reaches that far."""
    late, early = (other, one) if off_ms > 0 else (one, other)
    by = f"{shown(abs(off_ms), 2)} ms"
    if late.row.delay_at and late.row.delay_ms >= abs(off_ms):
        return f"hold {late.row.speaker} back {by} less, at {late.row.delay_at}"
    if early.row.delay_at:
        return f"hold {early.row.speaker} back {by} more, at {early.row.delay_at}"
    return f"{late.row.speaker} comes {by} too late: look for a delay that nobody set on purpose"


def _polarity(one: TunedOutput, other: TunedOutput, facts: PairsFacts) -> Aimed:
    name, what, turned = _named(one, other), "polarity", facts.relation.inverted
    by_car = recorded_together(other.carried, one.carried)
    by_tune = one.row.polarity != other.row.polarity
    wanted = by_tune != (by_car is not None and by_car.told.polarity == "inverted")
    words = {False: "the same", True: "turned over"}
    if isinstance(turned, Refused):
        return Aimed(name, what, "not told", words[wanted], None, turned.reason)
    passes = turned == wanted
    change = "" if passes else (
        f"turn {other.row.speaker} over at {other.row.set_at}, or change + and − at its output"
    )  # fmt: skip
    return Aimed(name, what, words[turned], words[wanted], passes, change)


def _all_pass(one: TunedOutput, other: TunedOutput, facts: PairsFacts) -> Aimed:
    """Both are to be turned alike: what the one has from the car, the other has by its tune."""
    name, what, aim = _named(one, other), "all-pass", "none between them"
    order = facts.relation.all_pass_order
    if isinstance(order, Refused):
        return Aimed(name, what, "not told", aim, None, order.reason)
    found = f"order {order}" if order else "none"
    set_at = (other if other.row.all_pass_order else one).row
    change = f"set the all-pass of {set_at.speaker} at {set_at.set_at} as the tune has it"
    return Aimed(name, what, found, aim, not order, change if order else "")
