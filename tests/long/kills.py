"""Kill commands at random moments, and look at what is left: all old or all new, never half.

    python tests/long/kills.py --kills 100
    python tests/long/kills.py --kills 20 --only build --seed 3

Each command runs in a process group of its own that gets SIGKILL at a moment spread evenly over
its run, from where its modules are loaded to a little beyond its end. After each kill the records
and the site must be those of before or those of after, file by file, and the order in which a
command writes several records must hold. What was left lying about is found by the next run of
the same command, which must complete the work and leave nothing but the work. Exit code 1 when
anything of that does not hold.
"""

from __future__ import annotations

import argparse
import os
import random
import shutil
import signal
import sys
import tempfile
import time
from collections.abc import Callable, Sequence
from contextlib import suppress
from dataclasses import dataclass, field
from pathlib import Path
from typing import NamedTuple

TESTS = Path(__file__).resolve().parents[1]
sys.path[:0] = [str(TESTS), str(TESTS / "unit" / "pipeline")]

import forked  # noqa: E402
from shipped_book import FOLDERS_OF_PARTS, PINOUTS  # noqa: E402
from shipped_cars import copy_makers  # noqa: E402
from test_killed_commands import (  # noqa: E402
    damaged_mend,
    evidence,
    imported,
    new_vehicle,
    untidy_tidy,
)

from builder.cli import main as main_command  # noqa: E402
from builder.rendering.shell import build_theme  # noqa: E402
from builder.store import FOLDER  # noqa: E402

BEYOND = 1.05
"""How far beyond the length of an undisturbed run the kills are spread."""

Files = dict[str, bytes]


def build(book: Path) -> list[str]:
    """A build over the site of the book before a change, with a zip beside it."""
    arguments = ["build", str(book), "-o", str(book.parent / "site")]
    arguments += ["--zip", str(book.parent / "a.zip")]
    assert forked.command(*arguments).returncode == 0
    record = next((book / "vehicles").rglob("ostrel-tansy-2017-hatch-base.yaml"))
    text = record.read_text("utf-8")
    assert "\nvariant: " in text
    record.write_text(text.replace("\nvariant: ", "\nvariant: another "), "utf-8")
    return arguments


COMMANDS: dict[str, Callable[[Path], list[str]]] = {
    "build": build,
    "new": new_vehicle,
    "import": imported,
    "evidence add": evidence,
    "mend": damaged_mend,
    "tidy": untidy_tidy,
}


class Kill(NamedTuple):
    """What one kill met: whether the command still ran, and what was there afterwards."""

    met: bool
    state: str  # "old", "new", "between" (some of several records), or "half"
    litter: int  # files and folders left lying about


@dataclass
class Count:
    """The kills of one command, and what was wrong."""

    kills: list[Kill] = field(default_factory=list)
    faults: list[str] = field(default_factory=list)

    def line(self, name: str) -> str:
        states = [kill.state for kill in self.kills]
        told = ", ".join(f"{states.count(each)} {each}" for each in ("old", "new", "between"))
        met = sum(kill.met for kill in self.kills)
        litter = sum(kill.litter > 0 for kill in self.kills)
        return (
            f"{name:13} {len(states)} kills, {met} of them before its end: {told}, "
            f"{states.count('half')} half; {litter} left something, cleared by the next run; "
            f"{len(self.faults)} faults"
        )


def prepared_book(home: Path) -> Path:
    """A writable book of one well-proved vehicle and all parts."""
    book = home / "book"
    for kind in FOLDERS_OF_PARTS:
        shutil.copytree(PINOUTS / kind, book / kind)
    copy_makers(book, "ostrel")
    (book / "housings" / "block-c-20.yaml").unlink()  # one housing of twenty is left
    return book


def is_litter(path: Path) -> bool:
    """Whether something is neither a record, nor of a site, nor a zip."""
    return ".loombook-new-" in path.name or ".loombook-old-" in path.name or path.suffix == ".tmp"


def litter_in(home: Path) -> list[Path]:
    """What lies about beside records and sites, and in the place for temporary things."""
    found = [path for path in home.rglob("*") if is_litter(path)]
    return found + list((home / "tmp").glob("loombook-*"))


def files_in(home: Path) -> Files:
    """Every file that somebody would read: records, the site, the zip."""
    found = {}
    for path in home.rglob("*"):
        name = path.relative_to(home)
        of_somebody = name.parts[0] == "tmp" or any(map(is_litter, (name, *name.parents)))
        of_somebody = of_somebody or FOLDER in name.parts  # of nobody: a store is never the truth
        if path.is_file() and not of_somebody:
            found[name.as_posix()] = path.read_bytes()
    return found


def run_for(arguments: Sequence[str], home: Path, seconds: float | None) -> tuple[bool, float]:
    """Run a command, killed after so long; whether it was, and its length in s.

    It is forked, so that the kills fall into its work and not before it.
    """

    def work() -> None:
        os.environ["TMPDIR"] = str(home / "tmp")
        tempfile.tempdir = None  # to be found anew: this process may know another place
        build_theme.cache_clear()  # what was built before the fork would be no work of the command
        main_command(list(arguments))

    main_command.commands[arguments[0]]  # loaded before the fork
    with Path(os.devnull).open("w") as nowhere:
        begun = time.monotonic()
        child = forked.start(work, nowhere.fileno(), nowhere.fileno())
        status = _waited(child, None if seconds is None else begun + seconds)
    return os.waitstatus_to_exitcode(status) == -signal.SIGKILL, time.monotonic() - begun


def _waited(child: int, until: float | None) -> int:
    """The wait status of a child that is killed, with its group, when it is still there then."""
    while until is not None and time.monotonic() < until:
        ended, status = os.waitpid(child, os.WNOHANG)
        if ended:
            return status
        time.sleep(0.001)
    if until is not None:
        with suppress(ProcessLookupError):  # not yet the leader of a group
            os.killpg(child, signal.SIGKILL)
        os.kill(child, signal.SIGKILL)
    return os.waitpid(child, 0)[1]


def state_of(found: Files, old: Files, new: Files) -> str:
    """Which state the files are in; a site and its zip are one file each here."""
    groups: dict[str, set[str]] = {}
    for name in found.keys() | old.keys() | new.keys():
        group = "site" if name.startswith("site/") else name
        states = {
            s for s, files in (("old", old), ("new", new)) if found.get(name) == files.get(name)
        }
        groups[group] = groups.get(group, {"old", "new"}) & states
    if not all(groups.values()):
        return "half"
    decided = {next(iter(states)) for states in groups.values() if len(states) == 1}
    return "between" if len(decided) > 1 else next(iter(decided), "old")


def restore(home: Path, kept: Path) -> None:
    for name in ("book", "site", "a.zip"):
        place = home / name
        shutil.rmtree(place) if place.is_dir() else place.unlink(missing_ok=True)
        if (kept / name).is_dir():
            shutil.copytree(kept / name, place, symlinks=True)
        elif (kept / name).exists():
            shutil.copyfile(kept / name, place)


def kill_runs(name: str, kills: int, chance: random.Random, home: Path) -> Count:
    """Kill one command so often and return what was met."""
    (home / "tmp").mkdir()
    arguments = COMMANDS[name](prepared_book(home))
    kept = home.with_name(f"{home.name}-kept")
    shutil.copytree(home, kept, symlinks=True)
    old = files_in(home)
    _, seconds = run_for(arguments, home, None)
    new = files_in(home)
    count = Count()
    if old == new or litter_in(home):
        count.faults.append("an undisturbed run changes nothing, or leaves something")
    for number in range(kills):
        restore(home, kept)
        moment = BEYOND * seconds * (number + chance.random()) / kills
        met, _ = run_for(arguments, home, moment)
        kill = Kill(met, state_of(files_in(home), old, new), len(litter_in(home)))
        count.kills.append(kill)
        if kill.state == "half":
            count.faults.append(f"half after {moment:.3f} s")
        count.faults += after_next_run(arguments, home, new, moment, kill)
    return count


def after_next_run(
    arguments: Sequence[str], home: Path, new: Files, moment: float, kill: Kill
) -> list[str]:
    """Run the same command again, when it left work or litter; what is wrong after that."""
    if kill.state == "new" and not kill.litter:
        return []
    run_for(arguments, home, None)
    wrong = []
    if files_in(home) != new:
        wrong.append(f"killed after {moment:.3f} s, the next run did not complete the work")
    if left := litter_in(home):
        wrong.append(f"killed after {moment:.3f} s, the next run left {left[0].name}")
    return wrong


def main() -> int:
    """Run, print one line a command, and return the exit code."""
    parser = argparse.ArgumentParser(description=__doc__.partition("\n")[0])
    parser.add_argument("--kills", type=int, default=100, help="of each command")
    parser.add_argument("--only", choices=sorted(COMMANDS), help="one command alone")
    parser.add_argument("--seed", type=int, default=1)
    given = parser.parse_args()
    wrong = 0
    for name in [given.only] if given.only else COMMANDS:
        with tempfile.TemporaryDirectory() as folder:
            home = Path(folder).resolve() / "home"
            home.mkdir()
            count = kill_runs(name, given.kills, random.Random(given.seed), home)
        print(count.line(name), flush=True)
        for fault in count.faults:
            print(f"  {fault}", flush=True)
        wrong += len(count.faults)
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main())
