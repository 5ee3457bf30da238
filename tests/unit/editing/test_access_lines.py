"""Lines about parts that come off and ways through a bulkhead, for who begins a record."""

from __future__ import annotations

import pytest

from builder.editing.drafts import AnswerError, draft, questions_of, read_one
from builder.schema_check import check_shape
from builder.source_map import SourceMap

CAR = {
    "make": ["Example"], "model": ["Sample"], "years": ["2016-2019"], "variant": ["hatch"],
    "bodies": ["hatch"], "trims": ["base"], "radios": ["kr-210"], "hybrid": ["no"],
    "plug": ["A two-row-20-latch-top grey wire_side"], "pin": ["A 4 acc yellow"],
    "protected-sounds": ["none"], "restraint-zones": ["none"], "drive-side": ["left"],
}  # fmt: skip


def question(kind, name):
    return next(each for each in questions_of(kind) if each.name == name)


@pytest.mark.parametrize(
    ("kind", "name", "line", "read"),
    [
        ("vehicle", "access", "trim ring: panel, uncovers radio",
         {"name": "trim ring", "kind": "panel", "uncovers": ["radio"]}),
        ("vehicle", "access", "seat: seat, uncovers left sill, under the seat after strip, mat",
         {"name": "seat", "kind": "seat", "uncovers": ["left sill", "under the seat"],
          "behind": ["strip", "mat"]}),
        ("vehicle", "passages", "grommet: own, left of the booster, low, engine bay > footwell",
         {"name": "grommet", "where": "left of the booster, low", "grommet": "own",
          "between": ["engine bay", "footwell"]}),
        ("job", "pass", "main grommet: supply + control, grommet, drip loop no",
         {"through": "main grommet", "carries": ["supply", "control"], "seal": "grommet",
          "drip_loop": "no"}),
    ],
)  # fmt: skip
def test_a_line_is_a_part_a_way_or_a_cable(kind, name, line, read):
    assert read_one(kind, question(kind, name), line) == read


@pytest.mark.parametrize(
    ("kind", "name", "line", "said"),
    [
        ("vehicle", "access", "trim ring", "is not complete"),
        ("vehicle", "access", "trim ring: panel", "is not complete"),
        ("vehicle", "access", "trim ring: ring, uncovers radio", "is not one of the words"),
        ("vehicle", "passages", "grommet: own, engine bay > footwell", "is not complete"),
        ("vehicle", "passages", "grommet: own, low, engine bay", "is not complete"),
        ("job", "pass", "main grommet: supply, grommet", "is not complete"),
        ("job", "pass", "main grommet: supply, grommet, yes", 'should start with "drip loop "'),
        ("job", "pass", "main grommet: power, grommet, drip loop yes", "is not one of the words"),
    ],
)
def test_what_cannot_be_read_is_said_with_what_to_type(kind, name, line, said):
    with pytest.raises(AnswerError, match=f"--{name}: .*{said}"):
        read_one(kind, question(kind, name), line)


def test_who_says_nothing_of_it_has_no_such_key():
    data = draft("vehicle", CAR)
    assert "access" not in data and "passages" not in data
    said = draft("vehicle", CAR | {"access": ["trim ring: panel, uncovers radio"]})
    assert [part["name"] for part in said["access"]] == ["trim ring"]
    assert check_shape("vehicle", said, SourceMap(None), "x") == []
