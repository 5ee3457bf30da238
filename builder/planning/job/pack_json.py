"""A work pack as plain data for JSON: every number's key carries its unit, nothing is rounded."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any, Final

from builder.planning.pack_details import LevelChain
from builder.planning.plan_json import as_json
from builder.planning.work_pack import BayTest, WorkPack

OF_A_CHAIN: Final = (
    "speaker", "sources_summed", "converter_target_v_rms", "converter_gain", "gain_min", "gain_max",
    "amplifier_min_v_rms", "amplifier_max_v_rms",
)  # fmt: skip
"""What a source says of the speaker that plays it, null where none does."""
OF_A_READING: Final = ("plug", "cavity", "fuse_position", "against", "load", "safety")
"""What a line of the bay sheet says of the pin reading it comes from, null where it is none."""


def pack_as_json(pack: WorkPack) -> dict[str, Any]:
    """Return `pack` as mappings, lists, text, numbers and None.

    `levels` has one entry a source, with the chain of the speaker that plays it by itself where
    there is one; `gains` one entry a speaker, in the order of setting. `findings` is empty: the
    pipeline fills it.
    """
    plan = as_json(pack.plan)
    chains = {chain.speaker: as_json(chain) for chain in pack.levels}
    return {
        **plan,
        **as_json(pack),
        "levels": [_level(check, pack.levels) for check in plan["levels"]],
        "gains": [as_json(gain) | chains[gain.speaker] for gain in pack.gains],
        "tests": [_test(test) for test in pack.tests],
        "readings": plan["tests"],
        "findings": [],
    }


def _level(check: dict[str, Any], chains: Sequence[LevelChain]) -> dict[str, Any]:
    """One source with the line level and gain of what it plays into, alone where it can."""
    mine = [chain for chain in chains if check["channel"] in chain.channels]
    chain = min(mine, key=lambda chain: len(chain.channels), default=None)
    return check | {name: getattr(chain, name, None) for name in OF_A_CHAIN}


def _test(test: BayTest) -> dict[str, Any]:
    """A line of the bay sheet; the reading it comes from is named by its pin."""
    return as_json(test) | {name: getattr(test.reading, name, None) for name in OF_A_READING}
