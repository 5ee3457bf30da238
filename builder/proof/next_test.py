"""What to measure next on an unknown cavity: the reading that leaves fewest candidates."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass

from builder.model.words import Function
from builder.proof.judging import GROUND_POINTS, Outcome, judge
from builder.proof.loads import load_refusal
from builder.proof.shapes import Against, Kind
from builder.proof.splitting import Measurement, Span, separation, spans_of
from builder.proof.wording import Measured, limits

LEADERS_SHOWN = 4
"""How many leading candidates a proposal spells out. Chosen by this project."""


@dataclass(frozen=True, slots=True)
class Proposal:
    """The next thing to measure. `remaining` is the expected number of candidates after it."""

    measurement: Measurement
    remaining: float
    sentence: str


def assumed_against(reading: Measured) -> Against:
    """What a reference point is taken for: any other cavity may be the other wire of a pair."""
    return "ground" if reading.against in GROUND_POINTS else "other_leg"


def word_of(function: Function) -> str:
    """A function as people say it."""
    return function.replace("_", " ")


def propose(
    leading: Sequence[Kind],
    readings: Sequence[Measured],
    may_load: bool,
    skip: Collection[Measurement] = (),
) -> Proposal | None:
    """Choose the measurement that leaves fewest of the leading functions for its effort.

    None when no measurement of the table but those in `skip` would tell any of them apart.
    """
    spans = [(kind.function, spans_of(kind, _settled(kind, readings))) for kind in leading]
    taken = {Measurement(r.state, r.quantity, assumed_against(r), r.load) for r in readings}
    taken.update(skip)
    options = dict.fromkeys(m for _, span in spans for m in span if m not in taken)
    functions = tuple(dict.fromkeys(kind.function for kind in leading))
    best: tuple[float, Measurement, float] | None = None
    for measurement in options:
        if not _safe(measurement, functions, readings, may_load):
            continue
        left = expected_remaining(measurement, functions, spans)
        gain = (len(functions) - left) / measurement.effort
        if gain > 1e-9 and (best is None or gain > best[0] + 1e-9):
            best = (gain, measurement, left)
    if best is None:
        return None
    return Proposal(best[1], best[2], _proposal_sentence(best[1], spans, readings))


def _settled(kind: Kind, readings: Sequence[Measured]) -> frozenset[str]:
    """Names of the defining states of a kind that the readings have settled."""
    judged = [judge(reading, kind, assumed_against(reading)) for reading in readings]
    met = [one.row for one in judged if one.outcome is Outcome.MET and one.row]
    return frozenset(name for row in met for name in row.proves)


def expected_remaining(
    measurement: Measurement,
    functions: Sequence[Function],
    spans: Sequence[tuple[Function, dict[Measurement, Span]]],
) -> float:
    """Return the expected number of functions left after a measurement: Σ n²/N over its results.

    Counted pair by pair; where functions have several kinds, over all pairs of their kinds.
    """
    by_function: dict[Function, list[Span | None]] = {}
    for function, span in spans:
        by_function.setdefault(function, []).append(span.get(measurement))
    together = 0.0
    for one in functions:
        for other in functions:
            together += 1.0 - (
                0.0 if one == other else _apart(by_function[one], by_function[other])
            )
    return together / len(functions)


def _apart(one: Sequence[Span | None], other: Sequence[Span | None]) -> float:
    each = [separation(mine, theirs) for mine in one for theirs in other]
    return sum(each) / len(each)


def _safe(
    measurement: Measurement,
    functions: Sequence[Function],
    readings: Sequence[Measured],
    may_load: bool,
) -> bool:
    if measurement.load == "none":
        return True
    if not may_load:
        return False
    open_v = _open_volts(measurement, readings)
    return all(load_refusal(name, measurement.load, open_v=open_v) is None for name in functions)


def _open_volts(measurement: Measurement, readings: Sequence[Measured]) -> float | None:
    """What the cavity read in the same state with no load: asked for before any load."""
    return next(
        (
            reading.value
            for reading in readings
            if reading.state == measurement.state
            and reading.quantity == "dc_v"
            and reading.load == "none"
            and assumed_against(reading) == "ground"
        ),
        None,
    )


def _proposal_sentence(
    measurement: Measurement,
    spans: Sequence[tuple[Function, dict[Measurement, Span]]],
    readings: Sequence[Measured],
) -> str:
    battery_v = next((one.battery_v for one in readings if one.battery_v is not None), None)
    said: dict[Function, str] = {}
    for function, span in spans:
        if measurement in span and function not in said and len(said) < LEADERS_SHOWN:
            row = span[measurement].row
            band = limits(row.low, row.high, battery_v, row.quantity)
            said[function] = f"{word_of(function)} reads {band}"
    return f"{measurement.words}. {'; '.join(said.values())}"
