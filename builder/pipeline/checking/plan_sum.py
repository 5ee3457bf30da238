"""The sum at the foot of a plan's or a pack's sheets: it changes when what they say does."""

from __future__ import annotations

import json
from collections.abc import Mapping
from hashlib import sha256
from typing import Any

_REASONS = frozenset({"because", "refusals", "alternatives", "findings"})
"""What is told of a plan and is not the plan; a page names files otherwise than a command does."""


def plan_sum(answer: Mapping[str, Any]) -> str:
    """Return eight letters of a sum of a plan or a pack in the form of its JSON, reasons aside."""
    plain = {key: value for key, value in answer.items() if key not in _REASONS}
    text = json.dumps(plain, sort_keys=True, ensure_ascii=False)
    return sha256(text.encode()).hexdigest()[:8]
