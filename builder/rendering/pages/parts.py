"""Pages of parts and contributors: what plans take from them, and whose readings they rest on."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import starmap
from typing import Any, NamedTuple, TypeAlias

from builder.model.contributor import Contributor
from builder.model.housing import Housing
from builder.model.parts import Amplifier, Cable, Converter, Interface, Loom
from builder.model.plugs import Plug
from builder.rendering.drawings.plug_faces import plug_faces
from builder.rendering.drawings.swatch import swatch
from builder.rendering.drawings.wire_colours import wire_words
from builder.rendering.page import BuildInfo, Page
from builder.rendering.pages.car_facts import Fact
from builder.rendering.pages.declared_facts import facts_of
from builder.rendering.templates import fill

_RECKONED = "What the plans reckon with"
USED_IN_SHOWN = 200
"""How many cars a part's page names before it says how many more there are."""


class Used(NamedTuple):
    """Where a part is used: the page, relative to the site's root, and its name."""

    url: str
    title: str


class Uses(NamedTuple):
    """Where a part is used, under a title."""

    title: str
    pages: Sequence[Used]


Part: TypeAlias = Converter | Amplifier | Cable | Interface | Housing | Loom | Contributor


def converter_page(converter: Converter, used_in: Sequence[Used], info: BuildInfo) -> Page:
    """Return the page of a converter; `used_in` are its plans."""
    return _device_page("converters", converter, "Its plans", used_in, info)


def amplifier_page(amplifier: Amplifier, used_in: Sequence[Used], info: BuildInfo) -> Page:
    """Return the page of an amplifier."""
    return _device_page("amplifiers", amplifier, "Used in", used_in, info)


def interface_page(interface: Interface, used_in: Sequence[Used], info: BuildInfo) -> Page:
    """Return the page of a data interface; `used_in` are the cars that it fits."""
    return _device_page("interfaces", interface, "Cars that it fits", used_in, info)


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
    counts = {"Pairs": str(len(cable.pairs)), "Single cores": str(len(cable.singles))}
    more: dict[str, Any] = {
        "wires": wires,
        "facts": [*facts_of(cable), *starmap(Fact, counts.items())],
    }
    return _device_page("cables", cable, "Used in", used_in, info, **more)


def housing_page(housing: Housing, used_in: Sequence[Used], info: BuildInfo) -> Page:
    """Return the page of a plug shell with both faces drawn, no pin described."""
    counts = {"Cavities": str(len(housing.cavities)), "Rows": str(len(housing.rows))}
    more: dict[str, Any] = {
        "facts": [*starmap(Fact, counts.items()), *facts_of(housing)],
        "faces": plug_faces(housing, bare_plug(housing.id, housing.name, housing)),
    }
    said, used = "both faces and its cavities.", Uses("Cars with this plug", used_in)
    return part_page("housings", housing, used, info, said, **more)


def contributor_page(contributor: Contributor, used_in: Sequence[Used], info: BuildInfo) -> Page:
    """Return the page of a contributor; `used_in` are the cars they told of."""
    handle = Fact("Handle", contributor.id)
    more: dict[str, Any] = {"facts": [handle, *facts_of(contributor)], "facts_title": "Who it is"}
    used, said = Uses("Measured or told of", used_in), "who measured, and since when."
    return part_page("contributors", contributor, used, info, said, **more)


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


def _device_page(
    folder: str, part: Part, used_title: str, used_in: Sequence[Used], info: BuildInfo, **more: Any
) -> Page:
    used, said = Uses(used_title, used_in), "limits the plans reckon with."
    return part_page(folder, part, used, info, said, **more)


def part_page(
    folder: str, part: Part, uses: Uses, info: BuildInfo, said: str,
    template: str = "part.html", **more: Any,
) -> Page:  # fmt: skip
    """Return the page of a part; `said` is its description, `more` what its template shows else."""
    section = folder.capitalize()
    own = {"facts": list(facts_of(part)), "faces": (), "wires": (), "facts_title": _RECKONED}
    body = fill(
        template,
        part=part,
        folder=folder,
        section=section,
        maker=getattr(part, "maker", "") or "",
        used_title=uses.title,
        used=uses.pages[:USED_IN_SHOWN],
        more=max(0, len(uses.pages) - USED_IN_SHOWN),
        info=info,
        **{**own, **more},
    )
    title = f"{part.name} ({section.lower().removesuffix('s')})"
    return Page(f"{folder}/{part.id}.html", title, f"{title}: {said}", body)
