"""Two ladders: what could switch the converter on, and how far each source is from clipping."""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import accumulate

from markupsafe import Markup

from builder.figures import shown
from builder.model.names import channel_name
from builder.planning.plan import LevelCheck, Plan, Rung
from builder.planning.words import RUNG_NAMES, LevelVerdict, RungVerdict
from builder.rendering.drawings.canvas import Canvas, identifier, number
from builder.rendering.drawings.function_kinds import plain
from builder.rendering.drawings.lettering import fit, wrap
from builder.rendering.drawings.path_data import PathData
from builder.rendering.drawings.shapes import Mark, hatch, verdict_mark
from builder.rendering.margins import margin_words, read_words

W = 360.0
LINE = 13.0
RAILS = (12.0, 44.0)
RUNG_MARKS: dict[RungVerdict, Mark] = {
    "chosen": "yes",
    "possible": "maybe",
    "unproved": "maybe",
    "refused": "no",
    "absent": "absent",
}
LEVEL_MARKS: dict[LevelVerdict, Mark] = {"fine": "yes", "thin": "thin", "over": "no"}


def turn_on_ladder(plan: Plan) -> Markup:
    """Return the rungs in the order they were tried, each with its verdict and the reason."""
    if not plan.ladder:
        return Markup("")
    canvas = Canvas()
    y = 6.0
    for rung in plan.ladder:
        y = _rung(canvas, rung, y)
    for x in RAILS:
        canvas.line((x, 0), (x, y), "lb-rail", 2.5)
    desc = "; ".join(rung_words(rung) for rung in plan.ladder)
    key = identifier("rungs", plan.converter)
    return canvas.svg((W, y), key, "turn-on ladder, best rung first", desc, "lb-ladder")


def rung_words(rung: Rung) -> str:
    """Return a rung as one line: its number, what it is and where, the verdict and the reason."""
    where = f" at {rung.where}" if rung.where else ""
    name = RUNG_NAMES.get(rung.kind, plain(rung.kind))
    return f"{rung.rung}, {name}{where}: {rung.verdict}, {rung.because}"


def _rung(canvas: Canvas, rung: Rung, top: float) -> float:
    """Draw one rung from `top`; return where the next begins."""
    chosen = rung.verdict == "chosen"
    canvas.line((RAILS[0], top + 20), (RAILS[1], top + 20), "lb-rung", 4 if chosen else 1.5)
    canvas.text(sum(RAILS) / 2, top + 15, str(rung.rung), 12, anchor="middle", bold=chosen)
    name = RUNG_NAMES.get(rung.kind, plain(rung.kind)) + (f", {rung.where}" if rung.where else "")
    canvas.text(58, top + 15, *fit(name, 196, 12), bold=True)
    verdict_mark(canvas, 262, top + 4, RUNG_MARKS.get(rung.verdict, "absent"))
    canvas.text(281, top + 15, *fit(rung.verdict, 74, 12), bold=chosen)
    y = top + 29
    for line in wrap(rung.because, W - 64, 11):
        canvas.text(58, y, line, 11)
        y += LINE
    return y - 3


def level_ladder(plan: Plan, told: str = "") -> Markup:
    """Return each source on one dB scale that ends at the converter's limit (0 dB).

    `told` says where they stand in words; without it the drawing says them itself.
    """
    if not plan.levels:
        return Markup("")
    scale = _Scale(plan.levels)
    canvas = Canvas(words_last=True)
    _axis(canvas, scale)
    *tops, bottom = accumulate(map(_height, plan.levels), initial=40.0)
    _ticks(canvas, scale, tops)
    for check, top in zip(plan.levels, tops, strict=True):
        _level(canvas, scale, check, top)
    desc = told or "; ".join(
        f"{channel_name(c.channel)}: {_now(c)}, {_margin(c)}, {c.verdict}" for c in plan.levels
    )
    key = identifier("levels", plan.converter)
    return canvas.svg((W, bottom), key, "levels against the converter's limit", desc, "lb-ladder")


class _Scale:
    """Decibels below the limit to places across the drawing, wide enough for every source."""

    LEFT, RIGHT = 14.0, 346.0
    STEP_DB = 6
    SPAN_DB = 60.0  # anything further down is drawn at the end of the scale

    def __init__(self, levels: tuple[LevelCheck, ...]) -> None:
        heights = [-check.converter_margin_db for check in levels]
        heights += [db for check in levels if (db := square_db(check)) is not None]
        seen = [db for db in heights if math.isfinite(db) and abs(db) <= self.SPAN_DB]
        step = self.STEP_DB
        self.low_db = min(-18, step * math.floor(min(seen, default=0) / step))
        self.high_db = max(6, step * math.ceil(max(seen, default=0) / step))

    def x(self, db: float) -> float:
        """Return the place of `db` relative to the limit, held inside the scale."""
        held = min(max(db, self.low_db), self.high_db)
        share = (held - self.low_db) / (self.high_db - self.low_db)
        return self.LEFT + share * (self.RIGHT - self.LEFT)

    def ticks(self) -> range:
        """Return the decibels to label, 0 among them; few enough to be read."""
        step = self.STEP_DB if self.high_db - self.low_db <= 48 else 2 * self.STEP_DB
        return range(-(-self.low_db // step) * step, self.high_db + 1, step)


def square_db(check: LevelCheck) -> float | None:
    """Return the hard-clipped worst case in dB relative to the converter's limit."""
    if not check.square_wave_v or check.square_wave_v < 0 or check.converter_max_v_rms <= 0:
        return None
    return 20 * math.log10(check.square_wave_v / check.converter_max_v_rms)


def _axis(canvas: Canvas, scale: _Scale) -> None:
    canvas.text(scale.LEFT, 12, "dB against the converter's limit", 11)
    for db in scale.ticks():
        words = "limit" if db == 0 else f"{db:+d}".replace("-", "−")
        canvas.text(scale.x(db), 30, words, 10, anchor="middle", bold=db == 0)


def _ticks(canvas: Canvas, scale: _Scale, tops: Sequence[float]) -> None:
    """Draw the scale behind each bar only, so that no line runs through words."""
    grid, limit = PathData(), PathData()
    for top in tops:
        for db in scale.ticks():
            tick = grid if db else limit
            tick.move((scale.x(db), top + 19)).line((scale.x(db), top + 41))
    canvas.path(str(grid), "lb-grid", 0.8)
    canvas.path(str(limit), "lb-limit", 2.5)


def _height(check: LevelCheck) -> float:
    """Return how high one source is drawn."""
    return 68.0 if square_db(check) is None else 84.0


def _level(canvas: Canvas, scale: _Scale, check: LevelCheck, top: float) -> None:
    """Draw one source from `top`."""
    canvas.text(14, top + 13, *fit(channel_name(check.channel), 190, 12), bold=True)
    verdict_mark(canvas, 262, top + 2, LEVEL_MARKS.get(check.verdict, "absent"))
    canvas.text(281, top + 13, *fit(check.verdict, 74, 12), bold=True)
    _bar(canvas, scale, check, top + 24)
    canvas.text(14, top + 55, *fit(_now(check), 210, 11))
    canvas.text(346, top + 55, *fit(_margin(check), 116, 11), anchor="end")
    db = square_db(check)
    if db is None:
        return
    level = f"{db:+.1f} dB".replace("-", "−")
    said = f"dashed mark: hard-clipped worst case {check.square_wave_v:.3g} V, {level}"
    canvas.text(14, top + 70, *fit(said, 332, 11))


def _bar(canvas: Canvas, scale: _Scale, check: LevelCheck, y: float) -> None:
    """Draw the source as a bar; what passes the limit is hatched; the square wave is a tick."""
    level, limit = scale.x(-check.converter_margin_db), scale.x(0)
    left = scale.LEFT
    canvas.add(hatch("solid", left, y, max(1.0, min(level, limit) - left), 12))
    if level > limit:
        canvas.rect((limit, y, level - limit, 12), "lb-over")
        canvas.add(hatch("rising", limit, y, level - limit, 12))
    db = square_db(check)
    if db is not None:
        x = number(scale.x(db))
        canvas.path(f"M{x} {number(y - 2)}v16", "lb-square", 2.5, ' stroke-dasharray="3 2"')


def _now(check: LevelCheck) -> str:
    limit = check.converter_max_v_rms
    now = shown(check.source_v_rms, 2, beside=limit)
    read = read_words(check.read_v_rms)
    return f"{now} V now ({plain(check.basis)}), limit {shown(limit)} V{read}"


def _margin(check: LevelCheck) -> str:
    return f"margin {margin_words(check)}"
