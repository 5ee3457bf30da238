"""The page of one vehicle: answers first, then the proof of each."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any, NamedTuple

from markupsafe import Markup

from builder.findings import Finding
from builder.model.book import Shelf
from builder.model.house_defaults import HouseDefaults
from builder.model.names import FACE_NAMES, VISIT_FACE_NAMES, function_name
from builder.model.plugs import FaceRefusal, Pin, Plug
from builder.model.vehicle import Vehicle
from builder.model.visit import Turned
from builder.planning.plan import Plan
from builder.proof.confusable import colours_in_words, confusable_pairs, eyes_in_words
from builder.proof.pin_proof import Proofs
from builder.rendering.drawings.plug_faces import legend, plug_faces
from builder.rendering.page import BuildInfo, Page
from builder.rendering.pages.access import access_views, passage_views, radio_out
from builder.rendering.pages.answers import answers
from builder.rendering.pages.car_facts import (
    channel_views,
    fuse_views,
    sound_lines,
)
from builder.rendering.pages.cautions import cautions_of
from builder.rendering.pages.correction import blank_report, report_links
from builder.rendering.pages.declared_facts import facts_of, top_facts
from builder.rendering.pages.disputes import ASK_FIRST, dispute_views
from builder.rendering.pages.expected import each_once
from builder.rendering.pages.lists import Entry
from builder.rendering.pages.look_alikes import LookAlikeView, look_alike_view
from builder.rendering.pages.paper import foot_words, way_back
from builder.rendering.pages.photos import PhotoView, photo_views
from builder.rendering.pages.pins import PinView, channel_words, pin_views
from builder.rendering.pages.plugs_in_sight import plugs_in_sight
from builder.rendering.pages.proved import proved_of
from builder.rendering.pages.recorded import recorded_views
from builder.rendering.pages.scope import holds_for, tell_apart
from builder.rendering.pages.wording import (
    PLAN_KINDS,
    anchor,
    grade_mark,
    listed,
    plain,
    plan_url,
    url_name,
)
from builder.rendering.templates import fill


class PlugView(NamedTuple):
    """One plug with its drawings and pins."""

    anchor: str
    id: str
    name: str
    unit: str
    location: str
    colours: str
    housing_id: str
    housing_name: str
    read_from: str
    empty: str
    faces: tuple[Markup, ...]
    look_alikes: tuple[LookAlikeView, ...]
    pins: tuple[PinView, ...]
    look_alike_wires: tuple[str, ...]
    not_turned: tuple[str, ...]  # what was counted on the other face and could not be turned
    photos: list[PhotoView]


class PlanLink(NamedTuple):
    """A plan of this vehicle: with a grade, or with the reason why there is none."""

    url: str
    kind: str
    converter: str
    purpose: str
    grade: str
    mark: str
    refusal: str


def vehicle_page(
    vehicle: Vehicle,
    shelf: Shelf,
    proofs: Proofs,
    findings: Sequence[Finding],
    plans: Sequence[Plan],
    info: BuildInfo,
    jobs: Sequence[Entry] = (),
    digest: str = "",
) -> Page:
    """Return the page of `vehicle`; `findings`, `plans` and `jobs` are those of this record.

    `digest` is a short sum of the record, for the foot of the printed page.
    """
    url, rows = f"vehicles/{vehicle.id}.html", answers(vehicle, proofs)
    plugs = [_plug_view(plug, vehicle, shelf, proofs) for plug in vehicle.plugs]
    body = fill(
        "vehicle.html",
        vehicle=vehicle,
        info=info,
        make_url=url_name(vehicle.make),
        answers=rows,
        in_sight=plugs_in_sight(vehicle, shelf, rows),
        proved=proved_of(vehicle, proofs),
        disputes=dispute_views(vehicle, proofs, plans),
        ask_first=ASK_FIRST,
        questions=tell_apart(vehicle, shelf.vehicle_ids),
        plans=[_plan_link(plan, shelf) for plan in plans],
        jobs=jobs,
        plugs=plugs,
        reads=each_once((pin.does, pin.expected) for plug in plugs for pin in plug.pins),
        legend=legend(),
        alike_de00=shelf.defaults.wires_confusable_de00,
        findings=findings,
        reports=report_links(vehicle, info.report_address),
        way_back=way_back(info, url),
        **_around_the_plugs(vehicle),
        **_who_measured(vehicle),
    )
    foot = foot_words(f"record {vehicle.id}", digest, vehicle.data)
    return Page(url, vehicle.title, _description(vehicle), body, foot, ("assets/pin-card.js",))


def _around_the_plugs(vehicle: Vehicle) -> dict[str, Any]:
    """What is said of the car itself: its scope, its dangers, its radio, sounds and supply."""
    return {
        "cautions": cautions_of(vehicle),
        "holds": holds_for(vehicle),
        "channels": channel_views(vehicle),
        "recorded": recorded_views(vehicle),
        "radio": [*facts_of(vehicle.radio), *facts_of(vehicle.factory_amplifier)],
        "features": list(facts_of(vehicle.features)),
        "power": list(facts_of(vehicle.power)),
        "sounds": sound_lines(vehicle),
        "fuses": fuse_views(vehicle),
        "removal": radio_out(vehicle),
        "access": access_views(vehicle),
        "passages": passage_views(vehicle),
        "photos": photo_views(vehicle, None),
        "also": top_facts(vehicle),
    }


def _who_measured(vehicle: Vehicle) -> dict[str, Any]:
    """Visits and how disputes ended, and the form for who found the record wrong."""
    return {
        "sessions": vehicle.sessions,
        "withdrawn": [visit for visit in vehicle.visits if visit.withdrawn],
        "turned": _turned(vehicle),
        "resolutions": vehicle.resolutions,
        "faces": VISIT_FACE_NAMES,
        "measured": max((session.date for session in vehicle.sessions), default=""),
        "contributors": len({vehicle.contributor(session.by) for session in vehicle.sessions}),
        "blank_report": blank_report(vehicle),
    }


def _turned(vehicle: Vehicle) -> dict[str, tuple[Turned, ...]]:
    """How each visit of a file of its own was turned; those stand behind the vehicle's own."""
    counted = (visit for visit in vehicle.visits if visit.withdrawn is None)
    turns = [visit.turned for visit in counted for _ in visit.sessions]
    sessions = vehicle.sessions[len(vehicle.sessions) - len(turns) :]
    return {session.id: said for session, said in zip(sessions, turns, strict=True)}


def _description(vehicle: Vehicle) -> str:
    pins = sum(len(plug.pins) for plug in vehicle.plugs)
    return (
        f"{vehicle.title}: {pins} pins on {len(vehicle.plugs)} plugs, "
        "with wire colours, readings and grades."
    )


def _plan_link(plan: Plan, shelf: Shelf) -> PlanLink:
    converter = shelf.converters.get(plan.converter)
    usable = plan.kind != "no_plan"
    return PlanLink(
        plan_url(plan.vehicle, plan.converter),
        PLAN_KINDS[plan.kind],
        converter.name if converter else plan.converter,
        plan.purpose,
        plan.grade if usable else "",
        grade_mark(plan.grade) if usable else "",
        "" if usable or not plan.refusals else plan.refusals[0].because,
    )


def _plug_view(plug: Plug, vehicle: Vehicle, shelf: Shelf, proofs: Proofs) -> PlugView:
    housing = shelf.housings.get(plug.housing)
    return PlugView(
        anchor("plug", plug.id),
        plug.id,
        plug.name,
        plain(plug.unit),
        plug.location,
        listed(plug.shell_colours, "colour not recorded"),
        plug.housing if housing else "",
        housing.name if housing else plug.housing,
        FACE_NAMES[plug.read_from],
        listed(plug.empty, "none stated"),
        plug_faces(housing, plug) if housing else (),
        tuple(look_alike_view(entry, plug, housing, vehicle, shelf) for entry in plug.look_alikes),
        pin_views(vehicle, plug, proofs),
        _look_alike_wires(plug, shelf.defaults),
        tuple(refused_words(one) for one in vehicle.face_refusals if one.plug == plug.id),
        photo_views(vehicle, plug.id),
    )


def refused_words(refused: FaceRefusal) -> str:
    """What of a visit or claim is not counted, and why."""
    cavities = listed(refused.cavities, "none")
    what = f"the visit {refused.session} by {refused.who}" if refused.session else refused.who
    return (
        f"{what} counted {FACE_NAMES[refused.counted_on]}, at cavities {cavities}: "
        f"it could not be turned to these drawings, because {refused.why}"
    )


def _look_alike_wires(plug: Plug, defaults: HouseDefaults) -> tuple[str, ...]:
    """Return the pairs of wires that some eyes confuse, one line a pair."""
    return tuple(
        f"{_wire_of(plug, pair.first)} and {_wire_of(plug, pair.second)}: "
        f"{eyes_in_words(pair.likeness)}"
        for pair in confusable_pairs(plug.pins, defaults.wires_confusable_de00)
    )


def _wire_of(plug: Plug, pin: Pin) -> str:
    does = channel_words(pin) or function_name(pin.function)
    return f"{plug.id}.{pin.cavity} {colours_in_words(pin.wire)} ({does})"
