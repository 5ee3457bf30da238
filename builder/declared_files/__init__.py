"""The files that are written from the declarations of the model, and held equal to them by a test.

`python -m builder.declared_files` writes them anew after a change of a declaration.
"""

from __future__ import annotations

from builder.declared_files.files import declared_texts

__all__ = ["declared_texts"]
