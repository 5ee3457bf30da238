"""What a course is made of: states of the car, changes of them by hand, and acts done once.

A state is the value of each thing that can stand in more than one way: "battery" is "off", "radio"
is "pulled". A change moves one such thing and may be done and undone; an act is done once. Both
say in which states they can be done. Nothing here knows a car, a job or a sentence.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Final, Literal, TypeAlias, get_args

from builder.planning.words import HowItStands, Phase

Rank = Literal["battery", "restraint plug", "plug", "seat", "radio", "panel", "key", "job"]
"""Kinds of changes, the dearest first: so they are counted, and so courses are compared."""
RANKS: Final[tuple[Rank, ...]] = get_args(Rank)
COUNTED: Final = RANKS[: RANKS.index("key")]
"""Those whose number is the least there is; the key is turned as the order of readings asks."""

State: TypeAlias = Mapping[str, HowItStands]
Needs: TypeAlias = Mapping[str, frozenset[HowItStands]]
"""What may stand how: each thing with every value that will do."""


def among(*values: HowItStands) -> frozenset[HowItStands]:
    """Return ways of standing of which any will do."""
    return frozenset(values)


def needs(**values: str) -> Needs:
    """Return needs from words: `needs(battery="off waited")`; "_" in a name is a space."""
    known: dict[str, HowItStands] = {each: each for each in get_args(HowItStands)}
    return {
        name.replace("_", " "): frozenset(known[each] for each in said.split())
        for name, said in values.items()
    }


def holds(state: State, wanted: Needs) -> bool:
    """Whether a state is as wanted."""
    return all(state.get(what) in among for what, among in wanted.items())


@dataclass(frozen=True, slots=True)
class Said:
    """What a person reads of a step: see `Step`, whose words these are."""

    text: str
    lines: tuple[str, ...] = ()
    gate: str = ""
    blocked: str = ""
    caution: str = ""


@dataclass(frozen=True, slots=True)
class Change:
    """One thing moved by hand from one value to another, as often as it is needed.

    `also` are other things that move with it: a key that is turned off silences the radio.
    `over_live` says that what it lies over is live once the engine turns.
    """

    what: str
    begins: frozenset[HowItStands]
    to: HowItStands
    rank: Rank
    said: Said
    needs: Needs = field(default_factory=dict)
    also: State = field(default_factory=dict)
    minutes: float = 0.0
    over_live: bool = False


@dataclass(frozen=True, slots=True)
class Act:
    """Something that is done once. `tags` are what constraints of trade call it by."""

    id: str
    phase: Phase
    said: Said
    needs: Needs = field(default_factory=dict)
    tags: frozenset[str] = frozenset()
    does: State = field(default_factory=dict)
    makes: tuple[str, ...] = ()  # joints
    sets: tuple[str, ...] = ()  # links that a switch makes
    tests: tuple[str, ...] = ()  # lines of the bay sheet that are read in it
    minutes: float = 0.0


@dataclass(frozen=True, slots=True)
class Before:
    """A constraint of trade: whatever has the first tag is done before whatever has the second."""

    first: str
    then: str
    because: str


@dataclass(frozen=True, slots=True)
class Problem:
    """All that has to be done, and between what it is done. `order` is how things are moved: what
    lies outside first, so that nothing moved later has to undo what was moved before."""

    begins: State
    ends: Needs
    acts: tuple[Act, ...]
    changes: tuple[Change, ...]
    trade: tuple[Before, ...]
    order: tuple[str, ...]


Move: TypeAlias = Act | Change


@dataclass(frozen=True, slots=True)
class Course:
    """What is done, one after the other; `missing` are acts that no state lets happen."""

    moves: tuple[Move, ...]
    missing: tuple[Act, ...] = ()

    def count(self, rank: Rank) -> int:
        """Return how many changes of a rank it has."""
        return sum(isinstance(move, Change) and move.rank == rank for move in self.moves)

    @property
    def minutes(self) -> float:
        """How long all of it takes, by the house's figures. [min]"""
        return sum(move.minutes for move in self.moves)


def done_by(state: State, move: Move) -> dict[str, HowItStands]:
    """Return the state after a move."""
    if isinstance(move, Act):
        return {**state, **move.does}
    return {**state, move.what: move.to, **move.also}
