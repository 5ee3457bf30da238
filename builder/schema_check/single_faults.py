"""One fault, one finding: of everything a validator lists, what a person has to mend.

A wrong word in `function` also breaks every condition that looks at `function`; a mistyped
key is also a missing key. Only the cause is kept.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field

from builder.findings import DataPath
from builder.model.words import SchemaKind
from builder.schema_check.schemas import schema_at
from builder.schema_check.violations import Condition, Keyword, Violation
from builder.speller import nearest

_TELLING_FIRST: tuple[Keyword, ...] = (
    "type",
    "enum",
    "minLength",
    "pattern",
    "format",
    "not",
    "maxLength",
    "exclusiveMinimum",
    "minimum",
    "maximum",
    "minItems",
    "maxItems",
    "minProperties",
    "uniqueItems",
    "falseSchema",
    "unknown",
    "required",
)


@dataclass(frozen=True, slots=True)
class ShapeFault:
    """One fault: what is broken, what was probably meant, and what breaks with it.

    `meant` is the legal key that a key too many was probably meant to be. `together` holds
    the violations of the same condition at the same object, this one among them.
    """

    violation: Violation
    meant: str | None = None
    together: tuple[Violation, ...] = ()


@dataclass(slots=True)
class _Seen:
    """Places that already have a finding; nothing that hangs on them gets another."""

    places: set[DataPath] = field(default_factory=set)

    def covers(self, violation: Violation) -> bool:
        condition = violation.condition
        watched = {(*condition.at, key) for key in condition.watches} if condition else set()
        return violation.path in self.places or not watched.isdisjoint(self.places)


def single_faults(kind: SchemaKind, violations: Iterable[Violation]) -> list[ShapeFault]:
    """The faults behind the violations, causes only."""
    ordered = sorted(violations, key=_rank)
    meant = _meant_keys(kind, ordered)
    # A key that was meant counts as present, so that its absence is no second finding.
    seen = _Seen({(*path[:-1], key) for path, key in meant.items()})
    faults = []
    for violation in ordered:
        if violation.condition is None and not seen.covers(violation):
            seen.places.add(violation.path)
            faults.append(ShapeFault(violation, meant.get(violation.path)))
    return faults + _conditional_faults(ordered, seen)


def _conditional_faults(ordered: list[Violation], seen: _Seen) -> list[ShapeFault]:
    groups: dict[Condition, list[Violation]] = {}
    for violation in ordered:
        if violation.condition is not None:
            groups.setdefault(violation.condition, []).append(violation)
    faults = []
    for group in groups.values():
        if any(seen.covers(violation) for violation in group):
            continue
        seen.places.update(violation.path for violation in group)
        faults.append(ShapeFault(group[0], together=tuple(group)))
    return faults


def _rank(violation: Violation) -> int:
    if violation.keyword not in _TELLING_FIRST:
        return len(_TELLING_FIRST)
    return _TELLING_FIRST.index(violation.keyword)


def _meant_keys(kind: SchemaKind, violations: list[Violation]) -> dict[DataPath, str]:
    """The key each unknown key was probably meant to be; a missing one is likelier."""
    missing = [v.path for v in violations if v.keyword == "required"]
    meant: dict[DataPath, str] = {}
    for violation in violations:
        if violation.keyword != "unknown":
            continue
        place, written = violation.path[:-1], violation.path[-1]
        wanted = [str(path[-1]) for path in missing if path[:-1] == place]
        legal = schema_at(kind, place).get("properties", {})
        key = nearest(written, wanted) or nearest(written, legal)
        if key is not None:
            meant[violation.path] = key
    return meant
