"""The tune sheet in words for the page of a job."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from builder.figures import at_most, read_as
from builder.planning.bay.tune_words import (
    again_limits_v,
    corner_words,
    delay_words,
    held_back_words,
    subsonic_words,
)
from builder.planning.tune_sheet import TuneRow
from builder.rendering.pages.plan_phrases import band_words


class TuneView(NamedTuple):
    """One row of the sheet."""

    speaker: str
    where: str
    high_pass: str
    low_pass: str
    subsonic: str
    slope: str
    polarity: str
    delay: str
    correction: str
    again: str


def tune_view(row: TuneRow, rows: Sequence[TuneRow] = ()) -> TuneView:
    """Return a row as it is printed; the correction is one switch for all `rows`."""
    least, most = again_limits_v(row)
    return TuneView(
        row.speaker,
        row.set_at if row.set_at != row.amplifier else f"{row.amplifier} channel {row.channel}",
        corner_words(row.high_pass_hz),
        corner_words(row.low_pass_hz),
        subsonic_words(row),
        f"{row.slope_db_per_octave} dB an octave",
        row.polarity,
        "; ".join([delay_words(row).removeprefix("delay "), *held_back_words(row)]),
        _correction(row, rows),
        band_words(least, most, "V"),
    )


def _correction(row: TuneRow, rows: Sequence[TuneRow]) -> str:
    using = [each.speaker for each in rows if each.correction == "on"]
    if using and row.correction != "on":
        return f"on for {', '.join(using)}: one switch for all"
    off_v, off_line_v = row.correction_off_tone_v_rms, row.correction_off_line_v_rms
    if off_v is None or off_line_v is None:
        return row.correction if row.correction != "unknown" else "off"
    line, meter = read_as(off_line_v, "V"), at_most(off_v, "V")
    return f"on; off, the line reads {line} V and the meter {meter} V"


def tune_because(rows: Sequence[TuneRow]) -> list[tuple[str, list[str]]]:
    """Return what is asked first, then values by where they come from; speakers alike share it."""
    alike: dict[tuple[str, ...], list[str]] = {}
    for row in rows:
        alike.setdefault(tuple(_because(row)), []).append(row.speaker)
    return [(", ".join(speakers), list(said)) for said, speakers in alike.items()]


def _because(row: TuneRow) -> Iterator[str]:
    yield from (f"ask first: {each}." for each in row.asked)
    yield from (f"stays: {each}." for each in row.stays)
    by_source: dict[str, list[str]] = {}
    for each in row.because:
        by_source.setdefault(each.source, []).append(f"{each.decision}, {each.because}")
    yield from (f"{source}: {'; '.join(lines)}." for source, lines in by_source.items())
