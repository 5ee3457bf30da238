"""A control that goes from more to less.

What it catches
---------------
A filter of an amplifier or a converter whose lowest corner lies above its highest, a sensitivity or
an adjustable gain whose least is above its most.

Why it matters in the bay
-------------------------
A starting value is taken to the nearest that the control reaches. Of a span that is written the
wrong way round that is its wrong end: a door then begins at 20 Hz where 80 Hz was meant.

Example
-------
Fails::

    filters: {high_pass: {from_hz: 250, to_hz: 40}, …}

Passes::

    filters: {high_pass: {from_hz: 40, to_hz: 250}, …}

How to mend it
--------------
Read both ends at the control or in its maker's sheet, and write the lower one first.

Source
------
Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.figures import shown
from builder.findings import DataPath, Fault, Severity
from builder.model.parts import Amplifier, Converter
from builder.model.parts.filters import Filters
from builder.rules.rule import Scope, rule


def check(device: Amplifier | Converter) -> Iterator[Fault]:
    """Yield each span of a device whose first end is above its second."""
    if isinstance(device, Converter):
        yield from _of_filters(("filters",), device.filters)
        if device.gain.min is not None and device.gain.max is not None:
            yield from _span(("gain", "min"), device.gain.min, device.gain.max, "V/V")
        return
    for at, group in enumerate(device.channels):
        path: DataPath = ("channels", at)
        yield from _of_filters((*path, "filters"), group.filters)
        least, most = group.sensitivity.min_v_rms, group.sensitivity.max_v_rms
        yield from _span((*path, "sensitivity", "min_v_rms"), least, most, "V RMS")


def _of_filters(path: DataPath, filters: Filters | None) -> Iterator[Fault]:
    if filters is None:
        return
    spans = {
        "high_pass": filters.high_pass, "low_pass": filters.low_pass, "subsonic": filters.subsonic,
    }  # fmt: skip
    for key, span in spans.items():
        if span is not None:
            yield from _span((*path, key, "from_hz"), span.from_hz, span.to_hz, "Hz")


def _span(path: DataPath, least: float, most: float, unit: str) -> Iterator[Fault]:
    if least > most:
        yield Fault(
            path,
            f"it goes from {shown(least, beside=most)} to "
            f"{shown(most, beside=least)} {unit}: the first is to be the lower one",
            "change the two over, or read them again",
        )


RULE = rule("LVL117", Severity.FIX, Scope.RECORD, check, kinds=("amplifier", "converter"))
