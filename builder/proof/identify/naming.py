"""What is this wire? Rank every kind of pin by the readings taken on one unknown cavity."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass

from builder.model.house_defaults import HouseDefaults
from builder.model.words import Function
from builder.proof.identify.candidates import Candidate, candidate_of, functions_of
from builder.proof.identify.next_test import Proposal, propose
from builder.proof.identify.raising import Raising, raising_of
from builder.proof.identify.splitting import Measurement
from builder.proof.identify.verdicts import (
    Slip,
    doubt_of,
    nothing_fits,
    slips_of,
    verdict_on,
    wrong_one,
)
from builder.proof.signatures.of_pins import kinds
from builder.proof.wording import Measured


@dataclass(frozen=True, slots=True)
class Identification:
    """The ranked candidates, best first, and what the readings allow to be said.

    `open_functions` are the functions that nothing contradicts. `tie` holds those of them that
    fit equally well at the top, none when nothing fits; one function alone is the answer.
    `verdict` says it in a sentence.
    `decided` says that the answer may be relied on: one function alone at the top, borne out by
    `READINGS_TO_DECIDE` solid readings, or by one when everything else is contradicted; and no
    `rival`, a function that meets as many readings and is contradicted by others. When everything
    that the readings speak of is contradicted, `slips` holds the single readings that would
    explain it. `raising` is what raises a decided wire to a proved one. `house` names the house
    defaults that acted.
    """

    candidates: tuple[Candidate, ...]
    open_functions: tuple[Function, ...]
    tie: tuple[Function, ...]
    verdict: str
    decided: bool
    rival: Candidate | None
    next: Proposal | None
    slips: tuple[Slip, ...]
    raising: Raising | None
    house: tuple[str, ...]


def identify(
    readings: Sequence[Measured],
    defaults: HouseDefaults,
    *,
    skip: Collection[Measurement] = (),
) -> Identification:
    """Rank every kind of pin by readings on one unknown cavity and say what to measure next.

    Args:
        readings: Figures off a meter, all from one cavity. A reading against another cavity
            is judged as if that were the other wire of a pair.
        defaults: House defaults for the limits.
        skip: Measurements that cannot be made and are not to be proposed.
    """
    table = kinds(defaults)
    ranked = sorted((candidate_of(kind, readings) for kind in table.values()), key=Candidate.rank)
    open_kinds = [one for one in ranked if not one.contradicted]
    open_functions = functions_of(open_kinds)
    lost = nothing_fits(ranked)
    top = [] if lost else _top(open_kinds)
    tie = functions_of(top)
    following = propose([one.kind for one in _leading(open_kinds, top)], readings, skip)
    rival = None if lost else _rival(ranked, tie)
    slips = tuple(slips_of(ranked)) if lost else ()
    decided = rival is None and _decided(ranked, open_functions, tie)
    said = verdict_on(ranked, open_functions, tie, following, bool(skip))
    said += wrong_one(slips, readings) if lost else doubt_of(rival)
    raising = _raising(ranked[0], readings) if decided else None
    house = tuple(dict.fromkeys(name for one in ranked for name in one.house))
    return Identification(
        tuple(ranked), open_functions, tie, said, decided, rival, following, slips, raising, house
    )


def _raising(best: Candidate, readings: Sequence[Measured]) -> Raising:
    return raising_of(best.kind, best.proved, readings, loaded=best.loaded)


def _top(candidates: Sequence[Candidate]) -> list[Candidate]:
    """The candidates that fit as well as the first."""
    return [one for one in candidates if one.level() == candidates[0].level()]


def _leading(candidates: Sequence[Candidate], top: Sequence[Candidate]) -> Sequence[Candidate]:
    """What the next measurement is to part: those at the top, or with one function there, all.

    Nothing when one function is left, or when none fits.
    """
    if len(functions_of(candidates)) < 2 or not top:
        return ()
    return top if len(functions_of(top)) > 1 else candidates


READINGS_TO_DECIDE = 2
"""Readings that one function alone must have met before it is the answer while others are still
open. Chosen by this project."""


def _decided(
    ranked: Sequence[Candidate], open_functions: Sequence[Function], tie: Sequence[Function]
) -> bool:
    if len(tie) != 1 or not ranked[0].fits:
        return False
    return ranked[0].solid >= (1 if len(open_functions) == 1 else READINGS_TO_DECIDE)


def _rival(ranked: Sequence[Candidate], tie: Sequence[Function]) -> Candidate | None:
    """The contradicted candidate that meets most, if it meets as many readings as the best one.

    One bad reading throws the right function out; what it leaves behind must not win by that.
    """
    thrown_out = [one for one in ranked if one.contradicted and one.function not in tie]
    most = max(thrown_out, key=lambda one: len(one.met), default=None)
    if most is None or len(most.met) < max(len(ranked[0].met), READINGS_TO_DECIDE):
        return None
    return most
