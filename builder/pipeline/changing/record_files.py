"""Reading and writing record files so that nothing is ever half written.

A file is written beside its place under a name that no check reads, brought to the disk, and
only then put in its place in one step. Whenever the power goes, the old file or the new one is
there. What can be left behind is a `.….tmp` beside it; the next command that writes into the book
removes it (`clear_left_behind`), unless another is just writing it.
"""

from __future__ import annotations

import os
import re
import secrets
from collections.abc import Iterable, Iterator, Sequence
from contextlib import ExitStack, contextmanager, suppress
from pathlib import Path

from builder.book import RecordFile, shown_path
from builder.editing import UneditableError
from builder.loading import LARGEST_FILE_BYTES, FileTooLargeError, read_bounded
from builder.unfinished import clear, hold, undisturbed

UNREAD_SUFFIX = ".tmp"
_RANDOM = r"[0-9a-f]{12}\.tmp"
_UNREAD = re.compile(rf"\..+\.{_RANDOM}", re.DOTALL)


class ChangedMeanwhileError(Exception):
    """Somebody else changed the file while it was being worked on."""


def clear_left_behind(roots: Iterable[Path]) -> None:
    """Remove from these folders and all below them what killed commands left half written."""
    for root in roots:
        for folder, _, names in os.walk(root):
            if any(name.endswith(UNREAD_SUFFIX) for name in names):
                clear(Path(folder), _UNREAD)


def read_text(path: Path) -> str:
    """Return a record's text with its line ends and byte order mark as they are.

    Raises:
        UneditableError: it is not UTF-8, or is larger than any record.
        OSError: it cannot be read.
    """
    try:
        return read_bounded(path, LARGEST_FILE_BYTES).decode("utf-8")
    except UnicodeDecodeError as error:
        raise UneditableError(f"{shown_path(path)} is not UTF-8 text") from error
    except FileTooLargeError as error:
        raise UneditableError(f"{shown_path(path)}: {error.strerror}") from error


def text_of(file: RecordFile) -> str:
    """Return the same of a file of a book, as it was when the book was opened.

    Whoever writes hands this text to `replace_text`, which refuses when a newer one is there.

    Raises:
        UneditableError: it is not UTF-8, or it could not be read.
    """
    if file.content.refusal is not None:
        raise UneditableError(file.content.refusal.message)
    try:
        return file.content.raw.decode("utf-8")
    except UnicodeDecodeError as error:
        raise UneditableError(f"{file.path} is not UTF-8 text") from error


def replace_text(path: Path, old: str, new: str) -> None:
    """Put `new` in the place of a file whose text is still `old`; its permissions stay.

    Raises:
        ChangedMeanwhileError: the file holds something else by now; it is left alone.
        OSError: it cannot be written; it is left as it was.
    """
    replace_texts([(path, old, new)])


@undisturbed()
def replace_texts(changes: Sequence[tuple[Path, str | bytes, str | bytes]]) -> None:
    """Put new texts in the place of several files: (path, its text now, its new text) each.

    A text is written as UTF-8; bytes, those of a photo, as they are.

    Every new text is on the disk, and every file is found to be as it was, before the first is put
    in its place; then one step a file, in the order given. When the power goes between two steps,
    those before it are new and those behind it old, each of them whole.

    Raises:
        ChangedMeanwhileError: a file holds something else by now; none was written.
        OSError: one cannot be written; those before it were put back as they were.
    """
    places = [path.resolve() for path, _, _ in changes]  # what a link points at, not the link
    done: list[tuple[Path, str | bytes]] = []
    with ExitStack() as held:
        unread = [
            held.enter_context(_written_beside(place, new, place.stat().st_mode & 0o7777))
            for place, (_, _, new) in zip(places, changes, strict=True)
        ]
        for place, (path, old, _) in zip(places, changes, strict=True):
            _refuse_changed(path, place, old)
        try:
            for place, written, (_, old, _) in zip(places, unread, changes, strict=True):
                written.replace(place)
                done.append((place, old))
        except BaseException:
            _put_back(done)
            raise
    for place in places:
        _settle(place.parent)


def _refuse_changed(path: Path, place: Path, old: str | bytes) -> None:
    content = _as_bytes(old)
    try:
        same = read_bounded(place, len(content)) == content
    except FileTooLargeError:
        same = False
    if not same:
        said = f"{shown_path(path)} was changed meanwhile; nothing was written"
        raise ChangedMeanwhileError(said)


def _as_bytes(content: str | bytes) -> bytes:
    return content.encode("utf-8") if isinstance(content, str) else content


def _put_back(done: Sequence[tuple[Path, str | bytes]]) -> None:
    for place, old in done:
        with _written_beside(place, old, place.stat().st_mode & 0o7777) as unread:
            unread.replace(place)


@undisturbed()
def create_new(path: Path, text: str | bytes) -> None:
    """Make a file that is not there yet, and the folders it stands in; nothing is overwritten.

    Raises:
        FileExistsError: there is something of that name already; it is left alone.
        OSError: it cannot be written; nothing is left of it.
    """
    path.parent.mkdir(parents=True, exist_ok=True)
    clear(path.parent, re.compile(re.escape(f".{path.name}.") + _RANDOM))
    if os.path.lexists(path):
        raise FileExistsError(f"{shown_path(path)} exists already")
    with _written_beside(path, text, None) as unread:
        _put_in_place(unread, path)
    _settle(path.parent)


def _put_in_place(unread: Path, path: Path) -> None:
    try:
        os.link(unread, path)  # unlike a rename it never replaces
    except FileExistsError as error:
        raise FileExistsError(f"{shown_path(path)} exists already") from error
    except OSError:  # a disk without hard links: take the name first, then fill it in one step
        os.close(os.open(path, os.O_CREAT | os.O_EXCL | os.O_WRONLY))
        unread.replace(path)


@contextmanager
def _written_beside(path: Path, text: str | bytes, mode: int | None) -> Iterator[Path]:
    """A file in the same folder that holds `text` for good, under a name nobody reads.

    It is held until it is put in its place, or removed at the end, so that nobody clears it.
    """
    content = _as_bytes(text)
    unread = path.with_name(f".{path.name}.{secrets.token_hex(6)}{UNREAD_SUFFIX}")
    number = os.open(unread, os.O_CREAT | os.O_EXCL | os.O_WRONLY, 0o666)
    open_file = ExitStack()
    open_file.callback(os.close, number)
    try:
        hold(number)
        left = memoryview(content)
        while left:
            left = left[os.write(number, left) :]
        os.fsync(number)
        if mode is not None:
            unread.chmod(mode)
        if os.name == "nt":  # what is open cannot be moved there
            open_file.close()
        yield unread
    finally:
        open_file.close()
        _remove(unread)


def _settle(folder: Path) -> None:
    """Bring the folder's entry to the disk, where the system can; the file is whole anyhow."""
    with suppress(OSError):
        number = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(number)
        finally:
            os.close(number)


def _remove(path: Path) -> None:
    with suppress(OSError):
        path.unlink()
