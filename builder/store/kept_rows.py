"""The rows of a store: one file of SQLite in a folder of its own, which git does not see.

Nobody has to trust it. Each row carries a sum over key and content that only this user can make; a
file that is damaged, of another program or of another form is thrown away; what is locked,
full or not to be written is done without. So a write need not reach the disk before the next one
(`synchronous`): a system that dies leaves at worst a store that is made anew.

A rollback journal and not a write-ahead log: that one needs memory that all users of a file share,
which shared folders do not have, and leaves two more files. Each call opens the file and closes it
again: nothing of it is taken into forked workers.
"""

from __future__ import annotations

import hashlib
import os
import stat
import time
import zlib
from collections.abc import Callable, Iterator, Mapping, Sequence
from contextlib import closing, suppress
from pathlib import Path
from typing import TYPE_CHECKING, Any, TypeVar

if TYPE_CHECKING:
    from sqlite3 import Connection

Answer = TypeVar("Answer")

FOLDER = ".loombook"
"""The folder of a store, in that of its book."""
MOST_BYTES = 256_000_000
"""The most that a store takes of a disk; what was not asked for longest goes."""
_KEPT_SHARE = 0.75
_FORM = 1
_OURS = 0x6C6F6F6D  # "loom": which program's file it is
_LAYOUT = "CREATE TABLE kept (key BLOB PRIMARY KEY, used INTEGER, sum BLOB, body BLOB)"
_SUM_BYTES = 16
_AT_ONCE = 500
_WAIT_S = 2.0
_DAMAGED = (11, 26)  # SQLITE_CORRUPT, SQLITE_NOTADB


class _NotOursError(Exception):
    """The file is of another program, or of another form of ours."""


class Store:
    """What is kept beside one book. No method raises for what is on the disk."""

    def __init__(
        self, folder: Path | None, own_key: bytes = b"", *, remembers: bool = False
    ) -> None:
        self._folder = folder and folder / FOLDER
        self._own_key = own_key
        self.remembers = remembers
        """Whether its process looks at the book again and again, and has memory to spare."""
        self.memory: dict[str, dict[str, Any]] = {}
        """What it read last of each piece of work, by key."""

    @property
    def remembering(self) -> Store:
        """The same store for a process that looks at its book again and again."""
        return Store(self._folder and self._folder.parent, self._own_key, remembers=True)

    @property
    def is_kept(self) -> bool:
        """Whether anything put into it may be there later."""
        return self._folder is not None

    @property
    def folder(self) -> Path | None:
        """Where it lies, if anywhere; the folder may not be there yet."""
        return self._folder

    @property
    def size_bytes(self) -> int:
        """What it takes of the disk, 0 when there is none."""
        with suppress(OSError):
            return self._file.stat().st_size if self._folder else 0
        return 0

    def get(self, keys: Sequence[str]) -> dict[str, bytes]:
        """Return what is kept under these keys, which are in hexadecimal."""
        if not keys or self._folder is None or not self._file.exists():
            return {}
        return self._asked(lambda file: dict(self._found(file, keys))) or {}

    def put(self, rows: Mapping[str, bytes]) -> None:
        """Keep these under their keys, all or none; what is too much for the file goes."""
        if not rows or self._folder is None:
            return
        lines = [(bytes.fromhex(k), _today(), *self._sealed(k, v)) for k, v in rows.items()]
        with suppress(OSError):
            make_folder(self._folder)
            self._asked(lambda file: _write(file, lines))

    @property
    def _file(self) -> Path:
        assert self._folder is not None
        return self._folder / f"kept-{_FORM}.sqlite3"

    def _found(self, file: Connection, keys: Sequence[str]) -> Iterator[tuple[str, bytes]]:
        old = []
        for start in range(0, len(keys), _AT_ONCE):
            some = [bytes.fromhex(key) for key in keys[start : start + _AT_ONCE]]
            marks = ",".join("?" * len(some))
            asked = f"SELECT key, used, sum, body FROM kept WHERE key IN ({marks})"
            for key, used, seal, body in file.execute(asked, some):
                if seal == self._sum(key, body):
                    yield key.hex(), zlib.decompress(body)
                    old += [key] if used != _today() else []
        _note_use(file, old)

    def _sealed(self, key: str, value: bytes) -> tuple[bytes, bytes]:
        body = zlib.compress(value, 1)
        return self._sum(bytes.fromhex(key), body), body

    def _sum(self, key: bytes, body: bytes) -> bytes:
        return hashlib.blake2b(key + body, key=self._own_key, digest_size=_SUM_BYTES).digest()

    def _asked(self, work: Callable[[Connection], Answer]) -> Answer | None:
        """What work on the open file comes to; None where it cannot be done.

        A file that is no store of ours is thrown away, and the work done on a new one.
        """
        import sqlite3

        for _ in range(2):
            try:
                _refuse_links(self._file)
                with closing(sqlite3.connect(self._file, _WAIT_S, isolation_level=None)) as file:
                    _prepare(file)
                    return work(file)
            except (_NotOursError, zlib.error, TypeError, ValueError):
                self._throw_away()
            except sqlite3.Error as error:
                if getattr(error, "sqlite_errorcode", 0) & 0xFF not in _DAMAGED:
                    return None
                self._throw_away()
            except OSError:
                return None
        return None

    def _throw_away(self) -> None:
        for name in (self._file, self._file.with_name(f"{self._file.name}-journal")):
            with suppress(OSError):
                name.unlink(missing_ok=True)


NO_STORE = Store(None)
"""The store of who does without."""


def make_folder(folder: Path) -> None:
    """Make a store's folder, which git ignores, whoever's repository the book is in.

    Raises:
        OSError: it cannot be made, or a link stands there, which may lead anywhere.
    """
    folder.mkdir(exist_ok=True)
    if folder.is_symlink():
        raise NotADirectoryError(folder)
    ignore = folder / ".gitignore"
    if not os.path.lexists(ignore):
        with ignore.open("x", encoding="utf-8") as file:
            file.write("*\n")


def _refuse_links(file: Path) -> None:
    """Raise OSError where folder or file are links: a book could lead anywhere with them."""
    if not stat.S_ISDIR(file.parent.lstat().st_mode):
        raise NotADirectoryError(file.parent)
    if os.path.lexists(file) and not stat.S_ISREG(file.lstat().st_mode):
        raise FileExistsError(file)


def _prepare(file: Connection) -> None:
    """Make sure that the file is a store of this form; make it one when it is empty."""
    file.execute("PRAGMA trusted_schema = OFF")
    file.execute("PRAGMA synchronous = OFF")
    layout = [row[0] for row in file.execute("SELECT sql FROM sqlite_master WHERE sql NOT NULL")]
    ours = file.execute("PRAGMA application_id").fetchone()[0]
    if layout == [_LAYOUT] and ours == _OURS:
        return
    if layout or ours:
        raise _NotOursError
    file.execute("PRAGMA auto_vacuum = INCREMENTAL")
    file.execute("BEGIN IMMEDIATE")
    file.execute(_LAYOUT.replace("TABLE", "TABLE IF NOT EXISTS"))
    file.execute(f"PRAGMA application_id = {_OURS}")
    file.execute("COMMIT")


def _write(file: Connection, lines: Sequence[tuple[bytes, int, bytes, bytes]]) -> None:
    file.execute("BEGIN IMMEDIATE")
    file.executemany("INSERT OR REPLACE INTO kept VALUES (?, ?, ?, ?)", lines)
    while _size_bytes(file) > MOST_BYTES:
        _forget_oldest(file)
    file.execute("COMMIT")
    file.executescript("PRAGMA incremental_vacuum")  # `execute` would give back one page alone


def _size_bytes(file: Connection) -> int:
    pages, free, page = (
        file.execute(f"PRAGMA {name}").fetchone()[0]
        for name in ("page_count", "freelist_count", "page_size")
    )
    return int((pages - free) * page)


def _forget_oldest(file: Connection) -> None:
    count = file.execute("SELECT count(*) FROM kept").fetchone()[0]
    going = count - int(count * _KEPT_SHARE)
    oldest = "SELECT rowid FROM kept ORDER BY used, rowid LIMIT ?"
    file.execute(f"DELETE FROM kept WHERE rowid IN ({oldest})", (going,))


def _note_use(file: Connection, keys: Sequence[bytes]) -> None:
    """Note once a day what is still asked for; who may not write reads all the same."""
    from sqlite3 import OperationalError

    if keys:
        with suppress(OperationalError):
            file.execute("BEGIN IMMEDIATE")
            lines = [(_today(), key) for key in keys]
            file.executemany("UPDATE kept SET used = ? WHERE key = ?", lines)
            file.execute("COMMIT")


def _today() -> int:
    return int(time.time() // 86400)
