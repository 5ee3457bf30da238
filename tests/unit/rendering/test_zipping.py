"""A site as one zip: reproducible, whole or not at all."""

from __future__ import annotations

import os
from pathlib import Path
from zipfile import ZipFile

import pytest

from builder.rendering.writing import MARK, fresh_site, write_files
from builder.rendering.zipping import FOLDER, write_zip

FILES = [("index.html", b"<h1>x</h1>"), ("vehicles/a.html", b"a"), ("assets/x.css", b"b{}")]


def site(folder: Path, files: list[tuple[str, bytes]]) -> Path:
    with fresh_site(folder) as fresh:
        write_files(fresh, files)
    return folder


def test_the_same_site_gives_the_same_bytes_whenever_it_was_built(tmp_path: Path) -> None:
    one, other = site(tmp_path / "one", FILES), site(tmp_path / "other", FILES[::-1])
    for path in other.rglob("*"):
        os.utime(path, (1_000_000_000, 1_000_000_000))
        path.chmod(0o700)
    write_zip(one, tmp_path / "one.zip")
    write_zip(other, tmp_path / "other.zip")
    assert (tmp_path / "one.zip").read_bytes() == (tmp_path / "other.zip").read_bytes()


def test_everything_of_the_site_is_in_it_in_one_folder(tmp_path: Path) -> None:
    size = write_zip(site(tmp_path / "site", FILES), tmp_path / "deep" / "site.zip")
    assert size == (tmp_path / "deep" / "site.zip").stat().st_size
    with ZipFile(tmp_path / "deep" / "site.zip") as zipped:
        assert {n: zipped.read(f"{FOLDER}/{n}") for n, _ in FILES} == dict(FILES)
        assert len(zipped.namelist()) == len(FILES)
        assert MARK not in " ".join(zipped.namelist())


def test_a_zip_that_cannot_be_finished_leaves_the_old_one(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    built = site(tmp_path / "site", FILES)
    write_zip(built, tmp_path / "site.zip")
    before = (tmp_path / "site.zip").read_bytes()

    def fail(*arguments: object) -> None:
        raise OSError("disk full")

    monkeypatch.setattr(ZipFile, "writestr", fail)
    with pytest.raises(OSError, match="disk full"):
        write_zip(built, tmp_path / "site.zip")
    assert (tmp_path / "site.zip").read_bytes() == before
    assert sorted(path.name for path in tmp_path.iterdir()) == ["site", "site.zip"]


@pytest.mark.parametrize("target", ["site/book.zip", "site", "folder"])
def test_a_place_that_can_hold_no_zip_is_refused(tmp_path: Path, target: str) -> None:
    built = site(tmp_path / "site", FILES)
    (tmp_path / "folder").mkdir()
    with pytest.raises(ValueError, match="name"):
        write_zip(built, tmp_path / target)
    assert not (built / "book.zip").exists()
