"""Contributors: who measures, by a handle of their own choosing."""

from __future__ import annotations

from typing import Literal

from builder.declaring import Form, listed, record, text, word
from builder.model.forms import DATE, ID, LINE, NOTE
from builder.model.recorded import OWN_ID, Recorded

ContributorKind = Literal["shop", "person"]

_KEY_TYPES = (
    "ssh-ed25519|ssh-rsa|ecdsa-sha2-nistp(?:256|384|521)"
    "|sk-ssh-ed25519@openssh[.]com|sk-ecdsa-sha2-nistp256@openssh[.]com"
)
PUBLIC_KEY = Form(
    "", "", {"type": "string", "$comment": "The first two words of a line that "
    "ssh-keygen writes into a file ending in .pub (OpenSSH, manual page sshd, AUTHORIZED_KEYS).",
    "pattern": f"^(?:{_KEY_TYPES}) AAAA[A-Za-z0-9+/]{{16,}}={{0,2}}$", "maxLength": 1500,
    "not": {"type": "string", "pattern": "[\\n\\r\\t]"},
    "formMeaning": "the first two words of your .pub file, without the remark behind them"},
)  # fmt: skip


@record
class Contributor(Recorded):
    """A contributor: a shop or person who measures, by a handle that they chose.

    Its id is that handle, as `by` and `who` of other records name it.
    """

    id: str = text(OWN_ID, "alder-pit-audio", "north-bay-audio", form=ID)
    name: str = text(
        "What people call them; the handle will do.", "Alder Pit Audio", form=LINE,
        ask="What people call you, or your handle",
    )  # fmt: skip
    kind: ContributorKind = word(
        "Whether a shop or one person goes by this handle.", "shop",
        means={"shop": "Several people who share meters and benches.",
        "person": "One person, whichever shop that is at."},
        label="Who", ask="shop or person", answer="shop",
    )  # fmt: skip
    since: str = text(
        "The first day of their work under this handle, as YYYY-MM-DD.", "2023-04-01", form=DATE,
        label="Since", ask="First day of work under this handle, YYYY-MM-DD",
    )  # fmt: skip
    public_keys: tuple[str, ...] = listed(
        "Their OpenSSH public keys, with which signed records are checked; the newest first.",
        ["ssh-ed25519 AAAAC3NzaC1lZDI1NTE5AAAAIJ7MwmqxzEOb5AASSIo00YGdQuwpJD0+L8vNEMiPDoO+"],
        least=1, most=10, unique=True, form=PUBLIC_KEY, default=(),
        label="Public keys", absent="none: nothing that they hand in is signed",
        ask="Your OpenSSH public key, one a line, if your records shall be signed", answer="",
        option="public-key",
        lines=True,
    )  # fmt: skip
    not_same_as: tuple[str, ...] = listed(
        "Handles that look like this one, or go with one of its keys, and are somebody else's; you "
        "have asked them.", ["alder-pitt-audio"], least=1, most=20, unique=True, form=ID,
        default=(),
        label="Not the same as", absent="nobody whose handle looks like it",
    )  # fmt: skip
    note: str | None = text(
        "Anything a person should know about them; nothing that they would not print.",
        "closed in 2025", form=NOTE, default=None,
        label="Note", absent="",
    )  # fmt: skip
