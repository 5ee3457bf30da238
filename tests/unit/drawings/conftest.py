"""The drawing tests use the jobs of the planning tests."""

from __future__ import annotations

import sys
from pathlib import Path

sys.path.append(str(Path(__file__).resolve().parents[1] / "planning"))
