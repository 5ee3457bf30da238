"""What changed between two editions of a book as plain text: a block a record, a line a fact."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from typing import Protocol


class _Change(Protocol):
    @property
    def words(self) -> str:
        """The change as one line."""


class Changed(Protocol):
    """One record, plan or work pack, and what changed on it."""

    @property
    def kind(self) -> str:
        """A record kind, "plan" or "work pack"."""

    @property
    def name(self) -> str:
        """Its name."""

    @property
    def came(self) -> bool | None:
        """Whether it came, went, or is in both editions."""

    @property
    def changes(self) -> Sequence[_Change]:
        """What changed on it."""


def changes_text(changed: Sequence[Changed], notes: Iterable[str] = ()) -> str:
    """The changes of a book; `notes` say what could not be compared."""
    lines = [*notes]
    for record in changed:
        lines += ["", *_block(record)]
    lines += ["", count_of(changed)]
    return "\n".join(lines).lstrip("\n") + "\n"


def _block(record: Changed) -> Iterator[str]:
    if record.came is None:
        yield f"{record.kind} {record.name}"
    else:
        yield f"{record.kind} {record.name}: {'added' if record.came else 'removed'}"
    for change in record.changes:
        yield f"  {change.words}"


def count_of(changed: Sequence[Changed]) -> str:
    """How many of each kind changed, as a sentence without its end."""
    if not changed:
        return "nothing changed"
    kinds = list(dict.fromkeys(record.kind for record in changed))
    counts = (sum(record.kind == kind for record in changed) for kind in kinds)
    told = (f"{n} {kind}{'' if n == 1 else 's'}" for n, kind in zip(counts, kinds, strict=True))
    return f"changed: {', '.join(told)}"
