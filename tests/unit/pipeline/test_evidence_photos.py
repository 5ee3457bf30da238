"""Notes and photos of a bay sheet: in a .zip or beside it, kept beside the job without metadata."""

from __future__ import annotations

import json
import zipfile
from pathlib import Path

import pytest
from evidence_book import JOB, SESSION, TANSY, job_file, small_book
from shipped_book import loombook

PROFILE = b"\xff\xe2\x00\x0eICC_PROFILE\0"
ALSO = b"\xff\xe2\x00\x06MPF\0"  # a second picture, with what the camera knows of it
HEAD, SCAN = bytes.fromhex("ffd8ffe00004 4a46"), bytes.fromhex("ffdb0003 11 ffda0002 0102 ffd9")
PICTURE = HEAD + bytes.fromhex("ffe10006 45786966") + PROFILE + ALSO + SCAN
BARE = HEAD + PROFILE + SCAN
PHOTO = f"{JOB}-step-12-1.jpg"
NOTES = (
    f"{{at: 'step 12: radio plug A off', note: latch is cracked, photo: {PHOTO}}}",
    "{at: battery-rest, note: posts cleaned first}",
)


def sheet(*notes: str) -> str:
    lines = ["schema: 1", f"vehicle: {TANSY}", f"job: {JOB}", SESSION.rstrip()]
    lines = [line.replace("tag: zz1, year: 2020", "tag: fern-2, year: 2018") for line in lines]
    return "\n".join([*lines, "notes:", *(f"  - {note}" for note in notes)]) + "\n"


def packed(place: Path, text: str, **photos: bytes) -> Path:
    with zipfile.ZipFile(place, "w") as package:
        package.writestr("bay-sheet.yaml", text)
        for name, content in photos.items():
            package.writestr(name, content)
    return place


@pytest.fixture
def book(tmp_path: Path) -> Path:
    return small_book(tmp_path / "book")


def test_a_zip_brings_notes_and_photos_beside_the_job(book: Path, tmp_path: Path) -> None:
    came = packed(tmp_path / "came.zip", sheet(*NOTES), **{PHOTO: PICTURE})
    done = loombook("evidence", "add", came, "--book", book)
    assert "latch is cracked, photo" in done.output
    assert "added to" in done.output
    assert (book / "jobs" / PHOTO).read_bytes() == BARE
    text = job_file(book).read_text("utf-8")
    assert "note: latch is cracked" in text and "by: third-bay" in text
    again = loombook("evidence", "add", came, "--book", book)
    assert "nothing changed" in again.output
    assert job_file(book).read_text("utf-8") == text


def test_a_photo_may_lie_beside_its_sheet(book: Path, tmp_path: Path) -> None:
    (tmp_path / PHOTO).write_bytes(PICTURE)
    (tmp_path / "sheet.yaml").write_text(sheet(*NOTES), "utf-8")
    loombook("evidence", "add", tmp_path / "sheet.yaml", "--book", book)
    assert (book / "jobs" / PHOTO).read_bytes() == BARE


@pytest.mark.parametrize(
    ("content", "said"),
    [
        (None, "is not in the .zip"),
        (b"GIF89a", "it is no JPEG picture"),
        (PICTURE[:12], "cut off"),
        (PICTURE + bytes(4_000_000), "at most 4000000"),
    ],
)
def test_a_photo_that_cannot_be_kept_refuses_the_sheet(
    book: Path, tmp_path: Path, content: bytes | None, said: str
) -> None:
    before = job_file(book).read_text("utf-8")
    photos = {} if content is None else {PHOTO: content}
    came = packed(tmp_path / "came.zip", sheet(*NOTES), **photos)
    done = loombook("evidence", "add", came, "--book", book, "--format", "json")
    (found,) = json.loads(done.output)["findings"]
    assert done.exit_code == 1
    assert found["rule"] == "BAY107"
    assert found["line"] == sheet(*NOTES).splitlines().index("notes:") + 2
    assert said in found["message"]
    assert job_file(book).read_text("utf-8") == before
    assert not (book / "jobs" / PHOTO).exists()


def test_a_name_that_another_photo_has_is_refused(book: Path, tmp_path: Path) -> None:
    (book / "jobs" / PHOTO).write_bytes(b"another")
    came = packed(tmp_path / "came.zip", sheet(*NOTES), **{PHOTO: PICTURE})
    done = loombook("evidence", "add", came, "--book", book)
    assert done.exit_code == 1 and "lies beside the job already" in done.output
    assert (book / "jobs" / PHOTO).read_bytes() == b"another"


@pytest.mark.parametrize("names", [(), ("a.yaml", "b.yaml")])
def test_a_zip_without_one_sheet_is_refused(
    book: Path, tmp_path: Path, names: tuple[str, ...]
) -> None:
    with zipfile.ZipFile(tmp_path / "came.zip", "w") as package:
        for name in names:
            package.writestr(name, sheet(NOTES[1]))
    done = loombook("evidence", "add", tmp_path / "came.zip", "--book", book)
    assert done.exit_code == 1 and "one .yaml is wanted" in done.output


def test_a_damaged_zip_is_refused(book: Path, tmp_path: Path) -> None:
    came = packed(tmp_path / "came.zip", sheet(*NOTES), **{PHOTO: PICTURE * 40})
    content = bytearray(came.read_bytes())
    content[content.index(PICTURE) + 30] ^= 0xFF
    came.write_bytes(content)
    done = loombook("evidence", "add", came, "--book", book)
    assert done.exit_code == 1 and "cannot be unpacked" in done.output
