"""A site is swapped in whole, or the old one stays."""

from __future__ import annotations

import hashlib
import sys
from pathlib import Path

import pytest

from builder.rendering import writing
from builder.rendering.writing import fresh_site, make_folders, write_files, write_text


def build(site: Path, words: str) -> None:
    with fresh_site(site) as folder:
        write_text(folder, "index.html", words)


def neighbours(site: Path) -> list[str]:
    return sorted(path.name for path in site.parent.iterdir())


def test_a_first_build_makes_the_folder(tmp_path: Path) -> None:
    site = tmp_path / "out" / "site"
    build(site, "one")
    assert (site / "index.html").read_text("utf-8") == "one"
    assert neighbours(site) == ["site"]


def test_a_second_build_replaces_everything(tmp_path: Path) -> None:
    site = tmp_path / "site"
    build(site, "one")
    (site / "left-over.html").write_text("old", "utf-8")
    build(site, "two")
    assert (site / "index.html").read_text("utf-8") == "two"
    assert not (site / "left-over.html").exists()
    assert neighbours(site) == ["site"]


def test_a_failed_build_leaves_the_old_site(tmp_path: Path) -> None:
    site = tmp_path / "site"
    build(site, "one")
    with pytest.raises(ZeroDivisionError), fresh_site(site) as folder:
        write_text(folder, "index.html", "half")
        raise ZeroDivisionError
    assert (site / "index.html").read_text("utf-8") == "one"
    assert neighbours(site) == ["site"]


def test_the_old_site_stands_until_the_new_one_is_whole(tmp_path: Path) -> None:
    site = tmp_path / "site"
    build(site, "one")
    with fresh_site(site) as folder:
        write_text(folder, "index.html", "two")
        assert (site / "index.html").read_text("utf-8") == "one"


def test_a_failed_swap_puts_the_old_site_back(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    site = tmp_path / "site"
    build(site, "one")
    rename = Path.rename

    def refuse_new(self: Path, target: Path) -> Path:
        if "-new-" in self.name:
            raise OSError("no")
        return rename(self, target)

    monkeypatch.setattr(writing, "exchange", lambda one, other: False)
    monkeypatch.setattr(Path, "rename", refuse_new)
    with pytest.raises(OSError, match="no"):
        build(site, "two")
    monkeypatch.undo()
    assert (site / "index.html").read_text("utf-8") == "one"
    assert neighbours(site) == ["site"]


def test_a_folder_of_somebody_else_is_refused(tmp_path: Path) -> None:
    (tmp_path / "photos").mkdir()
    (tmp_path / "photos" / "a.jpg").write_bytes(b"x")
    with pytest.raises(FileExistsError, match="was not made by loombook"):
        build(tmp_path / "photos", "one")
    assert (tmp_path / "photos" / "a.jpg").exists()
    (tmp_path / "file").write_text("x", "utf-8")
    with pytest.raises(FileExistsError, match="is a file"):
        build(tmp_path / "file", "one")


def test_an_empty_folder_is_taken(tmp_path: Path) -> None:
    (tmp_path / "site").mkdir()
    build(tmp_path / "site", "one")
    assert (tmp_path / "site" / "index.html").exists()


def test_text_is_written_with_plain_newlines_in_folders_made_once(tmp_path: Path) -> None:
    make_folders(tmp_path, ["index.html", "a/b.html", "data/vehicles/x.json"])
    write_text(tmp_path, "a/b.html", "ä\nb\n")
    write_files(tmp_path, [("deep/er/x.bin", b"\x00")])
    assert (tmp_path / "a" / "b.html").read_bytes() == b"\xc3\xa4\nb\n"
    assert (tmp_path / "deep" / "er" / "x.bin").read_bytes() == b"\x00"
    assert (tmp_path / "data" / "vehicles").is_dir()


@pytest.mark.parametrize("in_one_step", [True, False])
def test_a_swap_replaces_the_old_site_with_or_without_the_help_of_the_system(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, in_one_step: bool
) -> None:
    if not in_one_step:
        monkeypatch.setattr(writing, "exchange", lambda one, other: False)
    build(tmp_path / "site", "one")
    build(tmp_path / "site", "two")
    assert (tmp_path / "site" / "index.html").read_text("utf-8") == "two"
    assert neighbours(tmp_path / "site") == ["site"]


@pytest.mark.skipif(sys.platform != "linux", reason="only there is the step always to be had")
def test_the_place_of_the_site_is_never_empty(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    site = tmp_path / "site"
    build(site, "one")
    renamed: list[Path] = []
    monkeypatch.setattr(Path, "rename", lambda self, target: renamed.append(self))
    build(site, "two")
    assert renamed == []
    assert (site / "index.html").read_text("utf-8") == "two"


def test_nothing_happens_when_folders_cannot_change_names(tmp_path: Path) -> None:
    (tmp_path / "one").mkdir()
    assert not writing.exchange(tmp_path / "one", tmp_path / "missing")
    assert (tmp_path / "one").is_dir()


def test_what_was_written_is_told_with_its_sum(tmp_path: Path) -> None:
    told = write_text(tmp_path, "a.html", "ä")
    assert told == ("a.html", 2, hashlib.sha256("ä".encode()).hexdigest())
    assert write_files(tmp_path, [("b/c.txt", b"x")])[0][:2] == ("b/c.txt", 1)
