"""The page of one job: the whole work as sheets, each to be printed and carried by itself."""

from __future__ import annotations

from collections.abc import Sequence

from builder.findings import Finding
from builder.model.words import Origin
from builder.planning.bay.kept_lines import kept_as_before
from builder.planning.cables.piece_names import CLASS_NAMES
from builder.planning.comeback.caught import Catch
from builder.planning.feeds.serving import serves
from builder.planning.harness.at_plug import looms_of
from builder.planning.job.standing import NOT_BEGUN, JobStanding
from builder.planning.job.ticked import steps_done
from builder.planning.work_pack import JobParts, WorkPack
from builder.rendering.drawings.gain_ladder import gain_ladder
from builder.rendering.drawings.ladders import rung_words, turn_on_ladder
from builder.rendering.drawings.power_tree import power_tree
from builder.rendering.drawings.wiring import wiring_of
from builder.rendering.page import BuildInfo, Page
from builder.rendering.pages.bay_ask import sheet_of_job
from builder.rendering.pages.bay_mode import plugs_to_read, standing
from builder.rendering.pages.car_facts import Fact
from builder.rendering.pages.cautions import cautions_of
from builder.rendering.pages.closed_ends import closed_off, planned_open
from builder.rendering.pages.cover_banner import banner_words
from builder.rendering.pages.declared_facts import facts_of
from builder.rendering.pages.fitted_facts import fitted_facts
from builder.rendering.pages.job_cables import (
    jacket_drawings,
    jacket_ends,
    joints_by_place,
    label_drawings,
    metres_by_cable,
)
from builder.rendering.pages.job_caught import caught_view
from builder.rendering.pages.job_looms import loom_views
from builder.rendering.pages.job_phrases import (
    LEADS,
    draw_view,
    gain_view,
    gains_because,
    hold_up_words,
    lead_view,
    power_facts,
    quantity_words,
    reasons_by_decision,
    treatments_by_because,
)
from builder.rendering.pages.job_sheets import sheets_of
from builder.rendering.pages.job_state import bay_standing, state_view
from builder.rendering.pages.job_steps import (
    blocked_first,
    hands_time,
    has_unknown_wait,
    joined_lines,
    step_groups,
    waiting_steps,
)
from builder.rendering.pages.job_tests import bay_groups
from builder.rendering.pages.job_tune import tune_because, tune_view
from builder.rendering.pages.paper import foot_words, way_back
from builder.rendering.pages.plan_phrases import (
    budget_words,
    by_reason,
    feed_view,
    turn_on_words,
)
from builder.rendering.pages.recorded import recorded_of_feeds
from builder.rendering.pages.supply_phrases import supply_views
from builder.rendering.pages.ticks import WORK_SCRIPTS, tick_key
from builder.rendering.pages.wording import (
    PLAN_KINDS,
    figure,
    grade_mark,
    listed,
    plan_url,
)
from builder.rendering.templates import fill


def job_url(job_id: str) -> str:
    """Where the work pack of a job stands."""
    return f"jobs/{job_id}.html"


def work_pack_page(
    pack: WorkPack,
    parts: JobParts,
    findings: Sequence[Finding],
    info: BuildInfo,
    digest: str = "",
    standing: JobStanding = NOT_BEGUN,
    catches: Sequence[Catch] = (),
    causes: str = "",
) -> Page:
    """Return the page of a job's work pack.

    Args:
        pack: What was worked out.
        parts: The job and the records it names.
        findings: Those of the job's record and of its plan.
        info: What every page says of its build.
        digest: A short sum of what the pack says, for the foot of each sheet.
        standing: How far the job is.
        causes: What each line may have when it fails, as JSON, or empty: see `bay_causes`.
        catches: What finds each single fault of it; none for a job of which nothing is joined.
    """
    job, vehicle = parts.job, parts.vehicle
    kind = PLAN_KINDS[pack.kind]
    cautions = cautions_of(vehicle, job, pack.steps)
    body = fill(
        "work_pack.html",
        **_cover(pack, parts),
        **_tap(pack, parts),
        **_supply(pack, parts),
        **_bench(pack, parts),
        pack=pack,
        plan=pack.plan,
        job=job,
        vehicle=vehicle,
        info=info,
        kind=kind,
        banner=banner_words(pack),
        digest=digest,
        recorded=list(facts_of(job)),
        bay_sheet=sheet_of_job(job, digest),
        bay_standing=bay_standing(standing, pack),
        bay_causes=causes,
        as_begun=bool(standing.recalls) and standing.state != "recalled",
        ticks=tick_key(info, f"jobs/{job.id}", digest),
        cautions=cautions,
        caught=caught_view(catches),
        sheets=sheets_of(pack, cautions, standing),
        **state_view(standing, job.id),
        plan_page=_plan_page(parts) if standing.state == "planned" else "",
        findings=findings,
        reasons=reasons_by_decision(pack),
        way_back=way_back(info, job_url(job.id)),
    )
    title = f"{kind}: {job.title}, {vehicle.title}"
    what = f"{title}. The whole work in sheets to print."
    foot = foot_words(f"job {job.id}", digest, _data(parts))
    return Page(job_url(job.id), title, what, body, foot, WORK_SCRIPTS)


def _cover(pack: WorkPack, parts: JobParts) -> dict[str, object]:
    return {
        "car": _car_facts(parts),
        "kept_sounds": kept_as_before(pack, parts),
        "fitted": fitted_facts(parts.job),
        "data": _data(parts),
        "hands_time": hands_time(pack.steps) if pack.steps else "",
        "waiting": waiting_steps(pack.steps),
        "wait_unknown": has_unknown_wait(pack.steps),
        "grade_mark": grade_mark(pack.plan.grade),
    }


def _plan_page(parts: JobParts) -> str:
    """Where the plan of this car and converter stands, or nothing where the book makes none. A job
    that is begun is made from records of its day, of which there is no such page.
    """
    vehicle, converter = parts.vehicle, parts.converter
    known = converter.id in parts.shelf.converters
    has = known and serves(vehicle, converter, parts.shelf.defaults)[0]
    return plan_url(vehicle.id, converter.id) if has else ""


def _data(parts: JobParts) -> Origin:
    """A pack is as real as the least real record it was made from."""
    kinds = [parts.job.data, parts.vehicle.data, parts.converter.data]
    kinds += [amplifier.data for amplifier in parts.amplifiers.values()]
    kinds += [cable.data for cable in parts.cables]
    return "measured" if set(kinds) == {"measured"} else "invented"


def _car_facts(parts: JobParts) -> list[Fact]:
    car = parts.job.car
    built = [figure(car.year, "", ""), f"built {car.built}" if car.built else "", car.trim or ""]
    facts = [
        Fact("This car", car.tagged),
        Fact("Year and trim", listed(tuple(word for word in built if word), "not recorded")),
    ]
    facts += [Fact(told.question, told.answer) for told in car.answers]
    return facts


def _tap(pack: WorkPack, parts: JobParts) -> dict[str, object]:
    plan = pack.plan
    looms = {plug: use.name for plug, use in looms_of(parts).items()}
    return {
        "converter": parts.converter,
        "amplifiers": parts.amplifiers,
        "feeds": [feed_view(feed, looms.get(feed.plug, "")) for feed in plan.feeds],
        "insulate": by_reason(planned_open(pack)),
        "closed_off": by_reason(closed_off(pack)),
        "turn_on": turn_on_words(plan.turn_on),
        "budget": budget_words(plan.turn_on),
        "draws": [draw_view(draw) for draw in pack.turn_on_draws],
        "hold_up": hold_up_words(pack.hold_up) if pack.hold_up else "",
        "treatments": treatments_by_because(pack),
        **_wiring(pack, parts),
        "ladder_drawing": turn_on_ladder(plan),
        "rungs": [rung_words(rung) for rung in plan.ladder],
        "gain_drawing": gain_ladder(pack),
        "gains_because": gains_because(pack.levels),
        "gains": [gain_view(chain) for chain in pack.levels],
        "heard": recorded_of_feeds(parts.vehicle, plan.feeds),
        "tune": [tune_view(row, pack.tune) for row in pack.tune],
        "tune_because": tune_because(pack.tune),
    }


def _wiring(pack: WorkPack, parts: JobParts) -> dict[str, object]:
    """The one picture of a job that may be built."""
    if pack.circuit is None:
        return {"wiring": None}
    wiring = wiring_of(pack.circuit, parts)
    return {"wiring": wiring, "wiring_of": parts.job.title, "wiring_rows": pack.wiring}


def _supply(pack: WorkPack, parts: JobParts) -> dict[str, object]:
    known = set(pack.plan.insulate)
    names = {cable.id: cable.called for cable in parts.cables}
    return {
        "power_drawing": power_tree(pack),
        "power_facts": power_facts(pack.power, parts) if pack.power else [],
        "runs": supply_views(pack, parts.shelf.defaults),
        "jackets": jacket_drawings(pack, names),
        "cable_names": names,
        "ends": jacket_ends(pack),
        "class_names": CLASS_NAMES,
        "singles": [row for row in pack.conductors if row.jacket is None],
        "joint_places": joints_by_place(pack.joints),
        "metres": metres_by_cable(pack.cut_list),
        "labels": label_drawings(pack.labels),
        "leads_title": LEADS,
        "leads": [lead_view(lead) for lead in pack.speaker_leads],
        "insulate_more": by_reason(end for end in pack.insulate if end not in known),
    }


def _bench(pack: WorkPack, parts: JobParts) -> dict[str, object]:
    return {
        "loom_views": loom_views(pack, parts),
        "groups": bay_groups(pack, parts.job.results),
        "step_groups": step_groups(pack.steps),
        "joined_lines": joined_lines,
        "blocked_first": blocked_first(pack.steps),
        "steps_done": steps_done(pack.steps, parts.job.ticked),
        "standing": standing,
        "bay_plugs": plugs_to_read(pack, parts),
        "parts_list": [(part, quantity_words(part)) for part in pack.parts],
    }
