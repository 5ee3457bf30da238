"""Bringing books of others to this machine: fetched by git, held to a commit, taken out.

What git fetches stands in `.books/<name>.git`, a bare repository without hooks or a working tree;
what is read stands in `.books/<name>`, YAML files alone. Nothing fetched is ever run.
"""

from __future__ import annotations

import re
import shutil
from collections.abc import Sequence
from contextlib import suppress
from dataclasses import replace
from pathlib import Path

from builder.book.locked import LOCKED_FOLDER, lock_text, place_of, sum_of
from builder.book.revisions import NoSuchRevisionError, commit_of, git_output
from builder.book.settings_files import LOCK_FILE
from builder.book.taken_out import take_out
from builder.model.locked_books import LockedBook
from builder.pipeline.changing.record_files import create_new, read_text, replace_text
from builder.unfinished import held_folder, undisturbed

_EVERYTHING = ("+refs/heads/*:refs/heads/*", "+refs/tags/*:refs/tags/*")
_QUIET = (
    "-c", "protocol.ext.allow=never", "-c", "core.hooksPath=/dev/null", "-c", "gc.auto=0",
    "-c", "transfer.fsckObjects=true",
)  # fmt: skip
"""Settings of git for whatever comes from elsewhere: no helper of its choosing, broken objects
refused."""
_RECORDS = (".yaml", ".yml")
_HIDDEN = re.compile(r"(^|/)\.")


class NotBorrowedError(Exception):
    """A book cannot be fetched, or is not what its lock says; the message says why."""


def repository_of(home: Path, name: str) -> Path:
    """The bare repository that a borrowed book is fetched into."""
    return home / LOCKED_FOLDER / f"{name}.git"


def fetch(home: Path, book: LockedBook) -> None:
    """Bring a book as its lock says; where it is here, nothing is asked of the network.

    Raises:
        NotBorrowedError: it cannot be fetched, has no such commit, or its files are others.
        OSError: something cannot be written.
    """
    if place_of(home, book).is_dir() and sum_of(place_of(home, book)) == book.sum:
        return
    _repository(home, book)
    if not _has(home, book):
        _ask(home, book)
    if not _has(home, book):
        raise NotBorrowedError(f"{book.address} has no commit {book.commit}")
    _lay_out(home, book)


def newest(home: Path, book: LockedBook) -> LockedBook:
    """Fetch a book and return it at the newest commit of its branch, not taken out; `sum` is "".

    Raises:
        NotBorrowedError: it cannot be fetched, or has no such branch.
        OSError: something cannot be written.
    """
    _repository(home, book)
    _ask(home, book)
    branch = book.branch or _first_branch(home, book)
    try:
        commit = commit_of(repository_of(home, book.name), f"refs/heads/{branch}")
    except NoSuchRevisionError as error:
        raise NotBorrowedError(f"{book.address} has no branch {branch}") from error
    return replace(book, commit=commit, sum="")


def taken(home: Path, book: LockedBook, into: Path) -> LockedBook:
    """Take the files of a book's commit out into a folder; return it with their sum.

    Raises:
        NotBorrowedError: it holds no record, or a file too large for one.
        OSError: something cannot be written.
    """
    within = "" if book.folder == "." else f"{book.folder}/"

    def wanted(name: str) -> bool:
        inner = name.startswith(within) and not _HIDDEN.search(name[len(within) :])
        return inner and name.endswith(_RECORDS)

    take_out(repository_of(home, book.name), book.commit, into, wanted)
    total = sum_of(into)
    if not total:
        raise NotBorrowedError(f"{book.name} has a file that is too large for a record")
    if not (into / book.folder).is_dir() or not any(into.iterdir()):
        raise NotBorrowedError(f"{book.address} holds no records in {book.folder}")
    return replace(book, sum=total)


def write_lock(home: Path, books: Sequence[LockedBook]) -> None:
    """Write the lock of a book anew, whole or not at all.

    Raises:
        OSError: it cannot be written; it is as it was.
    """
    path, text = home / LOCK_FILE, lock_text(books)
    if path.is_file():
        replace_text(path, read_text(path), text)
    else:
        create_new(path, text)


def _repository(home: Path, book: LockedBook) -> None:
    place = repository_of(home, book.name)
    place.parent.mkdir(exist_ok=True)
    with suppress(FileExistsError):  # what is fetched can be fetched again: nobody keeps it
        create_new(place.parent / ".gitignore", "*\n")
    if not (place / "HEAD").is_file():
        git_output(home, "init", "--quiet", "--bare", "--template=", str(place.resolve()))


def _ask(home: Path, book: LockedBook) -> None:
    place, address = repository_of(home, book.name), _address(home, book)
    asked = ("fetch", "--quiet", "--no-tags", "--no-recurse-submodules", "--prune")
    try:
        git_output(place, *_QUIET, *asked, "--", address, *_EVERYTHING)
    except NoSuchRevisionError as error:
        raise NotBorrowedError(str(error).splitlines()[0]) from error


def _address(home: Path, book: LockedBook) -> str:
    """The address for git, which stands elsewhere: a path counts from the book's folder."""
    if book.address.startswith(("./", "../")):
        return str((home / book.address).resolve())
    return book.address


def _first_branch(home: Path, book: LockedBook) -> str:
    """The branch that the address opens with."""
    asked = ("ls-remote", "--symref", "--", _address(home, book), "HEAD")
    try:
        answer = git_output(repository_of(home, book.name), *_QUIET, *asked)
    except NoSuchRevisionError as error:
        raise NotBorrowedError(str(error).splitlines()[0]) from error
    said = answer.decode("utf-8", "replace")
    found = re.search(r"^ref: refs/heads/(\S+)\tHEAD$", said, re.MULTILINE)
    if not found:
        raise NotBorrowedError(f"{book.address} opens with no branch: name one with --branch")
    return found[1]


def _has(home: Path, book: LockedBook) -> bool:
    try:
        return commit_of(repository_of(home, book.name), book.commit) == book.commit
    except NoSuchRevisionError:
        return False


def _lay_out(home: Path, book: LockedBook) -> None:
    """Put a book's files in their place in one go; until then what was there stays whole."""
    place = place_of(home, book)
    with held_folder(place.parent, f".{book.name}-") as held:
        new, old = held / "new", held / "old"
        new.mkdir()
        if taken(home, book, new).sum != book.sum:
            raise NotBorrowedError(
                f"commit {book.commit[:12]} of {book.address} holds other files than {LOCK_FILE} "
                f"says of {book.name}: ask whoever changed that line"
            )
        with undisturbed():
            if place.exists():
                place.rename(old)
            new.rename(place)
        shutil.rmtree(old, ignore_errors=True)
