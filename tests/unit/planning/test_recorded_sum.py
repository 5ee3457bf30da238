"""Whether two bands may be joined, by a recording of both."""

from __future__ import annotations

from dataclasses import replace

import pytest
from pack_jobs import shipped_parts

from builder.model.heard import Heard
from builder.model.recorded_figures import CurvePoint
from builder.model.recorded_sound import RecordedBetween, RecordedPair
from builder.model.sound import SpeakerChannel
from builder.planning.feeds.recorded_sum import recorded_sum

WOOFER, TWEETER = "front-left-woofer", "front-left-tweeter"


def curve(*levels):
    return tuple(CurvePoint(hz=1000.0 * 2**at, db=db) for at, db in enumerate(levels))


def pairs(**said):
    two = RecordedBetween(first=WOOFER, second=TWEETER, plays="above_first", **said)
    pair = RecordedPair(channel=WOOFER, recorded_on="speaker")
    heard = Heard("rec", (), pair, {TWEETER: two})
    low = SpeakerChannel(
        channel=WOOFER, driven_by="radio", band="low", lowpass_hz=2800, heard=heard
    )
    return low, SpeakerChannel(channel=TWEETER, driven_by="radio", band="high", highpass_hz=3000)


def converter(delays):
    return replace(shipped_parts("teasel-subwoofer").converter, delay_adjust=delays)


@pytest.mark.parametrize(("db", "holds"), [(-3.0, True), (-3.1, False), (-40.0, False)])
def test_three_decibels_are_the_limit(db, holds):
    found = recorded_sum(*pairs(sum=curve(-0.2, db, -1.0)), converter("no"))
    assert found is not None and found.holds is holds
    assert (found.worst_hz, found.lost_db, found.waits) == (2000.0, db, False)


def test_a_converter_that_delays_is_judged_in_step_and_says_what_it_takes():
    said = pairs(sum=curve(-20.0), in_step=curve(-0.5), in_step_turned="yes")
    assert not recorded_sum(*said, converter("no")).holds
    found = recorded_sum(*said, converter("yes"))
    assert found.holds and found.turned
    assert "the delay between them is made good and the legs of one change places" in found.words


def test_without_a_curve_the_recording_says_nothing():
    assert recorded_sum(*pairs(), converter("no")) is None
    low, high = pairs(sum=curve(-1.0))
    assert recorded_sum(replace(low, heard=None), high, converter("no")) is None
    assert recorded_sum(low, None, converter("no")) is None
