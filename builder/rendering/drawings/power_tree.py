"""The supply of a job drawn: battery, main fuse, trunk, distribution, branches, grounds.

The supply runs down the left, what comes back runs up the right through the body, so that no
line crosses another.
"""

from __future__ import annotations

from markupsafe import Markup

from builder.planning.circuit.terminal_names import SECOND
from builder.planning.pack_details import PowerSheet, SupplyRun
from builder.planning.power.joiners import JOINERS
from builder.planning.work_pack import WorkPack
from builder.rendering.drawings.canvas import Canvas, identifier, number
from builder.rendering.drawings.lettering import fit, wrap
from builder.rendering.drawings.shapes import part_box, verdict_mark

W = 360.0
X = 30.0  # where the supply runs down
RAIL = 332.0  # where the body carries the current back
FURTHEST = 46.0  # where the first branch runs down; the others to its left
TEXT = 58.0
LINE = 13.0
BOX = (110.0, 196.0)  # left edge and width of an amplifier


def power_tree(pack: WorkPack) -> Markup:
    """Return the supply of everything added; empty markup when no supply was worked out."""
    power = pack.power
    if power is None or not power.runs:
        return Markup("")
    canvas = Canvas()
    trunk, branches = power.runs[0], power.runs[1:]
    link = power.link_run
    begins = 0.0 if link is None else _linked(canvas, link, _joiner(pack))
    source = "battery" if link is None else SECOND
    y = _battery(canvas, power, source, begins)
    top, y = y, _run(canvas, _run_lines(trunk, source=source), y)
    if branches:
        canvas.line((X, top), (X, y), "lb-added", 3)
        y = _branches(canvas, branches, y, source)
    else:
        y = _load(canvas, trunk, X, top, y)
    bottom = _body(canvas, y, begins)
    said = [" ".join(_run_lines(run, source=source)) for run in power.runs]
    said += [] if link is None else [f"{' '.join(_run_lines(link))}, through {_joiner(pack)}"]
    desc = "; ".join([_fuse_words(power), *said])
    return canvas.svg((W, bottom), identifier("power", pack.job), "power tree", desc, "lb-tree")


def load_name(run: SupplyRun) -> str:
    """Return what a run feeds: "branch to amp 1" feeds "amp 1"."""
    for start in ("branch to ", "supply of "):
        if run.name.startswith(start):
            return run.name.removeprefix(start)
    return run.name


def _fuse_words(power: PowerSheet) -> str:
    if power.main_fuse_a is None:
        return "main fuse: no standard size fits"
    return f"main fuse {power.main_fuse_a:g} A, {power.fuse_family.replace('_', '-')}"


def _joiner(pack: WorkPack) -> str:
    """What joins the two batteries, by its name."""
    parts = pack.circuit.elements if pack.circuit else ()
    return next((part.purpose for part in parts if part.purpose in JOINERS.values()), "a joiner")


def _post(canvas: Canvas, y: float, name: str) -> None:
    """Draw a battery with its posts; its negative runs to the rail of the body."""
    part_box(canvas, (8, y + 8, 236, 34), (name,))
    canvas.text(X, y + 38, "+", 15, anchor="middle", bold=True)
    canvas.text(226, y + 38, "−", 15, anchor="middle", bold=True)


def _linked(canvas: Canvas, link: SupplyRun, joiner: str) -> float:
    """Draw the car's battery and the link from it, fused at both ends; return where it ends."""
    _post(canvas, 0, "the car's battery")
    y = 60.0
    for line in (*_run_lines(link, " at each end", "the car's battery"), f"through {joiner}"):
        canvas.text(TEXT, y, *fit(line, RAIL - TEXT - 16, 11))
        y += LINE
    bottom = max(y, 60.0 + 4 * LINE)
    canvas.line((X, 42), (X, bottom + 8), "lb-added", 2)
    for at in (60.0, bottom - 12):
        _fuse(canvas, X, at)
    dashes = ' stroke-dasharray="7 4"'
    canvas.path(f"M244 25H{number(RAIL)}V{number(bottom + 60)}", "lb-body", 2, dashes)
    return bottom


def _battery(canvas: Canvas, power: PowerSheet, name: str, begins: float) -> float:
    """Draw the battery that feeds, and the main fuse; return where the trunk begins."""
    _post(canvas, begins, name)
    canvas.path(f"M244 {number(begins + 25)}H{number(RAIL)}V{number(begins + 60)}", "lb-added", 2)
    _fuse(canvas, X, begins + 66)
    canvas.text(TEXT, begins + 62, *fit(_fuse_words(power), 250, 12), bold=True)
    y = begins + 77.0
    for line in wrap(power.main_fuse_at, 250, 11):
        canvas.text(TEXT, y, line, 11)
        y += LINE - 1
    bottom = max(begins + 104.0, y)
    canvas.line((X, begins + 42), (X, bottom), "lb-added", 3)
    if power.main_fuse_a is None:
        verdict_mark(canvas, 300, begins + 50, "no")
    return bottom


def _fuse(canvas: Canvas, x: float, y: float, width: float = 13.0) -> None:
    """Draw a fuse on a conductor, the conductor running through it."""
    canvas.rect((x - width / 2, y - 12, width, 24), "lb-fuse")


def _run_lines(run: SupplyRun, place: str = "", source: str = "battery") -> tuple[str, str, str]:
    fuse = "" if run.fuse_a is None else f", fuse {run.fuse_a:g} A{place}"
    return (
        f"{run.name}{fuse}",
        f"{run.conductor}, {run.length_m:g} m out and back, {run.current_a:.1f} A",
        f"drop {run.drop_v:.3f} V, {run.cumulative_drop_v:.3f} V from {_the(source)}",
    )


def _the(source: str) -> str:
    return source if source.startswith("the ") else f"the {source}"


def _run(canvas: Canvas, lines: tuple[str, str, str], y: float) -> float:
    """Write what a run is beside its conductor; return the new bottom."""
    first, *rest = lines
    for line in wrap(first, RAIL - TEXT - 16, 12):
        canvas.text(TEXT, y + 6, line, 12, bold=True)
        y += LINE + 1
    for line in rest:
        canvas.text(TEXT, y + 6, *fit(line, RAIL - TEXT - 16, 11))
        y += LINE
    return y + 5


def _load(canvas: Canvas, run: SupplyRun, x: float, top: float, y: float) -> float:
    """Draw the conductor from `top` to the amplifier at its end, and its ground to the body."""
    middle = y + 13
    canvas.path(f"M{number(x)} {number(top)}V{number(middle)}H{number(BOX[0])}", "lb-added", 3)
    part_box(canvas, (BOX[0], y, BOX[1], 26), (load_name(run),))
    canvas.line((BOX[0] + BOX[1], middle), (RAIL, middle), "lb-added", 3)
    return y + 38


def _branches(canvas: Canvas, branches: tuple[SupplyRun, ...], y: float, source: str) -> float:
    """Draw the block and a conductor of its own, fused there, to each amplifier.

    The first branch leaves furthest right, so that none crosses another.
    """
    part_box(canvas, (8, y, 236, 26), ("distribution block",))
    top = y + 26
    apart = min(16.0, 34.0 / max(1, len(branches) - 1))
    y = top
    for at, branch in enumerate(branches):
        x = FURTHEST - apart * at
        y = _run(canvas, _run_lines(branch, " at the block", source), y + 11)
        y = _load(canvas, branch, x, top, y)
        _fuse(canvas, x, top + 18, max(2.0, min(12.0, apart - 4)))
    return y


def _body(canvas: Canvas, y: float, begins: float) -> float:
    """Draw the body as a dashed line back to the battery; return the bottom of the drawing."""
    dashes = ' stroke-dasharray="7 4"'
    canvas.path(f"M{number(RAIL)} {number(begins + 60)}V{number(y)}", "lb-body", 2, dashes)
    for at, half in enumerate((13.0, 8.0, 3.0)):
        canvas.line((RAIL - half, y + 5.0 * at), (RAIL + half, y + 5.0 * at), "lb-earth", 2)
    says = "dashed: the car's body. Grounds are of the same size as their supply."
    for at, line in enumerate(wrap(says, RAIL - 40, 11)):
        canvas.text(8, y + 4 + LINE * at, line, 11)
        bottom = y + 4 + LINE * at
    return max(bottom, y + 10) + 8
