"""What is read of a file that somebody gave us: a plain file of a known size, or nothing."""

from __future__ import annotations

import ast
import os
from pathlib import Path

import pytest
from builder_code import name_of, nodes

from builder.loading import FileTooLargeError, read_bounded

HAS_PIPES = hasattr(os, "mkfifo")


def test_a_file_of_just_that_size_is_read_and_one_byte_more_is_not(tmp_path: Path) -> None:
    (tmp_path / "fits").write_bytes(b"x" * 100)
    assert read_bounded(tmp_path / "fits", 100) == b"x" * 100
    with pytest.raises(FileTooLargeError, match="larger than 99 bytes"):
        read_bounded(tmp_path / "fits", 99)
    (tmp_path / "empty").touch()
    assert read_bounded(tmp_path / "empty", 0) == b""


def test_nothing_is_read_of_a_file_that_is_too_large(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    with (tmp_path / "hole").open("wb") as stream:
        stream.truncate(3_000_000_000)
    monkeypatch.setattr(os, "read", lambda number, size: pytest.fail("it was read"))
    with pytest.raises(FileTooLargeError):
        read_bounded(tmp_path / "hole", 1_000_000)


@pytest.mark.skipif(not Path("/proc/self/maps").exists(), reason="no files without a size here")
def test_a_file_that_does_not_tell_its_size_is_read_to_the_limit_only() -> None:
    assert Path("/proc/self/maps").stat().st_size == 0
    with pytest.raises(FileTooLargeError):
        read_bounded(Path("/proc/self/maps"), 100)


@pytest.mark.skipif(not HAS_PIPES, reason="no pipes with names here")
def test_a_pipe_that_takes_the_place_of_a_file_is_not_waited_for(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    os.mkfifo(tmp_path / "pipe")
    with pytest.raises(OSError, match="no plain file"):
        read_bounded(tmp_path / "pipe", 100)
    plain = tmp_path / "plain"
    plain.touch()
    about = plain.stat()
    monkeypatch.setattr(Path, "stat", lambda path: about)  # as it was a moment before
    with pytest.raises(OSError, match="no plain file"):
        read_bounded(tmp_path / "pipe", 100)


@pytest.mark.parametrize("path", ["/dev/zero", "/dev/stdin", "/"])
def test_a_device_or_a_folder_is_no_file(path: str) -> None:
    with pytest.raises(OSError):
        read_bounded(Path(path), 100)


READERS = {
    "data_files": "where the package's own files are",
    "declared_files/__main__": "the project's own schemas and templates",
    "declared_files/files": "the project's own schemas and templates",
    "bounded_file": "the one door",
    "pipeline/changing/starting": "the package's own files",
    "pipeline/changing/evidence_files": "bytes that were read before",
    "pipeline/site/open_data": "the package's schemas",
    "pipeline/site/reference_pages": "the package's schemas",
    "pipeline/site/building": "the package's worker",
    "pipeline/site/site_writer": "writes the site",
    "rendering/licences": "licences of the installed packages",
    "rendering/links": "the site that was just built",
    "rendering/shell": "the package's theme, and the shell that was just built",
    "rendering/standing_site": "the site that stands from the last build",
    "rendering/styles": "the package's theme",
    "rendering/writing": "makes files of the site",
    "rendering/zipping": "the site that was just built",
    "cli/site_server": "the site that was just built",
    "cli/extra_packages": "what an installer wrote of this package",
    "schema_check/schemas": "the package's schemas",
    "store/kept_rows": "makes the file that lets git ignore it",
    "store/own_key": "the user's own key, by its length and one byte at most",
    "spreadsheets/xlsx_reading": "bytes that were read before",
    "spreadsheets/xlsx_safety": "bytes that were read before",
}
READING = {"read_bytes", "read_text", "open", "copyfile", "copy", "ZipFile", "load_workbook"}


def test_no_other_module_reads_what_somebody_gave_us() -> None:
    found = set()
    for path, node in nodes():
        if isinstance(node, ast.Call) and _reads(node.func):
            found.add(name_of(path).removesuffix(".py"))
    assert found <= set(READERS), "read it with builder.loading.read_bounded"


def _reads(called: ast.expr) -> bool:
    """A call of a method that opens a file, but for `os.open`, whose users write."""
    if isinstance(called, ast.Name):
        return called.id in READING - {"read_text"}  # a function of that name reads an answer
    if not isinstance(called, ast.Attribute) or called.attr not in READING:
        return False
    return not (isinstance(called.value, ast.Name) and called.value.id in {"os", "copy"})
