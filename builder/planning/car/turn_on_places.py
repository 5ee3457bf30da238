"""Every place that could switch a converter on, each judged by itself."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from builder.figures import share_percent, shown
from builder.findings import DataPath
from builder.model.house_defaults import HouseDefaults
from builder.model.names import short_function_name
from builder.model.parts import Converter, Interface, InterfaceOutput
from builder.model.plugs import FusePosition, Pin, Plug
from builder.model.vehicle import Vehicle
from builder.planning.car.interface_fit import bus_pins, plug_for, switching_outputs
from builder.planning.car.interface_supply import joined_legs
from builder.planning.car.pairs import Pair
from builder.planning.car.selection import Selection
from builder.planning.car.turn_on_place import RUNGS, Place
from builder.planning.car.turn_on_wires import reads_wrong, wire_capacity_ma
from builder.planning.tables import DRIVER_DRAW_MA, LOGIC_DRAW_MAX_MA
from builder.planning.trust import RELIABLE, Trust, holds_for_whole_scope, position_as_pin
from builder.planning.words import PlaceVerdict
from builder.proof.pin_readings import is_logic_level
from builder.proof.set_aside import counted_pin


def find_places(
    vehicle: Vehicle,
    converter: Converter,
    selection: Selection,
    trust: Trust,
    defaults: HouseDefaults,
    draw_ma: float | None = None,
    interfaces: Sequence[Interface] = (),
) -> Iterator[Place]:
    """Yield every candidate in the order of the ladder, and one absent place for an empty rung.

    `draw_ma` is what the source has to give; None: what the converter's turn-on input draws. Who
    gives it plans a whole job, in which a logic level may have a driver. `interfaces` are the data
    interfaces of the shelf.
    """
    own = converter.remote_in.draw_ma if converter.remote_in else None
    draw = own if draw_ma is None else draw_ma
    wires = _Wires(vehicle, converter, trust, defaults, draw, may_drive=draw_ma is not None)
    yield from wires.on_rung(1)
    yield from wires.on_rung(2)
    yield from wires.on_rung(3)
    yield from _fuse_positions(wires)
    yield _offset_wake(converter, selection, trust)
    yield from _interfaces(wires, interfaces)
    yield from wires.on_rung(7)
    yield _signal_wake(converter)


@dataclass(frozen=True, slots=True)
class _Wires:
    vehicle: Vehicle
    converter: Converter
    trust: Trust
    defaults: HouseDefaults
    draw_ma: float | None
    may_drive: bool

    def on_rung(self, rung: int) -> list[Place]:
        """Every wire of the rung's function, or one absent place."""
        found = [
            self._judge(rung, plug, pin)
            for plug in self.vehicle.plugs
            for pin in plug.pins
            if pin.function == RUNGS[rung]
        ]
        return found or [Place(rung, "absent", self._why_absent())]

    def _why_absent(self) -> str:
        if self.vehicle.radio.data_wake == "yes":
            return "the radio is woken by data; no such wire is described on its plugs"
        return "no such wire is described"

    def _judge(self, rung: int, plug: Plug, pin: Pin) -> Place:
        capacity, said = wire_capacity_ma(pin)
        driver = self._needs_driver(pin)
        draw = DRIVER_DRAW_MA if driver else self.draw_ma
        verdict, because = self.verdict_of(pin, capacity, draw)
        if said and verdict in ("fit", "weak"):
            because = f"{because}; {said}"
        if driver and verdict in ("fit", "weak"):
            because = f"{because}; {pin.level_v:g} V, so through a driver that draws {draw:g} mA"
        return Place(
            rung, verdict, because, f"{plug.id}.{pin.cavity}", plug.id, pin.cavity,
            draw_ma=draw, capacity_ma=capacity, path=pin.path, pin=pin, driver=driver,
        )  # fmt: skip

    def _needs_driver(self, pin: Pin) -> bool:
        heavy = self.draw_ma is not None and self.draw_ma > LOGIC_DRAW_MAX_MA
        return self.may_drive and heavy and is_logic_level(pin, self.defaults)

    def verdict_of(
        self, pin: Pin, capacity_ma: float | None, draw_ma: float | None
    ) -> tuple[PlaceVerdict, str]:
        """Return the verdict on one wire and why. The first thing that speaks against it counts."""
        if self.converter.kind == "active" and self.converter.remote_in is None:
            return "refused", "the converter has no turn-on input"
        bar = self.trust.bar(pin.path)
        if bar is not None:
            return "refused", bar
        if not holds_for_whole_scope(self.vehicle, pin.only_if):
            return "refused", "it is there only in a part of the cars this record is about"
        counted = counted_pin(self.vehicle, pin)
        against = reads_wrong(counted, self.defaults) or self._overloaded(pin, capacity_ma, draw_ma)
        if against is not None:
            return "refused", against
        grade = self.trust.grade(pin)
        if grade.band not in RELIABLE:
            return "weak", f"{grade.band}: {grade.why}"
        return "fit", f"{grade.band}: {grade.why}"

    def _overloaded(self, pin: Pin, capacity_ma: float | None, draw: float | None) -> str | None:
        if draw is None:
            return None
        if is_logic_level(pin, self.defaults) and draw > LOGIC_DRAW_MAX_MA:
            return (
                f"a logic-level output; {shown(draw, beside=LOGIC_DRAW_MAX_MA)} mA is over the "
                f"{shown(LOGIC_DRAW_MAX_MA)} mA it may give, so it needs a transistor or relay "
                "driver"
            )
        if capacity_ma is not None and draw > self.defaults.source_share * capacity_ma:
            share = share_percent(self.defaults.source_share)
            most = self.defaults.source_share * capacity_ma
            return (
                f"{shown(draw, beside=most)} mA is over {share} of the {shown(capacity_ma)} mA it "
                "can give"
            )
        return None


def _fuse_positions(wires: _Wires) -> list[Place]:
    found = [
        _fuse_place(wires, position)
        for position in wires.vehicle.fuse_positions
        if position.function in ("accessory", "retained")
    ]
    return found or [Place(4, "absent", "no switched fuse position is described")]


def _fuse_place(wires: _Wires, position: FusePosition) -> Place:
    pin = position_as_pin(position)
    capacity = None if position.rating_a is None else position.rating_a * 1000
    verdict, because = wires.verdict_of(pin, capacity, wires.draw_ma)
    if verdict in ("fit", "weak"):
        fuse = f"behind a {wires.defaults.control_fuse_a:g} A fuse of its own"
        because += f"; {position.label} in the {position.panel} panel, {fuse}"
    return Place(
        4, verdict, because, position.position, fuse_position=position.position,
        draw_ma=wires.draw_ma, capacity_ma=capacity, path=position.path, pin=pin,
    )  # fmt: skip


def _interfaces(wires: _Wires, interfaces: Sequence[Interface]) -> list[Place]:
    found = []
    for interface in interfaces:
        plug = plug_for(interface, wires.vehicle)
        places = [
            _interface_place(wires, interface, output, plug)
            for output in switching_outputs(interface)
            if plug is not None
        ]
        found += [min(places, key=lambda place: place.verdict == "refused")] if places else []
    return found or [Place(6, "absent", "no interface on this shelf fits")]


def _interface_place(
    wires: _Wires, interface: Interface, output: InterfaceOutput, plug_id: str
) -> Place:
    """Its output, as far as the data wires that it reads are proved and its current suffices."""
    bus = tuple((plug_id, pin) for pin in bus_pins(interface, wires.vehicle, plug_id))
    verdicts = [wires.verdict_of(pin, output.max_ma, wires.draw_ma) for _, pin in bus]
    verdict, because = max(verdicts, key=lambda one: _WORST.index(one[0]))
    if verdict != "refused":
        said = short_function_name(output.function)
        because = f"its {said} output, by its own plug at plug {plug_id}; the bus there: {because}"
    return Place(
        6, verdict, because, interface.name, draw_ma=wires.draw_ma, capacity_ma=output.max_ma,
        path=bus[0][1].path, interface=interface, output=output, bus=bus,
        relied_on=tuple(_relied_on(wires.vehicle, interface, bus)),
    )  # fmt: skip


def _relied_on(
    vehicle: Vehicle, interface: Interface, bus: Sequence[tuple[str, Pin]]
) -> Iterator[DataPath]:
    """What an interface needs besides its first data wire; its own plug brings the rest unasked."""
    yield from (pin.path for _, pin in bus[1:])
    yield from (leg.pin.path for leg in joined_legs(vehicle, interface))


_WORST: tuple[PlaceVerdict, ...] = ("fit", "weak", "refused")


def _offset_wake(converter: Converter, selection: Selection, trust: Trust) -> Place:
    least = converter.offset_wake_min_v
    if least is None:
        return Place(5, "absent", f"{converter.name} does not wake from the bias of a pair")
    if not selection.taps:
        return Place(5, "absent", "no pair is taken")
    pair = selection.taps[0].pair
    verdict, because = _bias_verdict(pair, least, trust)
    return Place(5, verdict, because, f"pair {pair.named}", pair=pair.channel)


def _bias_verdict(pair: Pair, least_v: float, trust: Trust) -> tuple[PlaceVerdict, str]:
    if pair.topology == "common_ground":
        return "refused", "the outputs carry no bias to wake from"
    if pair.bias is None:
        return "weak", "nobody read the bias of both legs; read them with the radio on at volume 0"
    reads = shown(pair.bias.low_v, 1, beside=least_v)
    if pair.bias.low_v < least_v:
        return "refused", f"a leg reads {reads} V, {shown(least_v)} V is asked"
    bands = [trust.grade(leg.pin) for leg in pair.legs]
    weak = next((grade for grade in bands if grade.band not in RELIABLE), None)
    if weak is not None:
        return "weak", f"{weak.band}: {weak.why}"
    return "fit", f"both legs rise to {reads} V or more, {shown(least_v)} V is asked"


def _signal_wake(converter: Converter) -> Place:
    hold = converter.signal_wake_hold_s
    if hold is None:
        return Place(8, "absent", f"{converter.name} does not wake from sound")
    because = (
        f"the last resort: on late, holds {hold:g} s, can chop quiet passages or stay on from noise"
    )
    return Place(8, "fit", because)
