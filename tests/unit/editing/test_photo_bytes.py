"""A photo without its metadata: the picture stays bit for bit, place, time and device go."""

from __future__ import annotations

from contextlib import suppress

import pytest
from photo_samples import (
    END,
    JFIF,
    PIXELS,
    PLACE,
    SCAN,
    TABLE,
    chunk,
    exif,
    part,
    riff,
    segment,
    webp,
    wide,
)

from builder.editing.photo_bytes import NoPictureError, bare_jpeg, bare_photo


def test_place_goes_and_the_picture_stays() -> None:
    told = exif(1, ">") + segment(0xFE, b"seen at " + PLACE) + segment(0xED, PLACE)
    data = b"\xff\xd8" + JFIF + told + TABLE + SCAN + END
    assert bare_jpeg(data) == b"\xff\xd8" + JFIF + TABLE + SCAN + END


@pytest.mark.parametrize("order", [">", "<"])
@pytest.mark.parametrize("way", [3, 6, 8])
def test_which_side_is_up_stays_and_nothing_else_of_it(way: int, order: str) -> None:
    bare = bare_jpeg(b"\xff\xd8" + exif(way, order) + TABLE + SCAN + END)
    assert PLACE not in bare
    assert bare == b"\xff\xd8" + bare[2:38] + TABLE + SCAN + END
    assert bare[2:38].endswith(b"\x01\x12\0\3\0\0\0\1" + way.to_bytes(2, "big") + b"\0" * 6)
    assert bare_jpeg(bare) == bare


@pytest.mark.parametrize("way", [0, 1, 9, 77])
def test_a_way_up_that_says_nothing_is_left_out(way: int) -> None:
    assert bare_jpeg(b"\xff\xd8" + exif(way, ">") + SCAN + END) == b"\xff\xd8" + SCAN + END


def test_what_is_behind_the_end_goes_and_what_is_between_scans_too() -> None:
    second = b"\xff\xd8" + exif(6, ">") + SCAN + END
    data = b"\xff\xd8" + TABLE + SCAN + segment(0xE1, PLACE) + TABLE + SCAN + END
    bare = b"\xff\xd8" + TABLE + SCAN + TABLE + SCAN + END
    assert bare_jpeg(data + second + b"a film " + PLACE) == bare


@pytest.mark.parametrize(
    "data", [b"", b"\xff\xd8", b"\xff\xd8\xff", b"\xff\xd8" + JFIF, b"\xff\xd8" + END, b"GIF89a"]
)
def test_what_is_no_picture_is_refused(data: bytes) -> None:
    with pytest.raises(NoPictureError):
        bare_photo(data)


def test_a_png_loses_its_texts_its_time_and_what_follows() -> None:
    start, size, rows = b"\x89PNG\r\n\x1a\n", chunk(b"IHDR", b"\0" * 13), chunk(b"IDAT", b"rows")
    told = chunk(b"tEXt", PLACE) + chunk(b"eXIf", PLACE) + chunk(b"tIME", b"\7" * 7)
    end = chunk(b"IEND", b"")
    profile = chunk(b"iCCP", b"colours")
    bare, ending = bare_photo(start + size + told + profile + rows + told + end + PLACE)
    assert (bare, ending) == (start + size + profile + rows + end, ".png")
    with pytest.raises(NoPictureError, match="cut off"):
        bare_photo(start + size + rows)


def test_every_cut_of_a_picture_ends_in_an_answer() -> None:
    whole = b"\xff\xd8" + JFIF + exif(6, "<") + TABLE + SCAN + segment(0xE1, PLACE) + SCAN + END
    for at in range(len(whole)):
        with suppress(NoPictureError):
            assert PLACE not in bare_photo(whole[:at])[0]


# ---- WebP --------------------------------------------------------------------------------------
def test_of_a_webp_the_picture_stays_and_place_goes() -> None:
    bare, ending = bare_photo(webp(1) + b"behind " + PLACE)
    assert ending == ".webp"
    assert bare == riff(wide(0x20), part(b"ICCP", b"profile"), part(b"VP8L", PIXELS))


@pytest.mark.parametrize("way", [3, 6, 8])
def test_of_a_webp_which_side_is_up_stays(way: int) -> None:
    bare, _ = bare_photo(webp(way))
    assert PLACE not in bare
    assert b"\x01\x12\0\3\0\0\0\1" + way.to_bytes(2, "big") in bare
    assert bare[20] == 0x28
    assert bare_photo(bare)[0] == bare


def test_a_plain_webp_stays_as_it_is() -> None:
    assert bare_photo(riff(part(b"VP8 ", PIXELS)))[0] == riff(part(b"VP8 ", PIXELS))


@pytest.mark.parametrize(
    ("data", "why"),
    [
        (webp(1)[:60], "cut off"),
        (riff(wide(0x02), part(b"VP8L", PIXELS)), "moving"),
        (riff(wide(0), part(b"EXIF", PLACE)), "no WebP"),
        (riff(b"VP8L\xff\xff\xff\x7f"), "cut off"),
    ],
)
def test_a_webp_that_is_none_is_refused(data: bytes, why: str) -> None:
    with pytest.raises(NoPictureError, match=why):
        bare_photo(data)
