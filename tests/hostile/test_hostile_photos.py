"""Photos that do harm: none reaches the site, none ends in a traceback."""

from __future__ import annotations

import os
from collections.abc import Callable
from pathlib import Path

import pytest
from photo_samples import chunk, png
from shipped_book import loombook
from shop_book import shop_book

SECRET = b"very secret of this machine"
GOOD = "good.jpg"
SCRIPT = b"<script>alert(1)</script>"
SVG = b"<svg xmlns='http://www.w3.org/2000/svg' onload='alert(1)'></svg>"
PNG = b"\x89PNG\r\n\x1a\n"


def written(content: bytes) -> Callable[[Path], None]:
    return lambda place: place.write_bytes(content) and None


def link_out(place: Path) -> None:
    secret = place.parents[4] / "secret.jpg"
    secret.write_bytes(png(wide_px=9, high_px=9) + SECRET)
    place.symlink_to(secret)


def link_to_bare_picture_outside(place: Path) -> None:
    outside = place.parents[4] / "outside.png"
    outside.write_bytes(png(wide_px=9, high_px=9))
    place.symlink_to(outside)


def link_to_itself(place: Path) -> None:
    place.symlink_to(place.name)


def second_name_of_a_private_picture(place: Path) -> None:
    private = place.parents[3] / "zqfolder" / "vehicles" / "zqmaker" / "zq-own.png"
    private.write_bytes(png(wide_px=9, high_px=9))
    os.link(private, place)


def ten_gigabytes(place: Path) -> None:
    with place.open("wb") as file:
        file.write(PNG)
        file.truncate(10_000_000_000)


def pipe(place: Path) -> None:
    os.mkfifo(place)


def folder(place: Path) -> None:
    place.mkdir()


def unreadable(place: Path) -> None:
    place.write_bytes(png(wide_px=9, high_px=9))
    place.chmod(0)
    if os.access(place, os.R_OK):  # the superuser reads everything
        place.unlink()


HARMS = {
    "drawing under another name": written(SVG),
    "page under another name": written(SCRIPT),
    "picture with a script behind": written(png(wide_px=9, high_px=9, behind=SCRIPT)),
    "picture with a script inside": written(png(chunk(b"tEXt", SCRIPT))),
    "script that begins like a picture": written(b"\xff\xd8\xff\xe0/*" + SCRIPT + b"*/=1"),
    "fifty thousand pixels": written(png(wide_px=50_000, high_px=50_000)),
    "four thousand million pixels": written(png(wide_px=2**32 - 1, high_px=2**32 - 1)),
    "no pixels": written(png(wide_px=0, high_px=9)),
    "chunk longer than the file": written(PNG + (2**31).to_bytes(4) + b"IHDR"),
    "webp that states more than it has": written(b"RIFF\xff\xff\xff\xffWEBPVP8 "),
    "nothing": written(b""),
    "link out of the book": link_out,
    "link to a good picture outside": link_to_bare_picture_outside,
    "link to itself": link_to_itself,
    "second name of a private picture": second_name_of_a_private_picture,
    "ten gigabytes": ten_gigabytes,
    "pipe": pipe,
    "folder": folder,
    "unreadable": unreadable,
}


@pytest.fixture
def book(tmp_path: Path) -> Path:
    return shop_book(tmp_path / "book")


def named(book: Path, *files: str) -> Path:
    """The record of a shared car whose photos have these files, and may be shown."""
    (record,) = (book / "shared" / "vehicles").rglob("ostrel-brindle*.yaml")
    text = record.read_text("utf-8")
    start = text.index("photos: []\n")
    rest = "shows: plug A, by: alder-pit-audio, licence: own, consent: yes"
    said = "".join(f"  - {{file: {file}, {rest}}}\n" for file in files)
    record.write_text(f"{text[:start]}photos:\n{said}{text[start + 11 :]}", "utf-8")
    return record


def built(book: Path, site: Path) -> list[Path]:
    done = loombook("build", book, "--public", "--output", site)
    assert done.exception is None or isinstance(done.exception, SystemExit), done.exception
    assert site.exists(), done.output
    return list((site / "photos").rglob("*")) if (site / "photos").exists() else []


def ended_well(*words: object) -> str:
    done = loombook(*words)
    assert done.exception is None or isinstance(done.exception, SystemExit), done.exception
    return done.output


def test_each_is_told_of_and_none_is_published_but_the_good_one(book: Path, tmp_path: Path) -> None:
    names = {harm: f"harm-{at}.jpg" for at, harm in enumerate(HARMS)}
    record = named(book, *names.values(), GOOD)
    (drawn,) = (path.read_bytes() for path in record.parent.glob("*.png"))  # of another car
    for harm, name in names.items():
        HARMS[harm](record.with_name(name))
    record.with_name(GOOD).write_bytes(png(wide_px=8, high_px=8))
    said = ended_well("check", book)
    assert [harm for harm, name in names.items() if f"the photo {name}" not in said] == []
    assert f"photo {GOOD}" not in said
    assert SECRET.decode() not in said
    ended_well("mend", "-b", book / "shared", "--dry-run")
    site = tmp_path / "site"
    shown = [path.read_bytes() for path in built(book, site)]
    assert sorted(shown) == sorted([png(wide_px=8, high_px=8), drawn])
    page = (site / "vehicles" / f"{record.stem}.html").read_text("utf-8")
    assert page.count("<img ") == 1


def test_a_name_that_leads_elsewhere_is_refused(book: Path) -> None:
    files = ["../a.jpg", "/etc/a.jpg", "..\\a.jpg", "x/a.jpg", ".a.jpg"]
    named(book, *(f"'{file}'" for file in files))
    done = loombook("check", book)
    assert done.exit_code == 1
    assert done.output.count("a bare file name that ends in .jpg") == len(files)


def test_a_private_photo_stays_private(book: Path, tmp_path: Path) -> None:
    """The photo of a private record is in the shop's own site and in no public one."""
    private = book / "zqfolder" / "vehicles" / "zqmaker"
    (private / "zqphoto.png").write_bytes(png(wide_px=7, high_px=7))
    names = [path.name for path in private.glob("*.yaml") if "zqphoto.png" in path.read_text()]
    assert names
    content = png(wide_px=7, high_px=7)
    assert content not in [path.read_bytes() for path in built(book, tmp_path / "public")]
    loombook("build", book, "--output", tmp_path / "own")
    assert content in [path.read_bytes() for path in (tmp_path / "own" / "photos").glob("*")]
