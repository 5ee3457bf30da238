"""Splices: what is meant changes, every other byte stays."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from samples import many
from shipped_book import FULL_RECORDS

from builder.editing import (
    Edit,
    OverlappingEditsError,
    UneditableError,
    apply_edits,
    insert_item,
    insert_key,
    remove_item,
    rename_key,
)
from builder.loading import load_text

READING = {"session": "s1", "state": "run", "quantity": "dc_v", "value": 12.3, "battery_v": 12.4}
TEMPLATE = (FULL_RECORDS / "vehicle.yaml").read_bytes().decode("utf-8")
DRESSES = {
    "plain": lambda text: text,
    "crlf": lambda text: text.replace("\n", "\r\n"),
    "mark": lambda text: "\ufeff" + text,
    "no last end": lambda text: text.rstrip("\n"),
}
BARE = """\
# top
a: 1   # one
list:
  - {x: 1, y: "two"}    # first
  # between
  - {x: 2}
empty: []   # nothing yet
flow: [1, 2]
deep:
  key: 'quoted'

  last: |
    block
    text
"""


def data_of(text):
    loaded = load_text(text, "x")
    assert loaded.data is not None, loaded.findings
    return loaded.data


@pytest.fixture(params=DRESSES, ids=list(DRESSES))
def dressed(request):
    return DRESSES[request.param]


def kept(before: str, after: str) -> bool:
    """Whether every line of the text before still stands in the text after, in order."""
    lines = iter(after.splitlines(keepends=True))
    return all(any(line == other for other in lines) for line in before.splitlines(keepends=True))


def test_edits_are_made_at_once_and_never_overlap():
    edits = [Edit(4, 5, "E"), Edit(0, 1, "A"), Edit(2, 2, "x"), Edit(2, 2, "y")]
    assert apply_edits("abcdef", edits) == "AbxycdEf"
    assert apply_edits("abc", []) == "abc"
    for clash in ([Edit(0, 2, ""), Edit(1, 3, "")], [Edit(0, 3, ""), Edit(1, 1, "x")]):
        with pytest.raises(OverlappingEditsError):
            apply_edits("abcdef", clash)
    with pytest.raises(ValueError):
        apply_edits("abc", [Edit(2, 9, "")])


@given(st.text(max_size=30), st.lists(st.tuples(st.integers(0, 30), st.integers(0, 30))))
def test_edits_equal_slicing_from_the_back(text, spans):
    edits, done = [], 0
    for start, length in sorted(spans):
        end = start + length
        if done <= start and end <= len(text):
            edits.append(Edit(start, end, "-"))
            done = end + 1  # a gap, so that the order of insertions cannot matter
    by_hand = text
    for start, end, new in reversed(edits):
        by_hand = by_hand[:start] + new + by_hand[end:]
    assert apply_edits(text, edits) == by_hand


@pytest.mark.parametrize(
    ("path", "pins"),
    [
        (("plugs", 0, "pins", 0, "readings"), "appended to a list"),
        (("plugs", 0, "pins", 5, "readings"), "a list that is missing"),
        (("plugs", 1, "pins", 0, "readings"), "a pin of one line"),
        (("fuse_positions", 0, "readings"), "an empty list"),
    ],
)
def test_a_reading_is_added(dressed, path, pins):
    text = dressed(TEMPLATE)
    new = insert_item(text, path, READING, "vehicle")
    wanted = data_of(text)
    holder = wanted
    for step in path[:-1]:
        holder = holder[step]
    holder.setdefault("readings", []).append(READING)
    assert data_of(new) == wanted
    line = "- {session: s1, state: run, quantity: dc_v, value: 12.3, battery_v: 12.4}"
    assert line in new
    if pins in ("appended to a list", "a list that is missing"):
        assert kept(text, new)
    assert new.startswith("\ufeff") == text.startswith("\ufeff")
    assert new.count("\r\n") == (0 if "\r" not in text else new.count("\n"))


def test_a_key_goes_to_its_place_in_the_order_of_the_schema(dressed):
    text = dressed(TEMPLATE)
    new = insert_key(text, ("plugs", 0, "pins", 1), "fuse", {"place": "F2"}, "vehicle")
    pin = data_of(new)["plugs"][0]["pins"][1]
    assert list(pin) == ["cavity", "function", "wire", "fuse", "readings"]
    assert kept(text, new)
    first = insert_key("b: 1\n", (), "schema", 1, "vehicle")
    assert list(data_of(first)) == ["b", "schema"] or list(data_of(first)) == ["schema", "b"]


def test_a_key_goes_before_the_first_behind_a_dash():
    text = "plugs:\n  - name: x\n    unit: radio\n"
    new = insert_key(text, ("plugs", 0), "id", "A", "vehicle")
    assert new == "plugs:\n  - id: A\n    name: x\n    unit: radio\n"


@pytest.mark.parametrize(
    ("change", "wanted"),
    [
        (lambda t: rename_key(t, ("deep", "key"), "other"), ("key: ", "other: ")),
        (lambda t: insert_item(t, ("flow",), 3), ("[1, 2]", "[1, 2, 3]")),
        (
            lambda t: insert_item(t, ("empty",), 3),
            ("[]   # nothing yet", "   # nothing yet\n  - 3"),
        ),
        (lambda t: remove_item(t, ("list", 0)), ('  - {x: 1, y: "two"}    # first\n', "")),
        (lambda t: remove_item(t, ("list", 0, "x")), ("{x: 1, y", "{y")),
        (lambda t: remove_item(t, ("flow", 1)), ("[1, 2]", "[1]")),
        (lambda t: remove_item(t, ("a",)), ("a: 1   # one\n", "")),
        (lambda t: insert_key(t, ("list", 1), "y", 5), ("{x: 2}", "{x: 2, y: 5}")),
        (lambda t: insert_key(t, (), "end", 5), ("    text\n", "    text\nend: 5\n")),
    ],
)
def test_one_place_changes(dressed, change, wanted):
    old, new = wanted
    end = "\r\n" if "\r" in dressed("\n") else "\n"
    text = dressed(BARE)
    expected = dressed(BARE.replace(old, new, 1))
    if expected.endswith("end: 5"):  # nothing is put behind what had no line end
        assert not text.endswith(end)
    changed = change(text)
    assert changed == expected.replace(" nothing yet\n  - 3", f" nothing yet{end}  - 3")
    assert data_of(changed) != data_of(text)


@pytest.mark.parametrize(
    "change",
    [
        lambda: insert_item(BARE, ("a",), 1),
        lambda: insert_item(BARE, ("none", "such"), 1),
        lambda: insert_key(BARE, (), "a", 1),
        lambda: rename_key(BARE, ("a",), "list"),
        lambda: remove_item(BARE, ("nothing",)),
        lambda: insert_key(BARE, (), "new", float("inf")),
        lambda: insert_key(BARE, (), "new", "hidden\u200b"),
        lambda: insert_item("a: [", ("a",), 1),
        lambda: insert_item("- 1\n", (0,), 1),
        lambda: insert_item("a: *b\n", ("a",), 1),
    ],
)
def test_what_cannot_be_done_is_refused(change):
    with pytest.raises(UneditableError):
        change()


PATHS = [
    (plug, pin)
    for plug, entry in enumerate(data_of(TEMPLATE)["plugs"])
    for pin in range(len(entry["pins"]))
]


@settings(max_examples=many(40), deadline=None)
@given(
    places=st.lists(st.sampled_from(PATHS), min_size=1, max_size=6),
    dress=st.sampled_from(sorted(DRESSES)),
    value=st.floats(0, 60).map(lambda number: round(number, 3)),
)
def test_adding_and_taking_away_gives_the_text_back(places, dress, value):
    text = DRESSES[dress](TEMPLATE)
    item = {**READING, "value": value}
    grown = text
    for plug, pin in places:
        grown = insert_item(grown, ("plugs", plug, "pins", pin, "readings"), item, "vehicle")
    data = data_of(grown)
    count = sum(
        reading == item
        for plug in data["plugs"]
        for pin in plug["pins"]
        for reading in pin.get("readings", [])
    )
    assert count == len(places)
    readings = data_of(text)["plugs"][0]["pins"][0]["readings"]
    path = ("plugs", 0, "pins", 0, "readings", len(readings))
    assert remove_item(insert_item(text, path[:-1], item, "vehicle"), path) == text
