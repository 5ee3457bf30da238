"""From single items to one figure: support, opposition and the caps."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from itertools import combinations, product, starmap
from math import prod
from typing import NamedTuple

from builder.model.house_defaults import HouseDefaults
from builder.proof.grading.item import Fingerprint, Item

_MOST_CHOICES = 512
"""Most ways of giving copied readings to one of their owners that are tried."""


class Side(NamedTuple):
    """What one side of the question weighs: `strength` is 1 − Π(1 − weight).

    `contributors` are those that its items count as. `independent` says whether two of them looked
    at two cars: one car read twice repeats what is odd about that car.
    """

    strength: float
    contributors: frozenset[str]
    measured: bool
    items: tuple[Item, ...]
    independent: bool


def strength(weights: Iterable[float]) -> float:
    """Return 1 − Π(1 − w): the chance that not every item is wrong, were they independent."""
    return 1.0 - prod(1.0 - weight for weight in weights)


def best_side(items: Sequence[Item], defaults: HouseDefaults) -> Side:
    """Return the strongest reading of one side's items.

    Each contributor counts once with the best item, and once more with a job on another car.
    Readings that agree in every figure and in their date count once, whoever handed them in;
    they are given to the owner for whom that makes the side strongest, so that handing in one
    more item never weakens it. Of several cars that one contributor measured, the one counts that
    nobody else did, where that makes the side stronger.
    """
    live = [item for item in items if item.weight > 0]
    sides = (side for choice in _without_copies(live) for side in _sides(choice))
    return max(sides, key=lambda side: (capped(side, defaults), side.strength))


def capped(side: Side, defaults: HouseDefaults) -> float:
    """Return the strength of a side under the caps for unmeasured pins, and for evidence that is of
    one contributor or of one car.
    """
    most = [side.strength]
    if not side.independent:
        most.append(defaults.cap_one_contributor)
    if not side.measured:
        most.append(defaults.cap_unmeasured)
    return min(most)


def _sides(items: list[Item]) -> Iterator[Side]:
    """The strongest items of each contributor; where those are of one car, also without it."""
    whole = _side(items)
    yield whole
    if not whole.independent and len(whole.contributors) > 1:
        for who, car in {(item.counts_as, item.car) for item in whole.items if item.car}:
            yield _side([i for i in items if (i.counts_as, i.car) != (who, car)])


def _side(items: Iterable[Item]) -> Side:
    best: dict[tuple[str, bool], Item] = {}
    for item in items:
        key = (item.counts_as, item.method == "job")
        if key not in best or _order(item) > _order(best[key]):
            best[key] = item
    chosen = tuple(sorted(best.values(), key=lambda item: (-item.weight, item.contributor)))
    return Side(
        strength(item.weight for item in chosen),
        frozenset(item.counts_as for item in chosen),
        any(item.measured for item in chosen),
        chosen,
        any(starmap(_independent, combinations(chosen, 2))),
    )


def _independent(one: Item, other: Item) -> bool:
    return one.counts_as != other.counts_as and (not one.car or one.car != other.car)


def _order(item: Item) -> tuple[float, bool, tuple[str, ...]]:
    return (item.weight, item.measured, item.sessions)


def copies(items: Iterable[Item]) -> dict[Fingerprint, list[str]]:
    """Return the contributors of each set of readings that more than one of them handed in."""
    owners: dict[Fingerprint, set[str]] = {}
    for item in items:
        if item.fingerprint:
            owners.setdefault(item.fingerprint, set()).add(item.contributor)
    return {mark: sorted(who) for mark, who in owners.items() if len(who) > 1}


def _without_copies(items: list[Item]) -> Iterator[list[Item]]:
    shared = copies(items)
    if not shared:
        yield items
        return
    marks = list(shared)
    for number, owners in enumerate(product(*shared.values())):
        if number >= _MOST_CHOICES:
            return
        owner = dict(zip(marks, owners, strict=True))
        yield [i for i in items if owner.get(i.fingerprint, i.contributor) == i.contributor]
