"""Trying changed texts in a book: rules look at a whole book, and at nothing else."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from pathlib import Path
from typing import Protocol

from builder.book import Book
from builder.findings import Finding


class _Checked(Protocol):
    @property
    def findings(self) -> tuple[Finding, ...]: ...


def trial_findings(
    book: Book, texts: Mapping[Path, str], check: Callable[[Book], _Checked]
) -> dict[Path, list[Finding]]:
    """Return the findings of each record file when these texts stand in the book.

    Nothing is written and nothing read: the other records are as they were when the book was
    opened.
    """
    trial = book.with_texts(texts)
    paths = {file.shown: file.path for file in trial.files()}
    found: dict[Path, list[Finding]] = {}
    for finding in check(trial).findings:
        if finding.file in paths:
            found.setdefault(paths[finding.file], []).append(finding)
    return found
