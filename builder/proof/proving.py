"""How one function is proved: its readings in the order of their effort, and its loads."""

from __future__ import annotations

from math import inf
from typing import NamedTuple

from builder.model.words import Function, Load, State
from builder.proof.identify.splitting import Measurement
from builder.proof.signatures.loads import LOAD_MA, OPEN_FIRST_V, load_refusal
from builder.proof.signatures.shapes import Expected, Kind
from builder.proof.signatures.table import COST_WEIGHT, STATE_COST
from builder.proof.words import Defining

_LIVE_V, _WEAK_V = 12.4, OPEN_FIRST_V - 1
"""What an output reads open where a load is tried: a full one, and one too weak for 50 mA. [V]"""
_FUSED_MA = inf
"""A supply's fuse that stands any test load. [mA]"""


class Step(NamedTuple):
    """One line of a signature as a step of the proof. `states` stand cheapest first."""

    states: tuple[State, ...]
    row: Expected
    effort: int
    settles: tuple[str, ...]  # what it settles, in words


class LoadAdvice(NamedTuple):
    """Whether a test load may be put on such a pin: allowed, conditional or never, and why."""

    load: Load
    verdict: str
    why: str


def steps_of(kind: Kind) -> tuple[Step, ...]:
    """Return every line of `kind`: those that settle something first, cheap states first."""
    steps = [_step(kind, row) for row in kind.rows]
    return tuple(sorted(steps, key=lambda step: (not step.settles, step.effort)))


def _step(kind: Kind, row: Expected) -> Step:
    states = tuple(sorted(row.states, key=lambda state: COST_WEIGHT[STATE_COST[state]]))
    load: Load = "none" if not row.loads or "none" in row.loads else row.loads[0]
    effort = Measurement(states[0], row.quantity, row.against, load).effort
    return Step(states, row, effort, tuple(_settled(kind, name) for name in row.proves))


def _settled(kind: Kind, name: Defining) -> str:
    return kind.defining.get(name, name.replace("_", " "))


def load_advice(function: Function) -> tuple[LoadAdvice, ...]:
    """Return what may be put on a pin of this function, load by load, lightest first."""
    return tuple(_advice(function, load) for load in LOAD_MA if load != "none")


def _advice(function: Function, load: Load) -> LoadAdvice:
    refused = load_refusal(function, load, open_v=_LIVE_V)
    if refused is None:
        weak = load_refusal(function, load, open_v=_WEAK_V)
        if weak is None:
            return LoadAdvice(load, "allowed", "" if function == "ground" else "read it open first")
        return LoadAdvice(
            load, "conditional", f"only when it reads {OPEN_FIRST_V:g} V or more open"
        )
    if load_refusal(function, load, open_v=_LIVE_V, limit_ma=_FUSED_MA) is None:
        return LoadAdvice(load, "conditional", "only when its fuse is known and stands it")
    return LoadAdvice(load, "never", refused)
