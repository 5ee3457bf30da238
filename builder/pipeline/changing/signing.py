"""`sign`: a visit signed with the key of who measured."""

from __future__ import annotations

from pathlib import Path
from typing import NamedTuple

from builder.book import Book, shown_path
from builder.pipeline.answers.answering import vehicle_meant
from builder.pipeline.changing.record_files import create_new
from builder.pipeline.checking.shelf import counting_shelf
from builder.pipeline.checking.signatures import visit_signature
from builder.pipeline.checking.ssh_keygen import allowed_signers, is_signed, signature_by
from builder.pipeline.checking.visit_text import visit_text
from builder.speller import nearest


class CannotSignError(Exception):
    """Nothing was signed; the message says why, and what to do."""


class Unsigned(NamedTuple):
    """A visit to be signed: by whom, over which text, and where its signature goes."""

    handle: str
    text: bytes
    place: Path


def unsigned_visit(book: Book, vehicle_name: str, visit: str) -> Unsigned:
    """Return what is to be signed of a visit.

    Raises:
        NoSuchRecordError: none or several vehicles fit.
        CannotSignError: it has no such visit, that is signed already, or it belongs to others.
    """
    read, vehicle = vehicle_meant(book, vehicle_name)
    session = vehicle.session(visit)
    if session is None:
        names = [each.id for each in vehicle.sessions]
        near = nearest(visit, names)
        hint = f"did you mean {near}?" if near else f"it has {', '.join(names) or 'none'}"
        raise CannotSignError(f'{vehicle.id} has no visit "{visit}": {hint}')
    there = read.elsewhere.get(session.path)
    if there:
        read = there.read
        visit = read.data["sessions"][there.own[-1]]["id"]  # its own, in its file
    place = visit_signature(read.file.path, visit)
    if book.lender_of(read.file.path) is not None:
        raise CannotSignError(f"{read.file.shown} belongs to a shared book: sign it there")
    if place.exists():
        raise CannotSignError(f"{shown_path(place)} is there already: delete it to sign again")
    return Unsigned(session.by, visit_text(read.data, visit), place)


def sign(book: Book, unsigned: Unsigned, key: Path) -> None:
    """Write the signature of a visit, made by the key in a file.

    Raises:
        NoSshKeygenError: there is no ssh-keygen.
        CannotSignError: it made no signature, or not one of the contributor's keys.
        FileExistsError: somebody wrote one meanwhile.
        OSError: it cannot be written.
    """
    handle = unsigned.handle
    signature = signature_by(unsigned.text, key)
    if signature is None:
        raise CannotSignError(f"ssh-keygen made no signature with {shown_path(key)}")
    allowed = allowed_signers(counting_shelf(book).contributors)
    if not is_signed(unsigned.text, signature, handle, allowed):
        raise CannotSignError(
            f"the key in {shown_path(key)} is none of {handle}: put its public half under "
            f"public_keys of contributors/{handle}.yaml first, or sign with another"
        )
    create_new(unsigned.place, signature)
