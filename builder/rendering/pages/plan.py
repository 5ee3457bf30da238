"""The page of one plan: which pin feeds which terminal, what switches it on, and why."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from markupsafe import Markup

from builder.model.book import Shelf
from builder.model.parts import Converter
from builder.model.vehicle import Vehicle
from builder.planning.job.plan_circuit import plan_circuit, plan_parts
from builder.planning.plan import Plan
from builder.planning.words import RUNG_NAMES, PlanKind, RungVerdict
from builder.rendering.drawings.ladders import level_ladder
from builder.rendering.drawings.plug_faces import plug_faces
from builder.rendering.drawings.wiring import wiring_of
from builder.rendering.page import BuildInfo, Page
from builder.rendering.pages.bay_ask import sheet_of_plan
from builder.rendering.pages.cautions import cautions_of
from builder.rendering.pages.job_tests import proof_groups
from builder.rendering.pages.lists import Entry
from builder.rendering.pages.paper import foot_words, way_back
from builder.rendering.pages.plan_phrases import (
    FeedView,
    budget_words,
    by_reason,
    feed_view,
    level_view,
    levels_because,
    turn_on_words,
)
from builder.rendering.pages.recorded import recorded_of_feeds
from builder.rendering.pages.ticks import SHEET_SCRIPTS, tick_key
from builder.rendering.pages.wording import PLAN_KINDS, grade_mark, plan_url
from builder.rendering.templates import fill

_BANNERS: dict[PlanKind, str] = {
    "tap_plan": "Every pin used is proved well enough. Each proof reading below is still taken "
    "before its joint is made.",
    "probe_plan": "Do not join anything yet. Take the readings below; they settle what is open.",
    "no_plan": "No plan can be made from this record with this converter. The reasons follow.",
}


def plan_page(
    plan: Plan,
    vehicle: Vehicle,
    converter: Converter,
    shelf: Shelf,
    info: BuildInfo,
    digest: str = "",
    jobs: Sequence[Entry] = (),
) -> Page:
    """Return the page of `plan`, made for `vehicle` and `converter`.

    `digest` is a short sum of what the plan says, for the foot of the printed page; `jobs` are the
    whole jobs on the same vehicle.
    """
    kind, url = PLAN_KINDS[plan.kind], plan_url(plan.vehicle, plan.converter)
    body = fill(
        "plan.html",
        plan=plan,
        vehicle=vehicle,
        converter=converter,
        info=info,
        jobs=jobs,
        kind=kind,
        bay_sheet=sheet_of_plan(plan, digest),
        ticks=tick_key(info, f"plans/{plan.vehicle}--{plan.converter}", digest),
        cautions=cautions_of(vehicle),
        recorded=recorded_of_feeds(vehicle, plan.feeds),
        plugs=_plugs_used(plan, vehicle, shelf),
        **_wiring(plan, vehicle, converter, shelf),
        way_back=way_back(info, url),
        **_said(plan),
    )
    title = f"{kind}: {vehicle.title} with {converter.name}"
    what = f"{title}. Terminals, turn-on, levels with margins, and what to measure first."
    foot = foot_words(f"plan {plan.vehicle} with {plan.converter}", digest, vehicle.data)
    return Page(url, title, what, body, foot, SHEET_SCRIPTS if plan.tests else ())


_RUNG_MARKS: dict[RungVerdict, str] = {
    "chosen": "✓",
    "possible": "○",
    "unproved": "○",
    "refused": "✗",
    "absent": "–",
}
"""The mark of a rung's verdict; the word stands beside it."""
BEFORE_READINGS = 1
"""So many pieces of the picture stand before the first reading, which is on a phone's second screen
at the latest; which pins feed the converter stands above them in short."""


def _wiring(plan: Plan, vehicle: Vehicle, converter: Converter, shelf: Shelf) -> dict[str, Any]:
    """The picture of what the plan joins, and its pieces for a phone; nothing of any other."""
    parts = plan_parts(vehicle, converter, shelf)
    circuit = plan_circuit(plan, parts)
    if circuit is None:
        return {"wiring": None}
    wiring = wiring_of(circuit, parts)
    pieces = wiring.pieces
    first = [piece for piece in pieces if piece.feeds][:BEFORE_READINGS]
    later = [piece for piece in pieces if piece not in first]
    return {
        "wiring": wiring,
        "wiring_of": parts.job.title,
        "first_pieces": first,
        "later_pieces": later,
        "fed": _fed(plan),
    }


def _fed(plan: Plan) -> list[tuple[int, list[FeedView]]]:
    """The pins by the converter's inputs."""
    return [(at, [feed_view(feed) for feed in legs]) for at, legs in plan.feeds_by_input.items()]


def _said(plan: Plan) -> dict[str, Any]:
    """What the plan alone says, section by section."""
    return {
        "banner": _BANNERS[plan.kind],
        "grade_mark": grade_mark(plan.grade),
        "feeds": [feed_view(feed) for feed in plan.feeds],
        "insulate": by_reason(plan.insulate),
        "turn_on": turn_on_words(plan.turn_on),
        "budget": budget_words(plan.turn_on),
        "ladder": [(rung, RUNG_NAMES[rung.kind]) for rung in plan.ladder],
        "rung_marks": _RUNG_MARKS,
        "levels": [level_view(level) for level in plan.levels],
        "levels_because": levels_because(plan.levels),
        "levels_hint": _least_margin(plan),
        "level_drawing": level_ladder(plan, "Each source stands in the table below."),
        "groups": proof_groups(plan.tests, plan.feeds),
    }


def _least_margin(plan: Plan) -> str:
    """The least room that a source leaves, or nothing where no level was worked out."""
    least = min(plan.levels, key=lambda each: each.converter_margin_db, default=None)
    return f"least margin {level_view(least).margin}" if least else ""


def _plugs_used(plan: Plan, vehicle: Vehicle, shelf: Shelf) -> list[tuple[str, tuple[Markup, ...]]]:
    """Both faces of each plug the plan touches, with its cavities ringed.

    Without a feed the cavities to be read are ringed: nothing is joined before they are.
    """
    sites = [(feed.plug, feed.cavity) for feed in plan.feeds]
    if plan.turn_on.plug and plan.turn_on.cavity:
        sites.append((plan.turn_on.plug, plan.turn_on.cavity))
    if not plan.feeds:
        sites += [(test.plug, test.cavity) for test in plan.tests if test.plug and test.cavity]
    drawn: list[tuple[str, tuple[Markup, ...]]] = []
    for name in dict.fromkeys(plug for plug, _ in sites):
        plug = vehicle.plug(name)
        housing = shelf.housings.get(plug.housing) if plug else None
        if plug and housing:
            used = sorted({cavity for at, cavity in sites if at == name})
            drawn.append((f"Plug {plug.id}, {plug.name}", plug_faces(housing, plug, used)))
    return drawn
