"""Pages of housings, converters, amplifiers, cables and interfaces: what plans take from them."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from builder.model.housing import Housing
from builder.model.parts import (
    Amplifier,
    Cable,
    Converter,
    Interface,
)
from builder.model.plugs import Plug
from builder.rendering.drawings.plug_faces import plug_faces
from builder.rendering.drawings.swatch import swatch
from builder.rendering.drawings.wire_colours import wire_words
from builder.rendering.page import BuildInfo, Page
from builder.rendering.pages.car_facts import Fact
from builder.rendering.pages.declared_facts import facts_of
from builder.rendering.templates import fill

USED_IN_SHOWN = 200
"""How many cars a part's page names before it says how many more there are."""


class Used(NamedTuple):
    """Where a part is used: the page, relative to the site's root, and its name."""

    url: str
    title: str


def converter_page(converter: Converter, used_in: Sequence[Used], info: BuildInfo) -> Page:
    """Return the page of a converter; `used_in` are its plans."""
    return _part_page("converters", "Converters", converter, used_in, info, "Its plans")


def amplifier_page(amplifier: Amplifier, used_in: Sequence[Used], info: BuildInfo) -> Page:
    """Return the page of an amplifier."""
    return _part_page("amplifiers", "Amplifiers", amplifier, used_in, info, "Used in")


def interface_page(interface: Interface, used_in: Sequence[Used], info: BuildInfo) -> Page:
    """Return the page of a data interface; `used_in` are the cars that it fits."""
    return _part_page("interfaces", "Interfaces", interface, used_in, info, "Cars that it fits")


def cable_page(cable: Cable, used_in: Sequence[Used], info: BuildInfo) -> Page:
    """Return the page of a cable, with its conductors pair by pair."""
    wires = [
        (f"Pair {at} {sign}", swatch(wire), wire_words(wire))
        for at, pair in enumerate(cable.pairs, start=1)
        for sign, wire in (("+", pair.positive), ("−", pair.negative))
    ]
    wires += [
        (f"Single {at}", swatch(wire), wire_words(wire))
        for at, wire in enumerate(cable.singles, start=1)
    ]
    counts = [
        Fact("Pairs", str(len(cable.pairs))),
        Fact("Single conductors", str(len(cable.singles))),
    ]
    return _part_page("cables", "Cables", cable, used_in, info, "Used in", wires, counts)


def housing_page(housing: Housing, used_in: Sequence[Used], info: BuildInfo) -> Page:
    """Return the page of a plug shell with both faces drawn, no pin described."""
    counts = [
        Fact("Cavities", str(len(housing.cavities))),
        Fact("Rows", str(len(housing.rows))),
    ]
    body = fill(
        "part.html",
        part=housing,
        folder="housings",
        section="Housings",
        maker="",
        facts=[*counts, *facts_of(housing)],
        faces=plug_faces(housing, bare_plug(housing.id, housing.name, housing)),
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


def bare_plug(plug_id: str, name: str, housing: Housing) -> Plug:
    """A plug of which nothing is described, to draw the shell alone."""
    return Plug(
        id=plug_id,
        name=name,
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
    part: Converter | Amplifier | Cable | Interface,
    used_in: Sequence[Used],
    info: BuildInfo,
    used_title: str,
    wires: Sequence[tuple[str, str, str]] = (),
    counts: Sequence[Fact] = (),
) -> Page:
    body = fill(
        "part.html",
        part=part,
        folder=folder,
        section=section,
        maker="" if isinstance(part, Cable) else part.maker,
        facts=[*facts_of(part), *counts],
        faces=(),
        wires=wires,
        used_title=used_title,
        used=used_in[:USED_IN_SHOWN],
        more=max(0, len(used_in) - USED_IN_SHOWN),
        info=info,
    )
    title = f"{part.name} ({section.lower().removesuffix('s')})"
    return Page(f"{folder}/{part.id}.html", title, f"{title}: limits the plans reckon with.", body)
