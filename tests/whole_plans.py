"""The plans of a vehicle's data file, with what they share put back where they name its place."""

from __future__ import annotations

from typing import Any


def whole_plans(computed: dict[str, Any]) -> list[dict[str, Any]]:
    """Each plan as `loombook plan --json` has it; `computed` is that part of the data file."""
    share = computed["plans_share"]
    return [
        {**plan, **{name: [share[name][place] for place in plan[name]] for name in share}}
        for plan in computed["plans"]
    ]
