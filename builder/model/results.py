"""Which result of a test counts: the newest. The older ones stay on record, to be read."""

from __future__ import annotations

from collections.abc import Iterable

from builder.model.job import Result


def by_test(results: Iterable[Result]) -> dict[str, tuple[Result, ...]]:
    """Return the results of each test, oldest first; of one day, in the order they are listed."""
    found: dict[str, list[Result]] = {}
    for result in sorted(results, key=lambda result: result.date):  # stable: keeps the day's order
        found.setdefault(result.test, []).append(result)
    return {test: tuple(every) for test, every in found.items()}


def newest(results: Iterable[Result]) -> dict[str, Result]:
    """Return the result of each test that counts: a mend counts, and so does a later failure."""
    return {test: every[-1] for test, every in by_test(results).items()}
