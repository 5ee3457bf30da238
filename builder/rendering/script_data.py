"""Data that a page reads as a script, so that it reads it from a folder of files too."""

from __future__ import annotations

import json
from typing import Any


def script_json(data: Any) -> str:
    """JSON for a script file: no spaces, and nothing that could end a script element."""
    text = json.dumps(data, ensure_ascii=False, separators=(",", ":"), sort_keys=True)
    return text.replace("<", "\\u003c").replace("\u2028", "\\u2028").replace("\u2029", "\\u2029")
