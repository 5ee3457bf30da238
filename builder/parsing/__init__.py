"""Schema-valid data into the typed model. Pure; it assumes the shape has been checked.

The word "unknown" becomes None where the model holds a number, and stays a word where it
holds a word. Cavity names become text, so that 4 and "A4" are of one type.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from typing import Any

from builder.declaring import read
from builder.model.contributor import Contributor
from builder.model.housing import Housing
from builder.model.job import Job
from builder.model.kinds import DECLARED
from builder.model.parts import Amplifier, Cable, Converter, Interface, Loom
from builder.model.vehicle import Vehicle
from builder.model.visit import Visit
from builder.model.words import RecordKind
from builder.parsing.vehicle import parse_readings, parse_vehicle

Record = (
    Vehicle | Housing | Converter | Amplifier | Cable | Loom | Interface | Contributor | Visit | Job
)

_PARSERS: dict[RecordKind, Callable[[dict[str, Any]], Record]] = {
    **{kind: partial(read, cls) for kind, cls in DECLARED.items()},
    "vehicle": parse_vehicle,
}


def parse_record(kind: RecordKind, data: dict[str, Any]) -> Record:
    """Return the typed record for schema-valid `data` of this kind.

    Raises:
        KeyError: there is no such kind.
    """
    return _PARSERS[kind](data)


__all__ = [
    "Record",
    "parse_readings",
    "parse_record",
    "parse_vehicle",
]
