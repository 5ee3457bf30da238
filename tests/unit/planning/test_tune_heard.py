"""What a recording gives a plan and a tune, and what the same say without it."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from pack_jobs import shipped_parts
from scipy import signal
from shipped_book import PINOUTS
from sound_car import peak
from test_tune import made, row_of, steep, with_filters

from builder.book import open_book
from builder.model.recorded_figures import CurvePoint
from builder.model.sound import SpeakerChannel
from builder.pipeline.answers.answering import vehicle_meant
from builder.planning.car.heard_sound import heard_reasons
from builder.planning.feeds.recorded_sum import recorded_sum
from builder.planning.levels.inverse_equaliser import (
    MOST_BOOST_DB,
    MOST_CUT_DB,
    bell_db,
    inverse_of,
)
from builder.planning.tables import RECORDING
from builder.planning.tune_sheet import EqualiserPoint

JOB = "teasel-subwoofer"
VISIT = "tinroof-sound-2025-04-01-mint-5.yaml"
SIXTHS = 1000.0 * 2.0 ** (np.arange(-33, 26) / 6)


def shape_of(*filters):
    sos = np.vstack(filters)
    db = 20 * np.log10(np.abs(signal.sosfreqz(sos, SIXTHS, fs=48_000)[1]))
    return [CurvePoint(hz=float(hz), db=float(level)) for hz, level in zip(SIXTHS, db, strict=True)]


@pytest.mark.parametrize(("hz", "db", "q"), [(90.0, 4.0, 0.9), (2500.0, -2.5, 1.2)])
def test_a_bell_does_what_the_usual_filter_does(hz, db, q):
    point = EqualiserPoint(hz, db, q)
    for each in shape_of(peak(hz, db, q)):
        if each.hz < 6000:
            assert bell_db(each.hz, point) == pytest.approx(each.db, abs=0.1)


def test_a_bell_of_the_factory_is_found_and_taken_back():
    found = inverse_of(shape_of(peak(90, 5, 1.0), peak(2500, 2.5, 1.4)), 30, 12_000, 5)
    assert found is not None and found.before_db > 3.5 and found.after_db < 1.5
    (low,) = [each for each in found.points if each.hz < 500]
    assert abs(low.hz - 90) <= 10 and low.gain_db == pytest.approx(-5, abs=1)


def test_no_bell_goes_beyond_its_bounds():
    found = inverse_of(shape_of(peak(90, 14, 1.0), peak(2500, -14, 1.0)), 30, 12_000, 2)
    assert found is not None
    gains = [each.gain_db for each in found.points]
    assert min(gains) == -MOST_CUT_DB and max(gains) == MOST_BOOST_DB


def test_what_is_flat_already_gets_none_and_too_little_says_nothing():
    flat = shape_of(peak(90, 1.0, 1.0))
    found = inverse_of(flat, 30, 12_000, 5)
    assert found is not None and found.points == ()
    assert inverse_of(flat, 30, 40, 5) is None


def car(*without):
    book = open_book(PINOUTS)
    gone = [file.path for file in book.every_file() if file.path.name in without]
    assert len(gone) == len(without)
    return vehicle_meant(book.without(gone), "cindral-teasel-2023")[1]


def test_a_plan_with_the_recording_differs_and_says_why():
    parts = shipped_parts(JOB)
    packs = [made(replace(parts, vehicle=vehicle)) for vehicle in (car(), car(VISIT))]
    bases = [[(each.channel, each.basis) for each in pack.plan.levels] for pack in packs]
    assert bases[0] == [("front-left", "measured"), ("front-right", "measured")]
    assert all(basis != "measured" for _, basis in bases[1])
    told = [[r for r in pack.plan.because if r.source == RECORDING] for pack in packs]
    assert len(told[0]) == 2 and told[1] == []
    for word in ("clean at volume step 30", "bass changes by 8.8 dB", "made by a simulator"):
        assert word in told[0][0].because
    (row, bare) = (row_of(pack) for pack in packs)
    assert row.correction == "on" and bare.correction != "on"
    assert row.stays and bare.stays == ()


def test_a_channel_with_means_starts_from_the_recording():
    parts = with_filters(
        replace(shipped_parts(JOB), vehicle=car()),
        replace(steep(), equaliser_bands=3, all_pass="yes"),
    )
    row = row_of(made(parts))
    assert [each for each in row.equaliser if 70 <= each.hz <= 110 and each.gain_db < -2]
    assert row.all_pass_order == 1 and row.all_pass_hz == pytest.approx(240, rel=0.02)
    said = [each for each in row.because if each.source == RECORDING]
    assert len(said) == 2 and "the other pair" in said[1].because


def turned_over(vehicle, polarity, plays="alike"):
    """The same car, its two fronts recorded together with this polarity."""

    def said(channel):
        if channel.heard is None:
            return channel
        beside = {
            name: replace(two, polarity=polarity, plays=plays)
            for name, two in channel.heard.beside.items()
        }
        return replace(channel, heard=replace(channel.heard, beside=beside))

    return replace(vehicle, channels=tuple(map(said, vehicle.channels)))


@pytest.mark.parametrize(
    ("polarity", "plays", "right"),
    [
        ("inverted", "alike", "inverted"),
        ("same", "alike", "normal"),
        ("unknown", "alike", "normal"),
        ("inverted", "above_first", "normal"),
    ],
)
def test_a_pair_that_the_car_turns_over_is_turned_back(polarity, plays, right):
    """Between halves of a crossover a turn may belong to it."""
    vehicle = turned_over(car(), polarity, plays)
    pack = made(replace(shipped_parts("teasel-four-doors"), vehicle=vehicle))
    rows = {row.speaker: row for row in pack.tune}
    assert rows["front left door"].polarity == "normal"
    assert rows["front right door"].polarity == right
    said = [each for each in rows["front right door"].because if "turned over" in each.because]
    assert len(said) == (right == "inverted") and all(each.source == RECORDING for each in said)


def test_what_was_typed_is_no_reason_of_a_recording():
    typed = SpeakerChannel(channel="front-left", driven_by="radio", band="full")
    assert recorded_sum(typed, typed, shipped_parts(JOB).converter) is None
    assert heard_reasons(()) == ()
