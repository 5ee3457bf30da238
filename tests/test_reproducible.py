"""The same records make the same bytes, in whatever order the disk gives the files."""

from __future__ import annotations

import shutil
from pathlib import Path

from shipped_book import PINOUTS, loombook

from builder.store.kept_rows import FOLDER as TOOL_FOLDER


def tree(folder: Path) -> dict[str, bytes]:
    return {
        path.relative_to(folder).as_posix(): path.read_bytes()
        for path in folder.rglob("*")
        if path.is_file()
    }


def test_two_builds_are_the_same_to_the_byte(shipped_site, tmp_path):
    # Copied file by file in the opposite order, so that directories list differently.
    kept = (p for p in PINOUTS.rglob("*") if p.is_file() and TOOL_FOLDER not in p.parts)
    for path in sorted(kept, reverse=True):
        place = tmp_path / "pinouts" / path.relative_to(PINOUTS)
        place.parent.mkdir(parents=True, exist_ok=True)
        shutil.copyfile(path, place)
    done = loombook("build", tmp_path / "pinouts", "--output", tmp_path / "site")
    assert done.exit_code == 0, done.output
    assert tree(tmp_path / "site") == tree(shipped_site)


def test_a_failing_build_leaves_the_old_site(small_book, tmp_path):
    site = tmp_path / "site"
    assert loombook("build", small_book, "--output", site).exit_code == 0
    before = tree(site)
    (small_book / "vehicles" / "ostrel" / "broken.yaml").write_text("id: [", "utf-8")
    assert loombook("build", small_book, "--output", site).exit_code == 1
    assert tree(site) == before


def test_a_folder_that_is_no_site_is_never_replaced(small_book, tmp_path):
    folder = tmp_path / "photos"
    folder.mkdir()
    (folder / "holiday.jpg").write_bytes(b"x")
    done = loombook("build", small_book, "--output", folder)
    assert done.exit_code == 2
    assert (folder / "holiday.jpg").read_bytes() == b"x"
