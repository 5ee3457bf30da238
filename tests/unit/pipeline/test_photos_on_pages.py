"""Photos of records: shown with consent, licence and a bare file, and else kept and told of."""

from __future__ import annotations

import hashlib
import re
from pathlib import Path

import pytest
from invented_photos import MOST_DRAWN_BYTES, pictures, pixels
from photo_samples import PLACE, exif, jpeg
from shipped_book import loombook

from builder.book import open_book
from builder.data_files import templates_folder
from builder.editing.photo_facts import judged
from builder.model.photo_file import MOST_SHOWN_BYTES, MOST_SHOWN_PX
from builder.pipeline.checking.book_check import check_book
from builder.pipeline.site.building import build_site
from builder.rules.registry import BY_ID

TANSY = "ostrel-tansy-2017-hatch-base"
FILE = "tansy-plug-a-wires.png"


@pytest.fixture
def book(small_book: Path) -> Path:
    (small_book / "book.yaml").write_text("schema: 1\nsite_name: Ours\n", "utf-8")
    return small_book


def record(book: Path) -> Path:
    return book / "vehicles" / "ostrel" / f"{TANSY}.yaml"


def change(book: Path, old: str, new: str) -> None:
    text = record(book).read_text("utf-8")
    assert old in text
    record(book).write_text(text.replace(old, new), "utf-8")


def found(book: Path) -> list[tuple[str, str]]:
    checked = check_book(open_book(book))
    return [(f.rule_id, f.severity.word) for f in checked.findings if "photo" in f.slug]


def site(book: Path, tmp_path: Path) -> tuple[str, list[Path]]:
    out = tmp_path / "site"
    build_site(check_book(open_book(book)), out)
    page = (out / "vehicles" / f"{TANSY}.html").read_text("utf-8")
    return page, sorted((out / "photos").glob("*")) if (out / "photos").exists() else []


def test_a_shown_photo_stands_at_its_plug_with_size_words_and_credit(
    book: Path, tmp_path: Path
) -> None:
    assert found(book) == []
    page, files = site(book, tmp_path)
    content = (record(book).parent / FILE).read_bytes()
    assert [f.name for f in files] == [hashlib.sha256(content).hexdigest()[:32] + ".png"]
    assert files[0].read_bytes() == content
    plug = page.partition('id="plug-A"')[2].partition("</section>")[0]
    (image,) = re.findall(r"<img [^>]*>", plug)
    assert f'src="../photos/{files[0].name}"' in image
    assert 'width="960" height="640"' in image
    assert 'loading="lazy"' in image
    assert 'alt="a grey plug with two rows' in image
    assert "Photo: alder-pit-audio, CC0-1.0" in plug
    assert page.count("<img ") == 1


@pytest.mark.parametrize(
    ("without", "lacks"),
    [
        (", by: alder-pit-audio, licence: CC0-1.0, consent: yes", "by, licence, consent"),
        (", licence: CC0-1.0", "licence"),
        (", consent: yes", "consent"),
    ],
)
def test_without_consent_or_licence_it_is_kept_and_the_page_says_what_to_type(
    book: Path, tmp_path: Path, without: str, lacks: str
) -> None:
    change(book, without, "")
    assert found(book) == [("PIN133", "note")]
    assert check_book(open_book(book)).failing == 0
    page, files = site(book, tmp_path)
    assert (files, page.count("<img ")) == ([], 0)
    assert f"no page shows the photo {FILE}: it lacks {lacks}" in page
    assert "To do:</em> type" in page or "To do: type" in page
    assert (record(book).parent / FILE).is_file()


def test_who_says_no_is_not_asked_again(book: Path, tmp_path: Path) -> None:
    change(book, "consent: yes", "consent: no")
    assert found(book) == []
    page, files = site(book, tmp_path)
    assert (files, page.count("<img ")) == ([], 0)


@pytest.mark.parametrize(
    ("content", "rule"),
    [
        (None, "PIN134"),
        (b"<svg/>", "PIN134"),
        (jpeg(exif(6, ">")), "PIN136"),
        (jpeg(wide_px=1601), "PIN135"),
        (jpeg() + b"\0" * 4_000_000, "PIN135"),
    ],
)
def test_a_file_that_may_not_be_shown_is_found_and_not_shown(
    book: Path, tmp_path: Path, content: bytes | None, rule: str
) -> None:
    place = record(book).parent / FILE
    place.unlink()
    if content is not None:
        place.write_bytes(content)
    assert found(book) == [(rule, "warn")]
    assert check_book(open_book(book)).failing == 0
    page, files = site(book, tmp_path)
    assert (files, page.count("<img ")) == ([], 0)


def test_one_of_no_plug_of_the_record_stands_among_the_rest(book: Path, tmp_path: Path) -> None:
    change(book, "plug: A, alt", "plug: Z, alt")
    assert found(book) == [("PIN137", "warn")]
    page, files = site(book, tmp_path)
    assert len(files) == 1
    assert "<img " in page.partition('id="car-photos"')[2].partition("</details>")[0]


def test_what_changed_since_the_last_check_is_looked_at_anew(book: Path) -> None:
    """A kept check stands only while the photo does."""
    assert "PIN134" not in loombook("check", book).output
    content = (record(book).parent / FILE).read_bytes()
    (record(book).parent / FILE).unlink()
    assert "PIN134" in loombook("check", book).output
    (record(book).parent / FILE).write_bytes(content)
    assert "PIN134" not in loombook("check", book).output
    (record(book).parent / FILE).write_bytes(content + PLACE)
    assert "PIN136" in loombook("check", book).output


def test_a_photo_that_changes_between_check_and_build_is_not_published(
    book: Path, tmp_path: Path
) -> None:
    checked = check_book(open_book(book))
    place = record(book).parent / FILE
    place.write_bytes(place.read_bytes() + PLACE)
    with pytest.raises(OSError, match="was changed while the site was built"):
        build_site(checked, tmp_path / "site")
    assert not (tmp_path / "site").exists()


def test_two_records_may_show_one_picture(book: Path, tmp_path: Path) -> None:
    text = record(book).read_text("utf-8").replace(f"id: {TANSY}", "id: ostrel-other")
    (record(book).parent / "ostrel-other.yaml").write_text(text, "utf-8")
    _, files = site(book, tmp_path)
    assert len(files) == 1
    other = (tmp_path / "site" / "vehicles" / "ostrel-other.html").read_text("utf-8")
    assert other.count("<img ") == 1


def test_mend_takes_metadata_out_and_leaves_the_picture(book: Path) -> None:
    place = record(book).parent / FILE
    bare = place.read_bytes()
    place.write_bytes(jpeg(exif(6, ">"), behind=PLACE))
    before = record(book).read_bytes()
    tried = loombook("mend", "-b", book, "--dry-run")
    assert f"{FILE}: carries Exif (place, time, device), data behind the picture" in tried.output
    assert "metadata would be taken out of 1 photo" in tried.output
    assert (tried.exit_code, PLACE in place.read_bytes()) == (1, True)
    done = loombook("mend", "-b", book)
    assert "taken out; the picture stays bit for bit" in done.output
    assert "metadata taken out of 1 photo" in done.output
    assert done.exit_code == 0
    assert PLACE not in place.read_bytes()
    assert judged(place.read_bytes()).faults == ()
    assert record(book).read_bytes() == before
    assert place.read_bytes() != bare
    again = loombook("mend", "-b", book)
    assert "metadata" not in again.output


def test_the_page_of_the_rule_states_the_limits() -> None:
    page = BY_ID["PIN135"].page
    assert f"more than {MOST_SHOWN_BYTES // 1000} kB" in page
    assert f"more than {MOST_SHOWN_PX} pixels" in page


def test_pages_that_make_photos_small_keep_to_the_same_limits() -> None:
    script = (templates_folder() / "theme" / "bay-photos.js").read_text("utf-8")
    assert f"LONGEST = {MOST_SHOWN_PX}, MOST_BYTES = {MOST_SHOWN_BYTES}," in script


def test_the_shipped_pictures_are_those_that_are_drawn() -> None:
    for path, content in pictures().items():
        there = path.read_bytes()
        assert pixels(there) == pixels(content), path.name
        assert judged(there).faults == (), path.name
        assert len(there) <= MOST_DRAWN_BYTES
