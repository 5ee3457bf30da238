"""Findings of a shared book, seen from a shop's own: what is not ours to mend is only counted."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable
from pathlib import Path
from typing import NamedTuple

from builder.book import Book
from builder.findings import Finding


class OwnFindings(NamedTuple):
    """What to print, and how many findings of each shared book were left out."""

    shown: list[Finding]
    left_out: Counter[Path]


def own_findings(book: Book, findings: Iterable[Finding]) -> OwnFindings:
    """Return the findings a shop has to look at in its own book.

    Whatever fails the check is shown, wherever it stands; a warning, a note or what a record
    accepts is shown only of an own record, for in a shared one nobody here can act on it.
    """
    files = {file.shown: file.path for file in book.every_file()}
    lenders = book.lenders(files.values())
    shown: list[Finding] = []
    left_out: Counter[Path] = Counter()
    for finding in findings:
        path = None if finding.fails_check else files.get(finding.file)
        lender = None if path is None else lenders[path]
        if lender is None:
            shown.append(finding)
        else:
            left_out[lender] += 1
    return OwnFindings(shown, left_out)
