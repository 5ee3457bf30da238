"""Writing record files: killed or failing at any step, the old file or the new, never half."""

from __future__ import annotations

import errno
from pathlib import Path
from unittest import mock

import pytest
from killing import killed_at, stopped_at

from builder.pipeline.changing.record_files import (
    ChangedMeanwhileError,
    clear_left_behind,
    create_new,
    read_text,
    replace_text,
)

OLD = "a: old\r\n# comment\r\n"
NEW = "\ufeffa: new\n" + "# long\n" * 5000


def read_by_a_check(folder: Path) -> dict[str, bytes]:
    return {str(path): path.read_bytes() for path in folder.rglob("*.y*ml") if path.is_file()}


def names(folder: Path) -> list[str]:
    """Everything in a folder, hidden files too."""
    return sorted(path.name for path in folder.iterdir())


def fail() -> None:
    raise OSError(errno.ENOSPC, "no space left on the disk")


def test_a_replaced_file_is_the_old_or_the_new_whenever_it_is_killed(tmp_path):
    path = tmp_path / "record.yaml"
    seen = set()
    number = 1
    while True:
        path.write_bytes(OLD.encode())
        killed = killed_at(number, lambda: replace_text(path, OLD, NEW))
        found = read_by_a_check(tmp_path)
        assert list(found) == [str(path)]
        assert found[str(path)] in (OLD.encode(), NEW.encode())
        seen.add(found[str(path)])
        if not killed:
            break
        number += 1
    assert number > 5
    assert seen == {OLD.encode(), NEW.encode()}


def test_a_new_file_is_whole_or_not_there_whenever_it_is_killed(tmp_path):
    number, seen = 1, set()
    while True:
        folder = tmp_path / str(number)
        path = folder / "make" / "record.yaml"
        killed = killed_at(number, lambda path=path: create_new(path, NEW))
        found = read_by_a_check(tmp_path / str(number))
        assert set(found.values()) <= {NEW.encode()}
        seen.add(bool(found))
        if not killed:
            break
        number += 1
    assert number > 5
    assert seen == {False, True}


@pytest.mark.parametrize("number", range(1, 12))
def test_an_error_at_any_step_leaves_the_old_file_and_no_litter(tmp_path, number):
    path = tmp_path / "record.yaml"
    path.write_bytes(OLD.encode())
    try:
        with stopped_at(number, fail, ("open", "write", "fsync", "replace", "chmod")):
            replace_text(path, OLD, NEW)
    except OSError:
        assert path.read_bytes() == OLD.encode()
    else:
        assert path.read_bytes() == NEW.encode()
    assert names(tmp_path) == ["record.yaml"]


@pytest.mark.parametrize("number", range(1, 10))
def test_an_error_at_any_step_of_a_new_file_leaves_nothing(tmp_path, number):
    path = tmp_path / "record.yaml"
    try:
        with stopped_at(number, fail, ("open", "write", "fsync")):
            create_new(path, NEW)
    except OSError:
        assert names(tmp_path) == []
    else:
        assert read_text(path) == NEW


def test_what_a_kill_left_behind_is_cleared_and_nothing_else(tmp_path):
    path = tmp_path / "make" / "record.yaml"
    path.parent.mkdir()
    path.write_bytes(OLD.encode())
    killed = 0
    for number in range(2, 6):
        killed += killed_at(number, lambda: replace_text(path, OLD, NEW))
    others = ["notes.tmp", ".record.yaml.tmp", ".record.yaml.0123456789ab.tmp.yaml"]
    for name in others:
        (path.parent / name).write_text("mine", "utf-8")
    assert killed == 4 and len(names(path.parent)) > 4
    with mock.patch("os.fsync", lambda number: clear_left_behind([tmp_path])):
        replace_text(path, OLD, NEW)  # what another is just writing is left alone
    assert read_text(path) == NEW
    assert names(path.parent) == sorted([*others, "record.yaml"])


def test_a_killed_new_file_is_in_nobodys_way(tmp_path):
    path = tmp_path / "sheet.yaml"
    assert killed_at(3, lambda: create_new(path, NEW))
    assert names(tmp_path) != []
    create_new(path, NEW)
    assert names(tmp_path) == ["sheet.yaml"]


def test_nothing_is_ever_overwritten(tmp_path):
    path = tmp_path / "record.yaml"
    path.write_text("mine")
    with pytest.raises(FileExistsError):
        create_new(path, NEW)
    (tmp_path / "dangling.yaml").symlink_to(tmp_path / "nowhere")
    with pytest.raises(FileExistsError):
        create_new(tmp_path / "dangling.yaml", NEW)
    with mock.patch("os.path.lexists", return_value=False), pytest.raises(FileExistsError):
        create_new(path, NEW)  # made by somebody else between the look and the link
    assert path.read_text() == "mine"
    assert names(tmp_path) == ["dangling.yaml", "record.yaml"]


def test_a_disk_without_links_still_never_overwrites(tmp_path):
    def no_links(*args: object, **options: object) -> None:
        raise OSError(errno.EPERM, "no links here")

    path = tmp_path / "record.yaml"
    with mock.patch("os.link", no_links):
        create_new(path, NEW)
        assert read_text(path) == NEW
        with mock.patch("os.path.lexists", return_value=False), pytest.raises(FileExistsError):
            create_new(path, "other")
    assert read_text(path) == NEW
    assert names(tmp_path) == ["record.yaml"]


def test_what_somebody_else_changed_is_left_alone(tmp_path):
    path = tmp_path / "record.yaml"
    path.write_text("theirs")
    with pytest.raises(ChangedMeanwhileError):
        replace_text(path, OLD, NEW)
    assert path.read_text() == "theirs"
    assert names(tmp_path) == ["record.yaml"]


def test_permissions_and_links_stay(tmp_path):
    real, link = tmp_path / "real.yaml", tmp_path / "link.yaml"
    real.write_bytes(OLD.encode())
    real.chmod(0o640)
    link.symlink_to(real)
    replace_text(link, OLD, NEW)
    assert link.is_symlink() and read_text(real) == NEW
    assert real.stat().st_mode & 0o777 == 0o640
