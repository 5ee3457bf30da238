"""What the signs of a wiring picture mean, once below it: those that this job's pictures have."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

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
_ALIKE: dict[MarkKind, MarkKind] = {"upsleeve": "sleeve"}
W, H = 44.0, 24.0


def wiring_legend(scenes: Sequence[Scene]) -> Markup:
    """Return the signs that stand in some pictures, each with its meaning, as a list."""
    return Markup('<ul class="lb-legend lb-wiring-legend">' + "".join(_items(scenes)) + "</ul>")


def _items(scenes: Sequence[Scene]) -> Iterator[str]:
    marks = {_ALIKE.get(mark.kind, mark.kind) for scene in scenes for mark in scene.marks}
    runs = {run.kind for scene in scenes for run in scene.runs if run.kind != "wire" or _plain(run)}
    yield from (_item(_marked(kind), words) for kind, words in _MARKS if kind in marks)
    if any(part.kind == "fuse" for scene in scenes for part in scene.parts):
        yield _item(_fused(), "fuse")
    yield from (_item(_run(kind), words) for kind, words in _RUNS if kind in runs)


def _plain(run: Run) -> bool:
    """Whether a wire is drawn without colours of its own: it is cut from a roll."""
    return run.wire is None and run.carries == "control"


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
        f' viewBox="0 0 {W:g} {H:g}" aria-hidden="true">'
        f"{canvas.inner}</svg> {escape(words)}</li>"
    )
