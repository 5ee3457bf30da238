"""A messy car is in the book in ten minutes, whichever way it comes in, and nothing is lost."""

from __future__ import annotations

from pathlib import Path

import pytest
from benchmarks.ten_minutes import HEAD, row
from messy_cars import (
    CARS,
    FOLDER,
    MOST_MIN,
    ON_A_PAGE,
    WAYS,
    cost_of,
    empty_book,
    measured,
    sessions,
)
from messy_session import Done, run_session
from shipped_book import ROOT

TOLD = (ROOT / "site_templates" / "handbook" / "ten-minutes.md").read_text("utf-8")


@pytest.mark.parametrize(("car", "way"), sessions())
def test_a_messy_car_comes_in_whole_and_in_ten_minutes(
    car: str, way: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    cost, done = measured(car, way, empty_book(tmp_path), monkeypatch)
    assert cost.lost == cost.more == ()  # so all ways say the same of it
    assert [each.unread for each in done if each.unread] == []  # each line answered a question
    assert done[-1].head.startswith("$ loombook check")
    assert done[-1].exit_code == 0
    assert cost.minutes <= MOST_MIN
    assert row(car, WAYS[way], cost) in TOLD.splitlines()  # the handbook prints what is so


def test_the_handbook_prints_each_row_once_and_no_other() -> None:
    ways = [*((car, WAYS[way]) for car, way in sessions()), *((car, ON_A_PAGE) for car in CARS)]
    first = TOLD.partition(f"{HEAD}\n")[2].partition("\n\n")[0].splitlines()
    assert sorted(tuple(line.split(" | ")[:2]) for line in first) == sorted(
        (f"| {car}", way) for car, way in ways
    )


def test_a_session_is_typed_as_it_stands(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    text = "> a/b.txt\none\ntwo\n~ three\n= a/b.txt\n- two\n+ twenty\n~ twenty-two\n- three\n+ \n"
    typed, changed = run_session(text, tmp_path, monkeypatch)
    assert (tmp_path / "a" / "b.txt").read_text() == "one\ntwenty\ntwenty-two\n\n"
    assert (typed.keys, typed.marks, typed.thought) == (len("one\ntwo\n") + 2, 1, 2)
    # "o" becomes "enty", a line is copied and changed at one place, and one is taken out
    assert (changed.keys, changed.marks) == (len("enty") + 2 + len("twenty-two") + 1, 3)


def test_a_fact_that_is_missing_is_counted_and_a_failing_line_is_a_finding() -> None:
    done = Done("$ loombook check", output="a.yaml:1:1: stop PIN101 twice\n  help: mend it\n")
    thin = Done("$ loombook check", output="a.yaml:1:1: stop (not yet known) EVD101 thin\n")
    cost = cost_of([done, thin], frozenset({"A.1 ground", "A.2 run"}), ["A.1 ground", "A.3 mute"])
    assert (cost.lost, cost.more) == (("A.2 run",), ("A.3 mute",))
    assert (cost.findings, cost.words) == (
        1,
        len(["a.yaml:1:1:", "stop", "PIN101", "twice", "help:", "mend", "it"]),
    )
    assert cost.minutes == pytest.approx(1.35 / 60 + 7 / 200)


def test_an_answer_that_is_asked_again_is_a_finding() -> None:
    heard = [("asked", "Trim"), ("said", '  "x" is no trim'), ("asked", "Trim"), ("asked", "Face")]
    cost = cost_of([Done("$ loombook new vehicle", heard=heard)], frozenset(), [])
    assert (cost.findings, cost.prompts) == (1, 3)


def test_every_notebook_is_messy_in_each_way() -> None:
    for folder in FOLDER.iterdir():
        facts = (folder / "facts.txt").read_text("utf-8")
        for mess in (" unknown", " only ", "counted on the mating_side", "counts no longer"):
            assert mess in facts, (folder.name, mess)
