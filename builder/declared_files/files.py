"""Which files are written from declarations, and their texts."""

from __future__ import annotations

from pathlib import Path

from builder.data_files import schema_folder
from builder.declared_files.schemas import schema_file
from builder.model.kinds import DECLARED


def declared_texts() -> dict[Path, str]:
    """Return the text that each of the files should have."""
    return {schema_folder() / f"{kind}.schema.json": schema_file(kind) for kind in DECLARED}
