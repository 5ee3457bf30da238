"""Books in repositories of their own, for the tests of borrowing."""

from __future__ import annotations

import shutil
import subprocess
from pathlib import Path

from shipped_book import PINOUTS

TANSY = "ostrel-tansy-2017-hatch-base"
CAR = f"vehicles/ostrel/{TANSY}.yaml"


def git(folder: Path, *arguments: str) -> str:
    who = ("-c", "user.name=a", "-c", "user.email=a@shop.example", "-c", "commit.gpgsign=false")
    done = subprocess.run(
        ["git", *who, *arguments], cwd=folder, check=True, capture_output=True, text=True
    )
    return done.stdout.strip()


def repository(folder: Path, message: str = "first") -> Path:
    """Put a folder under git, or what changed in it."""
    if not (folder / ".git").exists():
        git(folder.parent, "init", "-q", "-b", "main", folder.name)
    git(folder, "add", "-A")
    git(folder, "commit", "-q", "--allow-empty", "-m", message)
    return folder


def change(path: Path, old: str, new: str) -> None:
    text = path.read_text("utf-8")
    assert old in text
    path.write_text(text.replace(old, new, 1), "utf-8")


def own_book(folder: Path) -> Path:
    """A shop's book with the job of a car that it borrows, and nothing else of its own."""
    (folder / "jobs").mkdir(parents=True)
    shutil.copy(PINOUTS / "jobs" / "tansy-subwoofer.yaml", folder / "jobs")
    (folder / "book.yaml").write_text("schema: 1\nsite_name: Our book\n", "utf-8")
    return folder
