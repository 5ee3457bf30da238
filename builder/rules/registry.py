"""Every rule of the catalogue, by hand, in the order of their ids."""

from __future__ import annotations

from functools import lru_cache
from types import ModuleType

from builder.rules import (
    accessory_dead_until_run,
    accessory_is_retained,
    asleep_too_short,
    bridged_leg_on_chassis,
    camera_supply_called_switched,
    cavity_not_in_housing,
    cavity_used_twice,
    channel_on_two_pairs,
    clean_level_above_bias,
    constant_sleeps,
    data_called_otherwise,
    date_impossible,
    defining_state_missing,
    empty_cavity_described,
    evidence_disputed,
    evidence_from_other_car,
    evidence_weak,
    factory_amplifier_unknown,
    ground_poor,
    half_a_pair,
    housing_inconsistent,
    legs_differ,
    level_beyond_rail,
    load_not_allowed,
    look_alike_without_tell,
    name_used_twice,
    nothing_known_of_pin,
    one_contributor,
    one_leg_biased,
    pair_spread,
    pairs_crossed,
    pins_mirrored,
    raised_rail_not_stated,
    reading_side_missing,
    readings_copied,
    reference_to_nothing,
    resolution_of_nothing,
    scope_reversed,
    scopes_overlap,
    session_mirrored,
    speaker_ohms_odd,
    supply_never_loaded,
    supply_or_ground_missing,
    supply_sags,
    switched_alive_asleep,
    switched_drops_at_crank,
    switched_follows_lights,
    turn_on_follows_source,
    turn_on_logic_level,
    value_implausible,
    vehicle_id_used_twice,
    visit_not_turned,
    wire_colours_alike,
    wires_confusable,
    years_beyond_evidence,
)
from builder.rules.job_rules import JOB_MODULES
from builder.rules.rule import Rule, Scope

_MODULES: tuple[ModuleType, ...] = (
    cavity_used_twice,
    cavity_not_in_housing,
    empty_cavity_described,
    half_a_pair,
    channel_on_two_pairs,
    reading_side_missing,
    look_alike_without_tell,
    reference_to_nothing,
    scopes_overlap,
    value_implausible,
    wire_colours_alike,
    supply_or_ground_missing,
    vehicle_id_used_twice,
    pair_spread,
    factory_amplifier_unknown,
    pins_mirrored,
    name_used_twice,
    years_beyond_evidence,
    housing_inconsistent,
    wires_confusable,
    resolution_of_nothing,
    scope_reversed,
    session_mirrored,
    visit_not_turned,
    supply_sags,
    constant_sleeps,
    switched_alive_asleep,
    switched_follows_lights,
    accessory_is_retained,
    accessory_dead_until_run,
    switched_drops_at_crank,
    ground_poor,
    one_leg_biased,
    legs_differ,
    bridged_leg_on_chassis,
    speaker_ohms_odd,
    pairs_crossed,
    data_called_otherwise,
    turn_on_logic_level,
    turn_on_follows_source,
    camera_supply_called_switched,
    supply_never_loaded,
    defining_state_missing,
    asleep_too_short,
    load_not_allowed,
    clean_level_above_bias,
    level_beyond_rail,
    raised_rail_not_stated,
    nothing_known_of_pin,
    evidence_weak,
    one_contributor,
    evidence_disputed,
    readings_copied,
    date_impossible,
    evidence_from_other_car,
    *JOB_MODULES,
)

RULES: tuple[Rule, ...] = tuple(module.RULE for module in _MODULES)
"""All rules."""
BY_ID: dict[str, Rule] = {rule.id: rule for rule in RULES}
"""The same by id."""
HAZARDS: frozenset[str] = frozenset(rule.id for rule in RULES if rule.hazard)
"""Ids of electrical and safety stops, which a record cannot accept."""


@lru_cache(maxsize=64)
def rules_for(scope: Scope, kind: str = "vehicle") -> tuple[Rule, ...]:
    """The rules of a scope; record rules only those for this kind of record."""
    return tuple(
        rule
        for rule in RULES
        if rule.scope is scope and (scope is not Scope.RECORD or kind in rule.kinds)
    )


def docstring_of(rule: Rule) -> str:
    """The docstring of the file that defines the rule: its page."""
    module = next(module for module in _MODULES if module.RULE is rule)
    return module.__doc__ or ""
