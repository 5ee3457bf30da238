"""A housing contradicts itself.

What it catches
---------------
A cavity drawn twice, a blocked or sized cavity that no row draws, or another number of
`row_shift` entries than of rows.

Why it matters in the bay
-------------------------
Every drawing of every plug of this housing is made from these rows. One wrong cell sends all
its readers to the neighbouring cavity.

Example
-------
Fails::

    rows:
      - [1, 2, 3, 4]
      - [5, 6, 7, 7]

Passes::

    rows:
      - [1, 2, 3, 4]
      - [5, 6, 7, 8]

How to mend it
--------------
Take the housing in hand, hold it as `latch` and `seen_from` say, and type the rows again as
you see them; a gap is `_`.

Source
------
Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.findings import Fault, Severity
from builder.model.housing import Housing
from builder.rules.rule import Scope, rule


def check(housing: Housing) -> Iterator[Fault]:
    """Yield cells, lists and shifts that do not fit the other parts of the drawing."""
    yield from _drawn_twice(housing)
    yield from _not_drawn(housing)
    if housing.row_shift and len(housing.row_shift) != len(housing.rows):
        yield Fault(
            ("row_shift",),
            f"there are {len(housing.row_shift)} row shifts for {len(housing.rows)} rows: "
            "nobody can tell which row is moved",
            "give one number for each row, 0 for a row that is not moved",
        )


def _drawn_twice(housing: Housing) -> Iterator[Fault]:
    seen: set[str] = set()
    for row, names in enumerate(housing.rows):
        for column, name in enumerate(names):
            if name is not None and name in seen:
                yield Fault(
                    ("rows", row, column),
                    f'cavity "{name}" is drawn twice: a reader cannot tell which of the two is '
                    "meant",
                    "look at the housing and correct one of the two",
                )
            seen.add(name or "")


def _not_drawn(housing: Housing) -> Iterator[Fault]:
    drawn = frozenset(housing.cavities)
    for index, name in enumerate(housing.blocked):
        if name not in drawn:
            yield _missing(name, ("blocked", index))
    for name in housing.blades_mm:
        if name not in drawn:
            yield _missing(name, ("sizes",))


def _missing(name: str, path: tuple[str | int, ...]) -> Fault:
    return Fault(
        path,
        f'no row draws cavity "{name}": either the row or this entry is mistyped',
        "correct the name, or add the cavity to its row",
    )


RULE = rule("PIN119", Severity.STOP, Scope.RECORD, check, kinds=("housing",))
