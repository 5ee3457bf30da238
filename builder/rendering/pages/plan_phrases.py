"""The parts of a plan in phrases: terminals, turn-on, levels, measurements."""

from __future__ import annotations

from collections.abc import Iterable
from typing import NamedTuple

from markupsafe import Markup

from builder.declaring import read
from builder.figures import at_least, at_most, share_percent, shown, small_current, within
from builder.model.glossary import ADDON, INTERCEPT, LINE_TAP
from builder.model.names import channel_name
from builder.model.wire import Wire
from builder.planning.levels.level_pad import ohm_words
from builder.planning.plan import Feed, Insulated, LevelCheck, TurnOn
from builder.planning.words import RUNG_NAMES, LevelBasis, LevelVerdict, TappedAs
from builder.rendering.drawings.swatch import swatch
from builder.rendering.drawings.wire_colours import NOT_RECORDED, split_words
from builder.rendering.margins import margin_words, read_words
from builder.rendering.pages.wording import figure, grade_mark, pin_anchor, plain


class FeedView(NamedTuple):
    """One converter terminal and the pin that feeds it."""

    terminal: str
    pin: str
    in_full: str  # the same as a page says it first
    anchor: str
    swatch: Markup
    wire: str
    channel: str
    polarity: str
    treatment: str
    grade: str
    mark: str


class LevelView(NamedTuple):
    """One source against the converter's input, in phrases."""

    channel: str
    source: str
    square: str
    limit: str
    margin: str
    verdict: str


_TREATMENTS: dict[TappedAs, str] = {
    "addon": f"{ADDON}: join, the factory wire is not cut",
    "line_tap": f"{LINE_TAP}: join, the factory wire is not cut",
    "intercept": f"{INTERCEPT}: cut, radio end to the converter",
}
_BASES: dict[LevelBasis, str] = {
    "measured": "measured",
    "label": "from the printed watts",
    "leg_bias": "from the measured bias of its legs",
    "rail": "from the supply rail, nobody measured",
    "amplifier_label": "from the factory amplifier's printed watts",
}
_VERDICTS: dict[LevelVerdict, str] = {"fine": "✓ fine", "thin": "! thin", "over": "✗ over"}


def feed_view(feed: Feed, loom: str = "") -> FeedView:
    """Return a feed in phrases; `loom` is that of the job at its plug, if there is one."""
    sign = "+" if feed.leg == "positive" else "−"
    return FeedView(
        f"Input {feed.converter_input} {sign}",
        f"{feed.plug}.{feed.cavity}",
        f"plug {feed.plug}, cavity {feed.cavity}",
        pin_anchor(feed.plug, feed.cavity),
        swatch(_wire_of(feed.wire)),
        feed.wire,
        channel_name(feed.channel),
        feed.leg,
        _treatment(feed, loom),
        feed.grade,
        grade_mark(feed.grade),
    )


def _treatment(feed: Feed, loom: str) -> str:
    """What is done with a leg; what a loom does instead costs no wire of the car."""
    said = _TREATMENTS.get(feed.treatment, feed.treatment)
    if loom and feed.treatment == "intercept":
        said = f"{INTERCEPT} in {loom}: radio end to the converter"
    return (
        f"{said}; {ohm_words(feed.pad_ohm_per_leg)} in this leg" if feed.pad_ohm_per_leg else said
    )


def by_reason(ends: Iterable[Insulated]) -> list[tuple[str, list[str]]]:
    """Ends to be closed off, under the reason they share."""
    reasons: dict[str, list[str]] = {}
    for end in ends:
        at = f", {end.plug}.{end.cavity}" if end.plug and end.cavity else ""
        reasons.setdefault(end.because, []).append(f"{end.what}{at}")
    return [(because[:1].upper() + because[1:], names) for because, names in reasons.items()]


def _wire_of(words: str) -> Wire | None:
    if words == NOT_RECORDED:
        return None
    base, stripe = split_words(words)
    return read(Wire, {"base": base} | ({"stripe": stripe} if stripe else {}))


def turn_on_words(turn_on: TurnOn) -> str:
    """What switches the converter on, and where."""
    if turn_on.plug and turn_on.cavity:
        place = f"{turn_on.plug}.{turn_on.cavity}"
    elif turn_on.fuse_position:
        place = f"fuse position {turn_on.fuse_position}"
    elif turn_on.interface:
        place = turn_on.interface
    elif turn_on.pair:
        place = f"pair {channel_name(turn_on.pair)}"
    else:
        return "No turn-on source"
    return f"{RUNG_NAMES[turn_on.kind].capitalize()}, {place}"


def budget_words(turn_on: TurnOn) -> str:
    """The current drawn from the turn-on source, against what it can give."""
    if turn_on.draw_ma is None:
        return "No current is drawn from a turn-on wire."
    draw = f"{turn_on.draw_ma:g} mA drawn"
    if turn_on.capacity_ma is None:
        return f"{draw}; how much the source can give is not recorded."
    share = turn_on.draw_ma / turn_on.capacity_ma if turn_on.capacity_ma else 0
    gives = small_current(turn_on.capacity_ma)
    return f"{draw} of {gives} the source can give ({share_percent(share)})."


def level_view(level: LevelCheck) -> LevelView:
    """Return a level check in phrases."""
    return LevelView(
        channel_name(level.channel),
        f"{shown(level.source_v_rms, 2, beside=level.converter_max_v_rms)} V RMS, "
        f"{_BASES.get(level.basis, plain(level.basis))}{read_words(level.read_v_rms)}",
        figure(level.square_wave_v, "V", "–"),
        f"{shown(level.converter_max_v_rms)} V RMS",
        margin_words(level),
        _VERDICTS.get(level.verdict, level.verdict),
    )


def levels_because(levels: Iterable[LevelCheck]) -> list[tuple[str, str]]:
    """Return the channels that share a because, and that because."""
    grouped: dict[str, list[str]] = {}
    for level in levels:
        if level.because:
            grouped.setdefault(level.because, []).append(channel_name(level.channel))
    return [(", ".join(channels), because) for because, channels in grouped.items()]


def band_words(low: float | None, high: float | None, unit: str) -> str:
    """The band a reading must fall in, unrounded, as it is printed: nothing printed fails.

    Bounds in `unit`; None is no bound, for ohms open.
    """
    top = None if high is None or high == float("inf") else high
    if low is None:
        return "any value: write it down" if top is None else f"at most {at_most(top, unit)} {unit}"
    if top is None:
        return f"{at_least(low, unit)} {unit} or more" + (" (open passes)" if unit == "Ω" else "")
    if low == -top:
        return f"at most {at_most(top, unit)} {unit} either way"
    least, most = within(low, top, unit)
    return f"{least} to {most} {unit}"
