"""A site is swapped in whole, or the old one stays."""

from __future__ import annotations

from pathlib import Path

import pytest

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
