"""Photos named in the interview: looked for at once, copied bare, laid beside the record."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
from interviewed import Killed, Person, interview
from photo_samples import END, PLACE, SCAN, TABLE, exif, webp
from shipped_book import loombook

from builder.editing.drafts import draft

JPEG = b"\xff\xd8" + exif(6, ">") + TABLE + SCAN + END


@pytest.fixture
def book(small_book: Path, monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> Path:
    (small_book / "housings" / "block-c-20.yaml").unlink()
    desk = tmp_path / "desk"
    desk.mkdir()
    (desk / "radio-a.jpg").write_bytes(JPEG)
    (desk / "IMG 12 (1).JPG").write_bytes(JPEG + b"film")
    (desk / "letter.jpg").write_bytes(b"no picture")
    (desk / "film.jpg").write_bytes(JPEG + b"\0" * 5_000_000)
    (desk / "huge.jpg").write_bytes(b"\xff\xd8" + TABLE + SCAN + b"\x11" * 4_100_000 + END)
    (desk / "sent.webp").write_bytes(webp(6))
    monkeypatch.chdir(desk)
    return small_book


def asked(book: Path, *typed: str) -> tuple[list[dict[str, Any]], Person]:
    person = Person("hybrid", typed)
    answers = interview(book, person)
    return draft("vehicle", answers).get("photos", []), person


@pytest.mark.parametrize(
    ("typed", "photo"),
    [
        (
            ["photo radio-a.jpg plug A from the wires"],
            {"file": "radio-a.jpg", "shows": "plug A from the wires"},
        ),
        (
            ["photo IMG 12 (1).JPG plug A"],
            {"file": "IMG-12-1.jpg", "shows": "plug A"},
        ),
        (
            ["photo 'IMG 12 (1).JPG' plug A"],
            {"file": "IMG-12-1.jpg", "shows": "plug A"},
        ),
        (
            ["photo radio-b.jpg plug A", "radio-a.jpg"],
            {"file": "radio-a.jpg", "shows": "plug A"},
        ),
        (
            ["photo letter.jpg plug A", "huge.jpg", "radio-a.jpg"],
            {"file": "radio-a.jpg", "shows": "plug A"},
        ),
        (
            ["photo radio-a.jpg", "the whole radio"],
            {"file": "radio-a.jpg", "shows": "the whole radio"},
        ),
    ],
)
def test_a_photo_is_copied_bare_beside_the_draft(
    book: Path, typed: list[str], photo: dict[str, Any]
) -> None:
    photos, _ = asked(book, *typed)
    assert photos == [photo]
    content = (book / ".drafts" / "photos" / photo["file"]).read_bytes()
    assert PLACE not in content
    assert content.endswith(TABLE + SCAN + END)


@pytest.mark.parametrize(
    ("typed", "said"),
    [
        ("photo radio-b.jpg plug A", "there is no file radio-b.jpg: did you mean radio-a.jpg?"),
        ("photo letter.jpg plug A", "it is no JPEG, PNG or WebP picture; save it as a JPEG"),
        ("photo huge.jpg plug A", "huge.jpg has 4.1 MB, and a book keeps photos up to 4 MB"),
        ("photo . plug A", ". cannot be read"),
    ],
)
def test_what_cannot_be_taken_is_said_at_once_and_asked_again(
    book: Path, typed: str, said: str
) -> None:
    photos, person = asked(book, typed, "")
    assert photos == []
    assert any(said in line for line in person.said)
    assert any("Enter leaves it out" in line for line in person.said)


def test_a_photo_is_as_large_as_its_picture(book: Path) -> None:
    photos, _ = asked(book, "photo film.jpg plug A")
    assert photos == [{"file": "film.jpg", "shows": "plug A"}]
    assert (book / ".drafts" / "photos" / "film.jpg").stat().st_size < 1000


def test_a_webp_is_taken_bare(book: Path) -> None:
    photos, _ = asked(book, "photo sent.webp plug A")
    assert photos == [{"file": "sent.webp", "shows": "plug A"}]
    content = (book / ".drafts" / "photos" / "sent.webp").read_bytes()
    assert content.startswith(b"RIFF")
    assert PLACE not in content


@pytest.mark.parametrize(
    ("given", "keys"),
    [
        ([""], {}),
        (["no"], {}),
        (["CC0-1.0"], {"licence": "CC0-1.0"}),
        (["own alder-pit-audio"], {"licence": "own", "by": "alder-pit-audio"}),
        (["public domain", "free", "CC0-1.0 alder-pit-audio"],
         {"licence": "CC0-1.0", "by": "alder-pit-audio"}),
    ],
)  # fmt: skip
def test_leave_to_show_it_is_asked_once_and_no_is_the_default(
    book: Path, given: list[str], keys: dict[str, str]
) -> None:
    (photo,), person = asked(book, "photo radio-a.jpg plug A from the wires", *given)
    leave = {"plug": "A", "consent": "yes"} if keys else {}
    assert photo == {"file": "radio-a.jpg", "shows": "plug A from the wires", **leave, **keys}
    assert sum("may pages show it?" in line for line in person.said) == len(given)


def test_two_photos_of_one_name_are_two_and_one_named_twice_is_one(book: Path) -> None:
    other = Path("other")
    other.mkdir()
    (other / "radio-a.jpg").write_bytes(b"\xff\xd8" + SCAN + END)
    photos, _ = asked(
        book,
        "photo radio-a.jpg one",
        "",
        "photo other/radio-a.jpg two",
        "",
        "photo radio-a.jpg three",
    )
    assert [one["file"] for one in photos] == ["radio-a.jpg", "radio-a-2.jpg", "radio-a.jpg"]


def test_the_copy_goes_beside_the_record_and_nothing_stays_behind(book: Path) -> None:
    typed = ["photo radio-a.jpg plug A", "no", "photo radio-a.jpg two", "n", "undo"]
    person = Person("hybrid", typed)
    person.killed_at = 30
    with pytest.raises(Killed):
        interview(book, person)
    left = Person()
    interview(book, left)  # to its end; the draft is kept until the record is written
    done = loombook("new", "vehicle", "-b", book, typed="1\n")
    (record,) = (book / "vehicles").rglob("*wold*.yaml")
    assert f"{record.name} is written" in done.output
    assert "radio-a.jpg" in record.read_text("utf-8")
    assert PLACE not in (record.parent / "radio-a.jpg").read_bytes()
    assert not (book / ".drafts").exists()


def test_another_photo_of_that_name_is_never_written_over(book: Path) -> None:
    person = Person("hybrid", ["photo radio-a.jpg plug A"])
    interview(book, person)
    log = person.talk.log
    folder = book / "vehicles" / log.one("make").lower()
    folder.mkdir(exist_ok=True)
    (folder / "radio-a.jpg").write_bytes(b"somebody else's")
    done = loombook("new", "vehicle", "-b", book, typed="1\n")
    assert "another radio-a.jpg lies beside the record; yours is " in done.output
    assert (folder / "radio-a.jpg").read_bytes() == b"somebody else's"
    assert (book / ".drafts" / "photos" / "radio-a.jpg").is_file()
