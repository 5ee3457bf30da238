"""Was another cavity read, or another plug of the same shape?"""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from builder.model.plugs import Plug
from builder.proof.contradictions.explaining import (
    Case,
    Explanation,
    best_fit,
    name_of,
    readings_at,
)
from builder.proof.faces.look_alike import cavities_beside, look_alike
from builder.proof.grading.item import Item, agrees
from builder.proof.grading.weighing import Place
from builder.proof.mistaken import OFTEN_TAKEN_FOR

LEAST_BESIDE, LEAST_ELSEWHERE = 2, 3
"""Readings that must fit a neighbouring cavity, or the same cavity of a look-alike plug; and any
other cavity. One reading fits half a plug. Chosen by this project."""


class Elsewhere(NamedTuple):
    """A place that evidence fits: how near it is, how much fits, and whether the two places are
    exchanged."""

    place: Place
    near: str  # how somebody comes to it, "" when it is neither beside nor in a look-alike
    fits: int
    exchanged: bool

    def explains(self) -> bool:
        """Whether enough fits for the way there."""
        return self.exchanged or self.fits >= (LEAST_BESIDE if self.near else LEAST_ELSEWHERE)


def explain_place(case: Case) -> Explanation:
    """Say whether what speaks against a pin fits another cavity or a look-alike plug."""
    best = [(item, _best(case, item)) for item in case.theirs]
    found = [(item, one) for item, one in best if one is not None]
    if len(found) < len(best):
        item = next(item for item, one in best if one is None)
        why = f"what {item.contributor} has fits no other cavity that was not read for itself"
        return Explanation("place", "does not fit", why)
    words = "; ".join(_words(case, item, one) for item, one in found)
    if not all(one.explains() for _, one in found):
        return Explanation("place", "cannot be told", f"{words}; that is too little to go by")
    return Explanation("place", "fits", words, _do(case, found[0][1]))


def _best(case: Case, item: Item) -> Elsewhere | None:
    found = [one for one in _elsewhere(case, item) if one.fits]
    return max(found, key=lambda one: (one.exchanged, bool(one.near), one.fits), default=None)


def _elsewhere(case: Case, item: Item) -> Iterator[Elsewhere]:
    judged = _by_readings if item.measured else _by_claim
    for place, near in _places(case):
        one = judged(case, item, place, near)
        if one is not None:
            yield one


def _places(case: Case) -> Iterator[tuple[Place, str]]:
    """Yield every other place with how somebody comes to it."""
    plug, housing, cavity = case.plug, case.housing, case.place.pin.cavity
    if plug is None:
        return
    beside = cavities_beside(housing, cavity) if housing else frozenset()
    for pin in plug.pins:
        if pin.cavity != cavity:
            yield Place(plug.id, pin), "beside it" if pin.cavity in beside else ""
    for other in case.vehicle.plugs:
        if other.id != plug.id and _taken_for(plug, other, case):
            same = [pin for pin in other.pins if pin.cavity == cavity]
            yield from ((Place(other.id, pin), f"in look-alike plug {other.id}") for pin in same)


def _taken_for(plug: Plug, other: Plug, case: Case) -> bool:
    named = any(entry.plug == other.id for entry in plug.look_alikes)
    return named or look_alike(plug, other, case.housings)


def _by_readings(case: Case, item: Item, place: Place, near: str) -> Elsewhere | None:
    there = best_fit(case, place, readings_at(case.place, item))
    if there is None or there.faults:
        return None
    own = readings_at(place, item)
    itself, back = best_fit(case, place, own), best_fit(case, case.place, own)
    if itself is not None and not itself.faults:
        return None  # that visit read the other cavity itself, and found it as recorded
    exchanged = bool(itself and itself.faults and back and not back.faults)
    return Elsewhere(place, near, there.met, exchanged)


def _by_claim(case: Case, item: Item, place: Place, near: str) -> Elsewhere | None:
    pin = case.place.pin
    mine = [claim for claim in pin.claims if claim.by == item.contributor]
    if not any(agrees(claim, place.pin) and not agrees(claim, pin) for claim in mine):
        return None
    there = [claim for claim in place.pin.claims if claim.by == item.contributor]
    if any(agrees(claim, place.pin) for claim in there):
        return None
    exchanged = any(agrees(claim, pin) for claim in there)
    return Elsewhere(place, near, LEAST_BESIDE if near else 1, exchanged)


def _words(case: Case, item: Item, one: Elsewhere) -> str:
    there = name_of(one.place)
    what = one.place.pin.function.replace("_", " ")
    if one.exchanged:
        return f"{item.contributor} has {case.name} and {there} ({what}) exchanged"
    much = (
        f"{one.fits} reading{'s fit' if one.fits > 1 else ' fits'}" if item.measured else "it fits"
    )
    often = OFTEN_TAKEN_FOR.get(case.place.pin.function, ())
    taken = ", which it is often taken for" if one.place.pin.function in often else ""
    near = f" {one.near}" if one.near else ""
    return f"{item.contributor}: {much} {there} ({what}){near}{taken}"


def _do(case: Case, one: Elsewhere) -> str:
    there = name_of(one.place)
    if one.exchanged:
        return f"measure {case.name} and {there} in one go; then exchange the lines that are wrong"
    if one.place.plug != case.place.plug:
        return f"go by the tells of plug {one.place.plug}, then read {case.name} again"
    return (
        f"hold the probe at {there} and at {case.name} in turn; move the readings if they fit there"
    )
