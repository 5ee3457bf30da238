"""Which files are written from declarations, and their texts."""

from __future__ import annotations

import json
from pathlib import Path

from builder.data_files import examples_folder, schema_folder
from builder.declared_files.answers import work_pack_file
from builder.declared_files.json_text import json_text
from builder.declared_files.lent_keys import sheet_file
from builder.declared_files.schemas import book_file, defs_file, lock_file, schema_file
from builder.declared_files.tables import readme_file
from builder.declared_files.templates import template_file
from builder.model.kinds import DECLARED


def declared_texts() -> dict[Path, str]:
    """Return the text that each of the files should have."""
    templates = {kind: examples_folder() / f"{kind}s" / "TEMPLATE.yaml" for kind in DECLARED}
    schemas = sorted(schema_folder().glob("*.schema.json"))  # those by hand get their lines alone
    readme, book = schema_folder() / "README.md", schema_folder() / "book.schema.json"
    pack = schema_folder() / "work-pack.schema.json"
    defs, sheet = schema_folder() / "defs.schema.json", schema_folder() / "sheet.schema.json"
    return {
        **{file: _as_written(file.read_text("utf-8")) for file in schemas},
        **{schema_folder() / f"{kind}.schema.json": schema_file(kind) for kind in DECLARED},
        **{file: template_file(kind, file.read_text("utf-8")) for kind, file in templates.items()},
        defs: defs_file(defs.read_text("utf-8")),
        sheet: sheet_file(sheet.read_text("utf-8")),
        pack: work_pack_file(pack.read_text("utf-8")),
        book: book_file(),
        schema_folder() / "lock.schema.json": lock_file(),
        readme: readme_file(readme.read_text("utf-8")),
    }


def _as_written(text: str) -> str:
    return json_text(json.loads(text))
