"""Signs of a wiring picture and the housings in it: each drawn once on a page, and put where it is.

What a picture has many times stands in a drawing of its own, which shows nothing; the whole and its
pieces refer to it by id. So a page holds one circuit, and that drawing in front of its pictures.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from functools import partial

from markupsafe import Markup

from builder.rendering.drawings.canvas import Point, identifier, number
from builder.rendering.drawings.wiring.plug_ends import Cavity, PlugShape, latch_box
from builder.rendering.drawings.wiring.scene import Mark, MarkKind, Scene, Shell

_CORNERS = ("top_left", "top_right", "bottom_right", "bottom_left")
CUT, ROUND = 9.0, 2.0


def signs_of(scenes: Iterable[Scene]) -> Markup:
    """Return what some pictures of one circuit refer to."""
    every = list(scenes)
    kinds = dict.fromkeys(mark.kind for scene in every for mark in scene.marks)
    shells = {shell.unit: shell for scene in every for shell in scene.shells}
    drawn = [f'<g id="{_sign_id(kind)}">{_MARKS[kind]()}</g>' for kind in kinds]
    drawn += [_housing(shell, at) for at, shell in enumerate(shells.values())]
    radii = {f.box[2] / 2 for scene in every for f in scene.frames if f.kind == "speaker"}
    drawn += [_speaker(radius) for radius in sorted(radii)]
    return Markup(  # our own markup; ids are made safe
        '<svg class="lb-drawing lb-signs" width="0" height="0" aria-hidden="true"'
        f"><defs>{''.join(drawn)}</defs></svg>"
    )


def put_mark(mark: Mark) -> str:
    """Return the sign of a terminal, a joint or a closed end, still without what it shows."""
    return _put(_sign_id(mark.kind), mark.at)


def put_shell(shell: Shell) -> str:
    """Return a housing at its place."""
    return _put(identifier("housing", shell.unit), shell.at)


def put_speaker(at: Point, radius: float) -> str:
    """Return a speaker round a place."""
    return _put(_speaker_id(radius), at)


def _put(name: str, at: Point) -> str:
    along, down = (number(each) for each in at)
    place = (f' x="{along}"' if along != "0" else "") + (f' y="{down}"' if down != "0" else "")
    return f'<use href="#{name}"{place}/>'


def _sign_id(kind: MarkKind) -> str:
    return f"w-{kind}"


def _speaker_id(radius: float) -> str:
    return f"w-speaker-{number(radius)}"


def _speaker(radius: float) -> str:
    """A speaker as three rings round nought."""
    rings = "".join(
        f'<circle r="{number(radius * share)}"{width}/>'
        for share, width in ((1, ""), (0.78, ' stroke-width="0.9"'), (0.3, ' stroke-width="1.2"'))
    )
    name = _speaker_id(radius)
    return f'<g id="{name}" class="lb-frame-speaker" stroke-width="1.6">{rings}</g>'


def _housing(shell: Shell, number_of_it: int) -> str:
    """A housing with its empty cavities, its top left at nought."""
    shape, name = shell.shape, identifier("housing", shell.unit)
    free = [each for each in shape.cavities if each.name in shell.empty]
    return f'<g id="{name}">{_shell(shape)}{_empty(shape, free, f"w-free-{number_of_it}")}</g>'


def _empty(shape: PlugShape, free: Sequence[Cavity], name: str) -> str:
    """Cavities without a wire of the job: the first, called `name`, and the others as far from it
    as they are."""
    if not free:
        return ""
    (w, h), first = shape.cavity, free[0]
    drawn = (
        f'<rect class="lb-cavity-empty" id="{name}" x="{number(first.x - w / 2)}"'
        f' y="{number(first.y - h / 2)}" width="{number(w)}" height="{number(h)}" rx="4"/>'
    )
    return drawn + "".join(_put(name, (one.x - first.x, one.y - first.y)) for one in free[1:])


def _shell(shape: PlugShape) -> str:
    cuts = [CUT if corner == shape.corner else ROUND for corner in _CORNERS]
    tl, tr, br, bl = cuts
    w, h = shape.width, shape.height
    points = (
        (tl, 0), (w - tr, 0), (w, tr), (w, h - br), (w - br, h), (bl, h), (0, h - bl), (0, tl),
    )  # fmt: skip
    d = "M" + "L".join(f"{number(px)} {number(py)}" for px, py in points) + "Z"
    return f'<path class="lb-housing" d="{d}"/>' + _latch(shape)


def _latch(shape: PlugShape) -> str:
    box = latch_box(shape, 0, 0)
    if box is None:
        return ""
    left, top, wide, high = box
    return (
        f'<rect class="lb-housing-latch" x="{number(left)}" y="{number(top)}"'
        f' width="{number(wide)}" height="{number(high)}"/>'
    )


def _screw() -> str:
    return (
        '<circle class="lb-mark-screw" r="4.6" stroke-width="1.3"/>'
        '<path class="lb-mark-cut" d="M-3 3l6-6"/>'
    )


def _eyelet(outer: str, inner: str) -> str:
    """A ring terminal, or the stud that it is put on."""
    return f'<circle class="lb-mark-screw" r="{outer}" stroke-width="1.6"/><circle r="{inner}"/>'


def _home() -> str:
    return (
        '<rect class="lb-mark-screw" x="-5" y="-5.5" width="10" height="11" rx="2"'
        ' stroke-width="1.4"/><path d="M0-5.5v11" stroke="currentColor" stroke-width="1.4"/>'
    )


def _slot() -> str:
    """A cavity that has a wire of the job."""
    return '<rect class="lb-mark-slot" x="-7.5" y="-9.5" width="15" height="19" rx="5"/>'


def _used() -> str:
    """The same with a ring: use this one."""
    ring = '<rect class="lb-slot-ring" x="-9.5" y="-11.5" width="19" height="23" rx="6.5"/>'
    return _slot() + ring


def _dot(r: str) -> str:
    return f'<circle r="{r}"/>'


def _block(wide: float, high: float, corner: str) -> str:
    """A full box round a place; `corner` is how it is rounded, as an attribute."""
    box = f'x="{number(-wide / 2)}" y="{number(-high / 2)}"'
    return f'<rect {box} width="{number(wide)}" height="{number(high)}"{corner}/>'


def _cap() -> str:
    return '<rect x="-4" y="-5" width="9" height="10" rx="4"/>'


_MARKS: dict[MarkKind, Callable[[], str]] = {
    "screw": _screw,
    "ring": partial(_eyelet, "5.4", "1.8"),
    "stud": partial(_eyelet, "6", "2.4"),
    "slot": _used,
    "cavity": _slot,
    "sleeve": partial(_block, 16, 8.4, ' rx="3.4"'),
    "upsleeve": partial(_block, 8.4, 16, ' rx="3.4"'),
    "tap": partial(_dot, "5.2"),
    "dot": partial(_dot, "3"),
    "home": _home,
    "contact": partial(_dot, "3.2"),
    "cap": _cap,
    "fork": partial(_block, 11, 11, ""),
}
