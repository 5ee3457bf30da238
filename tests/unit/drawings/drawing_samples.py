"""Invented plugs and plans for the drawing tests, and measures of the drawings made of them."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import replace
from functools import lru_cache
from pathlib import Path
from typing import Any
from xml.etree import ElementTree

from markupsafe import Markup
from shipped_book import FULL_RECORDS
from svg_paths import corners, read_drawings

from builder.declaring import read
from builder.loading import load_file
from builder.model.housing import BladeSize, Housing
from builder.model.parts import Converter
from builder.model.plugs import Pin, Plug
from builder.model.vehicle import Vehicle
from builder.model.wire import Wire
from builder.parsing import parse_vehicle
from builder.planning.plan import Feed, LevelCheck, Plan, Rung, TurnOn
from builder.rendering.drawings.lettering import text_width

BOOK = Path(__file__).resolve().parents[3] / "pinouts"


def housing(**changed: Any) -> Housing:
    """Return a shell of 12 cavities in two staggered rows, latch on top."""
    given: dict[str, Any] = {
        "id": "h",
        "data": "invented",
        "name": "12-cavity housing",
        "seen_from": "wire_side",
        "latch": "top",
        "rows": (("1", "2", "3", None, "4", "5", "6"), ("7", "8", "9", "10", "11", "12")),
        "row_shift": (0.0, 0.5),
        "blade_mm": 1.5,
        "sizes": {"1": 2.8, "7": 6.3},
        "blocked": ("10",),
        "keyed_corner": "bottom_right",
        "mates_with": (),
        "note": None,
    }
    given |= changed
    sizes = (BladeSize(cavities=(name,), blade_mm=mm) for name, mm in given["sizes"].items())
    return Housing(**(given | {"sizes": tuple(sizes)}))


def grid(columns: int, rows: int, **changed: Any) -> Housing:
    """Return a plain shell with cavities numbered along its rows."""
    names = tuple(
        tuple(str(row * columns + column + 1) for column in range(columns)) for row in range(rows)
    )
    plain = {"rows": names, "row_shift": (0.0,) * rows, "sizes": {}, "blocked": ()}
    return housing(**(plain | {"keyed_corner": None} | changed))


def pin(cavity: str, function: Any, wire: str = "", channel: Any = None, leg: Any = None) -> Pin:
    base, _, stripe = wire.partition("/")
    colours = Wire(base=base, stripe=stripe or None) if base else None
    return Pin(
        cavity=cavity, function=function, channel=channel, leg=leg, wire=colours, path=("plugs",)
    )


PINS = (
    pin("1", "constant", "yellow/red"),
    pin("2", "accessory", "red"),
    pin("3", "illumination", "orange/white"),
    pin("4", "speaker", "white", "front-left", "positive"),
    pin("5", "speaker", "white/black", "front-left", "negative"),
    pin("7", "ground", "black"),
    pin("8", "data_high", "light green"),
    pin("9", "unknown", "puce"),
    pin("11", "amplifier_on", "blue/white"),
)


def plug(plug_id: str = "A", pins: Iterable[Pin] = PINS, **changed: Any) -> Plug:
    """Return a plug with one pin of each kind, cavity 6 empty and 12 not described."""
    given: dict[str, Any] = {
        "id": plug_id,
        "name": "main plug",
        "unit": "radio",
        "location": "behind the radio",
        "housing": "h",
        "shell_colours": ("grey",),
        "read_from": "wire_side",
        "empty": ("6",),
        "look_alikes": (),
        "pins": tuple(pins),
        "path": ("plugs", 0),
    }
    return Plug(**(given | changed))


def _data(path: Path) -> Any:
    return load_file(path, path.name).data


def vehicle(*plugs: Plug) -> Vehicle:
    """Return the template's vehicle with these plugs."""
    return replace(parse_vehicle(_data(FULL_RECORDS / "vehicle.yaml")), plugs=plugs or (plug(),))


@lru_cache(maxsize=1)
def converter() -> Converter:
    return read(Converter, _data(BOOK / "converters" / "TEMPLATE.yaml"))


def feed(terminal: int, leg: str, cavity: str, wire: str, **changed: Any) -> Feed:
    given: dict[str, Any] = {
        "converter_input": terminal,
        "leg": leg,
        "plug": "A",
        "cavity": cavity,
        "channel": "front-left",
        "treatment": "intercept",
        "wire": wire,
        "grade": "good",
        "path": ("plugs", 0, "pins", 3),
    }
    return Feed(**(given | changed))


FEEDS = (
    feed(1, "positive", "4", "white"),
    feed(1, "negative", "5", "white/black"),
    feed(2, "positive", "8", "grey", channel="front-right", treatment="addon"),
    feed(2, "negative", "9", "not recorded", channel="front-right", treatment="addon"),
)
LADDER = (
    Rung(1, "amplifier_on", "chosen", "A.11", "read 11.8 V with 50 mA drawn; can give 250 mA"),
    Rung(2, "retained", "absent", "", "no wire of this vehicle is retained"),
    Rung(
        3, "accessory", "possible", "A.2", "would lose the lights-left-on warning with the key out"
    ),
    Rung(4, "fuse_position", "refused", "F14", "the fuse feeds a restraint circuit"),
)
LEVELS = (
    LevelCheck("front-left", 8.25, "measured", 14.1, 20.0, 7.7, "fine", "clean, measured", 3.0),
    LevelCheck("front-right", 9.12, "rail", 14.1, 10.0, 0.8, "thin", "nobody measured", 3.0),
    LevelCheck("sub", 14.14, "amplifier_label", None, 10.0, -3.0, "over", "its label", 3.0),
)
TURN_ON = TurnOn(
    1, "amplifier_on", "A", "11", None, None, 8.0, 250.0, "it follows the radio, also key out"
)


def plan(**changed: Any) -> Plan:
    """Return a tap plan of one intercepted and one branched pair."""
    given: dict[str, Any] = {
        "kind": "tap_plan",
        "vehicle": "template-vehicle",
        "converter": "template-converter",
        "purpose": "amplify the doors",
        "grade": "good",
        "because": (),
        "feeds": FEEDS,
        "insulate": (),
        "turn_on": TURN_ON,
        "ladder": LADDER,
        "levels": LEVELS,
        "tests": (),
        "losses": (),
        "refusals": (),
    }
    return Plan(**(given | changed))


Box = tuple[float, float, float, float]


def drawings_in(markup: Markup) -> list[ElementTree.Element]:
    """Return every `svg` of the markup, read as XML, with what it refers to in its place."""
    return list(read_drawings(markup).iter("svg"))


def cavity_boxes(drawing: ElementTree.Element) -> dict[str, Box]:
    """Return name to box for each cavity, in view-box units; fails on a name drawn twice."""
    boxes: dict[str, Box] = {}
    for group in drawing.iter("g"):
        if "lb-cavity" in group.get("class", "").split():
            name = group.findtext("text") or ""
            assert name not in boxes, f"cavity {name} drawn twice"
            boxes[name] = rect_box(group.find(".//rect"))
    return boxes


def rect_box(rect: ElementTree.Element | None) -> Box:
    assert rect is not None
    x, y, w, h = (float(rect.get(key, "nan")) for key in ("x", "y", "width", "height"))
    return x, y, w, h


def path_points(drawing: ElementTree.Element, css: str) -> list[tuple[float, float]]:
    """Return the corners of the path with this class."""
    path = next(p for p in drawing.iter("path") if p.get("class") == css)
    return [point for line in corners(path.get("d", "")) for point in line]


def words_in(drawing: ElementTree.Element) -> list[str]:
    return [text.text or "" for text in drawing.iter("text")]


Inherited = dict[str, str]


def text_boxes(drawing: ElementTree.Element) -> list[tuple[str, Box]]:
    """Return each text with its box, by the builder's own (wide) estimate of its width."""
    found: list[tuple[str, Box]] = []

    def visit(element: ElementTree.Element, inherited: Inherited) -> None:
        here = inherited | element.attrib
        if element.tag == "text":
            found.append((element.text or "", _text_box(element, here)))
        for child in element:
            visit(child, here)

    visit(drawing, {})
    return found


def _text_box(text: ElementTree.Element, here: Inherited) -> Box:
    size, x, y = float(here["font-size"]), float(text.get("x", "0")), float(text.get("y", "0"))
    width = text_width(text.text or "", size)
    left = x - {"start": 0, "middle": 0.5, "end": 1}[here.get("text-anchor", "start")] * width
    box = (left, y - 0.75 * size, width, size)
    turned = re.match(r"rotate\(-90 ([\d.]+) ([\d.]+)\)", text.get("transform", ""))
    return _turn(box, float(turned[1]), float(turned[2])) if turned else box


def _turn(box: Box, cx: float, cy: float) -> Box:
    """Return the box after a quarter turn to the left about (cx, cy)."""
    x, y, w, h = box
    return cx + (y - cy), cy - (x + w - cx), h, w


def overlapping(boxes: list[tuple[str, Box]]) -> list[tuple[str, str]]:
    """Return the pairs of names whose boxes share area."""
    return [
        (a, b)
        for at, (a, (ax, ay, aw, ah)) in enumerate(boxes)
        for b, (bx, by, bw, bh) in boxes[at + 1 :]
        if ax < bx + bw and bx < ax + aw and ay < by + bh and by < ay + ah
    ]


def outside(drawing: ElementTree.Element, boxes: list[tuple[str, Box]]) -> list[str]:
    """Return the names of boxes that leave the view box."""
    _, _, width, height = map(float, drawing.get("viewBox", "").split())
    return [
        name
        for name, (x, y, w, h) in boxes
        if x < 0 or y < 0 or x + w > width + 0.1 or y + h > height + 0.1
    ]
