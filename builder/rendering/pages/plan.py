"""The page of one plan: which pin feeds which terminal, what switches it on, and why."""

from __future__ import annotations

from collections.abc import Iterable
from typing import NamedTuple
from zlib import crc32

from markupsafe import Markup

from builder.model.book import Shelf
from builder.model.parts import Converter
from builder.model.vehicle import Vehicle, Wire
from builder.planning.plan import Feed, Insulated, LevelCheck, Plan, ProofReading, TurnOn
from builder.rendering.drawings.ladders import level_ladder, turn_on_ladder
from builder.rendering.drawings.plug_faces import plug_faces
from builder.rendering.drawings.swatch import swatch
from builder.rendering.drawings.tap_diagram import tap_diagram
from builder.rendering.drawings.wire_colours import NOT_RECORDED, split_words
from builder.rendering.page import BuildInfo, Page
from builder.rendering.pages.cautions import cautions_of
from builder.rendering.pages.wording import (
    PLAN_KINDS,
    UNITS,
    anchor,
    figure,
    function_words,
    grade_mark,
    pin_anchor,
    plain,
    plan_url,
)
from builder.rendering.templates import fill


class FeedView(NamedTuple):
    """One converter terminal and the pin that feeds it."""

    terminal: str
    pin: str
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
    because: str


class TestView(NamedTuple):
    """One measurement with the band it must fall in."""

    id: str
    place: str
    how: str
    band: str
    settles: str
    safety: str


_TREATMENTS = {
    "addon": "add-on: branch off, the factory wire is not cut",
    "intercept": "intercept: cut, radio end to the converter",
}
_BASES = {
    "measured": "measured",
    "label": "from the printed watts",
    "leg_bias": "from the measured bias of its legs",
    "rail": "from the supply rail, nobody measured",
    "amplifier_label": "from the factory amplifier's printed watts",
}
_VERDICTS = {"fine": "✓ fine", "thin": "! thin", "over": "✗ over"}
_BANNERS = {
    "tap_plan": "Every pin used is proved well enough. Each proof reading below is still taken "
    "before its joint is made.",
    "probe_plan": "Do not join anything yet. Take the readings below; they settle what is open.",
    "no_plan": "No plan can be made from this record with this converter. The reasons follow.",
}


def plan_page(
    plan: Plan, vehicle: Vehicle, converter: Converter, shelf: Shelf, info: BuildInfo
) -> Page:
    """Return the page of `plan`, made for `vehicle` and `converter`."""
    kind = PLAN_KINDS[plan.kind]
    body = fill(
        "plan.html",
        plan=plan,
        vehicle=vehicle,
        converter=converter,
        info=info,
        kind=kind,
        banner=_BANNERS[plan.kind],
        grade_mark=grade_mark(plan.grade),
        ticks=f"{plan.vehicle}--{plan.converter}:{_mark_of(plan)}",
        cautions=cautions_of(vehicle),
        feeds=[_feed_view(feed) for feed in plan.feeds],
        insulate=_by_reason(plan.insulate),
        turn_on=_turn_on_words(plan.turn_on),
        budget=_budget_words(plan.turn_on),
        ladder=[(rung, plain(rung.kind)) for rung in plan.ladder],
        levels=[_level_view(level) for level in plan.levels],
        tests=[_test_view(at, test) for at, test in enumerate(plan.tests, start=1)],
        plugs=_plugs_used(plan, vehicle, shelf),
        diagram=tap_diagram(plan, vehicle, converter),
        ladder_drawing=turn_on_ladder(plan),
        level_drawing=level_ladder(plan),
    )
    title = f"{kind}: {vehicle.title} with {converter.name}"
    return Page(
        plan_url(plan.vehicle, plan.converter),
        title,
        f"{title}. Terminals, turn-on, levels with margins, and what to measure first.",
        body,
    )


def _mark_of(plan: Plan) -> str:
    """A mark of the plan's content: ticks made on an older plan are not carried over."""
    return f"{crc32(repr(plan).encode()):08x}"


def _plugs_used(plan: Plan, vehicle: Vehicle, shelf: Shelf) -> list[tuple[str, tuple[Markup, ...]]]:
    """Both faces of each plug the plan touches, with its cavities ringed."""
    sites = [(feed.plug, feed.cavity) for feed in plan.feeds]
    if plan.turn_on.plug and plan.turn_on.cavity:
        sites.append((plan.turn_on.plug, plan.turn_on.cavity))
    sites = sites or [(t.plug, t.cavity) for t in plan.tests if t.plug and t.cavity]
    drawn: list[tuple[str, tuple[Markup, ...]]] = []
    for name in dict.fromkeys(plug for plug, _ in sites):
        plug = vehicle.plug(name)
        housing = shelf.housings.get(plug.housing) if plug else None
        if plug and housing:
            used = sorted({cavity for at, cavity in sites if at == name})
            drawn.append((f"Plug {plug.id}, {plug.name}", plug_faces(housing, plug, used)))
    return drawn


def _feed_view(feed: Feed) -> FeedView:
    sign = "+" if feed.leg == "positive" else "−"
    return FeedView(
        f"Input {feed.converter_input} {sign}",
        f"{feed.plug}.{feed.cavity}",
        pin_anchor(feed.plug, feed.cavity),
        swatch(_wire_of(feed.wire)),
        feed.wire,
        plain(feed.channel),
        feed.leg,
        _TREATMENTS.get(feed.treatment, feed.treatment),
        feed.grade,
        grade_mark(feed.grade),
    )


def _by_reason(ends: Iterable[Insulated]) -> list[tuple[str, list[str]]]:
    """Ends to be closed off, under the reason they share."""
    reasons: dict[str, list[str]] = {}
    for end in ends:
        at = f", {end.plug}.{end.cavity}" if end.plug and end.cavity else ""
        reasons.setdefault(end.because, []).append(f"{end.what}{at}")
    return [(because[:1].upper() + because[1:], names) for because, names in reasons.items()]


def _wire_of(words: str) -> Wire | None:
    return None if words == NOT_RECORDED else Wire(*split_words(words), None, None)


def _turn_on_words(turn_on: TurnOn) -> str:
    if turn_on.plug and turn_on.cavity:
        place = f"pin {turn_on.plug}.{turn_on.cavity}"
    elif turn_on.fuse_position:
        place = f"fuse position {turn_on.fuse_position}"
    elif turn_on.pair:
        place = f"pair {plain(turn_on.pair)}"
    else:
        return "No turn-on source"
    return f"{plain(turn_on.kind).capitalize()}, {place}"


def _budget_words(turn_on: TurnOn) -> str:
    if turn_on.draw_ma is None:
        return "No current is drawn from a turn-on wire."
    draw = f"{turn_on.draw_ma:g} mA drawn"
    if turn_on.capacity_ma is None:
        return f"{draw}; how much the source can give is not recorded."
    share = 100 * turn_on.draw_ma / turn_on.capacity_ma if turn_on.capacity_ma else 0
    return f"{draw} of {turn_on.capacity_ma:g} mA the source can give ({share:.0f} %)."


def _level_view(level: LevelCheck) -> LevelView:
    return LevelView(
        plain(level.channel),
        f"{level.source_v_rms:.2f} V RMS, {_BASES.get(level.basis, plain(level.basis))}",
        figure(level.square_wave_v, "V", "–"),
        f"{level.converter_max_v_rms:g} V RMS",
        f"{level.converter_margin_db:+.1f} dB".replace("-", "−"),
        _VERDICTS.get(level.verdict, level.verdict),
        level.because,
    )


def _test_view(at: int, test: ProofReading) -> TestView:
    if test.plug and test.cavity:
        place = f"{test.plug}.{test.cavity}"
    else:
        place = f"fuse {test.fuse_position}" if test.fuse_position else "the car"
    return TestView(
        anchor("test", str(at)),
        f"{place}, {function_words(test.function)}",
        test.how,
        band_words(test.low, test.high, UNITS.get(test.quantity, plain(test.quantity))),
        test.settles,
        test.safety,
    )


def band_words(low: float | None, high: float | None, unit: str) -> str:
    """The band a reading must fall in. Bounds in `unit`; None is no bound, for ohms open."""
    top = None if high is None or high == float("inf") else high
    if low is None and top is None:
        return "any value: write it down"
    if low is None:
        return f"at most {top:g} {unit}"
    if top is None:
        return f"{low:g} {unit} or more" + (" (open passes)" if unit == "Ω" else "")
    if low == -top:
        return f"at most {top:g} {unit} either way"
    return f"{low:g} to {top:g} {unit}"
