"""`loombook sound read`: what a recording says, as lines and as data."""

from __future__ import annotations

import json

import numpy as np
import pytest
from shipped_book import ROOT, loombook
from sound_car import Car, Pair, half, peak

from builder.sound.track import Choice, plan_track
from builder.sound.wav_writing import wav_of

VOLTS = 8.0
TRACK = plan_track(Choice(steps=1))
LOOP = Car([Pair(), Pair()], step_db=(0.0,), bass_db=(0.0,), chain_corner_hz=18.0, track=TRACK)
BELL = peak(60, 5, 1)
LOW = Pair("left", VOLTS, [BELL, half("Butterworth 2", "high", 30)])


@pytest.fixture(scope="module")
def files(tmp_path_factory):
    """A low and a high half, and the same lead and recorder without the car."""
    folder = tmp_path_factory.mktemp("sound")
    high = Pair("left", VOLTS, [BELL, half("Linkwitz-Riley 4", "high", 300)], delay_s=0.0004)
    car = Car([LOW, high], (0.0,), (0.0,), chain_corner_hz=18.0, track=TRACK, ppm=40)
    for name, made in (("car", car), ("loop", LOOP)):
        channels = made.recorded().channels
        (folder / f"{name}.wav").write_bytes(wav_of(*channels, 48_000))
    return folder


def test_a_recording_is_told_in_lines(files):
    volts = VOLTS * 10**-0.5
    done = loombook("sound", "read", files / "car.wav", "--steps", "1", "--meter", f"1={volts:.2f}")
    assert done.exit_code == 0, done.output
    for line in (
        "channel 1; side: left",
        "level at the tone for the meter: 2.53 V",
        "not said: nobody said where lead and recorder fall off",
        "channel 2 plays a part of what is on channel 1",
        "it comes later by: 0.400 ms",
        "polarity: the same",
        "high-pass, type: Linkwitz-Riley 4",
    ):
        assert line in done.output


def test_the_same_as_data_with_the_recording_without_the_car(files):
    given = ("--steps", "1", "--without-car", files / "loop.wav", "--format", "json")
    page = files / "car.html"
    done = loombook("sound", "read", files / "car.wav", *given, "--page", page)
    assert done.exit_code == 0, done.output
    assert page.read_text("utf-8").count("<svg") == 5 and "car.html is written" in done.stderr
    told = json.loads(done.stdout)
    edge = told["pairs"][0]["lower_edge_hz"]
    hz = np.geomspace(15, 500, 4000)
    size_db = 20 * np.log10(np.abs(LOW.through(hz)))
    assert edge["value"] == pytest.approx(hz[np.argmax(size_db > -3)], rel=0.01)
    assert told["pairs"][0]["level_v_rms"]["refused"].startswith("no meter")
    assert told["between"][0]["crossovers"][0]["corner_hz"]["value"] == pytest.approx(300, rel=0.03)
    assert abs(told["clock_ppm"]["value"] - 40) < 0.1


@pytest.mark.parametrize(
    ("given", "code", "told"),
    [
        (("--steps", "2"), 1, "say --steps"),
        (("--meter", "1=two"), 2, "such as 1=2.53"),
        (("--meter", "3=2.5", "--steps", "1"), 2, "no channel 3"),
        (("--meter", "²=2.5"), 2, "such as 1=2.53"),
        (("--meter", "1=2.5", "--meter", "1=2.6"), 2, "channel 1 is given twice"),
        (("--pair", "1=front-left", "--pair", "1=rear-left"), 2, "channel 1 is given twice"),
        (("--pair", "1="), 2, "such as 1=front-left"),
        (("--corner", "-4"), 2, "Invalid value"),
    ],
)
def test_what_was_typed_wrong_is_said(files, given, code, told):
    done = loombook("sound", "read", files / "car.wav", *given)
    assert done.exit_code == code and told in done.output


LEAD = {
    "id": "lead-1", "clip_ohm": 22000, "across_ohm": 1000, "isolation": "balanced",
    "reference_ohm": 510, "on_body": "no", "input": "balanced", "recorder_supply": "battery",
    "polarity": "kept", "corner_hz": 18,
}  # fmt: skip


def book_with(folder, *leads):
    settings = {"schema": 1, "recording_leads": [*leads]}
    (folder / "book.yaml").write_text(json.dumps(settings), "utf-8")
    (folder / "vehicles").mkdir(exist_ok=True)
    return folder


def test_a_calibrated_lead_gives_volts_its_corner_and_its_polarity(files, tmp_path):
    """The peak of the tone is what the same command says of it; typed, it makes the volts."""
    given = ("sound", "read", files / "car.wav", "--steps", "1", "--format", "json")
    plain = json.loads(loombook(*given).stdout)["pairs"][0]
    assert plain["level_v_rms"]["refused"].startswith("no meter was read")
    volts = VOLTS * 10**-0.5
    calibration = {"date": "2024-05-13", "pair_v_rms": round(volts, 2)}
    calibration |= {"recorded_dbfs": round(plain["meter_dbfs"]["value"], 1)}
    unknown = {**LEAD, "id": "lead-2", "polarity": "unknown", "calibration": calibration}
    book = book_with(tmp_path, {**LEAD, "calibration": calibration}, unknown)
    done = loombook(*given, "--lead", "lead-1", "--calibrated", "-b", book)
    assert done.exit_code == 0, done.output
    told = json.loads(done.stdout)
    level = told["pairs"][0]["level_v_rms"]
    assert abs(level["value"] - volts) < level["plus_minus"]
    assert "corner is at 18 Hz" in told["pairs"][0]["lower_edge_hz"]["refused"]
    assert told["between"][0]["relation"]["inverted"] is False
    other = json.loads(loombook(*given, "--lead", "lead-2", "-b", book).stdout)
    assert "1.5 V cell" in other["between"][0]["relation"]["inverted"]["refused"]


@pytest.mark.parametrize(
    ("given", "told"),
    [
        (("--calibrated",), "--calibrated: no lead is named"),
        (("--calibrated", "--lead", "lead-1"), "lead-1 has no calibration"),
        (("--lead", "lead-9"), 'has no "lead-9"; did you mean lead-1?'),
        (("--lead", "bad"), "a clip that slips onto the body grounds its leg"),
        (("--pair", "1=front-left"), "name it with --visit"),
    ],
)
def test_volts_by_a_lead_that_has_none_are_refused(files, tmp_path, given, told):
    book = book_with(tmp_path, LEAD, {**LEAD, "id": "bad", "clip_ohm": 0})
    done = loombook("sound", "read", files / "car.wav", "--steps", "1", *given, "-b", book)
    assert done.exit_code == 2 and told in " ".join(done.output.split()), done.output


def test_what_is_no_recording_is_refused():
    done = loombook("sound", "read", ROOT / "pyproject.toml")
    assert done.exit_code == 1 and "no WAV file" in done.output
