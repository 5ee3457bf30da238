"""The sum at the foot of a plan's page: it changes when a record the plan was made from does."""

from __future__ import annotations

from hashlib import sha256


def plan_sum(vehicle_digest: str, *made_from: object) -> str:
    """Return eight letters of a sum of the vehicle's file and of what else a plan is made from."""
    return sha256(repr((vehicle_digest, *made_from)).encode()).hexdigest()[:8]
