"""What to measure next on an unknown cavity: the reading that leaves fewest candidates."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass
from typing import Literal

from builder.model.names import SINGULAR_NAMES
from builder.model.words import GROUND_REFERENCES, Function, State
from builder.proof.identify.splitting import Measurement, Span, separation, spans_of
from builder.proof.judging import Outcome, judge, with_article
from builder.proof.signatures.shapes import Against, Kind
from builder.proof.wording import Measured, limits
from builder.proof.words import Defining

LEADERS_SHOWN, BANDS_SHOWN, ALIKE_SHOWN = 6, 4, 3
"""How many functions a sentence names before it counts the rest; how many bands a proposal spells
out, and how many functions with each. Chosen by this project."""
MOVES_BATTERY: tuple[State, ...] = ("crank", "engine", "auto_restart")
"""States in which the battery's volts are not those of a moment ago."""

Spans = Sequence[tuple[Function, dict[Measurement, Span]]]
"""What each leading kind reads, measurement by measurement."""


@dataclass(frozen=True, slots=True)
class Proposal:
    """The next thing to measure. `remaining` is the expected number of candidates after it."""

    measurement: Measurement
    remaining: float
    sentence: str


def assumed_against(reading: Measured) -> Against:
    """What a reference point is taken for: any other cavity may be the other wire of a pair."""
    return "ground" if reading.against in GROUND_REFERENCES else "other_leg"


def word_of(function: Function) -> str:
    """One wire of a function, as people say it: "wheel-key wire"."""
    return SINGULAR_NAMES[function]


def phrase_of(function: Function) -> str:
    """The same with its article, for a sentence: "a wheel-key wire"."""
    return with_article(SINGULAR_NAMES[function])


def propose(
    leading: Sequence[Kind],
    readings: Sequence[Measured],
    skip: Collection[Measurement],
) -> Proposal | None:
    """Choose the measurement that leaves fewest of the leading functions for its effort.

    Nothing is loaded before it has a name. None when no measurement of the table but those in
    `skip` would tell any of them apart.
    """
    spans = [(kind.function, spans_of(kind, _settled(kind, readings))) for kind in leading]
    taken = {Measurement(r.state, r.quantity, assumed_against(r), r.load) for r in readings}
    taken.update(skip)
    unloaded = dict.fromkeys(m for _, span in spans for m in span if m.load == "none")
    options = [m for m in unloaded if m not in taken]
    functions = tuple(dict.fromkeys(kind.function for kind in leading))
    like_skipped = {_reads(measurement, spans) for measurement in skip}
    fresh = [m for m in options if _reads(m, spans) not in like_skipped]
    best = _best(fresh, functions, spans) or _best(options, functions, spans)
    if best is None:
        return None
    return Proposal(best[0], best[1], _proposal_sentence(best[0], spans, readings))


def _best(
    options: Sequence[Measurement], functions: Sequence[Function], spans: Spans
) -> tuple[Measurement, float] | None:
    """The measurement that gains most for its effort, with what is left after it."""
    best: tuple[float, Measurement, float] | None = None
    for measurement in options:
        left = expected_remaining(measurement, functions, spans)
        gain = (len(functions) - left) / measurement.effort
        if gain > 1e-9 and (best is None or gain > best[0] + 1e-9):
            best = (gain, measurement, left)
    return best[1:] if best else None


def _reads(measurement: Measurement, spans: Spans) -> tuple[object, ...]:
    """What the leading kinds read in a measurement: two that read alike tell alike.

    What was skipped is not asked for again in other words before anything else is tried.
    """
    bands = tuple(
        (span[measurement].low, span[measurement].high, span[measurement].strict)
        if measurement in span
        else None
        for _, span in spans
    )
    return (measurement.quantity, measurement.against, measurement.load, bands)


def _settled(kind: Kind, readings: Sequence[Measured]) -> frozenset[Defining]:
    """Names of the defining states of a kind that the readings have settled."""
    judged = [judge(reading, kind, assumed_against(reading)) for reading in readings]
    met = [one.row for one in judged if one.outcome is Outcome.MET and one.row]
    return frozenset(name for row in met for name in row.proves)


def expected_remaining(
    measurement: Measurement,
    functions: Sequence[Function],
    spans: Spans,
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


def _proposal_sentence(measurement: Measurement, spans: Spans, readings: Sequence[Measured]) -> str:
    """The measurement, and what the leading functions read in it: those that read alike in one."""
    battery_v = battery_for(measurement.state, readings)
    said: dict[Function, str] = {}
    for function, span in spans:
        if measurement in span and function not in said:
            row = span[measurement].row
            said[function] = limits(row.low, row.high, battery_v, row.quantity)
    bands = list(dict.fromkeys(said.values()))[:BANDS_SHOWN]
    each = (
        f"{together([f for f in said if said[f] == band], 'or', ALIKE_SHOWN)} reads {band}"
        for band in bands
    )
    return f"{measurement.words}. {'; '.join(each)}"


def battery_for(state: State, readings: Sequence[Measured]) -> float | None:
    """Return the battery volts to reckon with in a state: the last that were read at rest. [V]

    None where the state itself moves them: they are read then.
    """
    if state in MOVES_BATTERY:
        return None
    at_rest = [r.battery_v for r in readings if r.state not in MOVES_BATTERY and r.battery_v]
    return at_rest[-1] if at_rest else None


def together(functions: Sequence[Function], last: Literal["and", "or"], most: int) -> str:
    """Return functions as one phrase: "a ground, a mute wire or one of 3 others".

    Args:
        functions: At least one.
        last: "and" or "or".
        most: How many are named before the rest is counted.
    """
    shown = most if len(functions) > most + 1 else len(functions)  # never "and 1 other"
    words = [phrase_of(name) for name in functions[:shown]]
    if len(functions) > shown:
        others = f"{len(functions) - shown} others"
        words.append(f"one of {others}" if last == "or" else others)
    return f" {last} ".join([", ".join(words[:-1]), words[-1]]) if len(words) > 1 else words[0]
