"""Many cases of one question as one test, whose failure names every case that failed.

The runner spends longer on a test of its own than most cases take. So a test that asks the same of
hundreds of files, rules or keys goes through them itself: all of them, whatever fails on the way.
"""

from __future__ import annotations

import functools
import inspect
from collections.abc import Callable, Iterable, Sequence
from typing import Any, TypeVar

import pytest

T = TypeVar("T")
Test = Callable[..., None]


def each(
    names: str, cases: Iterable[T] | Callable[..., Iterable[T]], ids: Callable[[T], object] = str
) -> Callable[[Test], Test]:
    """Give a test its argument, or its several ("size, ohm"), from each of the cases in turn.

    Cases that cost something to find are given by a function, which is asked when the test runs;
    its arguments are fixtures and parameters as those of the test. `ids` says how to call a case.
    """
    found = cases if callable(cases) else lambda: cases
    of_cases = inspect.signature(found).parameters
    named = [name.strip() for name in names.split(",")]

    def decorated(test: Test) -> Test:
        of_test = inspect.signature(test).parameters

        @functools.wraps(test)
        def every(**given: Any) -> None:
            own = {key: value for key, value in given.items() if key in of_test}
            tried = found(**{key: given[key] for key in of_cases})
            _go_through(
                [
                    (str(ids(case)), functools.partial(test, **_given(named, case), **own))
                    for case in tried
                ]
            )

        both = {**of_cases, **{key: one for key, one in of_test.items() if key not in named}}
        every.__signature__ = inspect.Signature(list(both.values()))  # type: ignore[attr-defined]
        return every

    return decorated


def _given(names: Sequence[str], case: Any) -> dict[str, Any]:
    return dict(zip(names, case if len(names) > 1 else (case,), strict=True))


def _go_through(cases: Sequence[tuple[str, Callable[[], None]]]) -> None:
    assert cases, "there is no case to try"
    failed = {
        f"{at}. {name}": why for at, (name, case) in enumerate(cases, 1) if (why := _why(case))
    }
    if failed:
        whole = [f"{len(failed)} of {len(cases)} cases fail: {', '.join(failed)}"]
        whole += [f"---- {name}\n{why}" for name, why in failed.items()]
        pytest.fail("\n\n".join(whole), pytrace=False)


def _why(case: Callable[[], None]) -> str:
    """What a case fails with, as the runner would show it, or ""."""
    try:
        case()
    except (Exception, pytest.fail.Exception) as error:
        seen = pytest.ExceptionInfo.from_exception(error)
        seen.traceback = seen.traceback[1:]  # without this function
        return str(seen.getrepr(style="short"))
    return ""
