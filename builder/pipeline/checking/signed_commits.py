"""Visits that came into the book by a commit that their contributor signed; git verifies it."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from typing import Any, Final

from builder.book.revisions import NoSuchRevisionError, introduced_by, signer_of, text_at
from builder.loading import load_text
from builder.model.contributor import Contributor
from builder.pipeline.checking.ssh_keygen import allowed_signers
from builder.pipeline.checking.visit_text import visit_text
from builder.unfinished import work_folder

_GIT: Final = "git"
"""What git says that a signature of a commit is for (git, gpg.ssh)."""


def came_signed(
    path: Path, data: Mapping[str, Any], session: str, handle: str,
    registered: Mapping[str, Contributor],
) -> bool:  # fmt: skip
    """Whether the commit that brought a visit's file is signed by a key of `handle`, and the visit
    says what it said then. Without git or a repository nothing came signed."""
    try:
        commit = introduced_by(path)
        if not commit:
            return False
        with work_folder() as folder:
            allowed = folder / "allowed"
            allowed.write_text(allowed_signers(registered, _GIT), "utf-8")
            if signer_of(path, commit, allowed) != handle:
                return False
        then = load_text(text_at(path, commit), "").data
        return then is not None and visit_text(then, session) == visit_text(data, session)
    except (NoSuchRevisionError, KeyError, TypeError, AttributeError):
        return False  # what stood there then was no such visit
