"""The records that a job was begun with, as they stood, in one file beside the job.

`begin` writes it. A begun job is planned from it, so that its pack comes out the same whatever
becomes of the book. It is no record: nobody edits it, no page shows it, and where it is missing
or says something else than the job's as-built part, it is not used.
"""

from __future__ import annotations

import json
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, fields
from pathlib import Path
from typing import Any

from builder import __version__
from builder.book import FOLDER_OF, Name, RecordFile
from builder.loading import Taken
from builder.model.house_defaults import HouseDefaults
from builder.model.job import RecordUsed
from builder.model.words import RecordKind

SUM_DIGITS = 8
_ABOUT = (
    "The records that this job was begun with, as they stood. loombook begin wrote it, and plans "
    "the job from it. Nobody edits it."
)


@dataclass(frozen=True, slots=True)
class Frozen:
    """What a frozen file holds: record files in memory, and the house defaults of that day.

    `counts_as` are the contributors that the handles of the car counted as; a file that was written
    before handles were registered has none, and each counted for itself.
    """

    files: tuple[RecordFile, ...]
    defaults: HouseDefaults
    counts_as: Mapping[str, str] = field(default_factory=dict)


def frozen_text(
    files: Iterable[RecordFile], defaults: HouseDefaults, counts_as: Mapping[str, str]
) -> str:
    """Return the text of the file that freezes these records."""
    files = list(files)
    old = sorted({name for file in files for name in file.renamed.items()})
    said = {
        "about": _ABOUT,
        "version": __version__,
        "defaults": {each.name: getattr(defaults, each.name) for each in fields(defaults)},
        "counts_as": dict(sorted(counts_as.items())),
        "renamed": [[kind, was, now] for (kind, was), now in old],
        "records": [
            {"kind": file.kind, "id": file.path.stem, "text": file.content.raw.decode("utf-8")}
            for file in files
        ],
    }
    return json.dumps(said, indent=1, ensure_ascii=False) + "\n"


def frozen_in(taken: Taken | None, used: Iterable[RecordUsed]) -> Frozen | None:
    """Return what a frozen file holds, or None where it is missing, broken or of another plan.

    `used` are the records that the job's as-built part names: each must be there with its sum.
    """
    if taken is None or taken.refusal is not None:
        return None
    try:
        found = _frozen(json.loads(taken.raw.decode("utf-8")))
    except (ValueError, KeyError, TypeError, RecursionError):
        return None
    sums = {(file.kind, file.path.stem): record_sum(file) for file in found.files}
    same = all(sums.get((each.kind, each.id)) == each.sum for each in used)
    kinds = [file.kind for file in found.files]
    whole = kinds.count("job") == kinds.count("vehicle") == 1
    return found if same and whole else None


def record_sum(file: RecordFile) -> str:
    """The sum over the text of a record, as it is printed."""
    return file.content.digest[:SUM_DIGITS]


def _frozen(said: Mapping[str, Any]) -> Frozen:
    known = {each.name for each in fields(HouseDefaults)}
    defaults = {key: float(value) for key, value in said["defaults"].items() if key in known}
    renamed: dict[Name, str] = {(kind, was): now for kind, was, now in said["renamed"]}
    files = tuple(_file(renamed, **each) for each in said["records"])
    counts_as = {str(handle): str(one) for handle, one in dict(said.get("counts_as", {})).items()}
    return Frozen(files, HouseDefaults(**defaults), counts_as)


def _file(renamed: Mapping[Name, str], kind: RecordKind, id: str, text: str) -> RecordFile:
    path = Path(FOLDER_OF[kind]) / f"{id}.yaml"
    return RecordFile(
        kind, path, path.as_posix(), taken=Taken(text.encode("utf-8")), renamed=renamed
    )
