"""A hundred recordings spoilt in named ways: each is refused or marked, for the reason it has.

LOOMBOOK_LONG=1 .venv/bin/python -m pytest tests/unit/sound/test_spoilt_recordings.py   all hundred
"""

from __future__ import annotations

import pytest
from samples import LONG
from sound_spoilt import WAYS, Spoilt, clean, is_told, one, told_of


@pytest.mark.parametrize("way", WAYS, ids=lambda way: way.__name__.strip("_"))
def test_each_way_of_spoiling_a_recording_is_told(way):
    wrong = {}
    for spoilt in way():
        said = told_of(spoilt)
        if not is_told(spoilt, said):
            wrong[spoilt.way, spoilt.number] = said
        if not LONG:
            break
    assert wrong == {}


def test_there_are_a_hundred():
    if LONG:
        assert sum(1 for way in WAYS for _ in way()) == 100
    assert len(WAYS) == 16


@pytest.mark.parametrize("name", ["all", "woofer", "tweeter"])
def test_what_is_not_spoilt_is_neither_refused_nor_marked(name):
    said = told_of(Spoilt("not at all", 0, one(clean(name)), ""))
    marks = [mark for mark in said.split(" | ") if mark]
    assert marks.pop(0).startswith("of a pair alone neither delay, polarity nor all-pass")
    assert marks in ([], ["low edge: it lies below 13 Hz, where the sweep ends"])
