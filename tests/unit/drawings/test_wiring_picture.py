"""The wiring picture: all of the circuit is in it, in its colours, and nothing lies on anything."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace
from functools import cache
from typing import Any

import pytest
from drawing_samples import outside, overlapping
from hypothesis import given, settings
from markupsafe import escape
from pack_jobs import HOUSE, shipped_pack, shipped_parts
from samples import many
from test_data_interface import interface_job
from test_line_side import three_on_one
from test_line_tap import LORNE, parts_for
from test_loom_jobs import on_straight_looms
from test_pack_properties import jobs
from wiring_drawn import wiring_legend, wiring_picture, wiring_pieces
from wiring_samples import DRAWN_JOBS, drawn_job, every_id, housings, with_housings
from wiring_svg import Drawn, crossings, on_each_other, struck

from builder.model.job import SecondBattery
from builder.model.job.batteries import JoinedBy
from builder.model.wire import Wire
from builder.planning.circuit.model import Circuit, Element, Joint, Link, Terminal, Unit
from builder.planning.job.make_pack import make_pack
from builder.planning.work_pack import JobParts
from builder.rendering.drawings.wire_colours import colour_hex
from builder.rendering.drawings.wiring.scene import Scene
from builder.rendering.drawings.wiring.whole import LARGEST, Laid, fits_paper
from builder.rendering.page import BuildInfo
from builder.rendering.pages.work_pack import work_pack_page

CROSSINGS = dict.fromkeys(DRAWN_JOBS, 0) | {
    # Two amplifiers one below the other: the lower one's supply comes past the upper one's
    # outputs and ground; the grounds of the converter and of the relay beside it past the turn-on
    # that leads down.
    "rook-two-amplifiers": 5,
}
ROWS = "Further wires"
"""What stands above wires that have no place of their own in the picture."""
MOST_CROSSINGS = 12
"""In any generated job: two amplifiers, and up to four outputs that feed both by Y-leads."""
PAPER_PT = (807.0, 496.0)  # of A4 across: 297 mm less 6 mm a side, 210 mm less head and foot
LEAST_PT = 6.5
INFO = BuildInfo("loombook", "0.1.0", "2024-05-13")


@cache
def picture(name: str) -> Drawn:
    circuit, parts = drawn_job(name)
    return Drawn(wiring_picture(circuit, parts))


@cache
def pieces(name: str) -> tuple[Drawn, ...]:
    circuit, parts = drawn_job(name)
    return tuple(Drawn(piece.drawing) for piece in wiring_pieces(circuit, parts))


def check_whole(circuit: Circuit, drawn: Drawn) -> None:
    """Every piece of the circuit, and every end left open, is in the picture."""
    assert every_id(circuit) - drawn.shown() == set()
    assert {each.end for each in circuit.open_ends} - drawn.opened() == set()
    assert drawn.shown() - every_id(circuit) == set()


def check_in_place(drawn: Drawn, found: Sequence[Drawn]) -> None:
    """Nothing stands in rows only: neither below the picture nor in a piece of its own."""
    for each in (drawn, *found):
        assert ROWS not in [words for words, _ in each.words()]


@pytest.mark.parametrize("name", DRAWN_JOBS)
def test_every_piece_of_the_circuit_is_in_the_picture(name: str) -> None:
    check_whole(drawn_job(name)[0], picture(name))


@pytest.mark.parametrize("name", DRAWN_JOBS)
def test_every_piece_of_the_circuit_is_in_a_piece_for_the_phone(name: str) -> None:
    circuit = drawn_job(name)[0]
    shown = set().union(*(piece.shown() for piece in pieces(name)))
    assert every_id(circuit) - shown == set()
    opened = set().union(*(piece.opened() for piece in pieces(name)))
    assert {each.end for each in circuit.open_ends} - opened == set()


@pytest.mark.parametrize("name", DRAWN_JOBS)
def test_no_wire_stands_in_rows_only(name: str) -> None:
    check_in_place(picture(name), pieces(name))


def test_the_walk_notices_a_wire_left_out() -> None:
    circuit, parts = drawn_job("tansy-subwoofer")
    drawn = Drawn(wiring_picture(circuit, parts))
    for piece in (*circuit.wires[:1], *circuit.wires[-1:]):
        more = replace(circuit, wires=(*circuit.wires, replace(piece, id="another")))
        with pytest.raises(AssertionError):
            check_whole(more, drawn)


@pytest.mark.parametrize("name", DRAWN_JOBS)
def test_wires_have_the_colours_they_have_in_the_circuit(name: str) -> None:
    seen = 0
    for wire in drawn_job(name)[0].wires:
        words = [] if wire.wire is None else [wire.wire.base, wire.wire.stripe]
        wanted = [colour_hex(word) for word in words if word]
        assert picture(name).colours(wire.id) == wanted, wire.id
        for piece in pieces(name):
            if wire.id in piece.shown():
                assert piece.colours(wire.id) == wanted, wire.id
        seen += bool(wanted)
    assert seen >= 4


@pytest.mark.parametrize("name", DRAWN_JOBS)
def test_a_coloured_wire_has_its_colour_in_words(name: str) -> None:
    said = " ".join(words for words, _ in picture(name).words())
    for wire in drawn_job(name)[0].wires:
        assert wire.wire is None or wire.colours in said, wire.id


def test_a_diode_and_a_capacitor_are_drawn_the_way_round_that_they_are_joined() -> None:
    """A diode turned over never empties the capacitor, a capacitor turned over bursts."""
    circuit = drawn_job("teasel-subwoofer")[0]
    (store,) = [each for each in circuit.elements if each.kind == "capacitor"]
    (empties,) = [each for each in circuit.elements if each.purpose.startswith("empties")]
    met = next(joint.joins for joint in circuit.joints if store.ends[0] in joint.joins)
    assert empties.ends[0] in met, "the diode leads away from the capacitor's +"
    seen = 0
    for drawn in (picture("teasel-subwoofer"), *pieces("teasel-subwoofer")):
        if store.id in drawn.shown():
            (_, diode_y), up = drawn.leads(empties.id)
            (_, store_y), down = drawn.leads(store.id)
            assert diode_y < store_y and up == (0.0, -1.0) and down == (0.0, 1.0)
            seen += 1
    assert seen == 2


@pytest.mark.parametrize("name", DRAWN_JOBS)
def test_no_more_wires_cross_than_must(name: str) -> None:
    assert len(crossings(picture(name).lines())) <= CROSSINGS[name]
    for piece in pieces(name):
        assert crossings(piece.lines()) == []


@pytest.mark.parametrize("name", DRAWN_JOBS)
def test_no_two_wires_run_on_each_other(name: str) -> None:
    for drawn in (picture(name), *pieces(name)):
        assert on_each_other(drawn.lines()) == []


@pytest.mark.parametrize("name", DRAWN_JOBS)
def test_words_meet_neither_each_other_nor_a_wire(name: str) -> None:
    for drawn in (picture(name), *pieces(name)):
        assert overlapping(drawn.words()) == []
        assert struck(drawn) == []
        assert outside(drawn.svg, drawn.words()) == []


@pytest.mark.parametrize("name", DRAWN_JOBS)
def test_the_picture_is_read_on_one_page_of_a4(name: str) -> None:
    width, height = picture(name).size
    scale = min(PAPER_PT[0] / width, PAPER_PT[1] / height)
    sizes = picture(name).sizes()
    assert min(sizes) * scale >= LEAST_PT


@pytest.mark.parametrize("name", DRAWN_JOBS)
def test_every_shipped_picture_is_printed_whole(name: str) -> None:
    pack, parts = shipped_pack(name), with_housings(shipped_parts(name))
    page = work_pack_page(pack, parts, (), INFO).body_html
    assert 'class="wiring-picture"' in page
    width, height = picture(name).size
    assert width <= LARGEST[0] and height <= LARGEST[1] and "too-large" not in page


@pytest.mark.parametrize(("width", "height"), [(1401.0, 500.0), (900.0, 851.0)])
def test_a_picture_that_one_page_does_not_hold_is_printed_in_its_pieces(
    width: float, height: float
) -> None:
    assert not fits_paper(Laid(Scene(), width, height))
    assert fits_paper(Laid(Scene(), width - 1, height - 1))


@pytest.mark.parametrize("name", DRAWN_JOBS)
def test_a_phone_shows_each_piece_in_its_own_size(name: str) -> None:
    for piece in pieces(name):
        assert piece.size[0] <= 390 - 32
        sizes = piece.sizes()
        assert min(sizes) >= 10.5


@pytest.mark.parametrize("name", DRAWN_JOBS)
def test_the_legend_has_the_signs_of_its_own_job_and_no_others(name: str) -> None:
    circuit, parts = drawn_job(name)
    legend = wiring_legend(circuit, parts)
    units = {unit.kind for unit in circuit.units}
    joints = {joint.kind for joint in circuit.joints}
    assert ("plug of a loom, home" in legend) == ("loom" in units)
    assert ("Y-lead, one plug to two sockets" in legend) == ("y_lead" in units)
    assert ("joined beside the wire" in legend) == ("tap" in joints)
    assert ("turn-on wire as bought" in legend) == any(
        wire.wire is None and wire.carries == "control" for wire in circuit.wires
    )
    assert "terminal" in legend and "supply" in legend


@pytest.mark.parametrize("name", DRAWN_JOBS)
def test_the_same_job_gives_the_same_bytes(name: str) -> None:
    circuit, parts = drawn_job(name)
    again = replace(circuit, wires=tuple(replace(wire) for wire in circuit.wires))
    assert wiring_picture(circuit, parts) == wiring_picture(again, parts)
    assert wiring_pieces(circuit, parts) == wiring_pieces(again, parts)


def test_a_strict_content_policy_finds_nothing_to_block() -> None:
    circuit, parts = drawn_job("leto-four-doors")
    shown = wiring_picture(circuit, parts) + wiring_legend(circuit, parts)
    assert not re.search(r"<style|<script|\sstyle=|\son\w+=|href=.(?!#)|url\(", shown)


@pytest.mark.parametrize("housing", ["mixed-32-latch-bottom", "three-row-28-latch-left", None])
def test_any_shell_on_the_shelf_can_stand_in_the_picture(housing: str | None) -> None:
    """Every plug of a job put into another shell; one that is not on the shelf is a plain row."""
    circuit, parts = drawn_job("leto-four-doors")
    shelf = {} if housing is None else dict.fromkeys(housings(), housings()[housing])
    other = replace(parts, shelf=replace(parts.shelf, housings=shelf))
    names = {t.name for t in circuit.terminals if t.unit == "radio plug A"}
    if housing is None or names <= set(housings()[housing].cavities):
        drawn = Drawn(wiring_picture(circuit, other))
        check_whole(circuit, drawn)
        assert on_each_other(drawn.lines()) == []


def test_a_unit_that_has_no_place_of_its_own_is_drawn_below() -> None:
    """A kind of unit that the picture has not learnt yet, with a fused wire to it."""
    circuit, parts = drawn_job("leto-four-doors")
    ends = [
        Terminal("box +12 V", "box", "+12 V", "takes", "supply"),
        Terminal("box shown to nobody", "box", "shown to nobody", "passes", "control"),
    ]
    unit = Unit("box", "interface", "boot", tuple(ends))
    fuse = Element("fuse of box", "fuse", 1.0, "1 A", "boot", "fuse of box", "supply")
    wire = replace(circuit.wires[-1], id="supply of box", mate=None)
    met = (
        ("door amp +12 V", fuse.ends[0]),
        (fuse.ends[1], wire.ends[0]),
        (wire.ends[1], ends[0].id),
    )
    joints = tuple(
        Joint(f"more {at}", "terminal", "boot", joins, "cover", "with_part")
        for at, joins in enumerate(met)
    )
    path = ("door amp +12 V", "more 0", fuse.id, "more 1", wire.id, "more 2", ends[0].id)
    more = replace(
        circuit,
        units=(*circuit.units, unit),
        wires=(*circuit.wires, wire),
        elements=(*circuit.elements, fuse),
        joints=(*circuit.joints, *joints),
        links=(*circuit.links, Link("supply of box", "supply", "supply of box", path)),
    )
    drawn = Drawn(wiring_picture(more, parts))
    assert every_id(more) - drawn.shown() == set()
    assert overlapping(drawn.words()) == []
    found = [Drawn(piece.drawing) for piece in wiring_pieces(more, parts)]
    assert every_id(more) - set().union(*(piece.shown() for piece in found)) == set()
    assert overlapping(found[-1].words()) == []
    for each in (drawn, found[-1]):
        with pytest.raises(AssertionError):
            check_in_place(each, ())


def test_hostile_names_stay_words() -> None:
    circuit, parts = drawn_job("tansy-subwoofer")
    hostile = '"><script>alert(1)</script>'
    wires = tuple(
        replace(wire, wire=Wire(base=hostile, stripe=None)) if wire.stays and wire.wire else wire
        for wire in circuit.wires
    )
    drawn = wiring_picture(replace(circuit, wires=wires), parts)
    assert "<script" not in drawn
    assert any(hostile in words for words, _ in Drawn(drawn).words())


def check_generated(parts: JobParts) -> None:
    """What holds of the picture of any job."""
    circuit = make_pack(parts, defaults=HOUSE, ordered=False).circuit
    if circuit is None:
        return
    drawn = Drawn(wiring_picture(circuit, with_housings(parts)))
    check_whole(circuit, drawn)
    assert len(crossings(drawn.lines())) <= MOST_CROSSINGS
    assert on_each_other(drawn.lines()) == []
    assert overlapping(drawn.words()) == []
    assert struck(drawn) == []
    found = [Drawn(piece.drawing) for piece in wiring_pieces(circuit, with_housings(parts))]
    assert every_id(circuit) - set().union(*(piece.shown() for piece in found)) == set()
    check_in_place(drawn, found)
    for piece in found:
        assert overlapping(piece.words()) == []
        assert struck(piece) == []
        assert on_each_other(piece.lines()) == []


@pytest.mark.parametrize("parts", [interface_job(), parts_for(LORNE)])
def test_what_no_shipped_job_has_is_drawn(parts: JobParts) -> None:
    """A data interface that a plug feeds without a wire; a line tap beside a factory amplifier."""
    check_generated(parts)


def fed_by_its_own_plug() -> JobParts:
    """The job on a data interface, in a car that has supply and ground in the bus's plug."""
    parts = interface_job()
    plugs = {plug.id: plug for plug in parts.vehicle.plugs}
    feeds = [pin for pin in plugs["A"].pins if pin.function in ("constant", "ground")]
    moved = [replace(pin, cavity=to) for pin, to in zip(feeds, ("6", "16"), strict=False)]
    left = tuple(pin for pin in plugs["A"].pins if pin not in feeds)
    changed = {
        "A": replace(plugs["A"], pins=left),
        "B": replace(plugs["B"], pins=(*plugs["B"].pins, *moved)),
    }
    vehicle = parts.vehicle
    kept = tuple(changed.get(plug.id, plug) for plug in vehicle.plugs)
    return replace(parts, vehicle=replace(vehicle, plugs=kept))


@pytest.mark.parametrize("parts", [interface_job(), fed_by_its_own_plug()])
def test_what_feeds_a_data_interface_crosses_nothing(parts: JobParts) -> None:
    check_generated(parts)
    circuit = make_pack(parts, defaults=HOUSE).circuit
    assert circuit is not None
    drawn = Drawn(wiring_picture(circuit, with_housings(parts)))
    assert {"OK-7N +12 V", "OK-7N GND", "fuse of OK-7N"} <= drawn.shown()
    assert crossings(drawn.lines()) == []


@pytest.mark.parametrize("order", [(1, 3, 5), (5, 3, 1), (3, 1, 5)])
def test_a_y_lead_behind_another_is_drawn_without_a_crossing(order: tuple[int, ...]) -> None:
    parts = three_on_one(order)
    check_generated(parts)
    circuit = make_pack(parts, defaults=HOUSE).circuit
    assert circuit is not None
    drawn = Drawn(wiring_picture(circuit, with_housings(parts)))
    assert {"Y-lead at CVN-2A out 1", "Y-lead 2 at CVN-2A out 1"} <= drawn.shown()
    assert crossings(drawn.lines()) == []


@pytest.mark.parametrize("name", ["tansy-two-coils", "rook-two-amplifiers"])
@pytest.mark.parametrize("way", ["relay", "dc_charger", "diode"])
@pytest.mark.parametrize("point", ["body_side", "battery_post"])
def test_a_second_battery_and_its_link_are_drawn(way: JoinedBy, name: str, point: Any) -> None:
    """Its link, fused at both ends, adds no crossing, wherever the grounds lead."""
    parts = shipped_parts(name)
    second = SecondBattery(
        type="agm", ah=80, place="boot", joined_by=way, link_m=5.0, feed_m=0.6, ground_m=0.4,
        charger_a=25 if way == "dc_charger" else None, age_years=None,
    )  # fmt: skip
    supply = replace(parts.job.supply, second_battery=second, ground_point=point)
    parts = replace(parts, job=replace(parts.job, supply=supply))
    check_generated(parts)
    circuit = make_pack(parts, defaults=HOUSE).circuit
    assert circuit is not None and "link to the second battery" in every_id(circuit)
    drawn = Drawn(wiring_picture(circuit, with_housings(parts)))
    assert len(crossings(drawn.lines())) <= CROSSINGS[name]


@settings(max_examples=many(150), deadline=None)
@given(jobs())
def test_the_picture_of_any_job_is_whole_and_clear(parts: JobParts) -> None:
    check_generated(parts)


@pytest.mark.parametrize("name", DRAWN_JOBS)
def test_a_job_on_looms_at_all_its_plugs_is_drawn(name: str) -> None:
    check_generated(on_straight_looms(shipped_parts(name)))


def test_a_plan_that_is_not_built_has_no_picture() -> None:
    assert shipped_pack("ullin-split-fronts").circuit is None


@pytest.mark.parametrize("name", ["leto-four-doors", "ullin-split-fronts"])
def test_the_page_shows_the_picture_of_what_is_built_alone(name: str) -> None:
    pack, parts = shipped_pack(name), with_housings(shipped_parts(name))
    page = work_pack_page(pack, parts, (), INFO).body_html
    built = pack.circuit is not None
    assert ('class="lb-drawing lb-wiring"' in page) == built
    table = page.partition("Each wire from end to end")[2].partition("</table>")[0]
    assert table.count("<tr>") == (len(pack.wiring) + 1 if built else 0)
    for row in pack.wiring if built else ():
        assert str(escape(row.link)) in table
