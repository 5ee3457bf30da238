"""Group delay of one pair against another, and the sum once the earlier waits for the later."""

from __future__ import annotations

import numpy as np
import pytest
from scipy import signal
from sound_car import SHORT, Car, Pair, all_pass, half

from builder.sound.reading import Said, read_recording
from builder.sound.results import Measured, Refused


def between(first, second):
    said = Said(SHORT.choice, (None, None), 3.0)
    return read_recording(Car([first, second]).recorded(), said, None).between[0]


def test_an_all_pass_is_late_by_its_group_delay():
    turned = all_pass(300, 1.0)
    two = between(Pair(), Pair(delay_s=0.0008, filters=[turned]))
    b, a = signal.sos2tf(turned)
    told = 0
    for hz, late in two.group_delay_ms:
        if isinstance(late, Refused):
            continue
        true_ms = 0.8 + 1000 * signal.group_delay((b, a), [hz], fs=48_000)[1][0] / 48_000
        assert abs(late.value - true_ms) <= late.plus_minus, hz
        told += late.plus_minus < 0.1
    assert told > 30


def test_a_delay_made_good_leaves_nothing_lost_and_another_polarity_is_found():
    two = between(Pair(), Pair(delay_s=0.0012, polarity=-1))
    assert min(db.value for _, db in two.sum_db if isinstance(db, Measured)) < -20
    assert two.in_step.turned
    lost = [db.value for hz, db in two.in_step.lost_db if isinstance(db, Measured) and hz < 5000]
    assert min(lost) > -0.2


@pytest.mark.parametrize(("polarity", "turned"), [(1, True), (-1, False)])
def test_halves_of_the_second_order_sum_turned_over(polarity, turned):
    """At their corner two of Linkwitz and Riley are half a turn apart."""
    low = Pair(filters=[half("Linkwitz-Riley 2", "low", 2500)])
    high = Pair(filters=[half("Linkwitz-Riley 2", "high", 2500)], polarity=polarity)
    two = between(low, high)
    assert two.in_step.turned is turned
    near = [
        db.value
        for hz, db in two.in_step.lost_db
        if isinstance(db, Measured) and abs(np.log2(hz / 2500)) < 1
    ]
    assert min(near) > -0.3


def test_pairs_without_anything_in_common_have_no_group_delay():
    low = Pair(filters=[half("Butterworth 4", "low", 100)] * 2)
    high = Pair(filters=[half("Butterworth 4", "high", 5000)] * 2)
    two = between(low, high)
    assert two.standing == "apart"
    assert isinstance(two.in_step, Refused)
    assert all(isinstance(late, Refused) for _, late in two.group_delay_ms)
