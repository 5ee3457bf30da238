"""Every rule of the catalogue: each file of this folder that has one, by family and number."""

from __future__ import annotations

import pkgutil
from functools import lru_cache
from importlib import import_module

from builder import rules
from builder.rules.rule import Rule, Scope

FAMILIES = ("PIN", "MET", "EVD", "LOM", "TOP", "LVL", "ONN", "PWR", "CAB", "CIR", "SAF")
"""Records and scopes, readings, evidence, looms; of jobs: topology, levels, turn-on, power, cables,
the circuit, safety."""


def _rules() -> list[Rule]:
    names = (module.name for module in pkgutil.iter_modules(rules.__path__, f"{rules.__name__}."))
    files = (import_module(name) for name in names if name != __name__)
    return [file.RULE for file in files if hasattr(file, "RULE")]


def _place(rule: Rule) -> tuple[int, str]:
    return FAMILIES.index(rule.id[:3]), rule.id


RULES: tuple[Rule, ...] = tuple(sorted(_rules(), key=_place))
"""All rules."""
BY_ID: dict[str, Rule] = {rule.id: rule for rule in RULES}
"""The same by id."""
HAZARDS: frozenset[str] = frozenset(rule.id for rule in RULES if rule.hazard)
"""Ids of electrical and safety stops, which a record cannot accept."""


_OF_A_KIND = (Scope.RECORD, Scope.PART)
"""Scopes in which a rule names the kinds of record that it looks at."""


@lru_cache(maxsize=64)
def rules_for(scope: Scope, kind: str = "vehicle") -> tuple[Rule, ...]:
    """The rules of a scope; rules of records and of parts only those for this kind of record."""
    return tuple(
        rule
        for rule in RULES
        if rule.scope is scope and (scope not in _OF_A_KIND or kind in rule.kinds)
    )
