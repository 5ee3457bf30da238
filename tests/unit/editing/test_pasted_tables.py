"""Pasted pin tables whose columns lie otherwise, and whose headings name a face: what is read."""

from __future__ import annotations

from typing import Any

import pytest
import yaml
from shipped_book import PINOUTS, ROOT

from builder.book import open_book
from builder.editing.drafts.question import AnswerError
from builder.editing.interview.face_asked import faces_asked, settled, way_of
from builder.editing.interview.pasted import PastedLine, read_pasted
from builder.editing.interview.pins import PlugSaid, plain_line
from builder.model.said.faces import faces_in
from builder.model.words import Face
from builder.pipeline.checking.shelf import housings_of

ALL = yaml.safe_load((ROOT / "tests" / "pasted_tables.yaml").read_text("utf-8"))
TABLES = [table for table in ALL if "reads" in table]
SHELLS = {"A": "two-row-20-latch-top", "B": "block-a-8"}
HOUSINGS = housings_of(open_book(PINOUTS))


def plugs_of(table: Any) -> list[PlugSaid]:
    faces, stands = table.get("faces", {}), table.get("stands", ())
    return [
        PlugSaid(plug, HOUSINGS[SHELLS[plug]], faces.get(plug), plug in stands)
        for plug in table.get("plugs", ["A"])
    ]


def read_as(line: PastedLine) -> str:
    try:
        return plain_line(line.said) if line.said else "-"
    except AnswerError:
        return "-"


@pytest.mark.parametrize("table", TABLES, ids=lambda table: table["text"][:30])
def test_each_line_is_read_by_its_columns(table: Any) -> None:
    pasted = read_pasted(table["text"], plugs_of(table), {}, ())
    assert [read_as(line) for line in pasted.lines] == table["reads"]
    judged = {line.columns.told for line in pasted.lines if line.columns}
    assert judged == ({table["columns"]} if "columns" in table else set())


@pytest.mark.parametrize("table", TABLES, ids=lambda table: table["text"][:30])
def test_a_face_that_disagrees_or_is_new_is_asked(table: Any) -> None:
    plugs = plugs_of(table)
    lines = read_pasted(table["text"], plugs, {}, ()).lines
    asked = faces_asked(lines, plugs)
    assert {one.plug: list(one.choices) for one in asked} == table.get("asks", {})
    open_now = [settled(line, plugs, {}) for line in lines]
    kept = [a.said is not None for a, b in zip(open_now, lines, strict=True) if b.said]
    of_asked = [one.plug for one in asked]
    assert kept == [line.said.plug not in of_asked for line in lines if line.said]
    if "answer" in table:
        answers = {one.key: table["answer"] for one in asked}
        then = [with_face(plug, of_asked, table["answer"]) for plug in plugs]
        assert [read_as(settled(line, then, answers)) for line in lines] == table["then"]


def with_face(plug: PlugSaid, asked: list[str], face: Face) -> PlugSaid:
    """A plug as it is once a face was chosen for it."""
    is_set = plug.id in asked and way_of(plug, face) == "set"
    return plug._replace(face=face) if is_set else plug


def test_a_face_that_its_plug_has_not_got_settles_nothing() -> None:
    plugs = [PlugSaid("A", HOUSINGS[SHELLS["A"]], "wire_side")]
    lines = read_pasted("Plug A: mating side\n1 acc red", plugs, {}, ()).lines
    answers: dict[tuple[str, str], Face] = {("A", "mating side"): "mating_side"}
    assert settled(lines[0], plugs, answers).said is None
    assert settled(lines[0], [plugs[0]._replace(face="mating_side")], answers).said is not None


def test_columns_that_are_refused_are_not_read_so() -> None:
    table = next(each for each in TABLES if "columns" in each)
    plugs = plugs_of(table)
    lines = read_pasted(table["text"], plugs, {}, (table["columns"],)).lines
    assert [read_as(line) for line in lines] == ["-", "-", "-"]


def test_a_count_that_has_no_counterpart_is_not_turned() -> None:
    shell = HOUSINGS["staggered-10-latch-right"]
    plugs = [PlugSaid("A", shell, "wire_side", True)]
    lines = read_pasted("Plug A: mating side\n1 acc red", plugs, {}, ()).lines
    answers = {faces_asked(lines, plugs)[0].key: "mating_side"}
    assert read_as(settled(lines[0], plugs, answers)) != "A 1 accessory red"
    unknown = [plugs[0]._replace(housing=None)]
    assert "cannot be turned" in settled(lines[0], unknown, answers).why


@pytest.mark.parametrize(
    "text",
    ["colour | wire | pin", "behind the radio", "front left", "the wires are short", "plug A"],
)
def test_what_only_looks_like_a_face_is_none(text: str) -> None:
    assert faces_in(text) == []
