"""The kinds of record whose keys are declared, by the name of their schema."""

from __future__ import annotations

from collections.abc import Mapping

from builder.model.housing import Housing
from builder.model.parts import Amplifier, Cable, Converter
from builder.model.words import RecordKind

DECLARED: Mapping[RecordKind, type] = {
    "converter": Converter,
    "amplifier": Amplifier,
    "cable": Cable,
    "housing": Housing,
}
