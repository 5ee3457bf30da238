"""Polarity, delay and all-pass of phases that are written down instead of recorded."""

from __future__ import annotations

import numpy as np
import pytest

from builder.sound.between import Between
from builder.sound.delay import plain_relation, relation_of
from builder.sound.filters import all_pass_phase
from builder.sound.results import Refused

HZ = np.geomspace(20, 16_000, 240)


def phases(late_ms=0.0, inverted=False, turned=0.0, hz=HZ):
    """What a second pair is ahead of a first by. [rad]"""
    phase = -2 * np.pi * hz * late_ms / 1000 + np.pi * inverted + turned
    return Between(hz, np.zeros(len(hz)), phase, np.zeros(len(hz)))


@pytest.mark.parametrize("late_ms", [-8.0, -0.013, 0.0, 0.3, 4.1])
@pytest.mark.parametrize("inverted", [False, True])
def test_a_delay_and_a_polarity_are_told_from_each_other(late_ms, inverted):
    found = relation_of(phases(late_ms, inverted), None)
    assert found.late_ms.value == pytest.approx(late_ms, abs=1e-6)
    assert (found.inverted, found.all_pass_order) == (inverted, 0)


@pytest.mark.parametrize("corner_hz", [80.0, 400.0, 2500.0])
@pytest.mark.parametrize("q", [0.0, 0.6, 2.0])
@pytest.mark.parametrize("in_second", [True, False])
def test_an_all_pass_is_told_with_its_order_its_corner_and_its_pair(corner_hz, q, in_second):
    turned = all_pass_phase(HZ, corner_hz, q, None) * (1 if in_second else -1)
    found = relation_of(phases(0.7, True, turned), None)
    assert found.all_pass_order == (2 if q else 1)
    assert found.all_pass_hz.value == pytest.approx(corner_hz, rel=0.002)
    assert found.turns_second == in_second
    assert found.late_ms.value == pytest.approx(0.7, abs=0.003) and found.inverted is True
    assert isinstance(found.all_pass_q, Refused) == (q == 0)


def test_a_phase_that_nothing_explains_is_refused_and_not_made_a_delay_of():
    wild = 2.0 * np.sin(9 * np.log(HZ))
    found = relation_of(phases(1.0, False, wild), None)
    assert isinstance(found.late_ms, Refused) and isinstance(found.inverted, Refused)
    assert "unexplained" in found.late_ms.reason


def test_two_pairs_with_little_in_common_tell_no_all_pass():
    narrow = np.geomspace(60, 300, 240)
    found = relation_of(phases(2.0, True, hz=narrow), None)
    assert found.late_ms.value == pytest.approx(2.0, abs=1e-6) and found.inverted is True
    assert isinstance(found.all_pass_order, Refused)


def test_what_a_crossover_turns_is_taken_away_first():
    turned = all_pass_phase(HZ, 900.0, 0.7, None)
    found = relation_of(phases(0.2, False, turned), turned)
    assert found.all_pass_order == 0 and found.late_ms.value == pytest.approx(0.2, abs=1e-6)
    assert plain_relation(HZ, phases(0.2).phase, "for a test").late_ms.value == pytest.approx(0.2)
