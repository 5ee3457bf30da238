"""A pair is measured with a tone that its own band carries."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st
from pack_jobs import HOUSE, SHIPPED, settled, shipped_pack, shipped_parts

from builder.model.sound import SpeakerChannel
from builder.model.words import Band
from builder.planning.job.make_pack import make_pack
from builder.planning.levels.pair_tone import pair_tone_hz, shared_tone_hz, tone_words

DOOR, BASS = (1000.0, 1000.0), (40.0, 50.0)
PLAIN = shipped_parts("tansy-subwoofer").vehicle.channels[0]


def carrying(
    band: Band, highpass_hz: float | None = None, lowpass_hz: float | None = None
) -> SpeakerChannel:
    return replace(PLAIN, band=band, highpass_hz=highpass_hz, lowpass_hz=lowpass_hz)


@pytest.mark.parametrize(
    ("channel", "tone"),
    [
        (None, DOOR),
        (carrying("full"), DOOR),
        (carrying("full", highpass_hz=100), DOOR),
        (carrying("low", lowpass_hz=2800), DOOR),
        (carrying("low", lowpass_hz=2000), DOOR),
        (carrying("low", lowpass_hz=1999), BASS),
        (carrying("low", lowpass_hz=110), BASS),
        (carrying("low", highpass_hz=20, lowpass_hz=110), BASS),
        (carrying("low"), BASS),
        (carrying("mid", highpass_hz=300, lowpass_hz=4000), DOOR),
        (carrying("mid", highpass_hz=400, lowpass_hz=900), (600.0, 600.0)),
        (carrying("high", highpass_hz=3000), (6000.0, 6000.0)),
        (carrying("high"), (6000.0, 6000.0)),
    ],
)
def test_the_tone_of_a_pair(channel: SpeakerChannel | None, tone: tuple[float, float]) -> None:
    assert pair_tone_hz(channel) == tone


@given(st.floats(10, 10_000), st.floats(1, 1000))
def test_a_tone_never_leaves_its_band(low: float, width: float) -> None:
    first, last = pair_tone_hz(carrying("mid", low, low * width))
    assert first >= low * (1 - 1e-9)
    assert first <= low * width * (1 + 1e-9) and last >= first


def test_a_channel_of_two_bands_hears_the_one_that_reaches_it() -> None:
    woofer, tweeter = carrying("low", lowpass_hz=2800), carrying("high", highpass_hz=3000)
    assert shared_tone_hz("door", [woofer, tweeter]) == DOOR
    assert shared_tone_hz("door", [tweeter, woofer]) == DOOR
    assert shared_tone_hz("door", [tweeter]) == (6000.0, 6000.0)
    assert shared_tone_hz("sub", [carrying("full")]) == BASS
    assert [tone_words(tone) for tone in (DOOR, BASS, (400.0, 400.0))] == [
        "1 kHz", "40 to 50 Hz", "400 Hz",
    ]  # fmt: skip


def said_of(name: str) -> dict[str, str]:
    pack = make_pack(settled(shipped_parts(name)), defaults=HOUSE)
    return {test.id: test.what for test in pack.tests}


def test_the_sheet_names_the_tone_of_each_pair() -> None:
    said = said_of("ullin-split-fronts")
    assert "at the factory amplifier, 1 kHz tone" in said["front-left-woofer-pair-level"]
    assert "6 kHz tone" in said["front-left-tweeter-pair-level"]
    # Its bass was measured at 40 Hz: the pair's and the line's volts hold there.
    assert "40 Hz tone" in said["sub-pair-level"]
    assert "40 Hz tone" in said["subwoofer-line-level"]
    assert "at the radio end, 1 kHz tone" in said_of("tansy-subwoofer")["rear-left-pair-level"]


def test_a_gain_behind_tweeters_alone_is_set_with_what_they_carry() -> None:
    parts = settled(shipped_parts("leto-four-doors"))
    tweeters = tuple(
        replace(each, band="high", highpass_hz=3000.0) if each.channel == "front-left" else each
        for each in parts.vehicle.channels
    )
    pack = make_pack(
        replace(parts, vehicle=replace(parts.vehicle, channels=tweeters)), defaults=HOUSE
    )
    tones = {chain.channels[0]: chain.tone_note for chain in pack.levels}
    assert "play 6 kHz" in tones["front-left"] and "play 1 kHz" in tones["front-right"]


@pytest.mark.parametrize("name", SHIPPED)
def test_the_radio_comes_out_only_where_a_wire_behind_it_is_used(name: str) -> None:
    parts, pack = shipped_parts(name), shipped_pack(name)
    radio = {plug.id for plug in parts.vehicle.plugs if plug.unit == "radio"}
    used = {test.reading.plug for test in pack.tests if test.reading}
    apart = any(step.text.endswith("radio out, its plugs still on it") for step in pack.steps)
    assert apart == bool(used & radio)
