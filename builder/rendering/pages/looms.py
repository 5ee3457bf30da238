"""The page of a loom: the faces of its ends, its wires from end to end and one by one."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from types import MappingProxyType
from typing import NamedTuple

from markupsafe import Markup

from builder.figures import at_most
from builder.model.housing import Housing
from builder.model.names import FACE_NAMES
from builder.model.parts import Loom
from builder.model.parts.loom import Branch, LoomEnd
from builder.planning.looms.conductors import Conductor, conductors, leading_to, length_m
from builder.planning.looms.nets import through_cavities
from builder.planning.looms.ring_out import SUPPLY_MOST_MV, Limit, Measurement, Why, ring_out
from builder.rendering.drawings.canvas import identifier
from builder.rendering.drawings.loom_map import loom_map
from builder.rendering.drawings.plug_faces import plug_faces
from builder.rendering.drawings.swatch import swatch
from builder.rendering.drawings.wire_colours import wire_words
from builder.rendering.page import BuildInfo, Page
from builder.rendering.pages.car_facts import Fact
from builder.rendering.pages.declared_facts import facts_of
from builder.rendering.pages.parts import Used, Uses, bare_plug, part_page
from builder.rendering.pages.wording import figure, plain, size_words

_NO_HOUSINGS: Mapping[str, Housing] = MappingProxyType({})
_NOT_RECORDED = "not recorded"


class WireRow(NamedTuple):
    """One wire of the table."""

    start: str
    to: str
    colour: str
    sample: Markup
    size: str
    carries: str
    fuse: str
    length: str


class RingOutRow(NamedTuple):
    """One measurement before the loom goes into a car."""

    what_for: str
    at: str
    against: str
    must_read: str


class EndView(NamedTuple):
    """An end or a branch: its plug, and how it was counted; no faces without the housing."""

    name: str
    housing: str
    said: str
    faces: tuple[Markup, ...]


def loom_page(
    loom: Loom,
    used_in: Sequence[Used],
    info: BuildInfo,
    housings: Mapping[str, Housing] = _NO_HOUSINGS,
) -> Page:
    """Return the page of a loom; `housings` are the shells of the book, by id."""
    more = {
        "facts": [
            *facts_of(loom),
            Fact("Wires", str(len(conductors(loom)))),
            Fact("Cavities straight through", ", ".join(through_cavities(loom)) or "none"),
        ],
        "ends": [_end(end, housings) for end in loom.ends],
        "branches": [_branch(loom, branch, housings) for branch in loom.branches],
        "drawing": loom_map(loom, identifier("loom", loom.id)),
        "rows": [_row(loom, wire) for wire in conductors(loom)],
        "ring_out": [_measurement(each) for each in ring_out(loom, (), {})],
    }
    uses, said = Uses("Used in", used_in), "its wires by their cavities."
    return part_page("looms", loom, uses, info, said, "loom.html", **more)


def _end(end: LoomEnd, housings: Mapping[str, Housing]) -> EndView:
    face = f"{plain(end.read_from)} ({FACE_NAMES[end.read_from]})"
    said = f"plugs into the {plain(end.plugs_into)}; counted from: {face}"
    return EndView(end.name, end.housing, said, _faces(end.name, end.housing, housings))


def _branch(loom: Loom, branch: Branch, housings: Mapping[str, Housing]) -> EndView:
    long = _NOT_RECORDED if branch.length_m is None else figure(branch.length_m, "m")
    count = len(leading_to(loom, branch.name))
    ends = "bare" if branch.housing is None else "in a plug"
    said = f"{count} wire{'' if count == 1 else 's'}, end{'s' if count == 1 else ''} {ends}"
    said += f"; length: {long}"
    if branch.at_m is not None:
        said += f"; leaves {figure(branch.at_m, 'm')} from the {loom.ends[0].name}"
    faces = _faces(branch.name, branch.housing or "", housings)
    return EndView(branch.name, branch.housing or "", said, faces)


def _faces(name: str, housing_id: str, housings: Mapping[str, Housing]) -> tuple[Markup, ...]:
    housing = housings.get(housing_id)
    return plug_faces(housing, bare_plug(name, name, housing)) if housing else ()


def _row(loom: Loom, wire: Conductor) -> WireRow:
    long = length_m(loom, wire)
    return WireRow(
        wire.start.shown,
        wire.to.shown,
        wire_words(wire.wire),
        swatch(wire.wire),
        size_words(wire.wire, _NOT_RECORDED),
        plain(wire.carries) if wire.carries else _NOT_RECORDED,
        figure(wire.fuse_a, "A") if wire.fuse_a is not None else "none",
        figure(long, "m") if long is not None else _NOT_RECORDED,
    )


def _measurement(measured: Measurement) -> RingOutRow:
    others = measured.against
    tied = others[0].shown if measured.limit or len(others) == 1 else f"all {len(others)} others"
    return RingOutRow(_WHYS[measured.why], measured.at.shown, tied, _limit(measured.limit))


_WHYS: dict[Why, str] = {
    "through": "goes through",
    "to cable": "reaches the cable",
    "to branch": "reaches its branch",
    "joined": "joined by design",
    "broken": "broken wire: open to its other end, and to everything",
    "closed off": "closed off: open to everything",
    "apart": "joined to no other",
}


def _limit(limit: Limit | None) -> str:
    if limit is None:
        return "open"
    if limit.most is None:
        return f"at most {SUPPLY_MOST_MV:g} mV divided by the amperes of its fuse, at 1 A"
    at = f" at {limit.at_a:g} A" if limit.at_a else ""
    return f"at most {at_most(limit.most, limit.unit)} {limit.unit}{at}"
