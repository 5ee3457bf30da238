"""One caution, and how long to wait where a restraint part is near."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Literal, NamedTuple

from builder.declaring import settles
from builder.model.access import Removal
from builder.model.car import Safety
from builder.model.glossary import CARE, DANGER
from builder.model.vehicle import Vehicle
from builder.model.words import Tri

Weight = Literal["danger", "care"]
"""Whether a caution is about a person or about the car."""


class Caution(NamedTuple):
    """One caution: its weight, then what and why.

    `topic` says what it is about, so that a sheet shows those that concern it: restraints,
    high_voltage, stated, sounds, removal, battery, radio or the name of a feature. `unknown` says
    that nobody knows whether the danger is there: it is taken as there, and told first.
    """

    weight: Weight
    title: str
    text: str
    topic: str
    unknown: bool = False

    @property
    def word(self) -> str:
        """The weight as a printed word, so that colour never carries it alone."""
        return DANGER if self.weight == "danger" else CARE


def settled(cls: type, key: str) -> str:
    """Who or what settles a danger that nobody knows of, as the key's declaration says."""
    return f"Settled by {settles(cls, key)}."


def wait_words(minutes: float | None) -> str:
    """How long after the battery is off; a figure nobody has is looked up, never guessed."""
    if minutes is not None:
        return (
            f"Battery negative off, then wait {minutes:g} min (the figure recorded from the "
            "vehicle maker), before anything there is unplugged."
        )
    return (
        "Battery negative off, then a wait whose length nobody has recorded: look it up in the "
        "maker's instructions before any restraint plug is touched. Until then that step is "
        f"blocked. {settled(Safety, 'restraint_wait_min')}"
    )


def near_restraints(title: str, near: Sequence[tuple[str, Tri]], vehicle: Vehicle) -> list[Caution]:
    """Where the work has a restraint part within reach, or nobody said that it has none."""
    said = [
        f"{words}: {', '.join(names)}."
        for answer, words in _REACH.items()
        if (names := [name for name, has in near if has == answer])
    ]
    if not said:
        return []
    safety = vehicle.safety
    wait = _FIRST_OFF if safety.restraint_zones else wait_words(safety.restraint_wait_min)
    unknown = any(has == "unknown" for _, has in near)
    who = f" {settled(Removal, 'restraint')}" if unknown else ""
    return [Caution("danger", title, f"{' '.join(said)} {wait}{who}", "restraints", unknown)]


_FIRST_OFF = (
    "Battery negative off and the whole wait first."  # the zones' own caution has its length
)
_REACH: dict[Tri, str] = {
    "yes": "Within reach of the work on",
    "unknown": "Not said, so take it as near, for",
}
