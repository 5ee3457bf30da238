"""Two records cover the same car and disagree.

What it catches
---------------
Two records of one make and model to which the same car could belong, whose pins contradict
each other in a plug of the same name and housing, and whose `how_to_tell` questions do not
tell them apart. Plugs that agree once mirrored are left to `pins-mirrored`.

Why it matters in the bay
-------------------------
The reader opens one of the two and never learns of the other. Half of the cars of that
model get the wrong pin.

Example
-------
Fails::

    # quern-2018: 2018 to 2020, all trims
    scope: {year_from: 2018, year_to: 2020, trims: [all]}
    ---
    # quern-2019-sport: other pins, and also covered by quern-2018
    scope: {year_from: 2019, year_to: 2019, trims: [sport]}

Passes::

    # quern-2018: 2018 to 2020, without the sport trim
    scope: {year_from: 2018, year_to: 2020, trims: [base, comfort]}
    ---
    # quern-2019-sport
    scope: {year_from: 2019, year_to: 2019, trims: [sport]}

How to mend it
--------------
Find what tells the cars apart (trim, option, build month, drive side) and narrow one scope,
or add a `how_to_tell` question whose answer names the other record.

Source
------
Chosen by this project.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import combinations

from builder.findings import Fault, Severity
from builder.model.book import Shelf
from builder.model.summary import VehicleSummary
from builder.proof.faces.poses import compare_poses, meanings
from builder.proof.sisters.scopes import overlap
from builder.rules.rule import Scope, rule
from builder.rules.sister_records import by_model, by_plug, meanings_by_cavity


def check(summaries: Sequence[VehicleSummary], shelf: Shelf) -> Iterator[tuple[str, Fault]]:
    """Yield the later of two records that disagree about one car."""
    for group in by_model(summaries):
        for first, second in combinations(group, 2):
            if not _one_car(first, second) or _told_apart(first, second):
                continue
            clashing = list(_contradictions(first, second, shelf))
            if clashing:
                yield second.id, _fault(first, second, clashing)


def _one_car(first: VehicleSummary, second: VehicleSummary) -> bool:
    one, other = first.scope, second.scope
    years = one.year_from <= other.year_to and other.year_from <= one.year_to
    return years and first.id != second.id and overlap(one, other)


def _told_apart(first: VehicleSummary, second: VehicleSummary) -> bool:
    return _names(first, second.id) or _names(second, first.id)


def _names(summary: VehicleSummary, other_id: str) -> bool:
    return any(
        answer.means == other_id for question in summary.how_to_tell for answer in question.answers
    )


def _contradictions(first: VehicleSummary, second: VehicleSummary, shelf: Shelf) -> Iterator[str]:
    """Cavities that the two records describe differently, for example "A.4"."""
    ours, theirs = by_plug(first), by_plug(second)
    for key in ours.keys() & theirs.keys():
        housing = shelf.housings.get(key[1])
        if housing is not None:
            poses = compare_poses(housing, meanings(ours[key]), meanings(theirs[key]))
            if poses.verdict == "view mix-up":
                continue
        one, other = meanings_by_cavity(ours[key]), meanings_by_cavity(theirs[key])
        for cavity in one.keys() & other.keys():
            if not one[cavity] & other[cavity]:
                yield f"{key[0]}.{cavity}"


def _fault(first: VehicleSummary, second: VehicleSummary, clashing: list[str]) -> Fault:
    named = ", ".join(sorted(clashing)[:4])
    return Fault(
        ("scope",),
        f'the same car could belong to "{first.id}" and to this record, and they disagree in '
        f"{len(clashing)} cavities ({named}): its reader gets one of two answers",
        f"narrow one scope, or add how_to_tell with an answer that means {first.id}",
        also=(first.id,),
    )


RULE = rule("PIN109", Severity.STOP, Scope.BOOK, check)
