"""How the property tests of the planner run: no deadline, as the machine may be busy."""

from __future__ import annotations

from hypothesis import settings

settings.register_profile("planning", deadline=None)
settings.load_profile("planning")
