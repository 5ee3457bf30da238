"""Faults that no joint shows: of devices, settings, the car's own parts, and what was moved."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from builder.planning.circuit.model import EndId
from builder.planning.circuit.terminal_names import supply_of
from builder.planning.comeback.condition import Fault
from builder.planning.comeback.handed_over import HandedOver
from builder.planning.comeback.words import WHENS, FaultKind
from builder.planning.words import UnitKind

CORRECTION = "correction"
LINE_LEADS = "line leads"
BATTERY_ITSELF = "the battery itself"
CARS_OWN_DRAW = "the car's own draw"
CARS_OWN_LAMP = "a fault of the car's own"


def device_faults(job: HandedOver) -> Iterator[Fault]:
    """Yield every fault that leaves the circuit as it is."""
    yield from _devices(job)
    yield from _settings(job)
    yield from _noises(job)
    yield from _restraint_plugs(job)
    yield from _of_the_car(job)


def _fault(
    job: HandedOver, kind: FaultKind, at: str, what: str, remedy: str, place: str, odds: float
) -> Fault:
    return Fault(f"{kind} {at}", kind, at, what, remedy, place, odds, job.circuit)


def _devices(job: HandedOver) -> Iterator[Fault]:
    """A device, or one channel of it, that is fed and does nothing; one that never sleeps."""
    odds = job.house.comeback_device
    for name in job.devices:
        place = job.index.units[name].place
        said = f"{name} does nothing, though it has all it needs"
        yield _fault(job, "device", name, said, f"renew {name}", place, odds)
        if supply_of(name) in job.index.terminals:
            awake = f"{name} does not go to sleep though its turn-on is off"
            fault = _fault(job, "stays_awake", name, awake, f"renew {name}", place, odds)
            yield replace(fault, live={end: frozenset(WHENS) for end in _switched_by(job, name)})
    for end in _outputs(job):
        unit = job.index.unit_of(end)
        said = f"{end.removesuffix(' +')} gives nothing, the rest of {unit.id} plays"
        dead = end.removesuffix(" +")
        yield _fault(job, "device", dead, said, f"renew {unit.id}", unit.place, odds / 4)


def _switched_by(job: HandedOver, device: str) -> list[EndId]:
    """The sources that are outputs of a device: what reads the car's data."""
    return [end for end in job.sources() if job.index.terminals[end].unit == device]


def _outputs(job: HandedOver) -> Iterator[EndId]:
    """One end of each output: the centre of a line output, the + of a channel."""
    kinds: tuple[UnitKind, ...] = ("converter", "amplifier")
    for unit in job.circuit.units:
        for each in unit.terminals if unit.kind in kinds else ():
            drives = each.role == "drives" and each.carries in ("line", "amplified")
            if drives and not each.id.endswith(("−", "shield")):
                yield each.id


def _settings(job: HandedOver) -> Iterator[Fault]:
    odds = job.house.comeback_setting
    for channel in job.healthy.sound.inputs:
        amplifier = channel.rpartition(" out ")[0]
        yield _fault(
            job, "gain", channel, f"the gain of {channel} stands too high",
            f"set the gain of {channel} as on the bay sheet",
            job.index.units[amplifier].place, odds,
        )  # fmt: skip
    yield from _switches(job)
    converter = job.parts.converter
    if converter.bass_rolloff_correction is not None:
        yield _fault(
            job, "setting", CORRECTION,
            f"the correction of {converter.name} is not as the gains were set with",
            f"set the correction of {converter.name} as on the levels sheet",
            job.parts.job.converter_place, odds,
        )  # fmt: skip


def _switches(job: HandedOver) -> Iterator[Fault]:
    """A switch of an amplifier that brings a channel its sound from another input."""
    for link in job.circuit.links:
        if link.set_by:
            unit = job.index.unit_of(link.finishes)
            left = tuple(each for each in job.circuit.links if each is not link)
            yield replace(
                _fault(
                    job, "setting", link.id, f"a switch of {unit.id} stands wrong: {link.set_by}",
                    f"set it: {unit.id}, {link.set_by}", unit.place, job.house.comeback_setting,
                ),
                circuit=replace(job.circuit, links=left),
            )  # fmt: skip


def _noises(job: HandedOver) -> Iterator[Fault]:
    """What brings noise into a line though every joint is good."""
    converter = job.index.units[job.whole.day.converter]
    yield _fault(
        job, "noise", LINE_LEADS, "the line leads lie beside a supply lead",
        "lay the line leads on the other side of the car than the supply",
        converter.place, job.house.comeback_setting,
    )  # fmt: skip
    if supply_of(converter.id) not in job.index.terminals:
        return
    yield _fault(
        job, "noise", converter.id, f"{converter.id} itself makes noise", f"renew {converter.id}",
        converter.place, job.house.comeback_device,
    )  # fmt: skip
    yield _fault(
        job, "output_dc", converter.id, f"a line output of {converter.id} carries DC",
        f"renew {converter.id}", converter.place, job.house.comeback_device,
    )  # fmt: skip


def _restraint_plugs(job: HandedOver) -> Iterator[Fault]:
    for part in job.restraint_parts:
        plugs = ", ".join(part.plugs)
        yield _fault(
            job, "restraint_plug", part.name, f"not home: a plug of the {part.name} ({plugs})",
            f"battery off, wait as the car's record says, then {plugs} of the {part.name} home",
            part.name, job.house.comeback_plug,
        )  # fmt: skip


def _of_the_car(job: HandedOver) -> Iterator[Fault]:
    odds = job.house.comeback_car
    for plus, minus in job.radio_pairs:
        place = job.index.unit_of(plus).place
        pair = f"{plus.rpartition(' ')[2]} and {minus.rpartition(' ')[2]}"
        said = f"the {place} gives no sound at {pair}"
        remedy = f"to the maker's workshop: the {place}'s own output at {pair}"
        yield _fault(job, "car", plus, said, remedy, place, odds)
    for source in job.sources():
        if job.index.terminals[source].unit not in job.devices:
            yield _silent_source(job, source)
    for name in job.speakers:
        said, remedy = f"{name} is open inside", f"renew {name}"
        yield _fault(job, "car", name, said, remedy, job.index.units[name].place, odds)
    yield from _elsewhere(job)


def _silent_source(job: HandedOver, source: EndId) -> Fault:
    place = job.index.unit_of(source).place
    fault = _fault(
        job, "car", source, f"{source} switches nothing on any more",
        f"the car's own fuse and output behind {source}", place, job.house.comeback_car,
    )  # fmt: skip
    return replace(fault, live={source: frozenset()})


def _elsewhere(job: HandedOver) -> Iterator[Fault]:
    """What is no matter of this job, and has to be told apart from it."""
    odds, place = job.house.comeback_car, "battery"
    worn = "a worn battery, or one that is not charged on its journeys"
    yield _fault(
        job, "car", BATTERY_ITSELF, worn, "load-test the battery, read its charging", place, odds
    )
    yield _fault(
        job, "car", CARS_OWN_DRAW, "something of the car's own stays awake",
        "fuse by fuse of the car, asleep, until the draw falls", place, odds,
    )  # fmt: skip
    yield _fault(
        job, "car", CARS_OWN_LAMP, "the lamp is of the car's own, no matter of this job",
        "have its fault memory read", place, odds,
    )  # fmt: skip
