"""Which converters would do instead of one whose plan is refused."""

from __future__ import annotations

from collections.abc import Sequence

from builder.model.parts import Converter
from builder.planning.plan import Plan, Reason
from builder.planning.tables import DEVICE_RECORD, MOST_INSTEAD


def would_do(plan: Plan, others: Sequence[tuple[Converter, Plan]]) -> tuple[Reason, ...]:
    """Return the converters with which the same wish comes to a tap plan, smallest first.

    Args:
        plan: The refused plan.
        others: Converters of the book with the plan made of each, as it was decided.
    """
    fitting = [
        (converter, other)
        for converter, other in others
        if other.kind == "tap_plan" and other.purpose.startswith(plan.purpose)
    ]
    fitting.sort(key=lambda each: (each[0].inputs, each[0].name))
    return tuple(_reason(*each) for each in fitting[:MOST_INSTEAD])


def _reason(converter: Converter, plan: Plan) -> Reason:
    used = len({feed.converter_input for feed in plan.feeds})
    because = f"a tap plan: {used} of its {converter.inputs} inputs, {plan.purpose}"
    return Reason(f"{converter.name} would do instead", because, DEVICE_RECORD)
