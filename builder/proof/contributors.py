"""Who counts as one contributor: handles that nobody registered, and those that look alike.

One shop with two handles would prove a pin alone. So what speaks for two shops has to be said:
a handle counts for itself when it is registered, looks like no other registered one and shares no
key with one, or when both say that they are two.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import replace
from functools import lru_cache
from itertools import combinations
from typing import NamedTuple

from builder.model.contributor import Contributor
from builder.model.vehicle import NOBODY_REGISTERED, Vehicle
from builder.speller import alike_among, spelt_alike

Registered = Mapping[str, Contributor]
"""The contributors of a book by handle."""

_TRADE = frozenset(
    {"audio", "autos", "cars", "electrics", "fitters", "fitting", "garage", "motors", "services"}
    | {"shop", "sound", "sounds", "stereo", "studio", "workshop"}
)
"""Words behind a name that people leave out, or choose anew with each sign above the door."""


class Twins(NamedTuple):
    """Two handles that count as one, and why; `second` came later."""

    first: str
    second: str
    why: str


def with_counts(vehicle: Vehicle, counts_as: Mapping[str, str]) -> Vehicle:
    """Return the vehicle with each handle counted as `counted_as` says of its handles."""
    return replace(vehicle, counts_as=counts_as) if counts_as != vehicle.counts_as else vehicle


def counted_as(handles: Iterable[str], registered: Registered) -> dict[str, str]:
    """Return what each of these handles counts as, those left out that count for themselves.

    All that nobody registered are `NOBODY_REGISTERED` together; one of them that looks like a
    registered handle counts as that.
    """
    one_of = _one_of(_Book(registered))
    found = {handle: _counted(handle, registered, one_of) for handle in handles}
    return {handle: counted for handle, counted in found.items() if counted != handle}


def _counted(handle: str, registered: Registered, one_of: Mapping[str, str]) -> str:
    if handle in registered:
        return one_of.get(handle, handle)
    like = registered_like(handle, registered)
    return one_of.get(like, like) if like else NOBODY_REGISTERED


def registered_like(handle: str, registered: Registered) -> str:
    """The oldest registered handle that one which nobody registered looks like, or ""."""
    alike = [each for each in registered.values() if look_alike(handle, each.id)]
    return min(alike, key=_age).id if alike else ""


def look_alike(one: str, other: str) -> bool:
    """Whether two handles could be one, spelt twice or with another word of the trade behind it."""
    if one == other:
        return False
    return spelt_alike(one, other) or _own_words(one) == _own_words(other)


def _own_words(handle: str) -> str:
    """A handle without the words of the trade; the whole of one that has no others."""
    words = [word for word in handle.split("-") if word not in _TRADE]
    return "-".join(words) or handle


def twins(registered: Registered) -> tuple[Twins, ...]:
    """Return each two registered handles that count as one, the one that came later second."""
    return _twins(_Book(registered))


class _Book:
    """The contributors of a book, told from others by identity: nobody changes them."""

    __slots__ = ("registered",)

    def __init__(self, registered: Registered) -> None:
        self.registered = registered

    def __hash__(self) -> int:
        return id(self.registered)

    def __eq__(self, other: object) -> bool:
        return isinstance(other, _Book) and self.registered is other.registered


_MOST = 8
"""Books kept: those that are compared, and a copy in which something is tried."""


@lru_cache(_MOST)
def _twins(book: _Book) -> tuple[Twins, ...]:
    found: dict[tuple[str, str], Twins] = {}
    for one, other, why in _suspects(book.registered):
        first, second = sorted((book.registered[one], book.registered[other]), key=_age)
        said = second.id in first.not_same_as and first.id in second.not_same_as
        if not said:
            found.setdefault((first.id, second.id), Twins(first.id, second.id, why))
    return tuple(found.values())


def _age(contributor: Contributor) -> tuple[str, str]:
    return contributor.since, contributor.id


def _suspects(registered: Registered) -> Iterator[tuple[str, str, str]]:
    by_key, by_words = defaultdict[str, list[str]](list), defaultdict[str, list[str]](list)
    for each in registered.values():
        by_words[_own_words(each.id)].append(each.id)
        for key in each.public_keys:
            by_key[key].append(each.id)
    for handles in by_key.values():
        yield from ((*two, "share a public key") for two in combinations(handles, 2))
    for two in alike_among(tuple(registered)):
        yield (*two, "look alike")
    for handles in by_words.values():
        yield from ((*two, "look alike") for two in combinations(handles, 2))


@lru_cache(_MOST)
def _one_of(book: _Book) -> dict[str, str]:
    """The handle that each of several which count as one counts as: the oldest of them."""
    groups: dict[str, set[str]] = {}
    for first, second, _ in _twins(book):
        merged = groups.get(first, {first}) | groups.get(second, {second})
        groups |= dict.fromkeys(merged, merged)
    oldest = {id(g): min((book.registered[h] for h in g), key=_age).id for g in groups.values()}
    return {handle: oldest[id(group)] for handle, group in groups.items()}
