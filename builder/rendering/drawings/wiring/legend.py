"""What the signs of a wiring picture mean, once below it."""

from __future__ import annotations

from functools import lru_cache

from markupsafe import Markup, escape

from builder.rendering.drawings.canvas import Canvas
from builder.rendering.drawings.wiring.paint import paint
from builder.rendering.drawings.wiring.scene import MarkKind, Part, Run, RunKind, Scene

_MARKS: tuple[tuple[MarkKind, str], ...] = (
    ("slot", "cavity to use"),
    ("sleeve", "crimp or solder under a sleeve"),
    ("tap", "joined beside the wire, which stays whole"),
    ("home", "plug of a loom, home"),
    ("cap", "closed off by itself"),
    ("screw", "terminal"),
    ("fork", "Y-lead, one plug to two sockets"),
)
_RUNS: tuple[tuple[RunKind, str], ...] = (
    ("supply", "supply"),
    ("ground", "ground"),
    ("lead", "line lead, shield and centre"),
    ("wire", "turn-on wire as bought"),
    ("body", "the car's own strap"),
)
W, H = 44.0, 24.0


@lru_cache(maxsize=1)
def wiring_legend() -> Markup:
    """Return the signs with their meaning as a list."""
    items = [_item(_marked(kind), words) for kind, words in _MARKS]
    items.append(_item(_fused(), "fuse"))
    items += [_item(_run(kind), words) for kind, words in _RUNS]
    return Markup('<ul class="lb-legend lb-wiring-legend">' + "".join(items) + "</ul>")


def _marked(kind: MarkKind) -> Scene:
    scene = Scene()
    if kind not in ("slot",):
        end = W / 2 if kind == "cap" else W
        scene.runs.append(Run((), ((0, H / 2), (end, H / 2)), "wire", "amplified"))
    scene.mark(kind, (W / 2, H / 2))
    return scene


def _fused() -> Scene:
    scene = _run("supply")
    scene.parts.append(Part("fuse", (W / 2, H / 2), (), "A"))
    return scene


def _run(kind: RunKind) -> Scene:
    scene = Scene()
    scene.runs.append(Run((), ((0, H / 2), (W, H / 2)), kind, "control"))
    return scene


def _item(scene: Scene, words: str) -> str:
    canvas = Canvas()
    paint(canvas, scene)
    return (
        f'<li><svg class="lb-drawing lb-sample" width="{W:g}" height="{H:g}"'
        f' viewBox="0 0 {W:g} {H:g}" aria-hidden="true" fill="currentColor">'
        f"{canvas.inner}</svg> {escape(words)}</li>"
    )
