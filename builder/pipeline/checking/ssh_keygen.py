"""OpenSSH's ssh-keygen: it signs and verifies, we only ask (manual page ssh-keygen, -Y)."""

from __future__ import annotations

import subprocess
from collections.abc import Mapping
from pathlib import Path
from typing import Final

from builder.loading import read_bounded
from builder.model.contributor import Contributor
from builder.unfinished import work_folder

NAMESPACE: Final = "loombook"
"""What a signature is for: one made for another purpose with the same key proves nothing here."""
LARGEST_SIGNATURE_BYTES = 16_384
_PROGRAM: Final = "ssh-keygen"
_ALLOWED = "allowed_signers"


class NoSshKeygenError(Exception):
    """There is no ssh-keygen here; the message says what to install."""

    def __init__(self) -> None:
        super().__init__(
            f"{_PROGRAM} is not installed here: without it no signature can be made or checked. "
            "Install OpenSSH (on Debian the package openssh-client)"
        )


def allowed_signers(registered: Mapping[str, Contributor], purpose: str = NAMESPACE) -> str:
    """Return who may sign as whom, a line for each key (ssh-keygen, ALLOWED SIGNERS)."""
    return "".join(
        f'{handle} namespaces="{purpose}" {key}\n'
        for handle, contributor in sorted(registered.items())
        for key in contributor.public_keys
    )


def is_signed(text: bytes, signature: bytes, handle: str, allowed: str) -> bool:
    """Whether `signature` was made over `text` by a key of `handle`.

    Raises:
        NoSshKeygenError: there is no such program.
    """
    with work_folder() as folder:
        (folder / _ALLOWED).write_text(allowed, "utf-8")
        (folder / "sig").write_bytes(signature)
        said = ["-f", str(folder / _ALLOWED), "-I", handle, "-n", NAMESPACE]
        done = _run(["-Y", "verify", *said, "-s", str(folder / "sig")], text)
    return done.returncode == 0


def signers_of(text: bytes, signature: bytes, allowed: str) -> list[str]:
    """Return the handles by whose key `signature` was made over `text`, if any.

    Raises:
        NoSshKeygenError: there is no such program.
    """
    with work_folder() as folder:
        (folder / _ALLOWED).write_text(allowed, "utf-8")
        (folder / "sig").write_bytes(signature)
        said = ["-s", str(folder / "sig"), "-f", str(folder / _ALLOWED)]
        done = _run(["-Y", "find-principals", *said], b"")
    handles = done.stdout.decode("utf-8", "replace").split() if done.returncode == 0 else []
    return [handle for handle in handles if is_signed(text, signature, handle, allowed)]


def signature_by(text: bytes, key: Path) -> bytes | None:
    """Return the signature of the key in a file over `text`, None where ssh-keygen made none.

    It asks for the passphrase itself, and says itself what is wrong with the key.

    Raises:
        NoSshKeygenError: there is no such program.
    """
    with work_folder() as folder:
        (folder / "text").write_bytes(text)
        made = _run(
            ["-Y", "sign", "-q", "-f", str(key), "-n", NAMESPACE, str(folder / "text")], None
        )
        signature = folder / "text.sig"
        there = made.returncode == 0 and signature.is_file()
        return read_bounded(signature, LARGEST_SIGNATURE_BYTES) if there else None


def _run(arguments: list[str], given: bytes | None) -> subprocess.CompletedProcess[bytes]:
    """Run it; with `given` on its input it is silent, without it talks to who sits there."""
    silent = given is not None
    try:
        return subprocess.run(
            [_PROGRAM, *arguments], input=given, capture_output=silent, check=False
        )
    except OSError as error:
        raise NoSshKeygenError from error
