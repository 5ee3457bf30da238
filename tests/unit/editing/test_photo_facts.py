"""What a photo's bytes are: its pixels as it is shown, what it tells, what is too much of it."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from photo_samples import (
    END,
    PLACE,
    SCAN,
    chunk,
    exif,
    frame,
    jpeg,
    lossless,
    lossy,
    part,
    png,
    riff,
    segment,
    webp,
    wide,
)

from builder.editing.photo_bytes import bare_photo
from builder.editing.photo_facts import judged
from builder.model.photo_file import MOST_SHOWN_BYTES, MOST_SHOWN_PX


@pytest.mark.parametrize(
    ("data", "ending"),
    [
        (jpeg(), ".jpg"),
        (jpeg(frame(1, 1, 0xC4)), ".jpg"),
        (png(), ".png"),
        (riff(lossless(640, 480)), ".webp"),
        (riff(lossy(640, 480)), ".webp"),
        (riff(wide(0)[:12] + (639).to_bytes(3, "little") + (479).to_bytes(3, "little")
              + lossless(640, 480)), ".webp"),
    ],
)  # fmt: skip
def test_a_bare_picture_may_be_shown_at_its_size(data: bytes, ending: str) -> None:
    found = judged(data)
    assert (found.faults, found.width_px, found.height_px) == ((), 640, 480)
    assert (found.ending, found.size_bytes, len(found.sha256)) == (ending, len(data), 64)


@pytest.mark.parametrize("way", range(1, 9))
def test_a_picture_on_its_side_is_as_high_as_it_is_shown(way: int) -> None:
    data = bare_photo(jpeg(exif(way, "<")))[0]
    found = judged(data)
    assert found.faults == ()
    assert (found.width_px, found.height_px) == ((640, 480) if way < 5 else (480, 640))


@pytest.mark.parametrize(
    ("data", "told"),
    [
        (jpeg(exif(6, ">")), ["Exif (place, time, device)"]),
        (jpeg(segment(0xE1, b"http://ns.adobe.com/xap/1.0/\0" + PLACE)), ["XMP"]),
        (jpeg(segment(0xED, PLACE), segment(0xFE, PLACE)), ["IPTC", "a comment"]),
        (jpeg(segment(0xE5, PLACE), segment(0xE6, PLACE)), ["data of a program"]),
        (jpeg(segment(0xE0, b"JFXX\0" + PLACE)), ["data of a program"]),
        (jpeg(behind=PLACE), ["data behind the picture"]),
        (png(chunk(b"tEXt", PLACE), chunk(b"tIME", b"\7" * 7)), ["a text", "a time"]),
        (png(chunk(b"eXIf", PLACE), behind=PLACE),
         ["Exif (place, time, device)", "data behind the picture"]),
        (png(chunk(b"acTL", b"\0" * 8)), ["data of a program"]),
        (webp(1), ["Exif (place, time, device)", "XMP"]),
        (riff(lossless(9, 9)) + PLACE, ["data behind the picture"]),
        (riff(lossless(9, 9), part(b"note", PLACE)), ["data of a program"]),
    ],
)  # fmt: skip
def test_what_it_tells_is_named_and_gone_after_it_is_bared(data: bytes, told: list[str]) -> None:
    found = judged(data)
    assert (list(found.told), found.faults[-1:]) == (told, ("metadata",))
    bare = bare_photo(data)[0]
    assert PLACE not in bare
    assert "metadata" not in judged(bare).faults


@pytest.mark.parametrize(
    ("wide_px", "high_px", "faults"),
    [
        (MOST_SHOWN_PX, MOST_SHOWN_PX, ()),
        (MOST_SHOWN_PX + 1, 1, ("pixels",)),
        (1, MOST_SHOWN_PX + 1, ("pixels",)),
        (50_000, 50_000, ("pixels",)),
    ],
)
def test_pixels_are_bounded_on_the_longer_side(
    wide_px: int, high_px: int, faults: tuple[str, ...]
) -> None:
    assert judged(png(wide_px=wide_px, high_px=high_px)).faults == faults
    assert judged(jpeg(wide_px=wide_px, high_px=high_px)).faults == faults


def test_of_several_sizes_in_one_picture_the_largest_counts() -> None:
    found = judged(jpeg(frame(50_000, 3), wide_px=10, high_px=10))
    assert (found.width_px, found.faults) == (50_000, ("pixels",))


@pytest.mark.parametrize(("more", "faults"), [(0, ()), (1, ("bytes",))])
def test_bytes_are_bounded(more: int, faults: tuple[str, ...]) -> None:
    room = MOST_SHOWN_BYTES - len(png(chunk(b"iCCP", b"")))
    assert judged(png(chunk(b"iCCP", b"\0" * (room + more)))).faults == faults


@pytest.mark.parametrize(
    "data",
    [
        b"",
        b"<svg xmlns='http://www.w3.org/2000/svg'><script>1</script></svg>",
        b"GIF89a\1\0\1\0",
        b"\xff\xd8" + SCAN + END,  # no frame says how large it is
        jpeg(wide_px=0),
        png(high_px=0),
        jpeg()[:30],
        png()[:40],
        riff(part(b"VP8 ", b"\0" * 12)),
    ],
)
def test_what_is_no_picture_says_so(data: bytes) -> None:
    found = judged(data)
    assert found.faults == ("no_picture",)
    assert found.why.startswith("it ")


@given(st.sampled_from([jpeg(exif(6, ">")), png(), webp(6)]), st.data())
def test_any_byte_may_differ_and_an_answer_comes(whole: bytes, draw: st.DataObject) -> None:
    at = draw.draw(st.integers(0, len(whole) - 1))
    other = draw.draw(st.binary(max_size=6))
    found = judged(whole[:at] + other + whole[at + len(other) :])
    assert found.faults == ("no_picture",) or found.width_px > 0
