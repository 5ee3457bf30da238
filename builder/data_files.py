"""Where schemas, page templates and examples are: inside an installed package, or beside it.

A record's first line leads an editor to its schema: `schema_ref`.
"""

from __future__ import annotations

import os
from pathlib import Path

from builder.model.words import SchemaKind

_PACKAGE = Path(__file__).parent


def schema_folder() -> Path:
    """The folder that holds `*.schema.json`."""
    return _data_folder("schema")


def templates_folder() -> Path:
    """The folder that holds the pages, styles and scripts of the site."""
    return _data_folder("site_templates")


def examples_folder() -> Path:
    """The folder that holds `<kind>/TEMPLATE.yaml`."""
    return _data_folder("examples", "pinouts")


def forge_folder() -> Path:
    """The folder with the workflow and the templates that a forge reads."""
    return _data_folder("forge", ".github")


def licence_file() -> Path:
    """The terms of this project, which travel with every site."""
    inside = _PACKAGE / "_data" / "LICENSE"
    return inside if inside.is_file() else _PACKAGE.parent / "LICENSE"


def schema_ref(path: Path, kind: SchemaKind, home: Path) -> str:
    """The relative path of a kind's schema from a record file that need not be there yet.

    A `schema` folder in `home`, the folder of the record's book, goes before the installed one.
    """
    near = near_schema_ref(path, kind, home)
    return near or _relative(schema_folder() / f"{kind}.schema.json", path)


def near_schema_ref(path: Path, kind: SchemaKind, home: Path) -> str | None:
    """The same when a `schema` folder on the way up to `home` has it, else None.

    What stands above a book is somebody else's, and only by chance a schema of ours: it counts
    when it is the package's own, as it is beside the book of a checkout.
    """
    name, ours, top = f"{kind}.schema.json", schema_folder().resolve(), home.resolve()
    on_the_way = path.resolve().parents
    near = (f / "schema" for f in on_the_way if f.is_relative_to(top) or f / "schema" == ours)
    found = next((folder / name for folder in near if (folder / name).is_file()), None)
    return None if found is None else _relative(found, path)


def _data_folder(name: str, beside: str = "") -> Path:
    # A wheel carries the folders inside the package; an editable install has them beside it.
    inside = _PACKAGE / "_data" / name
    return inside if inside.is_dir() else _PACKAGE.parent / (beside or name)


def _relative(schema: Path, record: Path) -> str:
    try:
        return Path(os.path.relpath(schema, record.resolve().parent)).as_posix()
    except ValueError:  # on another drive: no relative path leads there
        return schema.resolve().as_uri()
