"""How far a pin is proved: a score, a word, why, and what would raise it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from builder.figures import shown
from builder.model.house_defaults import HouseDefaults
from builder.model.plugs import Pin
from builder.model.vehicle import Vehicle
from builder.model.words import GradeBand
from builder.proof.grading.combining import Side, best_side, capped
from builder.proof.grading.evidence import gather
from builder.proof.grading.item import Item
from builder.proof.grading.probed import met_by_a_probe
from builder.proof.grading.reasons import Facts, raise_by, reasons

PROVEN, GOOD, CHECK_FIRST = 0.90, 0.70, 0.40
"""Least score of each band. Chosen by this project."""
DISPUTED = 0.40
"""Support and opposition that both reach this make a dispute. Chosen by this project."""
_TINY = 1e-9


@dataclass(frozen=True, slots=True)
class Grade:
    """What a pin's evidence is worth.

    `score` is 0 to 1 and not rounded. `band` is proven, good, check first, don't rely, disputed
    or unproved. `sentences` say why. `raise_by` is the cheapest thing that would raise the grade,
    "" when nothing would. `items` holds everything that was weighed, retired items with weight 0.
    `missing` says in words which defining states nobody measured. `measured_years` are the model
    years of the cars that were measured. `counted` are the items that the score is made of: of
    each contributor the best one, and a job on another car. `house` names the house defaults that
    weighed, capped or lowered them.
    """

    score: float
    band: GradeBand
    sentences: tuple[str, ...]
    raise_by: str
    items: tuple[Item, ...] = ()
    support: float = 0.0
    opposition: float = 0.0
    contributors: int = 0
    missing: tuple[str, ...] = ()
    measured_years: tuple[int, ...] = ()
    counted: tuple[Item, ...] = ()
    house: tuple[str, ...] = ()

    @property
    def why(self) -> str:
        """The reasons as one line."""
        return "; ".join(self.sentences)

    @property
    def label(self) -> str:
        """Score and band, for example "0.85 good"."""
        return f"{shown_score(self.score)} {self.band}"


def shown_score(score: float) -> str:
    """Return a score with two figures, with more where two would put it into another band."""
    return shown(score, 2, beside=(1.0, PROVEN, GOOD, CHECK_FIRST))


def grade_pin(
    vehicle: Vehicle, pin: Pin, defaults: HouseDefaults, year: int | None = None
) -> Grade:
    """Grade one pin of a vehicle from its readings, its pair mate's, and what people claim.

    Args:
        vehicle: The record that the pin stands in.
        pin: A pin, or a fuse position in the shape of one.
        defaults: House defaults: bands of the signatures, weights and caps.
        year: A model year to grade for; years nobody measured within one year count less.
            None grades for the cars that were measured.
    Source: the weighing is this project's choice; S = 1 − Π(1 − w), score = S·(1 − O), capped.
    A leg that no meter touched counts as unmeasured and is at best "check first": its partner's
    readings say nothing of its own bias, nor that it is the wire somebody takes it for.
    """
    items, silent = gather(vehicle, pin, defaults)
    if not items:
        return _unproved(vehicle, pin, defaults, silent)
    return _graded(vehicle, pin, defaults, year, items)


def _unproved(vehicle: Vehicle, pin: Pin, defaults: HouseDefaults, silent: bool) -> Grade:
    facts = Facts(vehicle, pin, defaults, None, silent=silent)
    return Grade(0.0, "unproved", reasons(facts), raise_by(facts, "unproved"))


def _graded(
    vehicle: Vehicle, pin: Pin, defaults: HouseDefaults, year: int | None, items: list[Item]
) -> Grade:
    support = best_side([item for item in items if item.supports], defaults)
    against = best_side([item for item in items if not item.supports], defaults)
    measured = [item for item in items if item.supports and item.measured and item.weight > 0]
    years = tuple(sorted({year for item in measured for year in item.years}))
    factor = _factor(measured, years, year, defaults)
    unread = bool(measured) and not met_by_a_probe(vehicle, pin)
    score = _score(support, against, items, factor, defaults, unread)
    band = _band(score, support, against.strength, unread)
    facts = Facts(
        vehicle, pin, defaults, year, tuple(items), support, against, years, factor, unread=unread
    )
    return Grade(
        score,
        band,
        reasons(facts),
        raise_by(facts, band),
        tuple(items),
        support.strength,
        against.strength,
        len(support.contributors),
        facts.missing_words(),
        years,
        (*support.items, *against.items),
        tuple(_house(facts)),
    )


def _house(facts: Facts) -> Iterator[str]:
    """Yield the names of the defaults that the score was made with."""
    support, defaults = facts.support, facts.defaults
    items = (*support.items, *facts.against.items)
    yield from dict.fromkeys(f"weight_{item.method}" for item in items)
    if any(item.measured and not item.face_known for item in items):
        yield "cap_unknown_face"
    if support.items and (facts.unread or not support.measured):
        yield "cap_unmeasured"
    elif not support.independent and support.strength > defaults.cap_one_contributor:
        yield "cap_one_contributor"
    if facts.factor < 1.0:
        yield "far_factor"


def _factor(
    measured: list[Item], years: tuple[int, ...], year: int | None, defaults: HouseDefaults
) -> float:
    """What is left when nobody measured near the asked year, or within the scope."""
    if not measured:
        return 1.0
    factor = 1.0
    if year is not None and not any(abs(year - seen) <= 1 for seen in years):
        factor *= defaults.far_factor
    if not any(item.in_scope for item in measured):
        factor *= defaults.far_factor
    return factor


def _score(
    support: Side,
    against: Side,
    items: list[Item],
    factor: float,
    defaults: HouseDefaults,
    unread: bool,
) -> float:
    """S·(1 − O) under caps and factor; far evidence never pulls below what claims alone give."""
    claims = [item for item in items if item.supports and not item.measured]
    alone = capped(best_side(claims, defaults), defaults)
    best = max(factor * capped(support, defaults), alone)
    if unread:
        best = min(best, defaults.cap_unmeasured)
    return best * (1.0 - against.strength)


def _band(score: float, support: Side, opposition: float, unread: bool) -> GradeBand:
    if support.strength >= DISPUTED - _TINY and opposition >= DISPUTED - _TINY:
        return "disputed"
    if support.strength == 0 and opposition == 0:
        return "unproved"
    if not unread and score >= PROVEN - _TINY and support.independent:
        return "proven"
    if not unread and score >= GOOD - _TINY:
        return "good"
    return "check first" if score >= CHECK_FIRST - _TINY else "don't rely"
