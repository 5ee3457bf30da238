"""A copy of a book to try changed texts in: rules look at a whole book, and at nothing else."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from contextlib import ExitStack
from dataclasses import replace
from pathlib import Path
from types import TracebackType
from typing import Protocol

from builder.book import FOLDERS, Book, shown_path
from builder.findings import Finding
from builder.loading import LARGEST_FILE_BYTES, read_bounded
from builder.unfinished import work_folder


class _Checked(Protocol):
    @property
    def findings(self) -> tuple[Finding, ...]: ...


class TrialBook:
    """A book whose records are copied into a folder of their own while it is open."""

    def __init__(self, book: Book) -> None:
        self._book = book
        self._open = ExitStack()
        self._places: dict[Path, Path] = {}

    def __enter__(self) -> TrialBook:
        with self._open:  # closed again when copying fails
            self._folder = self._open.enter_context(work_folder())
            self._copy_book()
            self._open = self._open.pop_all()
        return self

    def _copy_book(self) -> None:
        roots = tuple(
            root._replace(folder=self._folder / str(number))
            for number, root in enumerate(self._book.roots)
        )
        for root in roots:
            for folder in FOLDERS:
                (root.folder / folder).mkdir(parents=True)
        for file in self._book.every_file():
            place = self._places[file.path] = self._place_of(file.path)
            place.parent.mkdir(parents=True, exist_ok=True)
            _copy(file.path, place)
        self._trial = replace(self._book, roots=roots)

    def __exit__(
        self,
        kind: type[BaseException] | None,
        error: BaseException | None,
        traceback: TracebackType | None,
    ) -> None:
        self._open.close()

    def findings(
        self, texts: Mapping[Path, str], check: Callable[[Book], _Checked]
    ) -> dict[Path, list[Finding]]:
        """Return the findings of each record file when these texts stand in the book."""
        for path, text in texts.items():
            copy = self._places.setdefault(path, self._place_of(path))
            copy.parent.mkdir(parents=True, exist_ok=True)
            copy.write_bytes(text.encode("utf-8"))
        shown = {file.path: file.shown for file in self._trial.files()}
        names = {shown[place]: path for path, place in self._places.items() if place in shown}
        found: dict[Path, list[Finding]] = {}
        for finding in check(self._trial).findings:
            real = names.get(finding.file)
            if real is not None:
                told = replace(
                    finding,
                    file=shown_path(real),
                    message=self._with_names_of_book(finding.message, names),
                )
                found.setdefault(real, []).append(told)
        return found

    def _with_names_of_book(self, message: str, names: Mapping[str, Path]) -> str:
        """A message about another file names that of the book, not its copy."""
        if str(self._folder) in message:
            for name, path in names.items():
                message = message.replace(name, shown_path(path))
        return message

    def _place_of(self, path: Path) -> Path:
        """Where a file of the book stands in the copy; of roots in each other the inner counts."""
        folders = [root.folder for root in self._book.roots]
        holding = [folder for folder in folders if path.is_relative_to(folder)]
        root = max(holding, key=lambda folder: len(folder.parts))
        return self._folder / str(folders.index(root)) / path.relative_to(root)


def _copy(path: Path, place: Path) -> None:
    """Copy a record; one that nobody can read is none, and is reported where it stands."""
    try:
        content = read_bounded(path, LARGEST_FILE_BYTES)
    except OSError:
        return
    place.write_bytes(content)
