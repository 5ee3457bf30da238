"""What is this wire? Rank every kind of pin by the readings taken on one unknown cavity."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from builder.model.house_defaults import HouseDefaults
from builder.model.words import Function
from builder.proof.judging import GROUND_POINTS, Outcome, judge
from builder.proof.loads import load_refusal
from builder.proof.shapes import Against, Kind
from builder.proof.signatures import kinds
from builder.proof.splitting import Measurement, Span, separation, spans_of
from builder.proof.wording import Measured, limits

LEADERS_SHOWN = 4
"""How many leading candidates a proposal spells out. Chosen by this project."""


@dataclass(frozen=True, slots=True)
class Candidate:
    """One kind of pin and how the readings stand to it.

    `met`, `contradicted` and `silent` are sentences, one a reading. `fits` counts the met lines
    that were strict. `untested` counts the lines of the signature that no reading touched.
    """

    kind: Kind
    met: tuple[str, ...]
    contradicted: tuple[str, ...]
    silent: tuple[str, ...]
    fits: int
    untested: int

    @property
    def function(self) -> Function:
        """The function of the kind."""
        return self.kind.function

    def rank(self) -> tuple[bool, int, int, int, int]:
        """Best first: no contradiction, then most met; strict lines and few untested break ties."""
        return (
            bool(self.contradicted),
            len(self.contradicted),
            -len(self.met),
            -self.fits,
            self.untested,
        )

    def level(self) -> tuple[int, int]:
        """What makes a tie: as many contradictions and as many met."""
        return (len(self.contradicted), len(self.met))


@dataclass(frozen=True, slots=True)
class Proposal:
    """The next thing to measure. `remaining` is the expected number of candidates after it."""

    measurement: Measurement
    remaining: float
    sentence: str


@dataclass(frozen=True, slots=True)
class Identification:
    """The ranked candidates, best first, and what the readings allow to be said.

    `open_functions` are the functions that nothing contradicts. `tie` holds those of them that
    fit equally well at the top; one function alone is the answer. `verdict` says it in a sentence.
    """

    candidates: tuple[Candidate, ...]
    open_functions: tuple[Function, ...]
    tie: tuple[Function, ...]
    verdict: str
    next: Proposal | None


def identify(
    readings: Sequence[Measured], defaults: HouseDefaults, *, may_load: bool = False
) -> Identification:
    """Rank every kind of pin by readings on one unknown cavity and say what to measure next.

    Args:
        readings: Figures off a meter, all from one cavity. A reading against another cavity
            is judged as if that were the other wire of a pair.
        defaults: House defaults for the limits.
        may_load: Whether a loaded test may be proposed at all; even then only a load that is
            safe for every candidate still open.
    """
    table = kinds(defaults)
    ranked = sorted((_candidate(kind, readings) for kind in table.values()), key=Candidate.rank)
    open_kinds = [one for one in ranked if not one.contradicted]
    open_functions = _functions(open_kinds)
    tie = _functions([one for one in open_kinds if one.level() == open_kinds[0].level()])
    following = _propose(open_kinds, readings, may_load) if len(open_functions) > 1 else None
    verdict = _verdict(ranked, open_functions, tie, following)
    return Identification(tuple(ranked), open_functions, tie, verdict, following)


def _functions(candidates: Sequence[Candidate]) -> tuple[Function, ...]:
    return tuple(dict.fromkeys(one.function for one in candidates))


def _against(reading: Measured) -> Against:
    return "ground" if reading.against in GROUND_POINTS else "other_leg"


def _candidate(kind: Kind, readings: Sequence[Measured]) -> Candidate:
    judged = [judge(reading, kind, _against(reading)) for reading in readings]
    said = {
        outcome: tuple(one.sentence for one in judged if one.outcome is outcome)
        for outcome in Outcome
    }
    fitting = [one for one in judged if one.outcome is Outcome.MET and one.row]
    touched = {id(one.row) for one in judged if one.outcome is not Outcome.SILENT}
    return Candidate(
        kind,
        said[Outcome.MET],
        said[Outcome.CONTRADICTED],
        said[Outcome.SILENT],
        sum(1 for one in fitting if one.row and one.row.strict),
        sum(1 for row in kind.rows if id(row) not in touched),
    )


def _verdict(
    ranked: Sequence[Candidate],
    open_functions: tuple[Function, ...],
    tie: tuple[Function, ...],
    following: Proposal | None,
) -> str:
    if not open_functions:
        return "every kind of pin in the table is contradicted: check the readings and the states"
    if not any(one.met for one in ranked if not one.contradicted):
        return "the readings bear out nothing yet"
    if len(open_functions) == 1:
        return f"{_word(tie[0])}: nothing else in the table fits"
    if len(tie) == 1:
        others = ", ".join(_word(name) for name in open_functions if name != tie[0])
        return f"{_word(tie[0])} fits best; not ruled out: {others}"
    names = ", ".join(_word(name) for name in tie)
    if following is None:
        return f"these readings cannot decide, nor can any other of the table: {names}"
    return f"these readings cannot decide between {names}"


def _word(function: Function) -> str:
    return function.replace("_", " ")


def _propose(
    candidates: Sequence[Candidate], readings: Sequence[Measured], may_load: bool
) -> Proposal | None:
    """Choose the measurement that leaves fewest of the leading functions for its effort."""
    leading = _leading(candidates)
    spans = [(one.function, spans_of(one.kind)) for one in leading]
    taken = {(one.state, one.quantity, _against(one), one.load) for one in readings}
    options = dict.fromkeys(m for _, span in spans for m in span if tuple(m) not in taken)
    functions = _functions(leading)
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


def _leading(candidates: Sequence[Candidate]) -> list[Candidate]:
    """The candidates that fit equally well at the top; with only one function there, all."""
    top = [one for one in candidates if one.level() == candidates[0].level()]
    return top if len(_functions(top)) > 1 else list(candidates)


def expected_remaining(
    measurement: Measurement,
    functions: Sequence[Function],
    spans: Sequence[tuple[Function, dict[Measurement, Span]]],
) -> float:
    """Return the expected number of functions left after a measurement: Σ n²/N over its results.

    Counted pair by pair: two functions stay together unless every kind of the one reads clear
    of every kind of the other. A line that only one of them may fail parts them half.
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
    return min(separation(mine, theirs) for mine in one for theirs in other)


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
            and _against(reading) == "ground"
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
            said[function] = f"{_word(function)} reads {band}"
    return f"{measurement.words}. {'; '.join(said.values())}"
