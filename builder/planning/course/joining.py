"""The acts in which a circuit is joined: each joint of the job stands in exactly one of them.

What lies far from a device is joined first, so that it can be read at the end that is still open;
the device's own terminal takes that end afterwards.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from typing import Final, NamedTuple

from builder.model.house_defaults import HouseDefaults
from builder.model.names import channel_name
from builder.model.words import Channel
from builder.planning.circuit.crossover_links import is_crossover
from builder.planning.circuit.index import CircuitIndex
from builder.planning.circuit.model import Element, Joint, Link
from builder.planning.circuit.terminal_names import (
    BATTERY_PLUS,
    SECOND,
    SECOND_MINUS,
    SECOND_PLUS,
)
from builder.planning.course.car_states import DEAD, speakers_of
from builder.planning.course.model import Act, Needs, Said, State
from builder.planning.course.places import Places
from builder.planning.course.second_on import second_on
from builder.planning.course.shared_terminals import is_of_car, shared_words
from builder.planning.power.joiners import JOINERS
from builder.planning.views.capped_ends import capped_ends
from builder.planning.views.lead_lines import y_lead_words, y_leads
from builder.planning.views.loom_joints import looms_of, made_in
from builder.planning.views.names import end_words, joint_words
from builder.planning.views.wiring_rows import made_by_us
from builder.planning.words import JointKind, LinkClass, UnitKind

_TITLES: dict[LinkClass, str] = {
    "ground": "grounds, on bare metal; they come first and go last",
    "speaker_level": "signal leads, the end far from the converter",
    "amplified": "speaker leads, the end far from the amplifier; of two wires the marked one is +",
    "control": "turn-on",
    "line": "line leads, from output to input",
    "supply": "supply, all but the devices' ends and the rings of the battery's post; every fuse "
    "stays out of its holder",
    "through": "what a loom passes on",
}
_READ_OPEN: tuple[LinkClass, ...] = ("speaker_level", "amplified", "supply")
"""Classes whose leads are read at the end that goes into a device, before it does."""
_INTO: dict[LinkClass, str] = {
    "speaker_level": "converter inputs: each end into its terminal of {}",
    "amplified": "amplifier outputs: caps off, each end into its terminal of {}, now that the "
    "filters are in",
    "supply": "supply: each end into its terminal of {}",
    "ground": "{}: the end of its ground on its negative post",
}
_POSTS = "positive post"
"""Whose rings are put on when the leads were read: behind a post lies the whole car."""
_ON_POSTS = "supply: each ring on its positive post; every fuse is still out of its holder"
_INTO_PLUG = (
    "amplifier outputs: each end into the speaker plug of {}, which stays out of it until the "
    "filters are set"
)
_CAPPED = (
    "speaker ends of {} that wait for its screws: cap each by itself, strands in; under power none "
    "may touch another, the body or a terminal"
)
_INTO_CROSSOVER = "{}: each end into its terminal, by its label: on the woofer's a tweeter burns"
_CUT = (
    "{}: cut each wire at least 75 mm from the plug, or use a pair of mating plugs. While the "
    "amplifier is in, the two ends never meet"
)
_BESIDE = "{}: join beside each wire, leave it whole"
CAPPED: Final = "speaker ends capped"
SPEAKERS_ON: Final = "speakers on"
"""What puts the speakers on their amplifier."""
_DEVICES: tuple[UnitKind, ...] = (
    "converter", "amplifier", "interface", "driver", "turn_on_load", "crossover",
)  # fmt: skip
_JOINERS: Final = frozenset(JOINERS.values())
"""What joins two batteries takes its leads last: its electronics would be read through them."""
_BY_HAND: frozenset[JointKind] = frozenset({"splice", "tap", "element_lead"})


class Group(NamedTuple):
    """What is joined in one act: at one pair of the car, at one device, or of one class."""

    carries: LinkClass
    channel: Channel | None = None  # of a pair of the car
    device: str = ""  # whose terminals take what was read at its open end


class Joining:
    """The joints of a circuit that this job makes away from the table, act by act."""

    def __init__(
        self,
        index: CircuitIndex,
        places: Places,
        house: HouseDefaults,
        pulled: frozenset[str] = frozenset(),  # amplifiers whose speakers are on a plug
        dead: Needs = DEAD,  # how batteries stand while something is joined
    ) -> None:
        self.index, self.places, self.house, self.pulled = index, places, house, pulled
        self.dead = dead

    def groups(self) -> dict[Group, list[Joint]]:
        """Return the joints by what they are joined with."""
        at_table = {each.id for unit in looms_of(self.index) for each in made_in(self.index, unit)}
        found: dict[Group, list[Joint]] = {}
        for joint in self.index.circuit.joints:
            if made_by_us(self.index, joint) and joint.id not in at_table:
                found.setdefault(self._group(joint), []).append(joint)
        return found

    def acts(self) -> Iterator[Act]:
        """Yield the acts, in the order in which current flows."""
        groups = self.groups()
        for group in sorted(groups, key=_order):
            joints = groups[group]
            act = self._act(group, joints[::-1] if group.carries == "supply" else joints)
            if group.device == SECOND:
                yield second_on(act)
            elif self._waits(group):
                yield self._capped(act, group)
                yield self._after_gains(act, group)
            else:
                yield act

    def _waits(self, group: Group) -> bool:
        """Whether speakers can only be kept off by not joining them yet."""
        return group.carries == "amplified" and bool(group.device) and (
            group.device not in self.pulled and not is_crossover(self.index, group.device)
        )  # fmt: skip

    def _capped(self, act: Act, group: Group) -> Act:
        """Return how the ends wait for it: each closed off, for they hang free under power."""
        lines = [end_words(self.index, end) for end in capped_ends(self.index, group.device)]
        return Act(
            f"cap {group.device}", "build", Said(_CAPPED.format(group.device), tuple(lines)),
            act.needs, frozenset({CAPPED}), {speakers_of(group.device): "capped"},
            minutes=0.5 * len(lines),
        )  # fmt: skip

    def _after_gains(self, act: Act, group: Group) -> Act:
        """Return the act as what puts speakers on, once gains and filters are set."""
        on: State = {speakers_of(group.device): "on"}
        return replace(act, phase="bench", tags=frozenset({"joint", SPEAKERS_ON}), does=on)

    def _group(self, joint: Joint) -> Group:
        if SECOND_MINUS in joint.joins:
            return Group("ground", device=SECOND)
        link = link_through(self.index, joint)
        if link is None:
            ends = (end for end in joint.joins if end in self.index.owners)
            return Group(self.index.owners[next(ends)].carries)
        if link.carries not in _READ_OPEN:
            return Group(link.carries)
        device = self._device(joint)
        if device or link.carries == "supply":
            return Group(link.carries, device=device)
        at_car = any(is_of_car(self.index, end) for end in joint.joins)
        if link.channel and at_car and joint.undone != "put_back":  # at the speaker, with others
            return Group("speaker_level", link.channel)
        return Group(link.carries)

    def _device(self, joint: Joint) -> str:
        if {BATTERY_PLUS, SECOND_PLUS} & {*joint.joins}:
            return _POSTS
        units = (self.index.unit_of(end) for end in joint.joins if end in self.index.terminals)
        joined = next((unit.id for unit in units if unit.kind in _DEVICES), "")
        owners = (self.index.owners.get(end) for end in joint.joins)
        through = (each.purpose for each in owners if isinstance(each, Element))
        return joined or next((name for name in through if name in _JOINERS), "")

    def _act(self, group: Group, joints: Sequence[Joint]) -> Act:
        where = "-".join(each for each in group if each).replace(" ", "-")
        return Act(
            id=f"join-{where}",
            phase="build",
            said=Said(
                self._title(group, joints),
                self._lines(group, joints),
                caution=shared_words(self.index, joints),
            ),
            needs=self._needs(joints),
            tags=frozenset(self._tags(group)),
            makes=tuple(joint.id for joint in joints),
            minutes=sum(self._minutes(joint) for joint in joints),
        )

    def _said(self, group: Group, joints: Sequence[Joint]) -> Said:
        mind = shared_words(self.index, joints)
        return Said(self._title(group, joints), self._lines(group, joints), caution=mind)

    def _needs(self, joints: Sequence[Joint]) -> Needs:
        places = dict.fromkeys(joint.place for joint in joints)
        apart = self.places.plugs_apart(self.index, joints)
        return {**self.dead, **self.places.open_at(places), **apart}

    def _minutes(self, joint: Joint) -> float:
        return self.house.hand_joint_min if joint.kind in _BY_HAND else self.house.hand_terminal_min

    def _tags(self, group: Group) -> Iterator[str]:
        yield "joint"
        yield "joint of the build"
        if group.device:
            into = "crossover" if is_crossover(self.index, group.device) else group.carries
            yield f"{into} ends"
        elif group.carries in ("speaker_level", "amplified"):
            yield "far joint"
        else:
            yield f"{group.carries} joint"

    def _title(self, group: Group, joints: Sequence[Joint]) -> str:
        if group.device == _POSTS:
            return _ON_POSTS
        if is_crossover(self.index, group.device):
            return _INTO_CROSSOVER.format(group.device)
        if group.device:
            pulled = group.carries == "amplified" and group.device in self.pulled
            return (_INTO_PLUG if pulled else _INTO[group.carries]).format(group.device)
        if not group.channel:
            return _TITLES[group.carries]
        places = ", ".join(dict.fromkeys(each.place for each in joints))
        where = f"{channel_name(group.channel)} ({places})"
        rejoined = any(joint.undone == "rejoin" for joint in joints)
        return (_CUT if rejoined else _BESIDE).format(where)

    def _lines(self, group: Group, joints: Sequence[Joint]) -> tuple[str, ...]:
        if group.carries != "line":
            return tuple(joint_words(self.index, joint) for joint in joints)
        return _lead_lines(self.index, joints)


def _lead_lines(index: CircuitIndex, joints: Sequence[Joint]) -> tuple[str, ...]:
    """A line lead is plugged in at both ends, centre and shield at once; a Y-lead before them."""
    ids = {joint.id for joint in joints}
    ends: dict[str, list[str]] = {}
    for link in index.circuit.links:
        if link.carries == "line" and ids & set(link.path):
            wire = next(index.wires_of(link))
            start = link.path[link.path.index(wire.id) - 2]
            ends.setdefault(wire.piece, []).append(f"{start} to {link.finishes}")
    forks = [f"{unit.id}: {y_lead_words(index, unit)}" for unit in y_leads(index)]
    return (*forks, *(f"{piece}: {said[0]}" for piece, said in ends.items()))


def _order(group: Group) -> tuple[int, bool]:
    """Class by class; the car's pairs before what else is far, devices last of their class."""
    return list(_TITLES).index(group.carries), bool(group.device)


def link_through(index: CircuitIndex, joint: Joint) -> Link | None:
    """Return the link whose wire of ours meets the joint."""
    links = [link for link in index.circuit.links if joint.id in link.path]
    if links:
        return links[0]
    owners = [index.owners[end].id for end in joint.joins if end in index.owners]
    return next((x for x in index.circuit.links if set(owners) & set(x.path)), None)
