"""`mend`: the fixes that findings offer, made one after the other until none is left.

A fix counts only when its finding is gone afterwards; one that does not help is taken back.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from pathlib import Path

from builder.book import Book, RecordFile
from builder.editing import UneditableError, apply_edits
from builder.editing.mending import can_mend, mend
from builder.editing.tidying import MENDED_BY_FIX, style_faults
from builder.findings import Finding
from builder.loading import load_text
from builder.pipeline.changing.record_files import replace_text, text_of
from builder.pipeline.changing.tidying import record_steps
from builder.pipeline.changing.trial_book import trial_findings
from builder.pipeline.checking.book_check import check_book
from builder.pipeline.checking.records import read_record
from builder.pipeline.checking.shape import by_hand, shape_of

_MOST_FIXES = 1000
_MOST_READ_CHARACTERS = 20_000_000
"""After each fix the whole text is read again: a text of a megabyte gets twenty of them."""
_MOST_ROUNDS = 6


@dataclass(slots=True)
class MendedFile:
    """One file: its text before and after, and what was mended, in the order it was done."""

    file: RecordFile
    old: str
    new: str
    made: list[str] = field(default_factory=list)

    @property
    def changed(self) -> bool:
        """Whether anything was mended."""
        return self.new != self.old


@dataclass(frozen=True, slots=True)
class MendedBook:
    """What `mend` has done, or would do, and the findings of these files that are left."""

    files: tuple[MendedFile, ...]
    left: tuple[Finding, ...]

    @property
    def changed(self) -> list[MendedFile]:
        """The files that something was mended in."""
        return [file for file in self.files if file.changed]


def mended_book(book: Book, files: Sequence[RecordFile]) -> MendedBook:
    """Return the files with all fixes made; nothing is written."""
    mended = [started for file in files if (started := _started(file)) is not None]
    for each in mended:
        mend_shape(each)
        mend_style(each)
    begun = {each.file.path for each in mended}
    left = [f for file in files if file.path not in begun for f in read_record(file).findings]
    left += _mend_by_rules(book, mended)
    return MendedBook(tuple(mended), tuple(left))


def write_mended(mended: MendedBook) -> None:
    """Write every changed file, each in one step.

    Raises:
        ChangedMeanwhileError: somebody changed a file meanwhile; those before it are written.
        OSError: a file cannot be written.
    """
    for each in mended.changed:
        replace_text(each.file.path, each.old, each.new)


def mend_shape(each: MendedFile) -> None:
    """Make the fixes of loading and shape, until none is left that helps."""
    tried: set[tuple[object, ...]] = set()
    for _ in range(min(_MOST_FIXES, _MOST_READ_CHARACTERS // (len(each.old) + 1))):
        findings = text_findings(each.file, each.new)
        finding = next((f for f in findings if can_mend(f) and _key(f) not in tried), None)
        if finding is None:
            return
        new = _mended(each, finding)
        if new is None or not _helped(finding, findings, text_findings(each.file, new), new, each):
            tried.add(_key(finding))
            continue
        each.new = new
        each.made.append(_told(finding))


def mend_style(each: MendedFile) -> None:
    """Put the schema line and the order of keys right, in a file that can be read."""
    steps = [step for step in record_steps(each.file) if step.name in MENDED_BY_FIX]
    for _ in range(_MOST_FIXES):
        try:
            faults = style_faults(each.new, steps)
        except UneditableError:
            return
        if not faults:
            return
        each.new = apply_edits(each.new, faults[0].edits)
        each.made.append(f"{each.file.shown}:{faults[0].line}: {faults[0].message}")


def text_findings(file: RecordFile, text: str) -> list[Finding]:
    """What loading and the shape check say of a text, as if it were in the file."""
    found = shape_of(file.kind, load_text(text, file.shown), file.shown).findings
    return by_hand(found, file.is_template)


def text_faults(file: RecordFile, text: str) -> list[Finding]:
    """What of that keeps the text from being a record."""
    return [finding for finding in text_findings(file, text) if finding.fails_check]


def _started(file: RecordFile) -> MendedFile | None:
    try:
        text = text_of(file)
    except UneditableError:
        return None  # not UTF-8, far too large or unreadable: nothing can be typed
    return MendedFile(file, text, text)


def _mended(each: MendedFile, finding: Finding) -> str | None:
    try:
        return mend(each.new, each.file.kind, finding)
    except UneditableError:
        return None


def _helped(
    finding: Finding,
    before: Sequence[Finding],
    after: Sequence[Finding],
    new: str,
    each: MendedFile,
) -> bool:
    """Whether the finding is gone and the text no harder to read than before."""
    if _unread(after) > _unread(before) or (_unread(after) and not _unread(before)):
        return False
    if finding.fix is not None and finding.fix.change == "remove":
        return new != each.new  # a third equal item gives the same finding again
    return _count(finding, after) < _count(finding, before)


def _unread(findings: Sequence[Finding]) -> int:
    return sum(finding.rule_id.startswith("YML") for finding in findings)


def _count(finding: Finding, among: Sequence[Finding]) -> int:
    same = (finding.rule_id, finding.message, finding.path)
    return sum((f.rule_id, f.message, f.path) == same for f in among)


def _key(finding: Finding) -> tuple[object, ...]:
    return finding.line, finding.column, finding.rule_id, finding.message


def _told(finding: Finding) -> str:
    place = f"{finding.file}:{finding.line}:{finding.column}"
    return f"{place}: {finding.rule_id} {finding.message}"


def _mend_by_rules(book: Book, mended: list[MendedFile]) -> list[Finding]:
    """Make the fixes that rules offer; return the findings that are left in these files."""
    by_path = {each.file.path: each for each in mended}
    for _ in range(_MOST_ROUNDS):
        findings = _findings(book, by_path)
        if not _one_round(findings, by_path):
            break
    return [finding for found in findings.values() for finding in found]


def _findings(book: Book, by_path: dict[Path, MendedFile]) -> dict[Path, list[Finding]]:
    texts = {path: each.new for path, each in by_path.items()}
    found = trial_findings(book, texts, check_book)
    return {path: found.get(path, []) for path in by_path}


def _one_round(findings: dict[Path, list[Finding]], by_path: dict[Path, MendedFile]) -> bool:
    """Make every fix that rules offer; whether there was one."""
    done = False
    for path, found in findings.items():
        each = by_path[path]
        # From the end: an item that is taken out moves the places of those behind it.
        for finding in sorted(found, key=Finding.sort_key, reverse=True):
            if finding.fix is None or finding.rule_id.startswith(("YML", "SCH")):
                continue
            new = _mended(each, finding)
            if new is not None and new != each.new:
                each.new, done = new, True
                each.made.append(_told(finding))
    return done
