"""The forms in which commands answer."""

from __future__ import annotations

from typing import Literal

Form = Literal["text", "json", "github"]
"""What is chosen with --format; "github" is offered by `check` alone."""
