"""`start`: the files of a shop's own book, which are written where none of that name is yet."""

from __future__ import annotations

import json
import os
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path

from builder import __version__
from builder.book import (
    FOLDERS,
    OTHER_SETTINGS_FILE,
    SETTINGS_FILE,
    Book,
    open_book,
)
from builder.data_files import examples_folder, forge_folder, schema_folder, templates_folder
from builder.model.house_defaults import HouseDefaults
from builder.pipeline.changing.record_files import create_new

PRIVATE = "private"
_WORKFLOW = Path("workflows") / "book.yml"
_OF_A_BOOK = (
    _WORKFLOW,
    Path("workflows") / "labels.yml",
    Path("ISSUE_TEMPLATE"),
    Path("pull_request_template.md"),
)
"""What of the forge's files belongs to a book; the rest is for work on loombook itself."""
# No index is named: nobody can promise a shop that the name is ours there.
_WHEEL = f"tools/loombook-{__version__}-py3-none-any.whl[site]"


@dataclass(frozen=True, slots=True)
class Started:
    """What was written and what was there already, relative to the book's folder."""

    written: tuple[str, ...]
    kept: tuple[str, ...]


def start_book(folder: Path, site_name: str, shared: Path | None) -> Started:
    """Make a shop's book in `folder`, filling in only what is not there.

    Args:
        folder: Where; made when it is not there.
        site_name: What its site is called.
        shared: A book whose shared records belong to it too, or None.

    Raises:
        BookNotFoundError: `shared` holds no book.
        OSError: something cannot be written; what was written before stays.
    """
    roots = shared_folders(folder, open_book(shared)) if shared else []
    written, kept = [], []
    for name, text in _files(site_name, roots):
        if _is_there(folder, name):
            kept.append(name)
        else:
            create_new(folder / name, text)
            written.append(name)
    for kind in FOLDERS:
        (folder / PRIVATE / kind).mkdir(parents=True, exist_ok=True)
    return Started(tuple(written), tuple(kept))


def shared_folders(folder: Path, book: Book) -> list[str]:
    """The shared roots of another book as a settings file in `folder` names them."""
    shared = (root.folder for root in book.roots if root.visibility == "shared")
    here = folder.resolve()
    return [Path(os.path.relpath(root.resolve(), here)).as_posix() for root in shared]


def _is_there(folder: Path, name: str) -> bool:
    # Of the two names that settings may have, a book can have only one.
    names = (SETTINGS_FILE, OTHER_SETTINGS_FILE) if name == SETTINGS_FILE else (name,)
    return any(os.path.lexists(folder / each) for each in names)


def _files(site_name: str, roots: Sequence[str]) -> Iterator[tuple[str, str]]:
    """Yield the files of a new book, each with its text."""
    own = templates_folder() / "start"
    yield SETTINGS_FILE, _settings_text((own / "book.yaml").read_text("utf-8"), site_name, roots)
    yield "README.md", _readme((own / "README.md").read_text("utf-8"), site_name, roots)
    yield ".gitignore", (own / "gitignore").read_text("utf-8")
    for kind in FOLDERS:
        text = (examples_folder() / kind / "TEMPLATE.yaml").read_text("utf-8")
        yield f"{kind}/TEMPLATE.yaml", text.replace("$schema=../../schema/", "$schema=../schema/")
    for file in sorted(schema_folder().iterdir()):
        yield f"schema/{file.name}", file.read_text("utf-8")
    yield from _forge_files()


def _forge_files() -> Iterator[tuple[str, str]]:
    folder = forge_folder()
    for place in sorted(_files_below(folder)):
        text = (folder / place).read_text("utf-8")
        if place == _WORKFLOW:
            text = text.replace('LOOMBOOK: ".[site]"', f'LOOMBOOK: "{_WHEEL}"')
        yield f".github/{place.as_posix()}", text


def _files_below(folder: Path) -> Iterator[Path]:
    """Yield the forge's files that a book gets, relative to their folder."""
    for each in _OF_A_BOOK:
        found = (folder / each).rglob("*") if (folder / each).is_dir() else (folder / each,)
        yield from (file.relative_to(folder) for file in found if file.is_file())


def _settings_text(text: str, site_name: str, roots: Sequence[str]) -> str:
    entries = [*((root, "shared") for root in roots), (".", "shared"), (PRIVATE, "private")]
    defaults = "\n".join(_default_line(*each) for each in HouseDefaults.described())
    return (
        text.replace("@ROOTS@", "\n".join(_root_line(*entry) for entry in entries))
        .replace("@DEFAULTS@", defaults)
        .replace("@SITE_NAME@", json.dumps(site_name, ensure_ascii=False))
    )


def _root_line(path: str, visibility: str) -> str:
    return f"  - {{path: {json.dumps(path, ensure_ascii=False)}, visibility: {visibility}}}"


def _default_line(name: str, value: float, unit: str, what: str) -> str:
    return f"#   {name}: {value:g}  # {what}{f' [{unit}]' if unit else ''}"


def _readme(text: str, site_name: str, roots: Sequence[str]) -> str:
    rows = "".join(f"| `{root}/` | the shared book, kept by others |\n" for root in roots)
    return text.replace("@TITLE@", site_name).replace("@SHARED@\n", f"{rows}\n")
