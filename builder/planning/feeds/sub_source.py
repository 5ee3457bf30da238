"""Add a subwoofer: which pairs the converter listens to. Nothing comes back into the car."""

from __future__ import annotations

from dataclasses import dataclass

from builder.model.house_defaults import HouseDefaults
from builder.model.parts import Converter
from builder.model.sound import SpeakerChannel
from builder.model.vehicle import Vehicle
from builder.model.words import Channel
from builder.planning.car.pairs import Pair
from builder.planning.car.selection import Selection, number_taps
from builder.planning.car.sources import Sources
from builder.planning.feeds.sub_merits import (
    Shortcoming,
    is_doubtful,
    is_proved_sub,
    shortcomings,
    spoken_through,
)
from builder.planning.objections import object_to
from builder.planning.plan import Reason
from builder.planning.tables import (
    COMMON_PRACTICE,
    HOUSE_DEFAULT,
    PROJECT_CHOICE,
    SUB_SOURCE_HIGHPASS_MAX_HZ,
    SUB_SOURCE_LOWPASS_MIN_HZ,
    SUB_SOURCE_SWING_MAX_DB,
)
from builder.planning.trust import Trust

PURPOSE = "add a subwoofer"

_COUPLES: tuple[tuple[Channel, ...], ...] = (
    ("rear-left", "rear-right"),
    ("front-left", "front-right"),
    ("sub",),
    ("rear-left-woofer", "rear-right-woofer"),
    ("front-left-woofer", "front-right-woofer"),
    ("rear-left",),
    ("rear-right",),
    ("front-left",),
    ("front-right",),
    ("front-left-woofer",),
    ("front-right-woofer",),
)
"""Best first when nothing else tells them apart: the rear is nearer to most subwoofers."""

_WEIGHT: dict[Shortcoming, float] = {
    "swing": 10.0,
    "upmix": 6.0,
    "weak": 20.0,
    "partly_proved": 5.0,
    "band_unknown": 4.0,
}
"""Places in the order above that a shortcoming costs. Chosen by this project."""


@dataclass(frozen=True, slots=True)
class _Candidate:
    pairs: tuple[Pair, ...]
    doubtful: bool  # not proved enough even to listen to
    protected: bool  # the car speaks through it: a chime, the emergency call
    cost: float
    against: tuple[str, ...]
    refused: str | None

    @property
    def rank(self) -> tuple[bool, bool, bool, float]:
        """What can be planned first, then both sides, then what the car does not speak through."""
        one_sided = len(self.pairs) == 1 and not self.of_sub
        return (self.doubtful, one_sided, self.protected, self.cost)

    @property
    def of_sub(self) -> bool:
        return self.pairs[0].channel == "sub"

    @property
    def name(self) -> str:
        return " and ".join(pair.named for pair in self.pairs)


def choose_sub_source(
    vehicle: Vehicle, converter: Converter, sources: Sources, trust: Trust, defaults: HouseDefaults
) -> Selection:
    """Return the pairs to listen to for a subwoofer, or why there are none.

    A proved pair of the car's own subwoofer comes first. Pairs that the car speaks through
    (protected sounds, the emergency call) come last of those that are proved enough and carry both
    sides: half of the bass is lost for good, listening beside a pair takes nothing from it.
    """
    room = min(converter.inputs, converter.outputs if converter.sum != "any" else converter.inputs)
    candidates = [
        _judge(vehicle, converter, pairs, order, trust, defaults)
        for order, channels in enumerate(_COUPLES)
        if (pairs := _described(sources, channels)) and len(pairs) <= room
    ]
    fit = [candidate for candidate in candidates if candidate.refused is None]
    if not fit:
        return _none_fit(candidates)
    best = min(fit, key=lambda candidate: candidate.rank)
    return Selection(
        purpose=PURPOSE,
        taps=number_taps([((pair,), "addon") for pair in best.pairs]),
        reasons=_reasons(best, candidates),
        losses=_losses(best),
    )


def _described(sources: Sources, channels: tuple[Channel, ...]) -> tuple[Pair, ...]:
    pairs = tuple(sources.pairs[name] for name in channels if name in sources.pairs)
    return pairs if len(pairs) == len(channels) else ()


def _judge(
    vehicle: Vehicle,
    converter: Converter,
    pairs: tuple[Pair, ...],
    order: int,
    trust: Trust,
    defaults: HouseDefaults,
) -> _Candidate:
    against: list[str] = []
    cost = float(-1 if is_proved_sub(pairs, trust) else order)
    refused = next((why for pair in pairs if (why := holds_no_bass(pair))), None)
    swing = max(bass_swing_db(pair.carries) for pair in pairs) - correction_db(converter)
    if swing > SUB_SOURCE_SWING_MAX_DB or (swing > defaults.bass_swing_db and is_fixed(converter)):
        refused = (
            refused or f"bass falls {swing:.0f} dB as the volume goes up{fixed_words(converter)}"
        )
    elif swing > defaults.bass_swing_db:
        against.append(f"bass falls {swing:.0f} dB as the volume goes up")
        cost += _WEIGHT["swing"]
    for shortcoming, key in shortcomings(pairs, trust):
        against.append(shortcoming)
        cost += _WEIGHT[key]
    protected = spoken_through(vehicle, pairs)
    if protected:
        against.append(f"the car speaks through it: {', '.join(protected)}")
    return _Candidate(
        pairs, is_doubtful(pairs, trust), bool(protected), cost, tuple(against), refused
    )


def bass_swing_db(carries: SpeakerChannel | None) -> float:
    """Largest spread of the bass table of a pair at one frequency; 0 without a table. [dB]"""
    if carries is None:
        return 0.0
    by_hz: dict[float, list[float]] = {}
    for point in carries.bass_table:
        by_hz.setdefault(point.hz, []).append(point.db)
    return max((max(levels) - min(levels) for levels in by_hz.values()), default=0.0)


def correction_db(converter: Converter) -> float:
    """Return how much bass loss with volume a converter gives back. [dB]

    A fixed boost gives none of it back: right at one volume step, it is wrong at every other.
    """
    correction = converter.bass_rolloff_correction
    return correction.max_db if correction and correction.follows_level == "yes" else 0.0


def is_fixed(converter: Converter) -> bool:
    """Whether a converter's bass boost is the same at every volume."""
    correction = converter.bass_rolloff_correction
    return correction is not None and correction.follows_level == "no"


def fixed_words(converter: Converter) -> str:
    """Return why a fixed boost gives no loss with volume back, or "" where there is none."""
    if not is_fixed(converter):
        return ""
    return (
        f", and the boost of {converter.name} is fixed: right at one volume step, it would be as "
        "much too strong at a lower one. Take a converter whose correction follows the level, or "
        "another pair"
    )


def holds_no_bass(pair: Pair) -> str | None:
    """Return why a pair cannot feed a subwoofer, or None."""
    carries = pair.carries
    if carries is None:
        return None
    if carries.band == "high" or (carries.highpass_hz or 0) > SUB_SOURCE_HIGHPASS_MAX_HZ:
        return f"{pair.named} carries no bass"
    narrow = carries.lowpass_hz is not None and carries.lowpass_hz < SUB_SOURCE_LOWPASS_MIN_HZ
    if narrow and pair.channel != "sub":
        return f"{pair.named} ends at {carries.lowpass_hz:g} Hz"
    return None


def _none_fit(candidates: list[_Candidate]) -> Selection:
    because = "; ".join(f"{c.name}: {c.refused}" for c in candidates) or "no pair is described"
    objection = object_to("no pair can feed a subwoofer", because, PROJECT_CHOICE)
    return Selection(purpose=PURPOSE, objections=(objection,))


def _reasons(best: _Candidate, candidates: list[_Candidate]) -> tuple[Reason, ...]:
    decision = f"listen to {best.name}; the speakers keep playing from the car"
    because = _why_best(best)
    reasons = [Reason(decision, because, COMMON_PRACTICE)]
    passed_over = [c for c in candidates if c is not best and (c.against or c.refused)]
    passed_over = [c for c in passed_over if len(c.pairs) >= len(best.pairs) or c.of_sub]
    if passed_over:
        why = "; ".join(f"{c.name}: {c.refused or ', '.join(c.against)}" for c in passed_over)
        reasons.append(Reason("passed over", why, HOUSE_DEFAULT))
    return tuple(reasons)


def _why_best(best: _Candidate) -> str:
    first = best.pairs[0].channel
    if first == "sub":
        said = "the car's own subwoofer pair already carries the bass"
    elif "woofer" in first:
        said = "a band-limited pair, but it reaches above the subwoofer's range"
    else:
        said = "full-range pairs with bass on them; the rear is preferred, then the front"
    return said + (f". Against it: {', '.join(best.against)}" if best.against else "")


def _losses(best: _Candidate) -> tuple[str, ...]:
    first = best.pairs[0].channel
    if first == "sub":
        return ()
    end = "rear" if first.startswith("rear") else "front"
    losses = [f"The subwoofer follows the fader with the {end} speakers."]
    if len(best.pairs) == 1:
        losses.append("Bass that is only on the other side is lost.")
    losses += [f"For the subwoofer: {word}." for word in best.against if "bass falls" in word]
    return tuple(losses)
