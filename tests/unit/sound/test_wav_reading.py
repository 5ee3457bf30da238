"""Files as recorders write them are read; what is no sound is refused with its place."""

from __future__ import annotations

import io
import struct
import wave

import numpy as np
import pytest
from scipy.io import wavfile

from builder.sound.results import RecordingRefusedError
from builder.sound.wav_reading import read_wav

TONE = 0.5 * np.sin(np.arange(4800) / 7)


def by_scipy(samples, rate_hz=48_000):
    made = io.BytesIO()
    wavfile.write(made, rate_hz, samples)
    return made.getvalue()


def by_wave(samples, size):
    made = io.BytesIO()
    with wave.open(made, "wb") as file:
        file.setnchannels(1)
        file.setsampwidth(size)
        file.setframerate(44_100)
        whole = np.rint(samples * (2 ** (8 * size - 1) - 1)).astype("<i4")
        file.writeframes(whole[:, None].view(np.uint8)[:, :size].tobytes())
    return made.getvalue()


@pytest.mark.parametrize("form", [np.float32, np.float64])
def test_floats_of_two_channels_are_read(form):
    found = read_wav(by_scipy(np.stack([TONE, -TONE], axis=1).astype(form)))
    assert (found.rate_hz, len(found.channels)) == (48_000, 2)
    assert found.channels[0] == pytest.approx(TONE, abs=1e-7)
    assert found.channels[1] == pytest.approx(-TONE, abs=1e-7)


@pytest.mark.parametrize("size", [2, 3, 4])
def test_whole_numbers_are_read_to_their_last_step(size):
    found = read_wav(by_wave(TONE, size))
    assert found.rate_hz == 44_100 and found.length_s == pytest.approx(4800 / 44_100)
    assert found.channels[0] == pytest.approx(TONE, abs=1.5 / 2 ** (8 * size - 1))


def test_an_extensible_file_is_read():
    plain = by_wave(TONE, 2)
    begin = plain.index(b"fmt ")
    (size,) = struct.unpack_from("<I", plain, begin + 4)
    fmt = plain[begin + 8 : begin + 8 + size][:16]
    wide = b"\xfe\xff" + fmt[2:] + struct.pack("<HHIH", 22, 16, 4, 1) + b"\0" * 14
    made = b"RIFF\0\0\0\0WAVE" + b"fmt " + struct.pack("<I", len(wide)) + wide
    found = read_wav(made + b"note\3\0\0\0odd\0" + plain[plain.index(b"data") :])
    assert found.channels[0] == pytest.approx(TONE, abs=1e-4)


def test_a_file_cut_short_is_read_as_far_as_it_goes():
    whole = by_wave(TONE, 2)
    assert len(read_wav(whole[:-1001]).channels[0]) == 4800 - 501


def without_a_number():
    content = bytearray(by_scipy(TONE.astype(np.float32)))
    content[-4:] = struct.pack("<f", float("nan"))
    return bytes(content)


@pytest.mark.parametrize(
    ("content", "told"),
    [
        (b"", "no WAV file"),
        (b"ID3" + b"\0" * 100, "no WAV file"),
        (by_wave(TONE, 2)[:30], "without its part 'data'"),
        (by_wave(TONE, 2)[:44], "is not read"),
        (b"RIFF\0\0\0\0WAVEdata\0\0\0\0", "without its part 'fmt'"),
        (b"RIFF\0\0\0\0WAVEfmt \4\0\0\0\1\0\1\0data\4\0\0\0\0\0\0\0", "cut short"),
        (by_scipy((127 + 100 * TONE).astype(np.uint8)), "8 bits"),
        (by_scipy(TONE.astype(np.float32), 4000), "4000 samples a second"),
        (without_a_number(), "no number"),
    ],
)
def test_what_is_not_read_is_refused_with_what_to_do(content, told):
    with pytest.raises(RecordingRefusedError, match=told):
        read_wav(content)


def test_no_damage_ends_otherwise_than_in_a_refusal():
    whole = by_wave(TONE[:50], 3)
    draw = np.random.default_rng(9)
    for _ in range(400):
        content = bytearray(whole)
        for at in draw.integers(0, 46, 3):
            content[at] = draw.integers(256)
        try:
            assert np.isfinite(read_wav(bytes(content)).channels[0]).all()
        except RecordingRefusedError as error:
            assert str(error)
