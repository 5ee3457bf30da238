"""The levels of a job drawn from radio to speaker: volts now, volts at most, margin in dB.

Every speaker has four places, on one logarithmic scale of volts. Speakers whose figures are
alike share one drawing.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace
from typing import NamedTuple

from markupsafe import Markup

from builder.planning.plan import LevelCheck
from builder.planning.work_pack import LevelChain, WorkPack
from builder.rendering.drawings.canvas import Canvas, identifier, number
from builder.rendering.drawings.lettering import fit, wrap
from builder.rendering.drawings.shapes import arrow_down, hatch

W = 360.0
LEFT, RIGHT = 14.0, 346.0
BAR = 11.0
STEP = 40.0  # one place with its bar
LINK = 24.0  # the arrow to the next place


class Alike(NamedTuple):
    """Speakers whose chains have the same figures, and that chain."""

    speakers: tuple[str, ...]
    chain: LevelChain

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
    link: str  # what lies between the place before and this one

    @property
    def margin_db(self) -> float | None:
        """How far the limit is above what is there now; negative when it is passed."""
        if not self.now_v or not self.most_v or self.now_v < 0 or self.most_v < 0:
            return None
        return 20 * math.log10(self.most_v / self.now_v)


def alike(levels: Sequence[LevelChain]) -> list[Alike]:
    """Return the chains with equal figures together, in the order of their first speaker."""
    groups: dict[LevelChain, list[str]] = {}
    for chain in levels:
        figures = replace(chain, speaker="", channels=(), because="")
        groups.setdefault(figures, []).append(chain.speaker)
    first = {chain.speaker: chain for chain in reversed(levels)}
    return [Alike(tuple(names), first[names[0]]) for names in groups.values()]


def places(chain: LevelChain, checks: Sequence[LevelCheck]) -> tuple[Place, ...]:
    """Return radio, converter input, amplifier input and speaker of a chain.

    `checks` are the input checks of the plan: they hold the converter's limit and the radio's
    hard-clipped worst case. Without one for this chain the limit follows from the margin.
    """
    mine = [check for check in checks if check.channel in chain.channels]
    limit = min((check.converter_max_v_rms for check in mine), default=None)
    ratio = 10 ** (min(max(chain.converter_margin_db, -200), 200) / 20)
    at_input = chain.source_v_rms if limit is None else limit / ratio
    square = max((check.square_wave_v or 0 for check in mine), default=0) or None
    return (
        Place("radio, loudest clean", chain.source_v_rms, None, square, "hard clipped", ""),
        Place("converter input", at_input, None, limit or at_input * ratio, "takes", _pad(chain)),
        Place(
            "amplifier input",
            chain.converter_target_v_rms,
            chain.amplifier_min_v_rms,
            chain.amplifier_max_v_rms,
            "takes",
            _gain(chain),
        ),
        Place("speaker", chain.set_v_rms, None, chain.set_v_rms, "never beyond", _set(chain)),
    )


def _pad(chain: LevelChain) -> str:
    if not chain.pad_ohm_per_leg:
        return "straight in, no pad"
    return f"pad: {chain.pad_ohm_per_leg:g} Ω in each leg"


def _gain(chain: LevelChain) -> str:
    if chain.converter_gain is None:
        return "gain not worked out"
    kind = (
        f"fixed gain {chain.converter_gain:.3g}"
        if chain.gain_min == chain.gain_max
        else f"gain {chain.converter_gain:.3g} of {chain.gain_min:g} to {chain.gain_max:g}"
    )
    return f"{chain.sources_summed} sources summed, {kind}" if chain.sources_summed > 1 else kind


def _set(chain: LevelChain) -> str:
    return f"amplifier gain set by meter: {chain.set_w:.3g} W, limited by the {chain.limited_by}"


def gain_ladder(pack: WorkPack) -> Markup:
    """Return a figure with one drawing for each set of speakers alike; empty without levels."""
    if not pack.levels:
        return Markup("")
    drawn = [
        _drawing(one, places(one.chain, pack.plan.levels), identifier("gain", pack.job, str(at)))
        for at, one in enumerate(alike(pack.levels), 1)
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
            arrow_down(canvas, LEFT + 6, y, y + LINK - 4)
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
        anchor = {scale.low: "start", scale.high: "end"}.get(decade, "middle")
        canvas.text(x, y + 2, f"{10.0**decade:g} V", 10, anchor=anchor)
    return y + 8


def _place(canvas: Canvas, scale: _Scale, place: Place, top: float) -> None:
    canvas.text(LEFT, top + 12, *fit(f"{place.name} {_volts(place.now_v)}", 186, 12), bold=True)
    canvas.text(RIGHT, top + 12, *fit(_limit_words(place), 142, 11), anchor="end")
    y = top + 19
    canvas.rect((LEFT, y, RIGHT - LEFT, BAR), "lb-grid")
    if place.now_v:
        canvas.add(hatch("solid", LEFT, y, max(1.0, scale.x(place.now_v) - LEFT), BAR))
    if place.least_v:
        _tick(canvas, scale.x(place.least_v), y, ' stroke-dasharray="3 2"')
    if place.most_v:
        _tick(canvas, scale.x(place.most_v), y, "")


def _tick(canvas: Canvas, x: float, y: float, extra: str) -> None:
    canvas.path(f"M{number(x)} {number(y - 3)}v{number(BAR + 6)}", "lb-limit", 2.5, extra)


def _volts(volts: float | None) -> str:
    return "not worked out" if volts is None else f"{volts:.3g} V"


def _limit_words(place: Place) -> str:
    if place.most_v is None:
        return ""
    least = "" if place.least_v is None else f"{place.least_v:g} to "
    limit = f"{place.most_name} {least}{_volts(place.most_v)}"
    shown = place.margin_db is not None and place.most_name == "takes"
    return f"{limit}, {margin_words(place.margin_db)}" if shown else limit


def margin_words(margin_db: float | None) -> str:
    """Return a margin with its sign: "+7.7 dB"."""
    return "–" if margin_db is None else f"{margin_db:+.1f} dB".replace("-", "−")


def _tone_words(chain: LevelChain) -> str:
    return f"Tone {chain.tone_hz} Hz: meter reads {chain.tone_v_rms:.1f} V. {chain.tone_note}"


def _tone(canvas: Canvas, chain: LevelChain, y: float) -> float:
    y += 12
    for at, line in enumerate(wrap(_tone_words(chain), RIGHT - LEFT, 12)):
        canvas.text(LEFT, y + 16 * at, line, 12, bold=at == 0)
        bottom = y + 16 * at
    return bottom + 8


def _said(place: Place) -> str:
    words = f"{place.name}: {_volts(place.now_v)}"
    limit = _limit_words(place)
    return f"{words}, {limit}" if limit else words
