"""The supply, whole loop: battery, main fuse, trunk, block, branches, grounds, body, strap."""

from __future__ import annotations

from dataclasses import dataclass

from builder.model.job import Job
from builder.planning.circuit.board import ON_POST, PAINTED, SCREWED, Board
from builder.planning.circuit.device_links import lay_devices
from builder.planning.circuit.hook_up import THINNEST_AWG
from builder.planning.circuit.model import CircuitWire, Element, EndId, Link, Terminal
from builder.planning.circuit.second_battery_links import (
    joiner_ground,
    lay_second_link,
    second_plus,
)
from builder.planning.circuit.single_wires import Length, lay_fuse, lay_single
from builder.planning.circuit.terminal_names import (
    BATTERY,
    BATTERY_MINUS,
    BATTERY_PLUS,
    BLOCK_IN,
    BODY_AT_STRAP,
    LEAD_TO_MAIN_FUSE,
    SECOND,
    SECOND_MINUS,
    SECOND_PLUS,
    SIGNS,
)
from builder.planning.circuit.units import amplifier_supply
from builder.planning.circuit.work import CircuitWork
from builder.planning.power.conductors import Conductor, awg
from builder.planning.power.main_fuse import main_fuse_place
from builder.planning.power.supply_runs import RunChoice
from builder.planning.words import BLOCK, MAIN_FUSE

UNSIZED = "? A"
"""What a fuse says whose size follows from an amplifier that nobody has chosen."""
BODY = "body"
GROUND_POINT = "ground point"
THE_BODY, THE_STRAP, THE_CAR = "the body", "the strap", "the car"


def lay_supply(board: Board, work: CircuitWork) -> None:
    """Put the supply of every amplifier and of the converter on."""
    if work.unchosen:
        _lay_unsized(board, work, work.unchosen[0])
    if not work.runs:
        return
    board.unit(BATTERY, "battery", BATTERY)
    plus = _feeding_plus(board, work)
    trunk, branches = work.runs[0], work.runs[1:]
    fed = [name for name in work.parts.amplifiers if _draws(work, name)]
    apart = {run.demand.name.removeprefix("branch to "): run for run in branches}
    straight = [name for name in fed if name not in apart]
    feed = _sized_trunk(board, work, plus, straight, block=bool(branches))
    for name, run in apart.items():
        _branch(board, work, name, run, feed)
    _ground(board, work, trunk, straight)
    if plus == SECOND_PLUS:
        _second_ground(board, work, trunk.conductor)
    _strap(board, work)
    lay_devices(board, work, fed)


def _lay_unsized(board: Board, work: CircuitWork, name: str) -> None:
    """The whole loop of an amplifier that nobody has chosen: no wire and no fuse has a size."""
    board.unit(BATTERY, "battery", BATTERY)
    plus, ground = amplifier_supply(board, work, name)
    fuse = board.element(Element(MAIN_FUSE, "fuse", 0.0, UNSIZED, BATTERY, MAIN_FUSE, "supply"))
    trunk = _Trunk(f"supply of {name}", None, fuse, Length(None), Length(None), name)
    _trunk(board, trunk, _plus_post(board), [plus])
    _ground_wire(board, work, (name, work.amplifier_place(name), ground), None, Length(None))
    _strap(board, work)
    lay_devices(board, work, [name])


def _draws(work: CircuitWork, name: str) -> bool:
    return any(load.amplifier == name for load in work.loads.values())


def _plus_post(board: Board) -> EndId:
    return board.terminal(Terminal(BATTERY_PLUS, BATTERY, SIGNS[0], "drives", "supply"))


def _minus_post(board: Board) -> EndId:
    return board.terminal(Terminal(BATTERY_MINUS, BATTERY, SIGNS[1], "passes", "ground"))


def _feeding_plus(board: Board, work: CircuitWork) -> EndId:
    """The post that feeds what is added: of the second battery, where there is one."""
    if work.second_link is None:
        return _plus_post(board)
    plus = second_plus(board, work)
    lay_second_link(board, work, work.second_link, _plus_post(board))
    return plus


def _second_ground(board: Board, work: CircuitWork, size: Conductor) -> None:
    second = work.parts.job.supply.second_battery
    assert second is not None
    _ground_wire(board, work, (SECOND, second.place, SECOND_MINUS), size, Length(second.ground_m))
    joiner = joiner_ground(board, second)
    if joiner is not None:
        length = Length(second.ground_m, taken="as the second battery's own ground")
        _ground_wire(board, work, joiner, awg(THINNEST_AWG), length)


@dataclass(frozen=True, slots=True)
class _Trunk:
    """What leads from a battery past the main fuse, and where: a size or length may be unknown."""

    name: str
    size: Conductor | None
    fuse: Element
    near: Length
    far: Length
    end: str
    place: str = ""


def _sized_trunk(
    board: Board, work: CircuitWork, post: EndId, straight: list[str], *, block: bool
) -> EndId:
    """The trunk as it was worked out; return where branches begin, or the last terminal."""
    run, near = work.runs[0], work.parts.job.supply.fuse_to_battery_m
    rest = Length(max(0.0, run.demand.out_m - (near or 0.0)), way=_supply_way(work.parts.job))
    fuse = lay_fuse(board, MAIN_FUSE, run.run.fuse_a, main_fuse_place(work.parts.job.supply))
    end = BLOCK if block else straight[0]
    place = BLOCK if block else work.amplifier_place(straight[0])
    ends = [_block_in(board)] if block else []
    ends += [amplifier_supply(board, work, name)[0] for name in straight]
    trunk = _Trunk(run.demand.name, run.conductor, fuse, Length(near), rest, end, place)
    return _trunk(board, trunk, post, ends)


def _trunk(board: Board, trunk: _Trunk, post: EndId, ends: list[EndId]) -> EndId:
    """Post, lead, main fuse, trunk; return the first of the terminals that it ends at."""
    battery, fuse, at = board.unit_of(post), trunk.fuse, trunk.fuse.place
    lead = lay_single(board, LEAD_TO_MAIN_FUSE, "supply", trunk.size, trunk.near, battery,
                      MAIN_FUSE)  # fmt: skip
    wire = lay_single(board, trunk.name, "supply", trunk.size, trunk.far, MAIN_FUSE, trunk.end)
    ring = board.join("ring", battery, post, lead.ends[0], closed_by=ON_POST,
                      undone="take_off" if battery == BATTERY else "with_part")  # fmt: skip
    into = board.join("terminal", at, lead.ends[1], fuse.ends[0], closed_by=SCREWED,
                      undone="with_part")  # fmt: skip
    out = board.join("terminal", at, fuse.ends[1], wire.ends[0], closed_by=SCREWED,
                     undone="with_part")  # fmt: skip
    last = board.join("terminal", trunk.place, wire.ends[1], *ends, closed_by=SCREWED,
                      undone="with_part")  # fmt: skip
    path = (post, ring, lead.id, into, fuse.id, out, wire.id, last)
    for end in ends:
        board.link(Link(f"supply of {end}", "supply", f"supply of {end}", (*path, end)))
    return ends[0]


def _supply_way(job: Job) -> str:
    """What the trunk passes: ways through a bulkhead, then the places of its measured way."""
    through = [one.through for one in job.passes if "supply" in one.carries]
    zones = [
        zone
        for route in job.routes
        if route.carries == "supply" and route.from_place == BATTERY
        for zone in route.zones
    ]
    return ", ".join(dict.fromkeys((*through, *zones)))


def _block_in(board: Board) -> EndId:
    unit = board.unit(BLOCK, "distribution", BLOCK)
    return board.terminal(Terminal(BLOCK_IN, unit, "in", "passes", "supply", needed=True))


def _branch(board: Board, work: CircuitWork, name: str, run: RunChoice, feed: EndId) -> None:
    """A fuse in the block, a branch to the amplifier, a ground of its own to the body."""
    positive, ground = amplifier_supply(board, work, name)
    fuse = lay_fuse(board, f"fuse of the branch to {name}", run.run.fuse_a, BLOCK)
    place = work.amplifier_place(name)
    wire = lay_single(board, run.demand.name, "supply", run.conductor,
                      Length(run.demand.out_m), BLOCK, name)  # fmt: skip
    into = board.join("terminal", BLOCK, feed, fuse.ends[0], closed_by=SCREWED, undone="with_part")
    out = board.join("terminal", BLOCK, fuse.ends[1], wire.ends[0], closed_by=SCREWED,
                     undone="with_part")  # fmt: skip
    last = board.join("terminal", place, wire.ends[1], positive, closed_by=SCREWED,
                      undone="with_part")  # fmt: skip
    path = (feed, into, fuse.id, out, wire.id, last, positive)
    board.link(Link(f"supply of {positive}", "supply", f"supply of {positive}", path))
    _ground_lead(board, work, name, ground, run.conductor, run.demand.return_m)


def _ground(board: Board, work: CircuitWork, trunk: RunChoice, straight: list[str]) -> None:
    second = work.parts.job.supply.second_battery
    length = trunk.demand.return_m - (second.ground_m if second else 0.0)  # that battery's own
    for name in straight:
        ground = amplifier_supply(board, work, name)[1]
        _ground_lead(board, work, name, ground, trunk.conductor, round(length, 3))


def _ground_lead(
    board: Board, work: CircuitWork, name: str, ground: EndId, size: Conductor, length_m: float
) -> None:
    _ground_wire(board, work, (name, work.amplifier_place(name), ground), size, Length(length_m))


def _ground_wire(
    board: Board,
    work: CircuitWork,
    of: tuple[str, str, EndId],
    size: Conductor | None,
    length: Length,
) -> None:
    """From a device's ground terminal to the one point where everything is grounded."""
    name, place, ground = of
    point = _ground_point(board, work)
    where = BATTERY if point.startswith(BATTERY) else GROUND_POINT
    wire = lay_single(board, f"ground of {name}", "ground", size, length, name, where)
    at_post = ground == SECOND_MINUS
    first = board.join("ring" if at_post else "terminal", place, ground, wire.ends[0],
                       closed_by=ON_POST if at_post else SCREWED, undone="with_part")  # fmt: skip
    last = board.join("ring", where, wire.ends[1], point, closed_by=PAINTED,
                      undone="take_off")  # fmt: skip
    board.link(Link(wire.id, "ground", wire.id, (ground, first, wire.id, last, point)))


def _ground_point(board: Board, work: CircuitWork) -> EndId:
    if work.parts.job.supply.ground_point == "battery_post":
        return _minus_post(board)
    unit = board.unit(BODY, "body", GROUND_POINT)
    return board.terminal(Terminal(GROUND_POINT, unit, GROUND_POINT, "passes", "ground"))


def _strap(board: Board, work: CircuitWork) -> None:
    """The car's own strap closes the loop of whatever is grounded to the body."""
    minus = _minus_post(board)
    if BODY not in board.units:
        return
    body = board.terminal(Terminal(BODY_AT_STRAP, BODY, "strap", "passes", "ground"))
    for id, ends in ((THE_BODY, (GROUND_POINT, body)), (THE_STRAP, (body, minus))):
        wire = board.wire(
            CircuitWire(id, "ground", id, THE_CAR, "single", None, None, None, ends[0], ends[1],
                        stays=True)
        )  # fmt: skip
        joints = [
            board.join("ring", end, end, own, closed_by="as the maker left it", undone="with_part")
            for end, own in zip(ends, wire.ends, strict=True)
        ]
        board.link(Link(id, "ground", id, (ends[0], joints[0], id, joints[1], ends[1])))
