"""Pages of housings, converters, amplifiers and cables: what the plans take from them."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from builder.model.housing import Housing
from builder.model.names import FACE_NAMES
from builder.model.parts import (
    Amplifier,
    AmplifierChannels,
    BassCorrection,
    Cable,
    Converter,
    Supply,
)
from builder.model.plugs import Plug
from builder.rendering.drawings.plug_faces import plug_faces
from builder.rendering.drawings.swatch import swatch
from builder.rendering.drawings.wire_colours import wire_words
from builder.rendering.page import BuildInfo, Page
from builder.rendering.pages.car_facts import Fact
from builder.rendering.pages.wording import figure, listed, plain
from builder.rendering.templates import fill

USED_IN_SHOWN = 200
"""How many cars a part's page names before it says how many more there are."""


class Used(NamedTuple):
    """Where a part is used: the page, relative to the site's root, and its name."""

    url: str
    title: str


def converter_page(converter: Converter, used_in: Sequence[Used], info: BuildInfo) -> Page:
    """Return the page of a converter; `used_in` are its plans."""
    facts = [*_converter_input(converter), *_converter_output(converter), *_turn_on(converter)]
    return _part_page("converters", "Converters", converter, facts, used_in, info, "Its plans")


def amplifier_page(amplifier: Amplifier, used_in: Sequence[Used], info: BuildInfo) -> Page:
    """Return the page of an amplifier."""
    efficiency = f"{amplifier.efficiency:g}, measured" if amplifier.efficiency is not None else None
    facts = [
        Fact("Class", amplifier.amplifier_class),
        Fact("Efficiency", efficiency or "house default of its class"),
        *[fact for group in amplifier.channels for fact in _channel_group(group)],
        *_supply(amplifier.supply),
        Fact("Turn-on draws", figure(amplifier.turn_on.draw_ma, "mA")),
        Fact("Turn-on acts at", figure(amplifier.turn_on.threshold_v, "V")),
        Fact("Input", plain(amplifier.input_type)),
        Fact("Speaker-level input", amplifier.speaker_level_in),
        Fact("Neither output leg is ground", amplifier.output_floating),
        Fact("Thickest power wire", _gauge(amplifier.power_max_awg)),
        Fact("Thickest speaker wire", _gauge(amplifier.speaker_max_awg)),
    ]
    return _part_page("amplifiers", "Amplifiers", amplifier, facts, used_in, info, "Used in")


def cable_page(cable: Cable, used_in: Sequence[Used], info: BuildInfo) -> Page:
    """Return the page of a cable, with its conductors pair by pair."""
    size = _gauge(cable.size_awg) if cable.size_awg else figure(cable.size_mm2, "mm²")
    facts = [
        Fact("Use", plain(cable.use)),
        Fact("Size", size),
        Fact("Material", plain(cable.material)),
        Fact("Jacket", cable.jacket),
        Fact("Pairs", str(len(cable.pairs))),
        Fact("Single conductors", str(len(cable.singles))),
        Fact("Shield", cable.shield),
        Fact("On the reel", figure(cable.on_reel_m, "m")),
    ]
    wires = [
        (f"Pair {at} {sign}", swatch(wire), wire_words(wire))
        for at, pair in enumerate(cable.pairs, start=1)
        for sign, wire in (("+", pair.positive), ("−", pair.negative))
    ]
    wires += [
        (f"Single {at}", swatch(wire), wire_words(wire))
        for at, wire in enumerate(cable.singles, start=1)
    ]
    return _part_page("cables", "Cables", cable, facts, used_in, info, "Used in", wires)


def housing_page(housing: Housing, used_in: Sequence[Used], info: BuildInfo) -> Page:
    """Return the page of a plug shell with both faces drawn, no pin described."""
    facts = [
        Fact("Cavities", str(len(housing.cavities))),
        Fact("Rows", str(len(housing.rows))),
        Fact("Rows were typed", f"{FACE_NAMES[housing.seen_from]}, latch {housing.latch}"),
        Fact("Usual blade", figure(housing.blade_mm, "mm")),
        *[Fact(f"Blade {mm:g} mm", ", ".join(names)) for mm, names in _by_blade(housing)],
        Fact("Moulded shut", listed(housing.blocked, "none")),
        Fact("Keyed corner", plain(housing.keyed_corner or "none recorded")),
        Fact("Mates with", listed(housing.mates_with, "none recorded")),
        Fact("Note", housing.note or "none"),
    ]
    body = fill(
        "part.html",
        part=housing,
        folder="housings",
        section="Housings",
        maker="",
        facts=facts,
        faces=plug_faces(housing, _bare_plug(housing)),
        wires=[],
        used_title="Cars with this plug",
        used=used_in[:USED_IN_SHOWN],
        more=max(0, len(used_in) - USED_IN_SHOWN),
        info=info,
    )
    title = f"{housing.name} (housing)"
    return Page(
        f"housings/{housing.id}.html", title, f"{title}: both faces and its cavities.", body
    )


def _by_blade(housing: Housing) -> list[tuple[float, list[str]]]:
    """Cavities whose terminal is not of the usual width, by width [mm]."""
    widths = sorted(set(housing.blades_mm.values()))
    return [(mm, [name for name, own in housing.blades_mm.items() if own == mm]) for mm in widths]


def _bare_plug(housing: Housing) -> Plug:
    """A plug of which nothing is described, to draw the shell alone."""
    return Plug(
        id=housing.id,
        name=housing.name,
        unit="other",
        location="",
        housing=housing.id,
        shell_colours=(),
        read_from="wire_side",
        empty=(),
        look_alikes=(),
        pins=(),
        path=(),
    )


def _part_page(
    folder: str,
    section: str,
    part: Converter | Amplifier | Cable,
    facts: Sequence[Fact],
    used_in: Sequence[Used],
    info: BuildInfo,
    used_title: str,
    wires: Sequence[tuple[str, str, str]] = (),
) -> Page:
    body = fill(
        "part.html",
        part=part,
        folder=folder,
        section=section,
        maker="" if isinstance(part, Cable) else part.maker,
        facts=facts,
        faces=(),
        wires=wires,
        used_title=used_title,
        used=used_in[:USED_IN_SHOWN],
        more=max(0, len(used_in) - USED_IN_SHOWN),
        info=info,
    )
    title = f"{part.name} ({section.lower().removesuffix('s')})"
    return Page(f"{folder}/{part.id}.html", title, f"{title}: limits the plans reckon with.", body)


def _gauge(awg: str | None) -> str:
    return f"{awg} AWG" if awg else "not recorded"


def _converter_input(converter: Converter) -> list[Fact]:
    taken = converter.input
    return [
        Fact("Kind", converter.kind),
        Fact("Inputs and outputs", f"{converter.inputs} in, {converter.outputs} out"),
        Fact("Input type", plain(taken.type)),
        Fact("One input takes", figure(taken.max_v_rms, "V RMS, clean")),
        Fact("After summing", figure(taken.after_sum_max_v_rms, "V RMS", "it does not sum")),
        Fact("Across one input", figure(taken.impedance_ohm, "Ω")),
        Fact("Both legs above ground", figure(taken.common_mode_max_v, "V at most")),
        Fact("Sums", plain(converter.sum)),
        Fact("Resistor across each input", figure(converter.input_load_ohm, "Ω", "none")),
    ]


def _converter_output(converter: Converter) -> list[Fact]:
    gain, band, bass = converter.gain, converter.band, converter.bass_rolloff_correction
    said = f"{gain.minimum:g}, fixed" if gain.fixed else f"{gain.minimum:g} to {gain.maximum:g}"
    at = converter.output.at_supply_v
    return [
        Fact("Gain, line out over speaker in", said),
        Fact(
            "Line out",
            figure(converter.output.max_v_rms, "V RMS") + (f" at {at:g} V supply" if at else ""),
        ),
        Fact("Output impedance", figure(converter.output.impedance_ohm, "Ω")),
        Fact("Band", f"{band.from_hz:g} Hz to {band.to_hz:g} Hz" if band else "not recorded"),
        Fact("Gives back lost bass", _bass_words(bass)),
        Fact("Aligns inputs in time", converter.delay_adjust),
    ]


def _bass_words(bass: BassCorrection | None) -> str:
    if bass is None:
        return "no"
    if bass.follows_level == "no":
        boost = f"a fixed boost of up to {bass.max_db:g} dB at {bass.hz:g} Hz"
        return f"{boost}; it gives back nothing of a loss that changes with the volume"
    return f"up to {bass.max_db:g} dB at {bass.hz:g} Hz"


def _turn_on(converter: Converter) -> list[Fact]:
    remote, out = converter.remote_in, converter.remote_out
    return [
        *(_supply(converter.supply) if converter.supply else [Fact("Supply", "none: passive")]),
        Fact(
            "Turn-on input",
            f"draws {remote.draw_ma:g} mA, acts at {figure(remote.threshold_v, 'V')}"
            if remote
            else "none",
        ),
        Fact("Wakes on offset", figure(converter.offset_wake_min_v, "V or more", "no")),
        Fact("Wakes on sound", figure(converter.signal_wake_hold_s, "s held", "no")),
        Fact(
            "Turn-on output",
            f"{out.max_ma:g} mA, after {figure(out.delay_s, 's')}" if out else "none",
        ),
    ]


def _supply(supply: Supply) -> list[Fact]:
    return [
        Fact("Works down to", figure(supply.min_v, "V")),
        Fact("Idle current", figure(supply.idle_a, "A")),
        Fact("Most current", figure(supply.max_a, "A")),
        Fact("Fuse", figure(supply.fuse_a, "A")),
    ]


def _channel_group(group: AmplifierChannels) -> list[Fact]:
    power = ", ".join(f"{watts:g} W at {ohm:g} Ω" for ohm, watts in group.power_w.items())
    sensitivity = f"{group.sensitivity.min_v_rms:g} to {group.sensitivity.max_v_rms:g} V RMS"
    name = f"{group.count} × {plain(group.use)}"
    return [
        Fact(name, f"{power} (RMS each)"),
        Fact(f"{name}, least load", f"{group.min_ohm:g} Ω; bridgeable: {group.bridgeable}"),
        Fact(f"{name}, full power for", sensitivity),
    ]
