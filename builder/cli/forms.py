"""The forms in which commands answer."""

from __future__ import annotations

from typing import Final, Literal

Form = Literal["text", "json", "annotations", "spice", "markdown"]
"""What is chosen with --format; "annotations" is offered by `check` alone, "spice" by `plan`,
"markdown" by `diff`."""
REPORTS: Final = ("text", "json", "annotations")
"""The forms in which `check` answers."""
