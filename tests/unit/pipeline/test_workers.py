"""Work in several processes: in order, and with an end also when one of them is ended."""

from __future__ import annotations

import os
import signal

import pytest
from shipped_book import PINOUTS, loombook

from builder.pipeline.checking import workers


@pytest.fixture(autouse=True)
def two_processes(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(workers, "WORTH_FORKING", 1)
    monkeypatch.setattr(os, "cpu_count", lambda: 2)


def test_what_comes_back_is_in_order_and_was_worked_elsewhere() -> None:
    found = list(workers.map_files(lambda item: (item, os.getpid()), range(100)))
    assert [item for item, _ in found] == list(range(100))
    assert os.getpid() not in {process for _, process in found}


def ends_at_forty(item: int) -> int:
    if item == 40:
        os.kill(os.getpid(), signal.SIGKILL)
    return item


def test_a_worker_that_the_system_ends_ends_the_work_with_a_sentence() -> None:
    with pytest.raises(workers.WorkerEndedError, match="short of memory"):
        list(workers.map_files(ends_at_forty, range(100)))


def test_a_command_says_so(monkeypatch: pytest.MonkeyPatch) -> None:
    def ended(*_: object) -> None:
        os.kill(os.getpid(), signal.SIGKILL)

    monkeypatch.setattr("builder.pipeline.checking.kept_vehicles.check_vehicle", ended)
    done = loombook("check", PINOUTS, "--no-store")
    assert done.exit_code == 1 and "a working process was ended" in done.output
