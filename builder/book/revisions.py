"""What git knows of a book: a revision's commit, what it holds, and what was changed since."""

from __future__ import annotations

import os
import subprocess
from pathlib import Path
from typing import Final

_GOOD: Final = "G"
"""What git says of a signature that is good and by a key of the allowed signers."""


class NoSuchRevisionError(Exception):
    """There is no git, no repository or no such revision; the message says which."""


def git_output(folder: Path, *arguments: str, given: bytes = b"") -> bytes:
    """Run git in a folder with bytes for it to read, and return what it prints.

    Raises:
        NoSuchRevisionError: there is no git here, or it failed; the message is git's own.
    """
    command = ["git", "-C", str(folder), *arguments]
    try:
        # Nobody sits before a prompt for a password that stands in a pipe.
        asked = {**os.environ, "GIT_TERMINAL_PROMPT": "0"}
        done = subprocess.run(command, input=given, capture_output=True, check=False, env=asked)
    except OSError as error:
        raise NoSuchRevisionError("git is not installed here") from error
    if done.returncode:
        said = done.stderr.decode("utf-8", "replace").strip().removeprefix("fatal: ")
        raise NoSuchRevisionError(f"git: {said or 'it failed'}")
    return done.stdout


def top_of(folder: Path) -> Path:
    """Return the top of the working tree that a folder is in.

    Raises:
        NoSuchRevisionError: it is in none.
    """
    return Path(git_output(folder, "rev-parse", "--show-toplevel").decode().rstrip("\n"))


def commit_of(top: Path, revision: str) -> str:
    """Return the commit that a revision names.

    Raises:
        NoSuchRevisionError: it names none.
    """
    # What starts with a hyphen would be taken for an option, whatever it is.
    named = "" if revision.startswith("-") else _named(top, revision)
    if not named:
        raise NoSuchRevisionError(f'git knows no revision "{revision}"')
    return named


def _named(top: Path, revision: str) -> str:
    try:
        name = git_output(top, "rev-parse", "--verify", "--quiet", f"{revision}^{{commit}}")
    except NoSuchRevisionError:
        return ""
    return name.decode().strip()


def changed_since(folder: Path, revision: str) -> list[Path]:
    """Return what the working tree of a folder has otherwise than a revision, gone files too.

    Files that git does not know yet count, those that it is told to ignore do not.

    Raises:
        NoSuchRevisionError: git cannot say what was there then.
    """
    top = top_of(folder)
    commit = commit_of(top, revision)
    known = git_output(top, "diff", "--name-only", "--no-renames", "-z", commit)
    new = git_output(top, "ls-files", "--others", "--exclude-standard", "-z")
    names = [name for name in (known + new).split(b"\0") if name]
    return [top / name.decode("utf-8", "surrogateescape") for name in names]


def text_at(path: Path, revision: str) -> bytes:
    """Return what a file held at a revision; it need not be there today, nor its folder.

    Raises:
        NoSuchRevisionError: there was no such file then.
    """
    folder = next(each for each in path.parents if each.is_dir())
    top = top_of(folder)
    name = path.resolve().relative_to(top.resolve()).as_posix()
    return git_output(top, "show", f"{commit_of(top, revision)}:{name}")


def introduced_by(path: Path) -> str:
    """Return the commit that brought a file, the newest where it came twice; "" for none.

    Raises:
        NoSuchRevisionError: there is no git, or no repository around the file.
    """
    added = ("log", "--diff-filter=A", "--format=%H", "--", path.name)
    return (git_output(path.resolve().parent, *added).decode().split() or [""])[0]


def signer_of(path: Path, commit: str, allowed: Path) -> str:
    """Return who signed a commit with a key of a file of allowed signers, by git's own word; "" for
    nobody in it.

    Raises:
        NoSuchRevisionError: git cannot say.
    """
    keys = ("-c", f"gpg.ssh.allowedSignersFile={allowed}")
    said = git_output(path.resolve().parent, *keys, "log", "-1", "--format=%G?%n%GS", commit)
    verdict, _, signer = said.decode("utf-8", "replace").strip().partition("\n")
    return signer.strip() if verdict == _GOOD else ""
