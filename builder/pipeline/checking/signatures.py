"""`check --signatures`: whether what contributors signed still says what they signed.

A signature stands in a file of its own. Beside `ID.yaml`, `ID.VISIT.sig` is that of a visit, by the
contributor of that visit, and `ID.yaml.sig` that of the whole file, by any contributor. A visit in
a file of its own is signed, too, where the commit that brought it is.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from pathlib import Path
from typing import Final

from builder.book import Book, RecordFile, shown_path
from builder.findings import CatalogueEntry, DataPath, Fault, Finding, Severity
from builder.loading import read_bounded
from builder.model.contributor import Contributor
from builder.model.vehicle import Vehicle
from builder.model.visit import Visit
from builder.pipeline.checking.records import ReadRecord, read_record
from builder.pipeline.checking.shelf import counting_shelf
from builder.pipeline.checking.signed_commits import came_signed
from builder.pipeline.checking.ssh_keygen import (
    LARGEST_SIGNATURE_BYTES,
    allowed_signers,
    is_signed,
    signers_of,
)
from builder.pipeline.checking.visit_text import visit_text

SIGNATURE: Final = ".sig"

SIGNATURE_WRONG = CatalogueEntry(
    id="BOK121",
    slug="signature-wrong",
    title="A signature that does not hold",
    severity=Severity.FIX,
    what="A file `ID.VISIT.sig` or `ID.yaml.sig` whose signature no key of the contributor made "
    "over what stands in the record today. Only `check --signatures` looks.",
    why="Somebody changed a reading after it was signed, or signed for another. A slip that was "
    "put right looks the same: whoever measured has to look and sign again.",
    example="vehicles/ostrel/tansy.s1.sig, and a figure of visit s1 changed since in tansy.yaml",
    fix="Put back what was signed, or have who measured sign again: delete the file, then "
    "`loombook sign`.",
    source="OpenSSH, manual page ssh-keygen, -Y verify.",
)
SIGNATURE_OF_NOTHING = CatalogueEntry(
    id="BOK122",
    slug="signature-of-nothing",
    title="A signature of nothing",
    severity=Severity.WARN,
    what="A file ending in .sig beside records that belongs to none of them, or to no visit of its "
    "vehicle. Only `check --signatures` looks.",
    why="Somebody signed something that is not in the book any more, or the file has another name "
    "than its visit: what stands there counts as not signed.",
    example="vehicles/ostrel/tansy.s9.sig, and tansy.yaml without a visit s9",
    fix="Rename it as the visit is called, or delete it.",
)
NOT_SIGNED = CatalogueEntry(
    id="BOK123",
    slug="not-signed",
    title="A visit without signature, by a contributor who signs",
    severity=Severity.NOTE,
    what="A visit without a file `ID.VISIT.sig`, by a contributor with a public key. Only "
    "`check --signatures` looks.",
    why="Whoever has a key is known to sign; a visit under that handle without a signature may be "
    "somebody else's.",
    example="contributors/alder-pit-audio.yaml with public_keys, and no tansy.s1.sig for a visit "
    "of theirs in tansy.yaml",
    fix="Ask them to sign it: `loombook sign ID VISIT --key FILE`.",
)


@dataclass(slots=True)
class Signatures:
    """What came of looking: the findings, and how many of what were signed and hold."""

    findings: list[Finding] = field(default_factory=list)
    visits: int = 0
    records: int = 0

    @property
    def summary(self) -> str:
        """The count as one line."""
        visits = "1 visit" if self.visits == 1 else f"{self.visits} visits"
        records = "1 record" if self.records == 1 else f"{self.records} records"
        return f"signed and verified: {visits}, {records}"


@dataclass(frozen=True, slots=True)
class _Signers:
    registered: Mapping[str, Contributor]
    allowed: str


def check_signatures(book: Book, files: Sequence[RecordFile]) -> Signatures:
    """Verify every signature beside these record files of a book, and say what is missing.

    Raises:
        NoSshKeygenError: there is something to verify and no ssh-keygen.
    """
    shelf = counting_shelf(book)
    signers = _Signers(shelf.contributors, allowed_signers(shelf.contributors))
    found, known = Signatures(), set[Path]()
    for file in (file for file in files if not file.is_template):
        read = read_record(file)
        known |= _whole(read, signers, found)
        if isinstance(read.record, Vehicle | Visit):
            known |= _visits(read, read.record, signers, found)
    found.findings += _of_nothing({file.path.parent for file in files}, known, files)
    return found


def visit_signature(record: Path, visit: str) -> Path:
    """Where the signature of a visit stands: beside the record that it is typed in."""
    return record.with_name(f"{record.stem}.{visit}{SIGNATURE}")


def _whole(read: ReadRecord, signers: _Signers, found: Signatures) -> set[Path]:
    place = read.file.path.with_name(read.file.path.name + SIGNATURE)
    signature = _signature(place)
    if signature is None:
        return set()
    by = signers_of(read.file.content.raw, signature, signers.allowed)
    found.records += bool(by)
    if not by:
        message = f"no contributor of this book signed this file as it stands ({place.name})"
        help_text = f"put back what was signed, or delete {place.name} and sign again"
        found.findings.append(_located(read, ("id",), message, help_text, SIGNATURE_WRONG))
    return {place}


def _visits(
    read: ReadRecord, record: Vehicle | Visit, signers: _Signers, found: Signatures
) -> set[Path]:
    known = set()
    vehicle_id = record.vehicle if isinstance(record, Visit) else record.id
    for session in record.sessions:
        place = visit_signature(read.file.path, session.id)
        path = (*session.path, "by")
        signature = _signature(place)
        if signature is not None:
            known.add(place)
            if is_signed(visit_text(read.data, session.id), signature, session.by, signers.allowed):
                found.visits += 1
            else:
                found.findings.append(_wrong(read, path, session.by, place, signers))
        elif _came_signed(read, record, session.id, session.by, signers):
            found.visits += 1
        elif _signs(session.by, signers):
            message = f'{session.by} has a public key and did not sign visit "{session.id}"'
            help_text = f"loombook sign {vehicle_id} {session.id} --key FILE"
            found.findings.append(_located(read, path, message, help_text, NOT_SIGNED))
    return known


def _came_signed(
    read: ReadRecord, record: Vehicle | Visit, session: str, handle: str, signers: _Signers
) -> bool:
    """Whether a visit of a file of its own came by a commit that its contributor signed."""
    if not isinstance(record, Visit) or not _signs(handle, signers):
        return False
    return came_signed(read.file.path, read.data, session, handle, signers.registered)


def _signs(handle: str, signers: _Signers) -> bool:
    contributor = signers.registered.get(handle)
    return contributor is not None and bool(contributor.public_keys)


def _wrong(
    read: ReadRecord, path: DataPath, handle: str, place: Path, signers: _Signers
) -> Finding:
    if _signs(handle, signers):
        message = f"{place.name} is no signature by {handle} of this visit as it stands"
        help_text = f"put back what was signed, or delete {place.name} and have {handle} sign again"
    else:
        message = f"{place.name} cannot be verified: {handle} has no public key in contributors"
        help_text = f"add public_keys to contributors/{handle}.yaml, from who goes by that handle"
    return _located(read, path, message, help_text, SIGNATURE_WRONG)


def _located(
    read: ReadRecord, path: DataPath, message: str, help_text: str, entry: CatalogueEntry
) -> Finding:
    return read.locate(Fault(path, message, help_text), entry.id, entry.slug, entry.severity)


def _signature(place: Path) -> bytes | None:
    """What a signature's file holds, None where there is none; b"" for one that cannot be read."""
    if not place.is_file():
        return None
    try:
        return read_bounded(place, LARGEST_SIGNATURE_BYTES)
    except OSError:
        return b""


def _of_nothing(
    folders: set[Path], known: set[Path], files: Sequence[RecordFile]
) -> Iterator[Finding]:
    stems = {file.path.parent / file.path.stem for file in files}
    for folder in sorted(folders):
        for place in sorted(folder.glob(f"*{SIGNATURE}")):
            stem = place.with_name(place.name.partition(".")[0])
            if place not in known:
                what = "no visit of it" if stem in stems else "no record"
                entry = SIGNATURE_OF_NOTHING
                yield Finding(
                    shown_path(place), 1, 1, entry.severity, entry.id, entry.slug,
                    f"this signature is of {what}",
                    "rename it to ID.VISIT.sig as the visit is called, or delete it",
                )  # fmt: skip
