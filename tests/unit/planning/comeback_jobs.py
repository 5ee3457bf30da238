"""Shipped jobs whose cars come back, with every single fault, each worked out once."""

from __future__ import annotations

from functools import cache

from pack_jobs import HOUSE, SHIPPED, shipped_pack, shipped_parts

from builder.planning.comeback.causes import Causes
from builder.planning.comeback.handed_over import HandedOver

TAP_PLANS = tuple(name for name in SHIPPED if shipped_pack(name).kind == "tap_plan")


@cache
def causes_in(name: str) -> Causes:
    """The single faults of a shipped job."""
    return Causes(HandedOver(shipped_parts(name), shipped_pack(name), HOUSE))
