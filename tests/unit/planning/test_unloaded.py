"""A level read with its speaker connected rises when the speaker is cut off, by up to 0.8 dB.

Common practice, no source: the output's own resistance and the wire to the plug take that much.
"""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest
from pack_jobs import CORNERS, chain, door, job, pack_of, route, subwoofer, supply
from plan_cars import channel, doors_car, retained

from builder.model.house_defaults import HouseDefaults
from builder.planning.work_pack import WorkPack
from builder.rendering.margins import margin_words, read_words

HOUSE = HouseDefaults()
RISE = 10 ** (0.8 / 20)


def doors(level: dict[str, Any], *, broken: bool = True) -> WorkPack:
    """Four doors on a four-channel amplifier, or a subwoofer that only listens to the rears."""
    car = doors_car([retained(9)], channels=[channel(name, level=level) for name in CORNERS])
    routes = [route("radio", "converter", kind, 4.0) for kind in ("signal", "control")]
    if not broken:
        speakers, names = [subwoofer("rear-left", "rear-right")], {"sub amp": "amn-600"}
        return pack_of(car, job(speakers, routes, supply(4.0, 0.4)), "cvn-2a", names)
    speakers = [door(name, at) for at, name in enumerate(CORNERS, 1)]
    routes.append(route("doors", "radio", "amplified", 4.0))
    return pack_of(car, job(speakers, routes, supply(4.0, 0.4)), "cvn-4a", {"doors": "amn-4"})


def test_a_cut_pair_gives_more_and_the_gain_is_set_for_that() -> None:
    pack = doors({"clean_max_v_rms": 8.0, "speaker_connected": "yes"})
    for check in pack.plan.levels:
        assert check.source_v_rms == pytest.approx(8.0 * RISE)
        assert check.read_v_rms == 8.0
        assert "up to 0.8 dB more, 8.77 V" in check.because
    link = chain(pack, "front-left door")
    assert link.converter_gain == pytest.approx(3.6 / (8.0 * RISE))
    assert link.converter_margin_db == pytest.approx(6.99 + 0.969 - 0.8, abs=0.01)
    (test,) = [each for each in pack.tests if each.id == "front-left-pair-level"]
    assert (test.low, test.high) == (pytest.approx(0.9 * 8.0), pytest.approx(1.1 * 8.0 * RISE))


@pytest.mark.parametrize(
    ("level", "broken"),
    [
        ({"clean_max_v_rms": 8.0, "speaker_connected": "no"}, True),
        ({"clean_max_v_rms": 8.0}, True),  # nobody said
        ({"clean_max_v_rms": 8.0, "speaker_connected": "yes"}, False),  # it keeps its speaker
        ({"label_w": 16, "label_ohm": 4, "speaker_connected": "yes"}, True),  # watts stay: 8 V
    ],
)
def test_any_other_level_stays_as_it_was_read(level: dict[str, Any], broken: bool) -> None:
    for check in doors(level, broken=broken).plan.levels:
        assert (check.source_v_rms, check.read_v_rms) == (pytest.approx(8.0), None)


def test_the_room_that_is_lost_can_ask_for_a_pad() -> None:
    """14 V under 20 V are 3.10 dB; risen by 0.8 dB they leave less than the 3 dB wanted."""
    assert not doors({"clean_max_v_rms": 14.0}).plan.levels[0].pad_ohm_per_leg
    loaded = doors({"clean_max_v_rms": 14.0, "speaker_connected": "yes"})
    assert loaded.plan.levels[0].pad_ohm_per_leg


@pytest.mark.parametrize(
    ("volts", "connected", "doubted"), [(8.5, "yes", False), (9.3, "no", True)]
)
def test_what_was_read_is_held_against_the_bias_not_what_it_rises_to(
    volts: float, connected: str, doubted: bool
) -> None:
    """Legs of half the supply carry 9.12 V at most: 8.5 V read keeps to it and rises to 9.32 V."""
    pack = doors({"clean_max_v_rms": volts, "speaker_connected": connected})
    said = [*pack.plan.because, *pack.refusals]
    assert any("is doubtful" in reason.decision for reason in said) == doubted


def test_it_is_said_beside_the_level_and_by_the_books_own_aim() -> None:
    check = doors({"clean_max_v_rms": 8.0, "speaker_connected": "yes"}).plan.levels[0]
    assert read_words(check.read_v_rms) == " (read 8.00 V, speaker connected)"
    assert read_words(None) == ""
    near = replace(check, converter_margin_db=3.96)
    assert margin_words(near) == "+4.0 dB"
    assert margin_words(replace(near, wanted_margin_db=4.0)) == "+3.96 dB"
