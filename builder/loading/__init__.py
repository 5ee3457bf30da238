"""Text of a record to plain data with positions, refusing what could be read two ways."""

from builder.loading.catalogue import CATALOGUE
from builder.loading.events import EventSource
from builder.loading.reading import Loaded, load_file, load_text

__all__ = ["CATALOGUE", "EventSource", "Loaded", "load_file", "load_text"]
