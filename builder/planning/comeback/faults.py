"""Every single fault that the circuit of a job allows: each of its pieces, in each way it fails."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from builder.planning.circuit.model import CircuitWire, Element, Joint, Link
from builder.planning.circuit.terminal_names import BODY_AT_STRAP
from builder.planning.comeback.circuit_changes import exchanged, without_joints, without_parts
from builder.planning.comeback.condition import Fault
from builder.planning.comeback.device_faults import device_faults
from builder.planning.comeback.exchanged import exchanged_ways
from builder.planning.comeback.handed_over import HandedOver
from builder.planning.comeback.pin_faults import pin_faults
from builder.planning.comeback.stretches import Stretch, stretches
from builder.planning.views.names import element_words, joint_words, met_words, wire_words
from builder.planning.views.wiring_rows import made_by_us
from builder.planning.words import JointKind, LinkClass

ON_THE_BODY = "on the body"
"""The joint that a wire makes with the body where it is rubbed through."""
_BY_HAND: tuple[JointKind, ...] = ("splice", "tap", "ring", "element_lead")
_PAIRS: tuple[LinkClass, ...] = ("speaker_level", "amplified")
_MAY_SHORT: tuple[LinkClass, ...] = (*_PAIRS, "line", "control", "supply", "through")
_CARRIES_AMPERES: tuple[LinkClass, ...] = ("supply", "ground")


def single_faults(job: HandedOver) -> tuple[Fault, ...]:
    """Return every single fault of a job, each with the circuit as it then is."""
    of_pieces = _Pieces(job)
    return (
        *of_pieces.joints_open(),
        *of_pieces.plugs_off(),
        *of_pieces.wires_broken(),
        *of_pieces.parts_open(),
        *of_pieces.changed_over(),
        *exchanged_ways(job),
        *of_pieces.on_the_body(),
        *of_pieces.weak_joints(),
        *pin_faults(job),
        *device_faults(job),
    )


class _Pieces:
    """The faults of joints, wires and parts."""

    def __init__(self, job: HandedOver) -> None:
        self.job, self.house = job, job.house
        self.index, self.circuit = job.index, job.circuit
        self.stretch = stretches(job.index)
        self._on_way = [part for link in job.circuit.links for part in job.index.elements_of(link)]
        self._contacts = {
            leg: f"{plus.rpartition(' ')[2]} and {minus.rpartition(' ')[2]}"
            for plus, minus in job.radio_pairs
            for leg in (plus, minus)
        }

    def joints_open(self) -> Iterator[Fault]:
        for joint in self.circuit.joints:
            yield Fault(
                f"open {joint.id}", "open", joint.id,
                f"apart: {joint_words(self.index, joint)}", self._whole(joint.id, joint),
                joint.place, self._odds(joint), without_joints(self.circuit, (joint.id,)),
            )  # fmt: skip

    def _whole(self, piece: str, joint: Joint | None = None) -> str:
        stretch: Stretch | None = self.stretch.get(piece)
        if stretch is not None:
            return f"make whole what runs {stretch.said}: pull at each end, look along the wire"
        if joint is not None and joint.kind == "plug_home":
            contacts = self._contacts.get(joint.joins[0], joint.joins[-1])
            return f"{joint.place}: home until it clicks; look at the contact of {contacts}"
        return self._beside(joint) if joint else f"make whole: {piece}"

    def _beside(self, joint: Joint) -> str:
        """A joint on no link's own way: of a part that stands beside it."""
        owners = (self.index.owners.get(end) for end in joint.joins)
        parts = [each for each in owners if isinstance(each, Element) and each not in self._on_way]
        return _renewed(parts[0]) if parts else f"make whole: {met_words(self.index, joint)}"

    def _odds(self, joint: Joint) -> float:
        if not made_by_us(self.index, joint) and joint.kind != "plug_home":
            return self.house.comeback_car
        by_hand = joint.kind in _BY_HAND
        return self.house.comeback_joint if by_hand else self.house.comeback_plug

    def plugs_off(self) -> Iterator[Fault]:
        """A whole plug that is not home: all of its cavities at once."""
        homes: dict[str, list[str]] = {}
        for joint in self.circuit.joints:
            if joint.kind == "plug_home":
                homes.setdefault(joint.place, []).append(joint.id)
        for place, joints in homes.items():
            if len(joints) > 1:
                yield self._plug_off(place, joints)

    def _plug_off(self, place: str, joints: list[str]) -> Fault:
        return Fault(
            f"off {place}", "open", place, f"not home: {place}",
            f"{place}: home until it clicks", place, self.house.comeback_plug,
            without_joints(self.circuit, tuple(joints)),
        )  # fmt: skip

    def wires_broken(self) -> Iterator[Fault]:
        for wire in self.circuit.wires:
            left = tuple(each for each in self.circuit.wires if each is not wire)
            yield Fault(
                f"broken {wire.id}", "open", wire.id, f"broken: {wire_words(wire)}",
                self._whole(wire.id), wire.from_place, self.house.comeback_wire,
                replace(self.circuit, wires=left),
            )  # fmt: skip

    def parts_open(self) -> Iterator[Fault]:
        for part in self.circuit.elements:
            fuse = part.kind == "fuse"
            yield Fault(
                f"open {part.id}", "fuse" if fuse else "open", part.id,
                f"{'out or blown' if fuse else 'open'}: {element_words(part)}",
                _renewed(part), part.place,
                self.house.comeback_fuse if fuse else self.house.comeback_device,
                without_parts(self.circuit, part),
            )  # fmt: skip

    def changed_over(self) -> Iterator[Fault]:
        """Both legs of a pair the wrong way round, at its far end."""
        for link in self.circuit.links:
            mate = self.index.links.get(link.mate or "")
            if mate is None or not link.finishes.endswith("+") or link.carries not in _PAIRS:
                continue
            pair = link.finishes.removesuffix(" +")
            yield Fault(
                f"changed over {link.id}", "changed_over", link.id,
                f"the wrong way round: both legs at {pair}, {link.purpose.removesuffix(' +')}",
                f"change the two legs over at {pair}",
                self.index.unit_of(link.finishes).place, self._odds_turned(link),
                exchanged(self.circuit, link.finishes, mate.finishes),
            )  # fmt: skip

    def _odds_turned(self, link: Link) -> float:
        ours = any(made_by_us(self.index, each) for each in self.index.joints_on(link))
        return self.house.comeback_changed_over if ours else self.house.comeback_car

    def on_the_body(self) -> Iterator[Fault]:
        """A wire rubbed through: its fuse, where it has one, is blown.

        What is on the body anyhow, a shield or a ground, is no fault there; a wire that several
        links run through is one wire.
        """
        found: dict[str, Fault] = {}
        for link in self.circuit.links:
            if link.carries not in _MAY_SHORT or self._is_ground(link):
                continue
            for wire in self.index.wires_of(link):
                if not wire.stays and wire.id not in found:
                    found[wire.id] = self._short(link, wire)
        yield from found.values()

    def _is_ground(self, link: Link) -> bool:
        passed = link.carries == "through" and self.job.function_at(link.begins) == "ground"
        return passed or link.begins.endswith("shield")

    def _short(self, link: Link, wire: CircuitWire) -> Fault:
        before = link.path[: link.path.index(wire.id)]
        fuses = [self.index.elements[each] for each in before if each in self.index.elements]
        blown = [part for part in fuses if part.kind == "fuse"][-1:]
        touch = Joint(
            ON_THE_BODY, "splice", wire.from_place, (wire.ends[0], BODY_AT_STRAP), "", "with_part"
        )
        circuit = without_parts(self.circuit, *blown)
        after = f"; then the {blown[0].id}, {blown[0].rating}" if blown else ""
        return Fault(
            f"on the body {wire.id}", "short_to_body", wire.id,
            f"rubbed through to the body: {wire_words(wire)}, {link.purpose}",
            f"free from the body and sleeve what carries {_both_legs(link)}{after}",
            wire.from_place, self.house.comeback_short,
            replace(circuit, joints=(*circuit.joints, touch)),
        )  # fmt: skip

    def weak_joints(self) -> Iterator[Fault]:
        """A joint under amperes that conducts badly: loose, painted over, corroded."""
        for link in self.circuit.links:
            if link.carries not in _CARRIES_AMPERES:
                continue
            for joint in self.index.joints_on(link):
                if joint.kind != "plug_home":
                    yield self._weak(joint)

    def _weak(self, joint: Joint) -> Fault:
        stretch = self.stretch[joint.id]
        return Fault(
            f"weak {joint.id}", "weak", joint.id,
            f"loose, painted over or corroded: {joint_words(self.index, joint)}",
            f"clean and tighten every joint {stretch.said}",
            joint.place, self._odds(joint), self.circuit, weak=(joint.id,),
        )  # fmt: skip


def _both_legs(link: Link) -> str:
    return link.purpose.removesuffix(" +").removesuffix(" −")


def _renewed(part: Element) -> str:
    if "hold-up" in part.id or "holds up" in part.id:
        return "renew the hold-up of the turn-on: capacitor, resistor, diodes, joint by joint"
    if part.kind != "fuse":
        return f"renew {part.id} ({part.rating}), and look at its joints"
    return (
        f"{part.id}: its load side to the body reads open first, then a new one of {part.rating}, "
        "never a larger one"
    )
