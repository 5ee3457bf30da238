"""Files that are refused whole, before anything in them is looked at."""

from __future__ import annotations

from builder.loading.refusals import Refusal


def not_utf8(what: str) -> Refusal:
    """`what` names the bytes, such as `the byte 0xE9`."""
    return Refusal(
        "YML101", f"{what} is not UTF-8 text", "save the file again with the encoding UTF-8."
    )


def file_too_large(most_bytes: int) -> Refusal:
    """A file of more than `most_bytes`."""
    return Refusal(
        "YML102",
        f"the file is larger than {most_bytes} bytes",
        "one file describes one scope or one part; split it, and leave photos out of it.",
    )


def file_unreadable(reason: str) -> Refusal:
    """`reason` is the operating system's sentence."""
    return Refusal(
        "YML103",
        f"the file cannot be read: {reason}",
        "check the name, and that it is a plain file you may read.",
    )


def links_outside() -> Refusal:
    """A record that is a link, or stands in a linked folder, to what is not of its book."""
    return Refusal(
        "YML123",
        "the file is a link that leads out of the book; nothing was read of it",
        "put the record itself here, or name the folder it stands in under roots in book.yaml.",
    )


def private_too() -> Refusal:
    """A shared record that is one file with something in a private folder."""
    return Refusal(
        "YML124",
        "this shared file and one in a private folder are the same file",
        "delete this name of it; if the record is meant to be shared, copy it here instead.",
    )
