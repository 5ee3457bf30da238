"""What raises a wire that readings have named to one that is proved."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from typing import NamedTuple

from builder.model.names import SINGULAR_NAMES
from builder.model.words import GROUND_REFERENCES, Function, Load
from builder.proof.identify.next_test import battery_for
from builder.proof.identify.splitting import Measurement
from builder.proof.judging import with_article
from builder.proof.signatures.loads import LOAD_MA, OPEN_FIRST_V, load_refusal
from builder.proof.signatures.shapes import Expected, Kind
from builder.proof.signatures.table import COST_WEIGHT, STATE_COST
from builder.proof.wording import Measured, limits
from builder.proof.words import Defining

_STRONG_V, _WEAK_V = 12.4, OPEN_FIRST_V - 1
"""What an output reads open where a load is chosen: a full one, and one too weak for 50 mA. [V]"""


class LoadedLine(NamedTuple):
    """A line of a signature that only a load settles.

    `strong` is the measurement with the heaviest load that the function stands when nobody knows
    its fuse; `weak` the one where it reads under `OPEN_FIRST_V` open.
    """

    row: Expected
    strong: Measurement
    weak: Measurement


class Raising(NamedTuple):
    """The next thing that raises a named wire to a proved one.

    `measurement` is the loaded one, None when no load may be put on the wire or none is missing.
    `expect` is what it reads, `mind` what comes before it, `also` the other defining states that
    are still open, in words. `why` says why there is nothing to load.
    """

    measurement: Measurement | None
    expect: str
    mind: str
    also: tuple[str, ...]
    why: str


OPEN_FIRST = "Read it open in that state first."
UP_TO_ITS_FUSE = "No more than this while nobody knows its fuse."
FULL = "every state that defines it is measured; write the battery volts beside each"
UNPROVABLE = "no reading of the table proves it; this is by ruling out the rest"
"""What is said beside a loaded measurement, or in its place."""


def never_loaded(function: Function) -> str:
    """Return why no load belongs on such a wire."""
    return f"{with_article(SINGULAR_NAMES[function])} is never loaded"


def loaded_lines(kind: Kind) -> tuple[LoadedLine, ...]:
    """Return the lines of a kind that a load bears out, cheapest state first.

    They are those that only a load settles; where there is none, those that hold under any load
    while the wire carries its voltage.
    """
    loaded = [row for row in kind.rows if row.loads and "none" not in row.loads]
    live = [row for row in kind.rows if not row.loads and row.low and row.low[0] == 1]
    rows = [row for row in loaded if row.proves] or loaded or (live if kind.loads else [])
    lines = [line for row in rows if (line := _line(kind.function, row)) is not None]
    return tuple(sorted(lines, key=lambda line: line.strong.effort))


def _line(function: Function, row: Expected) -> LoadedLine | None:
    strong, weak = (_heaviest(function, row, open_v) for open_v in (_STRONG_V, _WEAK_V))
    if strong is None:
        return None
    state = min(row.states, key=lambda state: COST_WEIGHT[STATE_COST[state]])
    first = Measurement(state, row.quantity, row.against, strong)
    return LoadedLine(row, first, first._replace(load=weak or strong))


def _heaviest(function: Function, row: Expected, open_v: float) -> Load | None:
    loads = row.loads or tuple(load for load in LOAD_MA if load != "none")
    allowed = [load for load in loads if load_refusal(function, load, open_v=open_v) is None]
    return max(allowed, key=lambda load: LOAD_MA[load], default=None)


def raising_of(
    kind: Kind, proved: Collection[Defining], readings: Sequence[Measured], *, loaded: bool = False
) -> Raising:
    """Return what raises a wire of this kind to proved.

    Args:
        kind: What the wire has been named as.
        proved: Names of its defining states that the readings have settled.
        readings: What was measured; a load needs an open reading in the same state before it.
        loaded: Whether one of them was taken under load and bears the kind out.
    """
    missing = [name for name in kind.defining if name not in proved]
    if not kind.defining:
        return Raising(None, "", "", (), UNPROVABLE)
    due = next((one for one in loaded_lines(kind) if _is_due(one.row, missing, loaded)), None)
    if due is not None:
        return _loaded(kind, due, missing, readings)
    also = tuple(kind.defining[name] for name in missing)
    why = FULL if not missing else "" if kind.loads else never_loaded(kind.function)
    return Raising(None, "", "", also, why)


def _is_due(row: Expected, missing: Sequence[Defining], loaded: bool) -> bool:
    """Whether a load settles what is missing; a wire that settles nothing by load wants one."""
    return bool(set(row.proves) & set(missing)) if row.proves and row.loads else not loaded


def _loaded(
    kind: Kind, due: LoadedLine, missing: Sequence[Defining], readings: Sequence[Measured]
) -> Raising:
    open_reading = next((one for one in readings if _is_open(one, due.strong)), None)
    open_v = open_reading.value if open_reading else None
    weak = open_v is not None and open_v < OPEN_FIRST_V
    battery_v = battery_for(due.strong.state, readings)
    return Raising(
        due.weak if weak else due.strong,
        limits(due.row.low, due.row.high, battery_v, due.row.quantity),
        " ".join(_minds(kind, open_v)),
        tuple(kind.defining[name] for name in missing if name not in due.row.proves),
        "",
    )


def _is_open(reading: Measured, measurement: Measurement) -> bool:
    return (
        reading.state == measurement.state
        and reading.quantity == "dc_v"
        and reading.load == "none"
        and reading.against in GROUND_REFERENCES
    )


def _minds(kind: Kind, open_v: float | None) -> tuple[str, ...]:
    if kind.function == "ground":
        return ()
    return ((OPEN_FIRST,) if open_v is None else ()) + (UP_TO_ITS_FUSE,)
