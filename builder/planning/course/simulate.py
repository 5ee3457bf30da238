"""A course walked through from its first step to its last: what in it could not be done.

It looks at the printed steps and lines alone and knows nothing of how they were ordered: each law
is said anew. An empty answer means that the work can be carried out and leaves the car whole.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from builder.model.access import AccessPart
from builder.model.vehicle import Vehicle
from builder.planning.car.access import in_order, job_parts, parts_over, radio_parts
from builder.planning.car.route_zones import over_orange
from builder.planning.circuit.index import CircuitIndex
from builder.planning.circuit.model import Circuit, Joint
from builder.planning.circuit.terminal_names import LINK_FUSE, SECOND, SECOND_MINUS
from builder.planning.course.car_states import (
    BATTERY,
    CABLES,
    FILTERS,
    GAINS,
    KEY,
    MAIN_FUSE,
    PLAY,
    PLAYABLE,
    RADIO,
    RADIO_SET,
    RUNNING,
    plug_of,
    speakers_of,
)
from builder.planning.course.places import reached_at
from builder.planning.course.simulate_power import powered
from builder.planning.course.walk import Walk, taken
from builder.planning.sheet_rows import Step
from builder.planning.views.wiring_rows import made_by_us
from builder.planning.words import HowItStands, JointKind
from builder.planning.work_pack import BayTest, JobParts

_BY_PLUG: tuple[JointKind, ...] = ("plug_home", "line_plug", "y_lead")
_WHOLE: tuple[HowItStands, ...] = ("on", "home", "loomed", "fitted", "in", "laid", "noted")
_FREE = (KEY, PLAY, GAINS, FILTERS)


def broken(
    steps: Sequence[Step], tests: Sequence[BayTest], circuit: Circuit, parts: JobParts
) -> Iterator[str]:
    """Yield each law that a step breaks, and what the end lacks."""
    vehicle = parts.vehicle
    walk = Walk(parts, {test.id: test for test in tests}, CircuitIndex(circuit))
    walk.state = {
        **{part.name: "on" for part in vehicle.access},
        **{plug_of(plug.id): "home" for plug in vehicle.plugs},
        **{speakers_of(each.amplifier): "open" for each in parts.job.speakers},
        BATTERY: "on", KEY: "off", PLAY: "off", RADIO: "fitted", MAIN_FUSE: "absent",
        CABLES: "absent", RADIO_SET: "noted",
        **dict.fromkeys({SECOND, LINK_FUSE} & {*walk.index.units, *walk.index.elements}, "absent"),
    }  # fmt: skip
    for step in steps:
        for said in _at(walk, step):
            yield f"step {step.number}, {step.text}: {said}"
        walk.gate = step.gate
    yield from _at_the_end(walk)


def _at(walk: Walk, step: Step) -> Iterator[str]:
    for moved in step.moves:
        if moved.what not in _FREE and walk.state.get(moved.what) == moved.value:
            yield f"{moved.what} is {moved.value} already"
        yield from _moved(walk, moved.what, moved.value)
        walk.state[moved.what] = moved.value
        if moved.what == KEY and moved.value in ("off", "asleep"):
            walk.state[PLAY] = "off"
        if moved.what == BATTERY and moved.value == "off":
            walk.state[RADIO_SET] = "absent"
    yield from _running(walk, step)
    joints = [walk.index.joints[id] for id in step.makes]
    for place in dict.fromkeys(joint.place for joint in joints):
        yield from _covered(walk, parts_over(walk.vehicle, reached_at(walk.vehicle, place)))
    yield from _joined(walk, joints)
    yield from _beside(walk, joints)
    walk.made |= {joint.id for joint in joints}
    for id in step.tests:
        yield from taken(walk, walk.tests[id])
        walk.taken.append(id)


def _moved(walk: Walk, what: str, value: HowItStands) -> Iterator[str]:
    """A thing moved by hand: plugs with the battery off, restraint parts after the wait."""
    battery = walk.state[BATTERY]
    if what.startswith("plug ") and battery == "on":
        yield "a plug is moved with the battery on"
    if what.startswith("plug ") and battery != "waited" and _plug_beside(walk.vehicle, what):
        yield f"{what} is beside a restraint part and the wait is not over"
    if _near_restraint(walk.vehicle, what) and battery != "waited":
        yield f"{what} is near a restraint part and the wait is not over"
    if value == "waited" and battery != "off":
        yield "a wait with the battery on"
    if value == "off" and any(part.name == what for part in walk.vehicle.access):
        (part,) = (part for part in walk.vehicle.access if part.name == what)
        yield from _covered(walk, in_order(walk.vehicle, part.behind))
    if what == CABLES:
        yield from _covered(walk, job_parts(walk.vehicle, walk.parts.job))
    if what == RADIO and value == "pulled":
        yield from _covered(walk, radio_parts(walk.vehicle))
    yield from powered(walk.parts, walk.state, what, value)
    if what == MAIN_FUSE and value == "in":
        yield from _bare(walk)
    if what == BATTERY and value == "on":
        apart = [x for x in walk.vehicle.access if x.plugs and x.restraint != "no"]
        yield from (f"{x.name} is out" for x in apart if walk.state[x.name] == "off")
    if what.startswith("speakers of") and value == "on" and _is_on(walk):
        yield f"{what} are joined while it is on"
    if what == PLAY:
        yield from _played(walk, value)
    if what == RADIO and value == "fitted" and _plugs_off(walk):
        yield "the radio goes home with a plug off"


def _played(walk: Walk, value: HowItStands) -> Iterator[str]:
    """A radio plays with its settings back, and loud only when gains and filters are set."""
    if value not in ("off", "zero") and walk.state[RADIO_SET] not in PLAYABLE:
        yield "the radio plays without the settings that it lost"
    if value == "loud" and not (walk.filters_set and walk.gained):
        yield "loud before gains and filters are set"


def _bare(walk: Walk) -> Iterator[str]:
    """Amplifiers without a speaker plug whose ends would hang bare under power."""
    for name, amplifier in walk.parts.amplifiers.items():
        if walk.state.get(speakers_of(name)) == "open" and not amplifier.speakers_pull_off:
            yield f"power comes while the speaker ends of {name} hang bare"


def _running(walk: Walk, step: Step) -> Iterator[str]:
    """An engine started with a seat not bolted in, or a cover off live cables: a gate before it,
    no plug apart."""
    if not any(moved.what == KEY and moved.value in RUNNING for moved in step.moves):
        return
    seats = [part for part in walk.vehicle.access if part.kind == "seat"]
    for seat in (each for each in seats if walk.state[each.name] != "on"):
        if seat.name not in walk.gate:
            yield f"the engine runs while {seat.name} is not bolted in, and no gate says so"
        if walk.state[seat.name] == "off" and seat.plugs:
            yield f"the engine runs while the plugs of {seat.name} are off"
    bare = [part for part in walk.vehicle.access if walk.state[part.name] == "off"]
    for part in (each for each in bare if over_orange(each, walk.vehicle)):
        if f"{part.name} off, orange" not in walk.gate:
            yield f"the engine runs while orange cables lie open under {part.name}"


def _covered(walk: Walk, parts: Sequence[AccessPart]) -> Iterator[str]:
    for part in parts:
        if walk.state[part.name] == "on":
            yield f"{part.name} is still on"


def _near_restraint(vehicle: Vehicle, what: str) -> bool:
    """Whether somebody said that a part is near one, or nobody said that it is not."""
    if what == RADIO:
        removal = vehicle.radio.removal
        return removal is None or removal.restraint != "no"
    return any(part.name == what and part.restraint != "no" for part in vehicle.access)


def _plugs_off(walk: Walk) -> bool:
    radio = {f"plug {plug.id}" for plug in walk.vehicle.plugs if plug.unit == "radio"}
    return any(walk.state.get(each, "home") not in _WHOLE for each in radio)


def _plug_beside(vehicle: Vehicle, what: str) -> bool:
    """Whether a plug is behind something that may be near a restraint part."""
    (plug,) = (each for each in vehicle.plugs if plug_of(each.id) == what)
    if plug.unit == "radio":
        return _near_restraint(vehicle, RADIO)
    return any(part.restraint != "no" for part in parts_over(vehicle, plug.location))


def _beside(walk: Walk, joints: Sequence[Joint]) -> Iterator[str]:
    """Joints behind what may be near a restraint part: after the wait."""
    for place in dict.fromkeys(joint.place for joint in joints if not _at_table(walk, joint)):
        over = parts_over(walk.vehicle, reached_at(walk.vehicle, place))
        if walk.state[BATTERY] != "waited" and any(part.restraint != "no" for part in over):
            yield f"joined at {place}, beside a restraint part, and the wait is not over"


def _joined(walk: Walk, joints: Sequence[Joint]) -> Iterator[str]:
    """Joints with the battery off, none twice; grounds before line leads."""
    by_hand = [x for x in joints if x.kind not in _BY_PLUG and SECOND_MINUS not in x.joins]
    in_car = [joint for joint in by_hand if not _at_table(walk, joint)]
    if in_car and walk.state[BATTERY] == "on":
        yield "joined with the battery on"
    if any(joint.id in walk.made for joint in joints):
        yield "a joint is made a second time"
    if in_car and walk.state.get(SECOND) == "on":
        yield "joined with the second battery on"
    if joints and (walk.state[MAIN_FUSE] == "in" or _is_on(walk)):
        yield "joined with the main fuse in, or with what is joined on"
    lines = any(joint.kind == "line_plug" for joint in joints)
    if lines and not _grounds(walk) <= walk.made:
        yield "a line lead before every ground"


def _is_on(walk: Walk) -> bool:
    """Whether an amplifier may be at work: the key is on, or was left on for what stays awake."""
    return walk.state[BATTERY] == "on" and walk.state[KEY] not in ("off", "asleep")


def _at_table(walk: Walk, joint: Joint) -> bool:
    unit = walk.index.units.get(joint.place)
    return unit is not None and unit.kind == "loom"


def _grounds(walk: Walk) -> set[str]:
    """The joints of the grounds of converter and amplifiers."""
    paths = (link.path for link in walk.index.circuit.links if link.carries == "ground")
    ours = {unit.id for unit in walk.index.circuit.units if unit.kind in ("converter", "amplifier")}
    found: set[str] = set()
    for path in paths:
        units = {walk.index.terminals[end].unit for end in (path[0], path[-1])}
        if units & ours:
            found |= {id for id in path if id in walk.index.joints}
    return {id for id in found if not _at_table(walk, walk.index.joints[id])}


def _at_the_end(walk: Walk) -> Iterator[str]:
    """The car whole, everything joined and read, whatever came off put back as often."""
    for what, value in walk.state.items():
        if what not in _FREE and value not in _WHOLE:
            yield f"at the end {what} is {value}"
    unread = [id for id in walk.tests if id not in walk.taken]
    if unread:
        yield f"never read: {', '.join(unread)}"
    ours = {x.id for x in walk.index.circuit.joints if made_by_us(walk.index, x)}
    unmade = sorted(ours - walk.made)
    if unmade:
        yield f"never joined: {', '.join(unmade)}"
