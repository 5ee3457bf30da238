"""Whatever a record of a car or a job says stands on its page, if not in the words it has there."""

from __future__ import annotations

import html
import re
from collections.abc import Callable, Iterator
from functools import partial
from pathlib import Path
from typing import Any

import pytest
from shipped_book import PINOUTS
from shipped_cars import CARS, Data, car_data

from builder.figures import shown
from builder.loading import load_file
from builder.rendering.pages.wording import plain

OTHERWISE = {
    "data": "a mark",
    "vehicle": "its name", "converter": "its name", "amplifiers.part": "its name",
    "cables": "its name", "plugs.housing": "its name", "plugs.look_alikes.housing": "its name",
    "sessions.id": "who and when", "plugs.pins.readings.session": "who and when",
    "fuse_positions.readings.session": "who and when",
    "factory_amplifier.feed": "a phrase", "fuse_positions.function": "a name",
    "plugs.pins.claims.method": "a phrase", "channels.bass_table.db": "a sign",
    "plugs.read_from": "a phrase", "sessions.read_from": "a phrase",
    "recordings.session": "who and when", "recordings.pairs.not_told": "a phrase",
    **{
        f"{place}.readings.{key}": "a phrase"
        for place in ("plugs.pins", "fuse_positions")
        for key in ("state", "load", "quantity")
    },
}  # fmt: skip
"""Keys whose words are not those of the page; the readback of pages reads them."""
ROUNDED = {
    f"recordings.{key}": places
    for places, keys in {
        0: ("pairs.lower_edge_hz.value", "pairs.shape.hz", "between.sum.hz", "between.in_step.hz",
            "between.group_delay.hz", "between.all_pass.corner_hz.value"),
        1: ("pairs.lower_edge_hz.plus_minus", "pairs.bass_by_step.db", "pairs.shape.db",
            "between.sum.db", "between.in_step.db"),
        2: ("pairs.volume_steps.loud_v_rms", "pairs.level_v_rms.plus_minus",
            "pairs.bass_by_step.plus_minus", "clock_ppm.plus_minus", "between.group_delay.ms"),
        3: ("between.late_ms.plus_minus",),
        4: ("pairs.noise_v_rms.value", "pairs.noise_v_rms.plus_minus"),
    }.items()
    for key in keys
}  # fmt: skip
"""Figures of a recording that the page rounds, with the digits behind the point: what it told in
its lines, and each point of a curve in the table beside its plot."""


def data_of(path: Path) -> Data:
    data = load_file(path, path.name).data
    assert data is not None
    return data


JOBS = [path for path in sorted((PINOUTS / "jobs").glob("*.yaml")) if path.stem != "TEMPLATE"]
RECORDS = [
    *(pytest.param("vehicles", partial(car_data, name), id=name) for name in CARS),
    *(pytest.param("jobs", partial(data_of, path), id=path.stem) for path in JOBS),
]


def leaves(value: Any, path: str = "") -> Iterator[tuple[str, Any]]:
    if isinstance(value, dict):
        for key, inner in value.items():
            yield from leaves(inner, f"{path}.{key}" if path else key)
    elif isinstance(value, list):
        for inner in value:
            yield from leaves(inner, path)
    else:
        yield path, value


def said(value: Any) -> str:
    if value == "unknown":
        return "not recorded"
    return plain(value) if isinstance(value, str) else f"{value:.10g}"


@pytest.mark.parametrize(("folder", "recorded"), RECORDS)
def test_whatever_is_recorded_stands_on_the_page(
    shipped_site: Path, folder: str, recorded: Callable[[], Data]
) -> None:
    data = recorded()
    page = (shipped_site / folder / f"{data['id']}.html").read_text("utf-8")
    text = plain(html.unescape(re.sub(r"<[^>]*>", " ", page)))
    told = [one for one in leaves(data) if one[0] not in OTHERWISE]
    assert [one for one in told if not any(each in text for each in as_shown(*one))] == []


def as_shown(key: str, value: Any) -> tuple[str, ...]:
    """How a value may stand on its page."""
    if key not in ROUNDED:
        return (said(value),)
    places = ROUNDED[key]
    return plain(shown(value, places)), plain(shown(value, places, beside=0.0))


def test_every_key_that_is_said_otherwise_is_recorded_somewhere() -> None:
    recorded = {
        key for _, recorded in (param.values for param in RECORDS) for key, _ in leaves(recorded())
    }
    assert OTHERWISE.keys() | ROUNDED.keys() <= recorded
