"""`tidy`: record files in the house style, comments and data as they were."""

from __future__ import annotations

from collections.abc import Iterable
from typing import NamedTuple

from builder.book import RecordFile, home_of
from builder.data_files import near_schema_ref, schema_ref
from builder.editing import UneditableError
from builder.editing.style_fault import StyleFault
from builder.editing.tidying import Step, steps_for, style_faults, tidied
from builder.pipeline.changing.record_files import replace_text, text_of


class Tidied(NamedTuple):
    """One file: what differs from the house style, or why it cannot be touched."""

    file: RecordFile
    old: str
    new: str
    faults: tuple[StyleFault, ...]
    refused: str  # "" when it could be read

    @property
    def changed(self) -> bool:
        """Whether the house style would have it otherwise."""
        return self.new != self.old


def record_steps(file: RecordFile) -> tuple[Step, ...]:
    """The steps of the house style for a file; where no schema stands near it, any path may."""
    home = home_of(file.path)
    near = near_schema_ref(file.path, file.kind, home)
    ref = near or schema_ref(file.path, file.kind, home)
    return steps_for(file.kind, ref, correct_ref=near is not None)


def tidied_file(file: RecordFile) -> Tidied:
    """Return a record file in the house style; nothing is written."""
    steps = record_steps(file)
    try:
        old = text_of(file)
        faults = tuple(style_faults(old, steps))
        return Tidied(file, old, tidied(old, steps), faults, "")
    except UneditableError as error:
        return Tidied(file, "", "", (), str(error))


def write_tidied(files: Iterable[Tidied]) -> int:
    """Write those that changed, each in one step; return how many.

    Raises:
        ChangedMeanwhileError: somebody changed a file meanwhile.
        OSError: a file cannot be written.
    """
    changed = [each for each in files if each.changed]
    for each in changed:
        replace_text(each.file.path, each.old, each.new)
    return len(changed)
