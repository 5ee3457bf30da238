"""An error nobody foresaw, met while one record is worked on: a finding, and the next record.

What is told of it is where in loombook it happened and of which kind it is. Its own words may
quote the record, which may be private, so they are left out.
"""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from traceback import walk_tb

import builder
from builder import __version__
from builder.findings import CatalogueEntry, Finding, Severity

OWN_FAULT = CatalogueEntry(
    id="BOK106",
    slug="fault-of-loombook",
    title="loombook could not deal with a record",
    severity=Severity.STOP,
    what="An error inside loombook while it read, checked, planned or drew this record. The other "
    "records were worked on as usual.",
    why="The fault is loombook's, not the record's: whatever a record holds should end in a "
    "finding about it. Until it is mended nothing is known of this record, so that no plan is "
    "made from it.",
    example="ZeroDivisionError at builder/planning/levels/rail_limit.py:67 in loombook 0.1.0",
    fix="Report the line of the finding, which quotes nothing of the record, to those who keep "
    "loombook. If you can, add the smallest change of a shipped record that gives the same "
    "line. Changing the value typed last may help meanwhile.",
)

_PACKAGE = Path(builder.__file__).parent
_TOLD = 3
"""Places that are told: the innermost is often a helper that everybody calls."""


class OwnFaultsError(Exception):
    """Work on some records failed; `findings` hold one for each of them."""

    def __init__(self, findings: Sequence[Finding]) -> None:
        super().__init__("; ".join(finding.message for finding in findings))
        self.findings = tuple(findings)


def own_fault(shown: str, error: Exception) -> Finding:
    """Return the finding for an error met while working on the file shown so."""
    entry = OWN_FAULT
    return Finding(shown, 1, 1, entry.severity, entry.id, entry.slug, own_words(error), _HELP)


_HELP = (
    "this is no fault of yours: report this line to those who keep loombook, it quotes nothing of "
    "the record"
)


def own_words(error: Exception) -> str:
    """What may be told of an error: version, kind and places in our code."""
    kind, places = type(error).__name__, " from ".join(_places(error)) or "an unknown place"
    return f"loombook {__version__} made a fault of its own here: {kind} at {places}"


def _places(error: Exception) -> list[str]:
    """The innermost lines of this package that the error passed through, the last first."""
    found = []
    for frame, line in walk_tb(error.__traceback__):
        file = Path(frame.f_code.co_filename)
        if file.is_relative_to(_PACKAGE):
            found.append(f"builder/{file.relative_to(_PACKAGE).as_posix()}:{line}")
    return found[: -_TOLD - 1 : -1]
