"""Every test that asks for `load` runs once with each YAML parser."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from builder.loading import EventSource, Loaded, load_text
from builder.loading.events import available_sources


@pytest.fixture(params=list(EventSource), ids=lambda source: source.value)
def load(request: pytest.FixtureRequest) -> Callable[[str | bytes], Loaded]:
    if request.param not in available_sources():
        pytest.skip("PyYAML was built without libyaml here")
    return lambda text: load_text(text, "record.yaml", request.param)
