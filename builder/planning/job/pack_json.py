"""A work pack as plain data for JSON: every number's key carries its unit, nothing is rounded."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from builder.planning.plan_json import field_names, plan_as_json
from builder.planning.work_pack import LevelChain, WorkPack

_LISTS = (
    "treatments", "wiring", "joints", "conductors", "cut_list", "labels", "speaker_leads",
    "insulate", "steps", "parts", "alternatives", "because", "refusals", "turn_on_draws", "flags",
    "assumed",
)  # fmt: skip
_TEXTS = ("revert", "customer", "losses")


def pack_as_json(pack: WorkPack) -> dict[str, Any]:
    """Return `pack` as mappings, lists, text, numbers and None.

    `levels` has one entry a source, with the chain of the speaker that plays it by itself where
    there is one; `gains` one entry a speaker, in the order of setting. `findings` is empty: the
    pipeline fills it.
    """
    plan = plan_as_json(pack.plan)
    data: dict[str, Any] = {
        "job": pack.job,
        "kind": pack.kind,
        "vehicle": pack.plan.vehicle,
        "converter": pack.plan.converter,
        "purpose": pack.plan.purpose,
        "grade": pack.plan.grade,
        "feeds": plan["feeds"],
        "turn_on": plan["turn_on"],
        "ladder": plan["ladder"],
        "levels": [_level(check, pack.levels) for check in plan["levels"]],
        "power": _power(pack),
        "gains": _gains(pack),
        "hold_up": None if pack.hold_up is None else _mapping(pack.hold_up),
        "tests": [_test(test) for test in pack.tests],
        "readings": plan["tests"],
        "findings": [],
    }
    for name in _LISTS:
        data[name] = [_mapping(item) for item in getattr(pack, name)]
    for name in _TEXTS:
        data[name] = list(getattr(pack, name))
    return data


def _mapping(item: Any) -> dict[str, Any]:
    """A dataclass as a mapping; data paths point into a record and are left out."""
    return {name: _plain(getattr(item, name)) for name in field_names(item)}


def _plain(value: Any) -> Any:
    if isinstance(value, tuple):
        return [_plain(each) for each in value]
    return _mapping(value) if hasattr(value, "__dataclass_fields__") else value


def _level(check: dict[str, Any], chains: Iterable[LevelChain]) -> dict[str, Any]:
    """One source with the line level and gain of what it plays into, alone where it can."""
    mine = [chain for chain in chains if check["channel"] in chain.channels]
    chain = min(mine, key=lambda chain: len(chain.channels), default=None)
    return check | {
        "speaker": chain.speaker if chain else None,
        "sources_summed": chain.sources_summed if chain else None,
        "converter_target_v_rms": chain.converter_target_v_rms if chain else None,
        "converter_gain": chain.converter_gain if chain else None,
        "gain_min": chain.gain_min if chain else None,
        "gain_max": chain.gain_max if chain else None,
        "amplifier_min_v_rms": chain.amplifier_min_v_rms if chain else None,
        "amplifier_max_v_rms": chain.amplifier_max_v_rms if chain else None,
    }


def _gains(pack: WorkPack) -> list[dict[str, Any]]:
    chains = {chain.speaker: _mapping(chain) for chain in pack.levels}
    return [_mapping(gain) | chains[gain.speaker] for gain in pack.gains]


def _power(pack: WorkPack) -> dict[str, Any] | None:
    return None if pack.power is None else _mapping(pack.power)


def _test(test: Any) -> dict[str, Any]:
    """A line of the bay sheet; the reading it comes from is named by its pin."""
    data = _mapping(test)
    reading = data.pop("reading")
    places = ("plug", "cavity", "fuse_position", "against", "load", "safety")
    return data | {name: reading[name] if reading else None for name in places}
