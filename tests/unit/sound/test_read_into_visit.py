"""`loombook sound read --visit`: a recording into a visit of a small book, and what is refused."""

from __future__ import annotations

import json
import shutil

import numpy as np
import pytest
import recorded_teasel
from shipped_book import PINOUTS, loombook

from builder.loading import load_file
from builder.sound.wav_writing import wav_of

CAR = "cindral-teasel-2023"
VISIT = f"visits/{CAR}/tinroof-sound-2025-04-01-mint-5.yaml"
PLAIN = {
    "id": "plain", "clip_ohm": 0, "across_ohm": 1000, "isolation": "none", "input": "line",
    "recorder_supply": "car",
}  # fmt: skip


def recordings(book):
    return load_file(book / VISIT, VISIT).data["recordings"]


@pytest.fixture
def book(tmp_path):
    """The one car, what it names, and its visits; the recording is taken out of the last one."""
    for folder in ("housings", "contributors", f"visits/{CAR}"):
        shutil.copytree(PINOUTS / folder, tmp_path / folder)
    (tmp_path / "vehicles").mkdir()
    shutil.copy(PINOUTS / f"vehicles/cindral/{CAR}.yaml", tmp_path / "vehicles")
    leads = load_file(PINOUTS / "book.yaml", "book.yaml").data["recording_leads"]
    settings = {"schema": 1, "recording_leads": [*leads, PLAIN]}
    (tmp_path / "book.yaml").write_text(json.dumps(settings), "utf-8")
    text = (tmp_path / VISIT).read_text("utf-8")
    (tmp_path / VISIT).write_text(text[: text.index("recordings:")], "utf-8")
    return tmp_path


def test_the_shipped_facts_are_those_of_the_simulated_recording(book):
    """Whoever reads that recording again gets what the shipped visit says, and no second time."""
    wav = book / recorded_teasel.NAME
    wav.write_bytes(recorded_teasel.recording())
    typed = [*recorded_teasel.typed(wav), "--visit", book / VISIT, "-b", book]
    before = (book / VISIT).read_text("utf-8")
    tried = loombook(*typed, "--dry-run")
    assert tried.exit_code == 0, tried.output
    assert "would be added" in tried.output and (book / VISIT).read_text("utf-8") == before
    done = loombook(*typed)
    assert done.exit_code == 0, done.output
    assert recordings(book) == recordings(PINOUTS)
    again = loombook(*typed)
    assert again.exit_code == 2 and "recording already, as teasel-fronts.wav" in again.output


@pytest.mark.parametrize(
    ("changed", "told"),
    [
        ({"--lead": "tin-2"}, 'recording_leads of book.yaml has no "tin-2"; did you mean tin-1?'),
        ({"--lead": "plain"}, "a clip that slips onto the body grounds its leg"),
        ({"1=front-left": "1=front-lift"}, 'no pair "front-lift"; did you mean front-left?'),
        ({"2=front-right": "2=front-left"}, "one pair is given for two channels"),
        ({"2=front-right": "3=front-right"}, "which pair is on channel 2? type --pair 2="),
        ({"--volume=36": "--volume=22"}, "the track has 4 volume steps"),
        ({VISIT: "nobody-was-here"}, "is no visit of the book"),
    ],
)
def test_what_leads_nowhere_is_refused_before_anything_is_read(book, changed, told):
    wav = book / "silence.wav"
    wav.write_bytes(wav_of(np.zeros(4800), np.zeros(4800), 48_000))
    typed = [*recorded_teasel.typed(wav), "--visit", VISIT, "-b", book]
    for old, new in changed.items():
        at = typed.index(old)
        if old.startswith("--lead"):
            typed[at + 1] = new
        else:
            typed[at] = new
    typed = [book / each if each == VISIT else each for each in typed]
    before = (book / VISIT).read_text("utf-8")
    done = loombook(*typed)
    assert done.exit_code == 2 and told in " ".join(done.output.split()), done.output
    assert (book / VISIT).read_text("utf-8") == before


def test_a_lead_of_the_settings_that_may_do_harm_is_told_of(book):
    done = loombook("check", book, "--no-store")
    assert done.exit_code == 0, done.output
    assert "BOK130" in done.output and "plain: nothing keeps the recorder's ground" in done.output
    assert "tin-1" not in done.output
