"""The levels of a job drawn from radio to speaker: volts now, volts at most, margin in dB.

Every speaker has its places on one logarithmic scale of volts. Speakers whose figures are
alike share one drawing.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import replace
from typing import Final, NamedTuple

from markupsafe import Markup

from builder.figures import at_most, shown
from builder.planning.circuit.terminal_names import source_name
from builder.planning.pack_details import LevelChain, LevelRung
from builder.planning.plan import LevelCheck
from builder.planning.words import LadderStage
from builder.planning.work_pack import WorkPack
from builder.rendering.drawings.canvas import Anchor, Canvas, identifier, number
from builder.rendering.drawings.gain_links import gain_link, pad_link, set_link
from builder.rendering.drawings.lettering import fit, wrap
from builder.rendering.drawings.shapes import arrow_down, hatch
from builder.units import db_to_ratio, voltage_ratio_db

W = 360.0
LEFT, RIGHT = 14.0, 346.0
BAR = 11.0
STEP = 35.0  # one place with its bar
CLEAR = 3.5  # to each side of a tick inside a bar
LINK = 20.0  # the arrow to the next place


SPEAKER: Final[LadderStage] = "speaker"


class Alike(NamedTuple):
    """Speakers whose chains have the same figures, and that chain."""

    speakers: tuple[str, ...]
    chain: LevelChain
    rungs: tuple[LevelRung, ...]

    @property
    def name(self) -> str:
        """The speakers as a list."""
        return ", ".join(self.speakers)


class Place(NamedTuple):
    """One place of a chain. Volts RMS; None where there is no such limit."""

    name: str
    now_v: float | None
    least_v: float | None
    most_v: float | None
    most_name: str
    margin_db: float | None
    link: str  # what lies between the place before and this one


def alike(pack: WorkPack) -> list[Alike]:
    """Return the chains with equal figures together, in the order of their first speaker."""
    rungs = {gain.speaker: gain.rungs for gain in pack.gains}
    groups: dict[tuple[object, ...], list[LevelChain]] = {}
    for chain in pack.levels:
        figures = replace(chain, speaker="", channels=(), because="")
        groups.setdefault((figures, rungs.get(chain.speaker, ())), []).append(chain)
    return [
        Alike(tuple(chain.speaker for chain in mine), mine[0], rungs.get(mine[0].speaker, ()))
        for mine in groups.values()
    ]


def places(one: Alike, checks: Sequence[LevelCheck]) -> tuple[Place, ...]:
    """Return the car's output, converter in and out, amplifier input and speaker of a chain.

    `checks` are the input checks of the plan: they hold the radio's hard-clipped worst case.
    """
    chain = one.chain
    squares = [c.square_wave_v for c in checks if c.channel in chain.channels and c.square_wave_v]
    square = max(squares, default=None)
    units = [source_name(c.driven_by) for c in checks if c.channel in chain.channels]
    source = f"{units[0] if units else 'radio'}, loudest clean"
    first = Place(source, chain.source_v_rms, None, square, "hard clipped", None, "")
    if not one.rungs:
        return (first, *_unsettled(chain))
    return (first, *(_place_of(rung, chain) for rung in one.rungs))


def _place_of(rung: LevelRung, chain: LevelChain) -> Place:
    links: dict[LadderStage, str] = {
        "converter input": pad_link(chain),
        "converter output": gain_link(chain),
        SPEAKER: set_link(chain),
    }
    least = chain.amplifier_min_v_rms if rung.name == "amplifier input" else None
    gives = rung.name in ("converter output", SPEAKER)
    link = links.get(rung.name, "")
    return Place(
        rung.name, rung.v_rms, least, rung.max_v_rms, "can give" if gives else "takes",
        rung.margin_db, link,
    )  # fmt: skip


def _unsettled(chain: LevelChain) -> Iterator[Place]:
    """The places of a chain that nothing is set by yet: what they can give is not told."""
    takes = chain.source_v_rms * db_to_ratio(chain.converter_margin_db)
    yield _place_of(
        LevelRung("converter input", chain.source_v_rms, takes, chain.converter_margin_db), chain
    )
    line = chain.converter_target_v_rms
    if line is not None:
        yield Place("converter output", line, None, None, "", None, gain_link(chain))
        margin = voltage_ratio_db(chain.amplifier_max_v_rms, line)
        yield _place_of(
            LevelRung("amplifier input", line, chain.amplifier_max_v_rms, margin), chain
        )
    yield Place(SPEAKER, chain.set_v_rms, None, None, "", None, set_link(chain))


def gain_ladder(pack: WorkPack) -> Markup:
    """Return a figure with one drawing for each set of speakers alike; empty without levels."""
    if not pack.levels:
        return Markup("")
    drawn = [
        _drawing(one, places(one, pack.plan.levels), identifier("gain", pack.job, str(at)))
        for at, one in enumerate(alike(pack), 1)
    ]
    blocks = Markup("").join(drawn)
    return Markup('<div class="lb-blocks">%s</div>') % blocks


class _Scale:
    """Volts on a logarithmic scale, wide enough for every place."""

    def __init__(self, chain: tuple[Place, ...]) -> None:
        seen = [v for place in chain for v in (place.now_v, place.least_v, place.most_v)]
        volts = [v for v in seen if v and v > 0 and math.isfinite(v)] or [1.0]
        self.low = min(-1, math.floor(math.log10(min(volts))))
        self.high = max(1, math.ceil(math.log10(max(volts)) + 0.01))

    def x(self, volts: float) -> float:
        """Return the place of `volts`, held inside the scale."""
        decades = math.log10(volts) if volts > 0 and math.isfinite(volts) else self.low
        held = min(max(decades, self.low), self.high)
        return LEFT + (held - self.low) / (self.high - self.low) * (RIGHT - LEFT)


def _drawing(one: Alike, chain: tuple[Place, ...], key: str) -> Markup:
    canvas, scale = Canvas(), _Scale(chain)
    y = 16.0
    for line in wrap(one.name, W - 22, 14):
        canvas.text(8, y, line, 14, bold=True)
        y += 17
    y = _axis(canvas, scale, y)
    for place in chain:
        if place.link:
            arrow_down(canvas, LEFT + 6, y, y + LINK - 3)
            canvas.text(LEFT + 20, y + 14, *fit(place.link, RIGHT - LEFT - 24, 11))
            y += LINK
        _place(canvas, scale, place, y)
        y += STEP
    y = _tone(canvas, one.chain, y)
    desc = ". ".join(_said(place) for place in chain) + f". {_tone_words(one.chain)}"
    return canvas.svg((W, y), key, f"levels from radio to speaker: {one.name}", desc, "lb-block")


def _axis(canvas: Canvas, scale: _Scale, y: float) -> float:
    for decade in range(scale.low, scale.high + 1):
        x = scale.x(10.0**decade)
        ends: dict[int, Anchor] = {scale.low: "start", scale.high: "end"}
        anchor = ends.get(decade, "middle")
        canvas.text(x, y + 2, f"{10.0**decade:g} V", 10, anchor=anchor)
    return y + 8


def _place(canvas: Canvas, scale: _Scale, place: Place, top: float) -> None:
    limit = _limit_words(place)
    room = 186 if limit else RIGHT - LEFT
    canvas.text(LEFT, top + 12, *fit(f"{place.name} {_now(place)}", room, 12), bold=True)
    canvas.text(RIGHT, top + 12, *fit(limit, 142, 11), anchor="end")
    y = top + 19
    canvas.rect((LEFT, y, RIGHT - LEFT, BAR), "lb-grid")
    if place.now_v:
        _bar(
            canvas,
            scale.x(place.now_v),
            [scale.x(v) for v in (place.least_v, place.most_v) if v],
            y,
        )
    if place.least_v:
        _tick(canvas, scale.x(place.least_v), y, ' stroke-dasharray="3 2"')
    if place.most_v:
        _tick(canvas, scale.x(place.most_v), y, "")


def _bar(canvas: Canvas, end: float, ticks: Sequence[float], y: float) -> None:
    """Draw the bar up to `end`, left open where a tick stands in it: ink on ink shows nothing."""
    x = LEFT
    for tick in sorted(tick for tick in ticks if tick < end):
        canvas.add(hatch("solid", x, y, max(0.0, tick - CLEAR - x), BAR))
        x = tick + CLEAR
    canvas.add(hatch("solid", x, y, max(1.0, end - x), BAR))


def _tick(canvas: Canvas, x: float, y: float, extra: str) -> None:
    canvas.path(f"M{number(x)} {number(y - 3)}v{number(BAR + 6)}", "lb-limit", 2.5, extra)


def _now(place: Place) -> str:
    """What is there; what a speaker's gain is set to is never printed as more."""
    if place.now_v is None:
        return "not worked out"
    return _volts(place, place.now_v)


def _volts(place: Place, volts: float) -> str:
    return f"{at_most(volts, 'V') if place.name == SPEAKER else f'{volts:.3g}'} V"


def _limit_words(place: Place) -> str:
    if place.most_v is None:
        return ""
    least = "" if place.least_v is None else f"{place.least_v:g} to "
    margin = "" if place.margin_db is None else f", {margin_words(place.margin_db)}"
    return f"{place.most_name} {least}{_volts(place, place.most_v)}{margin}"


def margin_words(margin_db: float | None) -> str:
    """Return a margin with its sign: "+7.7 dB"."""
    if margin_db is None:
        return "–"
    said = shown(margin_db, 1, beside=0)
    return f"{'' if said.startswith('-') else '+'}{said} dB".replace("-", "−")


def _tone_words(chain: LevelChain) -> str:
    return f"{chain.tone_note[:1].upper()}{chain.tone_note[1:]}"


def _tone(canvas: Canvas, chain: LevelChain, y: float) -> float:
    y += 12
    for at, line in enumerate(wrap(_tone_words(chain), RIGHT - LEFT, 12)):
        canvas.text(LEFT, y + 16 * at, line, 12, bold=True)
        bottom = y + 16 * at
    return bottom + 8


def _said(place: Place) -> str:
    words = f"{place.name}: {_now(place)}"
    limit = _limit_words(place)
    return f"{words}, {limit}" if limit else words
