"""Ctrl-C at any moment: no traceback, exit code 130, and files that belong together are so."""

from __future__ import annotations

import os
import shutil
import signal
import sys
import threading
import time
from pathlib import Path

import click
import forked
import pytest
from identify_sessions import Terminal
from shipped_book import PINOUTS, loombook
from test_killed_commands import (
    damaged_mend,
    evidence,
    left_behind,
    new_vehicle,
    read_by_a_check,
    signalling,
)

from builder.__main__ import run
from builder.cli.exit_codes import STOPPED, is_stopped
from builder.pipeline.checking.workers import WORTH_FORKING, map_files
from builder.unfinished import undisturbed

pytestmark = pytest.mark.skipif(os.name != "posix", reason="needs fork and signals")


@pytest.fixture(autouse=True)
def heard():
    """Ctrl-C is heard here also when a shell has begun the tests in the background: deaf to it."""
    before = signal.signal(signal.SIGINT, signal.default_int_handler)
    yield
    signal.signal(signal.SIGINT, before)


def begin(book: Path) -> list[str]:
    (book / "jobs").mkdir()
    shutil.copy(PINOUTS / "jobs" / "tansy-subwoofer.yaml", book / "jobs")
    return ["begin", "tansy-subwoofer", "--by", "quayside-fitters", "-b", str(book)]


def files_of(book: Path) -> dict[str, bytes]:
    """Records, and what stands beside a job that is begun."""
    beside = {str(path): path.read_bytes() for path in book.rglob("*.begun.json")}
    return {**read_by_a_check(book), **beside}


@pytest.mark.parametrize("prepared", [evidence, begin, new_vehicle])
def test_a_writing_command_stopped_at_any_change_has_written_all_or_nothing(
    small_book, tmp_path, prepared
):
    (small_book / "housings" / "block-c-20.yaml").unlink()  # one housing of twenty is left
    arguments = prepared(small_book)
    kept = tmp_path / "kept"
    shutil.copytree(small_book, kept)
    old = files_of(small_book)
    done = loombook(*arguments)
    new = files_of(small_book)
    assert new != old, done.output
    codes, number = [], 1
    while not codes or codes[-1] == STOPPED:
        shutil.rmtree(small_book)
        shutil.copytree(kept, small_book)
        hook = signalling(small_book, number, signal.SIGINT)
        ended = forked.command(*arguments, before=lambda hook=hook: sys.addaudithook(hook))
        assert "Traceback" not in ended.stderr
        assert files_of(small_book) in (old, new), f"at change {number}: {ended.stderr}"
        assert left_behind(small_book) == []
        codes.append(ended.returncode)
        number += 1
    assert codes[-1] == done.exit_code and len(codes) > 2


def test_mend_stopped_leaves_each_record_old_or_mended(small_book):
    arguments = damaged_mend(small_book)
    hook = signalling(small_book, 2, signal.SIGINT)
    ended = forked.command(*arguments, before=lambda: sys.addaudithook(hook))
    assert (ended.returncode, "Traceback" in ended.stderr) == (STOPPED, False)
    assert left_behind(small_book) == []
    assert loombook("mend", small_book).exit_code == 0


def test_processes_that_work_for_a_command_end_with_it_and_say_nothing(tmp_path):
    errors = tmp_path / "errors"
    begun = time.monotonic()
    with errors.open("wb") as place, Path(os.devnull).open("wb") as nowhere:
        child = forked.start(_map_slowly, nowhere.fileno(), place.fileno())
        while not _children(child) and time.monotonic() - begun < 30:
            time.sleep(0.02)
        time.sleep(0.1)
        os.killpg(child, signal.SIGINT)
        status = os.waitpid(child, 0)[1]
    assert os.waitstatus_to_exitcode(status) == STOPPED
    assert errors.read_bytes() == b""
    assert time.monotonic() - begun < 30 < WORTH_FORKING


def _map_slowly() -> None:
    """A minute of work for each of two processes."""
    try:
        list(map_files(lambda item: time.sleep(1), range(2 * WORTH_FORKING)))
    except KeyboardInterrupt:
        sys.exit(STOPPED)


def _children(process: int) -> list[str]:
    return Path(f"/proc/{process}/task/{process}/children").read_text("utf-8").split()


@pytest.mark.parametrize(
    ("asked", "prompt"),
    [
        (("identify",), ">"),
        (("new", "cable"), ":"),
        (("which", "quillan", "lovage", "--ask"), ">"),
        (("comeback", "tansy-subwoofer", "dead"), "it reads"),
    ],
    ids=lambda given: " ".join(given) if isinstance(given, tuple) else "",
)
@pytest.mark.parametrize(("key", "code"), [("\x03", STOPPED), ("\x04", 1)], ids=["C", "D"])
def test_at_a_question_ctrl_c_stops_and_ctrl_d_ends_the_questions(asked, prompt, key, code):
    terminal = Terminal(*asked, "--book", str(PINOUTS))
    terminal.until_printed(prompt)
    terminal.press(key)
    assert terminal.close() == code
    assert "Traceback" not in terminal.seen


def test_a_command_that_is_still_being_loaded_ends_as_well(monkeypatch):
    def stop(*arguments: object) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr(click.Group, "parse_args", stop)
    monkeypatch.setattr(signal, "signal", lambda *given: None)  # of this process: not to be deaf
    with pytest.raises(SystemExit) as ended:
        run()
    assert ended.value.code == STOPPED


def test_an_error_of_another_kind_is_no_ctrl_c():
    assert not is_stopped(ValueError()) and not is_stopped(None)


def test_ctrl_c_waits_for_the_outermost_block():
    done = []
    with pytest.raises(KeyboardInterrupt), undisturbed():
        with undisturbed():
            os.kill(os.getpid(), signal.SIGINT)
            done.append("inner")
        done.append("outer")
    assert done == ["inner", "outer"]
    assert signal.getsignal(signal.SIGINT) is signal.default_int_handler


def test_where_ctrl_c_is_not_heard_nothing_is_changed():
    heard = []

    def work() -> None:
        with undisturbed():
            heard.append(signal.getsignal(signal.SIGINT))

    thread = threading.Thread(target=work)
    thread.start()
    thread.join()
    assert heard == [signal.default_int_handler]
