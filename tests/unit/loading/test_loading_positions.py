"""Line and column of every key and value, 1-based, in characters."""

from __future__ import annotations

import pytest

RECORD = """\
# comment
id: car
plugs:
  - id: A
    note: "Ω é 😀"
    pins: [{cavity: 4, fuse: }, 5]
  -
    text: |
      two
      lines
'quoted key': 'v'
? asked
: answer
"""
VALUES = [
    ((), (2, 1)),
    (("id",), (2, 5)),
    (("plugs",), (4, 3)),
    (("plugs", 0), (4, 5)),
    (("plugs", 0, "id"), (4, 9)),
    (("plugs", 0, "note"), (5, 11)),
    (("plugs", 0, "pins"), (6, 11)),
    (("plugs", 0, "pins", 0), (6, 12)),
    (("plugs", 0, "pins", 0, "cavity"), (6, 21)),
    (("plugs", 0, "pins", 1), (6, 33)),
    (("plugs", 1), (8, 5)),
    (("plugs", 1, "text"), (8, 11)),
    (("quoted key",), (11, 15)),
    (("asked",), (13, 3)),
]
KEYS = [
    (("id",), (2, 1)),
    (("plugs",), (3, 1)),
    (("plugs", 0, "note"), (5, 5)),
    (("plugs", 0, "pins", 0, "fuse"), (6, 24)),
    (("plugs", 1, "text"), (8, 5)),
    (("quoted key",), (11, 1)),
    (("asked",), (12, 3)),
]


@pytest.mark.parametrize(("path", "place"), VALUES)
def test_value_position(load, path, place):
    assert load(RECORD).source_map.value_position(path) == place


@pytest.mark.parametrize(("path", "place"), KEYS)
def test_key_position(load, path, place):
    assert load(RECORD).source_map.key_position(path) == place


def test_line_ends_of_other_systems_and_byte_order_mark_change_no_position(load):
    for text in (RECORD.replace("\n", "\r\n"), RECORD.replace("\n", "\r"), "\ufeff" + RECORD):
        loaded = load(text)
        assert loaded.data == load(RECORD).data
        for path, place in VALUES:
            assert loaded.source_map.value_position(path) == place


def test_data_of_the_same_record(load):
    assert load(RECORD).data == {
        "id": "car",
        "plugs": [
            {"id": "A", "note": "Ω é 😀", "pins": [{"cavity": 4, "fuse": None}, 5]},
            {"text": "two\nlines\n"},
        ],
        "quoted key": "v",
        "asked": "answer",
    }


def test_nodes_of_scalars_share_nothing_that_grew(load):
    loaded = load(RECORD)
    scalar = loaded.source_map.root.children["id"]
    assert (scalar.keys, scalar.children) == ({}, {})
