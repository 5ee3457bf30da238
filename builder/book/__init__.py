"""A book: folders of records and the settings that hold them together.

Each name is loaded when it is asked for: who wants to know what records are called reads none.
"""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from builder.book.linked_files import LINKED_FOLDER, UNREAD_FOLDER
    from builder.book.locked import NAMED_TWICE, NOT_FETCHED, Standing
    from builder.book.looks import Looks
    from builder.book.opening import Book, open_book, settings_of
    from builder.book.record_files import (
        FOLDER_OF,
        FOLDERS,
        TEMPLATE,
        Name,
        RecordFile,
        Root,
        begun_path,
        shown_path,
    )
    from builder.book.recording_leads import LEAD_UNFIT
    from builder.book.renamed import OLD_NAME, RENAMED_WRONGLY
    from builder.book.settings import ROOT_MISSING, home_of
    from builder.book.settings_files import (
        OTHER_SETTINGS_FILE,
        SETTINGS_FILE,
        BookNotFoundError,
        holds_book,
        settings_file,
    )
    from builder.book.snapshot import Snapshot

_STAND_IN = {
    "linked_files": ("LINKED_FOLDER", "UNREAD_FOLDER"),
    "locked": ("NAMED_TWICE", "NOT_FETCHED", "Standing"),
    "looks": ("Looks",),
    "opening": ("Book", "open_book", "settings_of"),
    "record_files": (
        *("FOLDERS", "FOLDER_OF", "TEMPLATE", "Name", "RecordFile", "Root"),
        *("begun_path", "shown_path"),
    ),
    "recording_leads": ("LEAD_UNFIT",),
    "renamed": ("OLD_NAME", "RENAMED_WRONGLY"),
    "settings": ("ROOT_MISSING", "home_of"),
    "settings_files": (
        *("OTHER_SETTINGS_FILE", "SETTINGS_FILE", "BookNotFoundError"),
        *("holds_book", "settings_file"),
    ),
    "snapshot": ("Snapshot",),
}
_PLACES = {name: module for module, names in _STAND_IN.items() for name in names}

__all__ = [
    "FOLDERS",
    "FOLDER_OF",
    "LEAD_UNFIT",
    "LINKED_FOLDER",
    "NAMED_TWICE",
    "NOT_FETCHED",
    "OLD_NAME",
    "OTHER_SETTINGS_FILE",
    "RENAMED_WRONGLY",
    "ROOT_MISSING",
    "SETTINGS_FILE",
    "TEMPLATE",
    "UNREAD_FOLDER",
    "Book",
    "BookNotFoundError",
    "Looks",
    "Name",
    "RecordFile",
    "Root",
    "Snapshot",
    "Standing",
    "begun_path",
    "holds_book",
    "home_of",
    "open_book",
    "settings_file",
    "settings_of",
    "shown_path",
]


def __getattr__(name: str) -> object:
    """Load what is asked for by name."""
    if name not in _PLACES:
        raise AttributeError(f"module {__name__} has no attribute {name}")
    found = getattr(import_module(f"{__name__}.{_PLACES[name]}"), name)
    globals()[name] = found
    return found
