"""The book where a command stands, found without opening it."""

from __future__ import annotations

from pathlib import Path

from builder.book import holds_book


def book_here() -> Path:
    """The book where a command stands: this folder, else the pinouts in it."""
    here = Path.cwd()
    return here if holds_book(here) else here / "pinouts"
