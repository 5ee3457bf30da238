"""What killed work leaves behind is removed by the next, and what is being worked in is not."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from pathlib import Path

import pytest
from shipped_book import loombook

from builder import unfinished
from builder.rendering.writing import exchange, fresh_site, put_back, write_text
from builder.rendering.zipping import write_zip
from builder.unfinished import held_file, held_folder, work_folder

pytestmark = pytest.mark.skipif(os.name != "posix", reason="needs fork, SIGKILL and locks")


def names(folder: Path) -> list[str]:
    return sorted(path.name for path in folder.iterdir())


def killed_in(work: Callable[[], object]) -> None:
    """Do the work in a child, which kills itself before the work's blocks are left."""
    child = os.fork()
    if child == 0:
        try:
            work()
        finally:
            os._exit(3)
    assert os.WIFSIGNALED(os.waitpid(child, 0)[1])


def die() -> None:
    os.kill(os.getpid(), signal.SIGKILL)


def build(site: Path, words: str, then: Callable[[], object] = lambda: None) -> None:
    with fresh_site(site) as folder:
        write_text(folder, "index.html", words)
        then()


def test_what_a_killed_build_left_is_removed_by_the_next(tmp_path: Path) -> None:
    site = tmp_path / "site"
    build(site, "old")
    killed_in(lambda: build(site, "half", die))
    assert len(names(tmp_path)) == 2 and (site / "index.html").read_text("utf-8") == "old"
    build(site, "new")
    assert names(tmp_path) == ["site"]


def test_what_another_build_works_in_is_left_alone(tmp_path: Path) -> None:
    site = tmp_path / "site"
    with fresh_site(site) as first:
        write_text(first, "index.html", "first")
        build(site, "second")
        assert first.is_dir()
        assert (site / "index.html").read_text("utf-8") == "second"
    assert (site / "index.html").read_text("utf-8") == "first"
    assert names(tmp_path) == ["site"]


def test_what_a_build_in_another_process_works_in_is_left_alone(tmp_path: Path) -> None:
    script = (
        "import sys, time; from pathlib import Path; from builder.rendering.writing import *\n"
        "with fresh_site(Path(sys.argv[1])) as folder:\n"
        "    write_text(folder, 'index.html', 'slow'); print('in', flush=True); input()\n"
    )
    site = tmp_path / "site"
    slow = subprocess.Popen(
        [sys.executable, "-c", script, str(site)],
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        text=True,
    )
    assert slow.stdout is not None and slow.stdout.readline() == "in\n"
    build(site, "quick")
    assert len(names(tmp_path)) == 2
    slow.communicate("\n")
    assert slow.returncode == 0 and (site / "index.html").read_text("utf-8") == "slow"


def test_folders_of_others_with_a_like_name_are_left_alone(tmp_path: Path) -> None:
    mine = (".site-new-abcd1234", ".site.loombook-new-", ".site.loombook-new-abcd12345")
    for name in (*mine, ".other.loombook-new-abcd1234"):
        (tmp_path / name).mkdir()
    (tmp_path / "elsewhere").mkdir()
    (tmp_path / ".site.loombook-new-abcd1234").symlink_to(tmp_path / "elsewhere")
    before = names(tmp_path)
    build(tmp_path / "site", "new")
    assert names(tmp_path) == sorted([*before, "site"])


def test_a_half_zip_is_removed_by_the_next(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    build(tmp_path / "site", "one")

    def half() -> None:
        with held_file(tmp_path, ".site.zip.loombook-new-") as unready:
            unready.write_bytes(b"PK half")
            die()

    killed_in(half)
    assert len(names(tmp_path)) == 2
    write_zip(tmp_path / "site", tmp_path / "site.zip")
    assert names(tmp_path) == ["site", "site.zip"]


def test_work_folders_of_killed_commands_are_removed_by_the_next(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(tempfile, "tempdir", str(tmp_path))

    def works() -> None:
        with work_folder() as folder:
            (folder / "half.txt").write_text("half", "utf-8")
            die()

    killed_in(works)
    assert len(names(tmp_path)) == 1
    with work_folder() as one, work_folder() as two:
        assert names(tmp_path) == sorted([one.name, two.name])
    assert names(tmp_path) == []


def test_a_command_leaves_nothing_in_the_place_for_temporary_things(
    small_book: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (tmp_path / "tmp").mkdir()
    monkeypatch.setattr(tempfile, "tempdir", str(tmp_path / "tmp"))
    for arguments in (["build", small_book, "-o", tmp_path / "site"], ["mend", small_book]):
        assert loombook(*arguments).exit_code == 0
        assert names(tmp_path / "tmp") == []


def test_an_old_site_that_a_kill_left_aside_is_put_back(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    site = tmp_path / "site"
    build(site, "old")
    monkeypatch.setattr("builder.rendering.writing.exchange", lambda one, other: False)
    rename = Path.rename

    def killed_at_the_second(self: Path, target: Path) -> Path:
        if ".loombook-new-" in self.name:
            die()
        return rename(self, target)

    def two_steps() -> None:
        monkeypatch.setattr(Path, "rename", killed_at_the_second)
        build(site, "new")

    killed_in(two_steps)
    assert not site.exists()
    put_back(site)
    assert (site / "index.html").read_text("utf-8") == "old"
    build(site, "new")
    assert names(tmp_path) == ["site"]


def test_where_there_are_no_locks_only_what_is_old_is_removed(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def none(number: int) -> bool:
        raise OSError("no locks here")

    monkeypatch.setattr(unfinished, "locked", none)
    young, old = tmp_path / ".x-abcd1234", tmp_path / ".x-abcd5678"
    young.mkdir()
    old.mkdir()
    long_ago = time.time() - unfinished.STALE_S - 60
    os.utime(old, (long_ago, long_ago))
    with held_folder(tmp_path, ".x-") as folder:
        assert names(tmp_path) == sorted([young.name, folder.name])


def test_workers_of_a_killed_build_end_with_it(tmp_path: Path) -> None:
    """They would wait for ever, and hold the folder that the next build is to remove."""
    script = (
        "import os, signal, sys, time; from builder.pipeline.checking import workers\n"
        "workers.WORTH_FORKING = 1; os.cpu_count = lambda: 2\n"
        "def work(item):\n"
        "    open(sys.argv[1] + str(os.getpid()), 'w').close(); time.sleep(0.2)\n"
        "    if item == 20: os.kill(os.getppid(), signal.SIGKILL)\n"
        "for each in workers.map_files(work, range(2000)): pass\n"
    )
    done = subprocess.run([sys.executable, "-c", script, f"{tmp_path}/"], check=False)
    assert done.returncode == -signal.SIGKILL
    workers = [int(name) for name in names(tmp_path)]
    assert len(workers) == 2
    end = time.monotonic() + 20
    while alive := [each for each in workers if is_alive(each)]:
        assert time.monotonic() < end, f"{alive} work on"
        time.sleep(0.1)


def is_alive(process: int) -> bool:
    try:
        os.kill(process, 0)
    except ProcessLookupError:
        return False
    state = Path(f"/proc/{process}/stat")
    return not (state.exists() and state.read_text("utf-8").rpartition(")")[2].split()[0] == "Z")


def test_a_swap_leaves_the_lock_on_what_is_the_site_now(tmp_path: Path) -> None:
    """A second build that looks for left-overs right then may take the old site, never the new."""
    build(tmp_path / "site", "old")
    with held_folder(tmp_path, ".site.loombook-new-") as fresh:
        (fresh / "index.html").write_text("new", "utf-8")
        if not exchange(fresh, tmp_path / "site"):
            pytest.skip("this disk has no such step")
        unfinished.clear(tmp_path, unfinished.re.compile(r"\.site\.loombook-new-.*"))
        assert (tmp_path / "site" / "index.html").read_text("utf-8") == "new"
    assert names(tmp_path) == ["site"]
