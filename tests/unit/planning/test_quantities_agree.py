"""Each figure of a job by its subject, from every sheet that prints it: all sheets say the same.

A fuse, a piece, a gain, a draw, a cavity: what is read off one sheet is collected beside what the
others say of the same thing. A second test spoils one sheet at a time and is to be found out.
"""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Callable, Iterator
from dataclasses import replace
from typing import NamedTuple

import pytest
from circuit_checks import circuit_of
from pack_jobs import SHIPPED, shipped_pack, shipped_parts
from wiring_drawn import wiring_picture

from builder.figures import at_most
from builder.model.wire_colours import WIRE_SRGB_HEX
from builder.planning.bay.ids import speakable
from builder.planning.cables.cut_lengths import round_up_m
from builder.planning.circuit.index import CircuitIndex
from builder.planning.circuit.model import CircuitWire, colours_of
from builder.planning.work_pack import JobParts, WorkPack

JOBS = [name for name in SHIPPED if shipped_pack(name).circuit]


class Said(NamedTuple):
    """What a sheet says of a subject: a quantity, its value as text."""

    quantity: str
    subject: str
    sheet: str
    value: str


HOLDER = re.compile(r"holder of the (main fuse|fuse of .+?) \(([\d.]+) A\)")
LISTED = re.compile(r"^(.+): ([\d.]+) A[;,]")


def _texts(pack: WorkPack) -> Iterator[tuple[str, str]]:
    """Every text of a sheet that names pieces, with the sheet."""
    yield from (("joints", row.meets) for row in pack.joints)
    yield from (("conductors", f"{x.from_joint} | {x.to_joint}") for x in pack.conductors)
    yield from (("steps", line) for step in pack.steps for line in step.lines)
    yield from (("way back", line) for line in pack.revert)
    yield from (("customer", line) for line in pack.customer)
    yield from (("wiring", " | ".join(row.conductors)) for row in pack.wiring)
    yield from (("bay sheet", test.what) for test in pack.tests)
    yield from (("bench", line) for sheet in pack.looms for line in sheet.order)


def fuses(pack: WorkPack, parts: JobParts) -> Iterator[Said]:
    """The rating of each fuse. [A]"""
    circuit = circuit_of(pack)
    rated = {part.id: f"{part.value:g}" for part in circuit.elements if part.kind == "fuse"}
    yield from (Said("fuse", name, "circuit", value) for name, value in rated.items())
    for sheet, text in _texts(pack):
        for name, value in HOLDER.findall(text):
            yield Said("fuse", name, sheet, f"{float(value):g}")
        listed = LISTED.match(text)
        if listed and (name := listed[1][0].lower() + listed[1][1:]) in rated:
            yield Said("fuse", name, sheet, f"{float(listed[2]):g}")
    for line in pack.parts:
        named = line.note.partition(";")[0]
        if line.item.startswith("fuse ") and named in rated:
            yield Said("fuse", named, "parts", line.item.removeprefix("fuse ").split(" A")[0])
    assert pack.power is not None and pack.power.main_fuse_a is not None
    yield Said("fuse", "main fuse", "power", f"{pack.power.main_fuse_a:g}")
    for run in pack.power.runs:
        name = f"fuse of the {run.name}" if run.name.startswith("branch ") else "main fuse"
        yield Said("fuse", name, "runs", f"{run.fuse_a:g}")
    links = {link.purpose: link for link in circuit.links}
    for row in pack.wiring:
        on_way = [each for each in links[row.link].path if each in rated]
        told = [each.split()[1] for each in row.parts if each.startswith("fuse ")]
        yield from (Said("fuse", x, "wiring", v) for x, v in zip(on_way, told, strict=True))


def _cut(length_m: float) -> str:
    return f"{round_up_m(length_m):.1f}"


def lengths(pack: WorkPack, parts: JobParts) -> Iterator[Said]:
    """How long each piece is, rounded up to what is cut. [m]"""
    for row in pack.cut_list:
        yield Said("length", row.name, "cut list", _cut(row.cut_m))
    for wire in circuit_of(pack).wires:
        if wire.piece and not wire.loom and wire.length_m and wire.carries != "line":
            yield Said("length", wire.piece, "circuit", _cut(wire.length_m))
    for sheet in pack.looms:
        for cable in sheet.cables:
            if cable.length_m:
                yield Said("length", cable.cable, "bench", _cut(cable.length_m))
    cut = {row.name for row in pack.cut_list}
    pieces = {row.purpose.removesuffix(" +"): row.piece for row in pack.conductors}
    for lead in pack.speaker_leads:
        chain = next(each for each in pack.levels if each.speaker == lead.speaker)
        back = [f"{each.replace('-', ' ')} to its speaker" for each in chain.channels]
        own = f"lead to {lead.speaker}"
        for piece in [own] if own in cut else [pieces[each] for each in back]:
            yield Said("length", piece, "speaker leads", _cut(lead.length_m))


def drawn_lengths(pack: WorkPack, parts: JobParts) -> Iterator[Said]:
    """What the cut list and the picture say, to the decimal that the picture has. [m]"""
    for row in pack.cut_list:
        if row.name.startswith("cable "):
            yield Said("drawn length", row.name, "cut list", f"{row.cut_m:.1f}")
    picture = wiring_picture(circuit_of(pack), parts)
    for name, value in re.findall(r"(cable \d+), [^<]*?([\d.]+) m<", picture):
        yield Said("drawn length", name, "picture", value)


def sizes(pack: WorkPack, parts: JobParts) -> Iterator[Said]:
    """Size and metal of each conductor that has no record of its own."""
    cut = {row.name: row.cable.removesuffix(" pair") for row in pack.cut_list}
    yield from (Said("size", x, "cut list", v) for x, v in cut.items() if "copper" in v)
    for row in pack.conductors:
        if row.piece in cut and "copper" in row.cable:
            yield Said("size", row.piece, "conductors", row.cable.removesuffix(" pair"))
    for wire in circuit_of(pack).wires:
        if wire.piece in cut and not wire.cable and wire.size:
            yield Said("size", wire.piece, "circuit", wire.size.words)
    assert pack.power is not None
    for run in pack.power.runs:
        yield Said("size", run.name, "runs", run.conductor)
        for ground in (f"ground of {fed}" for fed in parts.amplifiers if run.name.endswith(fed)):
            yield Said("size", ground, "runs: as its supply", run.conductor)
    for lead in pack.speaker_leads:
        if f"lead to {lead.speaker}" in cut:
            yield Said("size", f"lead to {lead.speaker}", "speaker leads", lead.conductor)


def gains(pack: WorkPack, parts: JobParts) -> Iterator[Said]:
    """What each channel is set to at its tone, and what its line carries. [V]"""
    tests = {test.id: test for test in pack.tests}
    for chain in pack.levels:
        (said,) = re.findall(r"read ([\d.]+) V", chain.tone_note)
        yield Said("gain", chain.speaker, "levels", said)
        test = tests[speakable(chain.speaker, "gain")]
        assert test.high is not None
        yield Said("gain", chain.speaker, "bay sheet", at_most(test.high, "V"))
        (told,) = re.findall(r"read ([\d.]+) V", test.what)
        yield Said("gain", chain.speaker, "bay sheet in words", told)
        line = tests.get(speakable(chain.speaker, "line level"))
        target = chain.loaded_v_rms or chain.converter_target_v_rms
        if line and line.high and target and line.high < chain.amplifier_max_v_rms:
            yield Said("line", chain.speaker, "levels", f"{target:.3f}")
            yield Said("line", chain.speaker, "bay sheet", f"{line.high / 1.1:.3f}")  # 10 % above
    for row in pack.tune:
        yield Said("gain", row.speaker, "tune", at_most(row.tone_v_rms, "V"))
        test = tests[speakable(row.speaker, "again")]
        assert test.high is not None and test.high <= row.tone_v_rms


def draws(pack: WorkPack, parts: JobParts) -> Iterator[Said]:
    """What each turn-on output gives. [mA]"""
    takes = {x.unit: x.draw_ma for x in circuit_of(pack).terminals
             if x.carries == "control" and x.draw_ma is not None}  # fmt: skip
    for draw in pack.turn_on_draws:
        yield Said("draw", draw.output, "turn-on outputs", f"{draw.draw_ma:g}")
        yield Said("draw", draw.output, "circuit", f"{sum(takes[x] for x in draw.feeds):g}")
        for reason in (*pack.because, *pack.plan.because):
            if reason.decision.startswith(f"{draw.output} switches "):
                yield Said("draw", draw.output, "reasons", reason.because.split(" mA")[0])


def closed_ends(pack: WorkPack, parts: JobParts) -> Iterator[Said]:
    """How often each end of a wire is told to be closed off."""
    index = CircuitIndex(circuit_of(pack))
    listed = [each.what for each in pack.insulate]
    lines = [line for step in pack.steps for line in step.lines]
    on_bench = {row.cable for sheet in pack.looms for row in sheet.cables if row.others}
    for end in index.circuit.open_ends:
        owner = index.owners.get(end.end)
        if isinstance(owner, CircuitWire):
            yield Said("closed", end.what, "circuit", "1")
            yield Said("closed", end.what, "insulate", f"{listed.count(end.what)}")
            done = sum(line in (end.what, f"closed off: {end.what}") for line in lines)
            done += owner.piece in on_bench
            yield Said("closed", end.what, "steps and bench", f"{done}")


_COLOUR = "|".join(sorted(WIRE_SRGB_HEX, key=len, reverse=True))
_AT = re.compile(rf"(?<![\w.])([A-Z]\d?\.\d+) ((?:{_COLOUR})(?:/(?:{_COLOUR}))?)(?![\w/])")


def colours(pack: WorkPack, parts: JobParts) -> Iterator[Said]:
    """The colours of each cavity of the car."""
    for plug in parts.vehicle.plugs:
        for pin in plug.pins:
            if pin.wire:
                where = f"{plug.id}.{pin.cavity}"
                yield Said("colour", where, "record", colours_of(pin.wire))
    for feed in pack.plan.feeds:
        yield Said("colour", f"{feed.plug}.{feed.cavity}", "feeds", feed.wire)
    for sheet, text in _texts(pack):
        yield from (Said("colour", where, sheet, said) for where, said in _AT.findall(text))
    for loom in pack.looms:
        plug = loom.loom.removeprefix("loom ")
        for row in loom.wires:
            found = re.search(r"car end\.(\w+)", row.wire)
            if found and row.car_colour and re.fullmatch(rf"({_COLOUR}|/)+", row.car_colour):
                yield Said("colour", f"{plug}.{found[1]}", "bench", row.car_colour)


COLLECTED: dict[str, tuple[Callable[[WorkPack, JobParts], Iterator[Said]], int]] = {
    "fuse": (fuses, 4),
    "length": (lengths, 2),
    "drawn length": (drawn_lengths, 2),
    "size": (sizes, 3),
    "gain": (gains, 4),
    "draw": (draws, 3),
    "closed": (closed_ends, 3),
    "colour": (colours, 5),
}
"""How each is collected, and how many sheets say it of some subject of every job."""


def disagreements(pack: WorkPack, parts: JobParts, quantity: str) -> dict[str, set[str]]:
    """What two sheets say differently, by subject."""
    values: dict[tuple[str, str], set[str]] = defaultdict(set)
    told: dict[tuple[str, str], set[str]] = defaultdict(set)
    for said in COLLECTED[quantity][0](pack, parts):
        values[said.quantity, said.subject].add(said.value)
        told[said.quantity, said.subject].add(f"{said.sheet}: {said.value}")
    return {f"{a} of {b}": told[a, b] for (a, b), each in values.items() if len(each) > 1}


@pytest.mark.parametrize("quantity", COLLECTED)
@pytest.mark.parametrize("name", JOBS)
def test_all_sheets_say_the_same(name: str, quantity: str) -> None:
    assert disagreements(shipped_pack(name), shipped_parts(name), quantity) == {}


@pytest.mark.parametrize("quantity", COLLECTED)
def test_enough_sheets_are_read(quantity: str) -> None:
    """A quantity that fewer sheets print than it did has moved: then this test reads too little."""
    collect, least = COLLECTED[quantity]
    found: dict[str, set[str]] = defaultdict(set)
    for name in JOBS:
        for said in collect(shipped_pack(name), shipped_parts(name)):
            found[f"{name} {said.subject}"].add(said.sheet)
    assert max(len(each) for each in found.values()) >= least


@pytest.mark.parametrize("name", JOBS)
def test_out_and_back_are_as_long_as_what_is_cut(name: str) -> None:
    pack, parts = shipped_pack(name), shipped_parts(name)
    assert pack.power is not None
    cut = {row.name: row.cut_m for row in pack.cut_list}
    grounds = [f"ground of {each}" for each in (*parts.amplifiers, "second battery")]
    mine = ["lead to the main fuse", *(run.name for run in pack.power.runs), *grounds]
    whole = sum(run.length_m for run in pack.power.runs)
    pieces = [cut[each] for each in mine if each in cut]
    assert 0 <= round(sum(pieces) - whole, 3) < 0.1 * len(pieces)  # each is rounded up at most


@pytest.mark.parametrize("name", JOBS)
def test_as_many_metres_are_picked_as_are_cut(name: str) -> None:
    pack = shipped_pack(name)
    picked = {re.sub(r"^.*\((.+)\)$", r"\1", x.item): x for x in pack.parts if x.unit == "m"}
    for cable in {row.cable for row in pack.cut_list}:
        rows = [row for row in pack.cut_list if row.cable == cable]
        assert picked[cable].quantity == pytest.approx(sum(row.cut_m for row in rows), abs=0.11)
        assert picked[cable].note.startswith(f"{len(rows)} piece")


def _spoilt() -> Iterator[tuple[str, Callable[[WorkPack], WorkPack]]]:
    def customer(pack: WorkPack) -> WorkPack:
        return replace(pack, customer=tuple(x.replace(": 2 A;", ": 3 A;") for x in pack.customer))

    def longer(pack: WorkPack) -> WorkPack:
        first, *rest = pack.cut_list
        return replace(pack, cut_list=(replace(first, cut_m=first.cut_m + 0.1), *rest))

    def thicker(pack: WorkPack) -> WorkPack:
        assert pack.power is not None
        runs = tuple(replace(each, conductor="4 AWG copper") for each in pack.power.runs)
        return replace(pack, power=replace(pack.power, runs=runs))

    def louder(pack: WorkPack) -> WorkPack:
        tests = tuple(replace(x, high=x.high + 0.01) if x.id.endswith("-gain") and x.high else x
                      for x in pack.tests)  # fmt: skip
        return replace(pack, tests=tests)

    def hungry(pack: WorkPack) -> WorkPack:
        more = tuple(replace(each, draw_ma=each.draw_ma + 1) for each in pack.turn_on_draws)
        return replace(pack, turn_on_draws=more)

    def left_open(pack: WorkPack) -> WorkPack:
        return replace(pack, insulate=pack.insulate[:-1])

    def recoloured(pack: WorkPack) -> WorkPack:
        rows = tuple(replace(x, meets=x.meets.replace("A.1 light blue", "A.1 light green"))
                     for x in pack.joints)  # fmt: skip
        return replace(pack, joints=rows)

    yield from (("fuse", customer), ("length", longer), ("drawn length", longer))
    yield from (("size", thicker), ("gain", louder), ("draw", hungry))
    yield from (("closed", left_open), ("colour", recoloured))


@pytest.mark.parametrize(("quantity", "spoil"), [*_spoilt()])
def test_one_sheet_that_differs_is_found(
    quantity: str, spoil: Callable[[WorkPack], WorkPack]
) -> None:
    pack, parts = shipped_pack("teasel-four-doors"), shipped_parts("teasel-four-doors")
    assert disagreements(spoil(pack), parts, quantity)
