"""The signature table as plain data, so that a page can judge readings by itself."""

from __future__ import annotations

from typing import Any

from builder.model.house_defaults import HouseDefaults
from builder.model.names import LOAD_NAMES, QUANTITY_NAMES, SINGULAR_NAMES, STATE_NAMES
from builder.proof.house import house_of_rows, house_words
from builder.proof.identify.naming import READINGS_TO_DECIDE
from builder.proof.identify.next_test import ALIKE_SHOWN, BANDS_SHOWN, LEADERS_SHOWN, MOVES_BATTERY
from builder.proof.identify.raising import (
    FULL,
    OPEN_FIRST,
    UNPROVABLE,
    UP_TO_ITS_FUSE,
    LoadedLine,
    loaded_lines,
    never_loaded,
)
from builder.proof.identify.splitting import TEST_BATTERY_V
from builder.proof.measuring_safety import BY_STATE, DEAD, LIVE, PAIR
from builder.proof.signatures.loads import OPEN_FIRST_V
from builder.proof.signatures.of_pins import kinds
from builder.proof.signatures.row_making import DEAD as DEAD_STATES
from builder.proof.signatures.shapes import Expected, Kind
from builder.proof.signatures.table import AGAINST_WORDS, COST_WEIGHT, STATE_COST


def table_for_page(defaults: HouseDefaults) -> dict[str, Any]:
    """Return the signature table as data that JSON can hold.

    A bound is [share, offset]: the limit is share × battery volts + offset, or null when open.
    `loads` empty means any load. The minutes count only in the state "asleep": a reading is met
    from `meets_from_min` on, and out of band contradicts from `contradicts_from_min` on.
    A row that is not `strict` never contradicts. Ohms `open` count as infinite. `safety` holds
    the sentences of `measuring_safety`, `limits` the figures that ranking and proposals use.
    `order` is the order of the defining states. `loaded` are the measurements under load that
    raise a kind to proved, the `strong` one and the one for an output under `open_first_v`.
    `functions` names one wire of each; `house` says each house default that sets a limit, and a
    row names its own.
    """
    return {
        "states": {
            state: {"words": STATE_NAMES[state], "effort": COST_WEIGHT[cost]}
            for state, cost in STATE_COST.items()
        },
        "quantities": {
            name: {"words": words, "unit": unit} for name, (words, unit) in QUANTITY_NAMES.items()
        },
        "against": dict(AGAINST_WORDS),
        "loads": {**LOAD_NAMES},
        "safety": {"states": dict(BY_STATE), "dead": DEAD, "live": LIVE, "pair": PAIR},
        "limits": _limits(),
        "functions": {name: words for name, words in SINGULAR_NAMES.items() if name != "unknown"},
        "house": _house(defaults),
        "raising": _raising(),
        "kinds": [_kind(kind) for kind in kinds(defaults).values()],
    }


def _limits() -> dict[str, Any]:
    return {
        "test_battery_v": TEST_BATTERY_V,
        "readings_to_decide": READINGS_TO_DECIDE,
        "leaders_shown": LEADERS_SHOWN,
        "bands_shown": BANDS_SHOWN,
        "alike_shown": ALIKE_SHOWN,
        "moves_battery": list(MOVES_BATTERY),
        "dead_states": list(DEAD_STATES),
    }


def _raising() -> dict[str, Any]:
    return {
        "open_first": OPEN_FIRST,
        "up_to_its_fuse": UP_TO_ITS_FUSE,
        "full": FULL,
        "unprovable": UNPROVABLE,
        "open_first_v": OPEN_FIRST_V,
    }


def _house(defaults: HouseDefaults) -> dict[str, str]:
    """Each house default that sets a limit, in words, by its name."""
    names = house_of_rows(row for kind in kinds(defaults).values() for row in kind.rows)
    return dict(zip(names, house_words(names, defaults), strict=True))


def _kind(kind: Kind) -> dict[str, Any]:
    return {
        "id": kind.id,
        "function": kind.function,
        "name": kind.name,
        "defining": dict(kind.defining),
        "order": list(kind.defining),
        "loads": list(kind.loads),
        "note": kind.note,
        "rows": [_row(row) for row in kind.rows],
        "loaded": [_loaded(kind, line) for line in loaded_lines(kind)],
        "never_loaded": "" if kind.loads else never_loaded(kind.function),
    }


def _loaded(kind: Kind, line: LoadedLine) -> dict[str, Any]:
    return {
        "row": kind.rows.index(line.row),
        "strong": line.strong._asdict(),
        "weak": line.weak._asdict(),
    }


def _row(row: Expected) -> dict[str, Any]:
    return {
        "states": list(row.states),
        "quantity": row.quantity,
        "against": row.against,
        "loads": list(row.loads),
        "low": list(row.low) if row.low else None,
        "high": list(row.high) if row.high else None,
        "strict": row.strict,
        "proves": list(row.proves),
        "meets_from_min": row.meets_from_min,
        "proves_from_min": row.proves_from_min,
        "contradicts_from_min": row.contradicts_from_min,
        "note": row.note,
        "source": row.source,
        "house": list(row.house),
        "waits": list(row.waits),
    }
