"""What is typed for a reading of a comeback: judged as the bay sheet judges it, or asked again."""

from __future__ import annotations

import pytest
from comeback_jobs import TAP_PLANS, causes_in
from pack_jobs import shipped_pack

from builder.planning.comeback.answered import AnswerError, read_answer, two_figures
from builder.planning.comeback.questions import all_readings
from builder.planning.work_pack import BayTest


def line(id: str) -> BayTest:
    return next(test for test in shipped_pack("tansy-subwoofer").tests if test.id == id)


@pytest.mark.parametrize(
    ("id", "typed", "where"),
    [
        ("cvn-2a-feed", "12.40/12.50", "in"),
        ("cvn-2a-feed", "11,90 V 12,50 V", "low"),
        ("cvn-2a-feed", "13.4/13.5", "in"),
        ("cvn-2a-feed", "low", "low"),
        ("sub-amp-supply-drop", "0.118/18", "in"),
        ("sub-amp-supply-drop", "0.2/5", "high"),
        ("sub-amp-supply-drop", "0.2", "in"),
        ("idle-current", "0.79 A", "in"),
        ("supply-insulation", "open", "in"),
        ("subwoofer-lead-ohms", "open", "high"),
        ("ground-ohms", "0.1 Ω", "in"),
        ("idle-current", "skip", None),
    ],
)
def test_a_figure_lies_where_the_sheet_says(id: str, typed: str, where: str | None) -> None:
    assert read_answer(typed, line(id)) == where


@pytest.mark.parametrize(
    ("id", "typed", "said"),
    [
        ("cvn-2a-feed", "11.9", "type two figures, as 11.95/12.50"),
        ("cvn-2a-feed", "11.9/12.5/12.6", "type two figures"),
        ("idle-current", "0.79/12.5", "type one figure"),
        ("idle-current", "1e400", "type a figure in A"),
        ("idle-current", "nan", "type a figure in A"),
        ("idle-current", "some", "type a figure in A"),
        ("cvn-2a-feed", "11.9/x", "type a figure in V"),
        ("whine", "maybe", "answer yes or no"),
    ],
)
def test_what_is_no_answer_is_asked_again(id: str, typed: str, said: str) -> None:
    with pytest.raises(AnswerError, match=said):
        read_answer(typed, line(id))


@pytest.mark.parametrize("name", TAP_PLANS)
def test_no_figure_that_is_taken_is_left_unjudged(name: str) -> None:
    """Else every cause goes, and it is said that no single fault reads so."""
    for reading in all_readings(causes_in(name).job):
        test = reading.test
        if test.quantity == "check":
            continue
        typed = "11.9/12.5" if two_figures(test) else "11.9"
        where = read_answer(typed, test)
        banded = test.band.low is not None or test.band.high is not None
        assert where in (("in", "low", "high") if banded else ("none",)), test.id
