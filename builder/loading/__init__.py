"""Text of a record to plain data with positions, refusing what could be read two ways."""

from builder.bounded_file import FileTooLargeError, read_bounded
from builder.loading.catalogue import CATALOGUE
from builder.loading.events import EventSource
from builder.loading.reading import Loaded, load_file, load_taken, load_text
from builder.loading.refusals import Refusal, empty_file
from builder.loading.taking import LARGEST_FILE_BYTES, Taken, take_file

__all__ = [
    "CATALOGUE",
    "LARGEST_FILE_BYTES",
    "EventSource",
    "FileTooLargeError",
    "Loaded",
    "Refusal",
    "Taken",
    "empty_file",
    "load_file",
    "load_taken",
    "load_text",
    "read_bounded",
    "take_file",
]
