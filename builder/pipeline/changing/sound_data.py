"""What a recording was read to say, as a visit's record has it: rounded, thinned, with reasons."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from math import ceil, floor, log10
from typing import Any, Final

from builder.model.recorded_sound import CrossoverWay, Plays
from builder.model.words import Channel, MadeBy, RecordedOn
from builder.sound.crossovers import Crossover
from builder.sound.filters import Way
from builder.sound.levels import MOST_COMPRESSION_DB, MOST_DISTORTION, StepLevels
from builder.sound.pairs import PairsFacts, Standing
from builder.sound.reading import PairFacts, SoundFacts
from builder.sound.results import Measured, Refused, Result
from builder.units import Hertz

_PLAYS: Final[dict[Standing, Plays]] = {
    "alike": "alike",
    "part of the first": "part_of_first",
    "above the first": "above_first",
    "apart": "apart",
}
_WAYS: Final[dict[Way, CrossoverWay]] = {"high-pass": "high_pass", "low-pass": "low_pass"}
_DIGITS, _ERROR_DIGITS = 5, 2
_LONGEST_REASON = 300


@dataclass(frozen=True, slots=True)
class RecordingSaid:
    """What a person says of a recording, and what its file is.

    `channels` are the pairs by channel of the recorder, `volume_steps` the numbers that the radio
    showed at the track's steps, in their order.
    """

    session: str
    file: str
    sha256: str
    made_by: MadeBy
    freed: bool
    channels: tuple[tuple[Channel, RecordedOn], ...]
    meter_v_rms: tuple[float | None, ...]
    volume_steps: tuple[int, ...]
    at_volume_step: int | None
    set_to: str
    lead: Mapping[str, Any]


def recording_data(facts: SoundFacts, said: RecordingSaid) -> dict[str, Any]:
    """Return a recording as plain data of a visit."""
    names = [name for name, _ in said.channels]
    data: dict[str, Any] = {
        "session": said.session,
        "file": said.file,
        "sha256": said.sha256,
        "made_by": said.made_by,
        "method": "sweep_freed" if said.freed else "sweep",
        "clock_ppm": _figure(facts.clock_ppm),
    }
    data |= {} if said.at_volume_step is None else {"at_volume_step": said.at_volume_step}
    data |= {"set_to": said.set_to} if said.set_to else {}
    data["lead"] = dict(said.lead)
    data["pairs"] = [_pair(each, said) for each in facts.pairs]
    if facts.between:
        data["between"] = [_two(each, names) for each in facts.between]
    return data


def _pair(pair: PairFacts, said: RecordingSaid) -> dict[str, Any]:
    at = pair.channel - 1
    channel, recorded_on = said.channels[at]
    results: dict[str, Result] = {
        "level_v_rms": pair.level_v_rms,
        "noise_v_rms": pair.noise_v_rms,
        "lower_edge_hz": pair.lower_edge_hz,
        "upper_edge_hz": pair.upper_edge_hz,
    }
    data: dict[str, Any] = {"channel": channel, "recorded_on": recorded_on}
    meter = said.meter_v_rms[at]
    data |= {} if meter is None else {"meter_v_rms": meter}
    data |= _told(results)
    data |= _clean(pair, said.volume_steps)
    data["volume_steps"] = [_step(each, said.volume_steps) for each in pair.steps]
    data["bass_by_step"] = [
        {"volume_step": said.volume_steps[step - 1], "db": _rounded(told.value, 3)}
        | {"plus_minus": _error(told.plus_minus)}
        for step, told in pair.bass_db
        if isinstance(told, Measured)
    ]
    data["shape"] = _curve(pair.shape)
    muted = [f"muted: {name}" for name in pair.muted]
    reasons = [*_reasons({**results, "clean_step": pair.clean_step}), *muted]
    return _without_empty(data | {"not_told": reasons})


def _clean(pair: PairFacts, steps: Sequence[int]) -> dict[str, Any]:
    """The loudest clean step, and whether the next one is known not to be clean."""
    found = pair.clean_step
    if isinstance(found, Refused) or not found.value:
        return {}
    at = round(found.value)
    louder = [each for each in pair.steps if each.step == at + 1]
    bent = "yes" if any(_is_bent(each) for each in louder) else "no"
    return {"clean_step": steps[at - 1], "louder_is_not_clean": bent}


def _is_bent(step: StepLevels) -> bool:
    bent, missing = step.distortion, step.compressed_db
    return (isinstance(bent, Measured) and bent.value > MOST_DISTORTION) or (
        isinstance(missing, Measured) and missing.value > MOST_COMPRESSION_DB
    )


def _step(step: StepLevels, steps: Sequence[int]) -> dict[str, Any]:
    data: dict[str, Any] = {"volume_step": steps[step.step - 1], "hz": _rounded(step.hz, 5)}
    if isinstance(step.loud_v_rms, Measured):
        data["loud_v_rms"] = _rounded(step.loud_v_rms.value, 4)
        data["loud_plus_minus_v"] = _error(step.loud_v_rms.plus_minus)
    if isinstance(step.compressed_db, Measured):
        data["missing_db"] = round(step.compressed_db.value, 2) + 0.0
    if isinstance(step.distortion, Measured):
        data["distortion_percent"] = round(100 * step.distortion.value, 3)
    return data


def _two(two: PairsFacts, names: Sequence[Channel]) -> dict[str, Any]:
    first, second = names[two.first - 1], names[two.second - 1]
    relation = two.relation
    data: dict[str, Any] = {"first": first, "second": second, "plays": _PLAYS[two.standing]}
    data |= _told({"late_ms": relation.late_ms})
    if isinstance(relation.inverted, bool):
        data["polarity"] = "inverted" if relation.inverted else "same"
    if isinstance(relation.all_pass_hz, Measured) and isinstance(relation.all_pass_order, int):
        turned = second if relation.turns_second else first
        data["all_pass"] = {"order": relation.all_pass_order, "in_pair": turned}
        data["all_pass"] |= {"corner_hz": _figure(relation.all_pass_hz)}
        data["all_pass"] |= _told({"q": relation.all_pass_q})
    data["crossovers"] = [_crossover(each) for each in two.crossovers]
    data |= _told({"meet_hz": two.equal_hz})
    data["sum"] = _curve(two.sum_db)
    if not isinstance(two.in_step, Refused):
        data["in_step"] = _curve(two.in_step.lost_db)
        data["in_step_turned"] = "yes" if two.in_step.turned else "no"
    data["group_delay"] = _curve(two.group_delay_ms, "ms", 3)
    inverted, order = relation.inverted, relation.all_pass_order
    why: dict[str, Any] = {"late_ms": relation.late_ms, "polarity": inverted, "all_pass": order}
    return _without_empty(data | {"not_told": [*_reasons(why)]})


def _crossover(half: Crossover) -> dict[str, Any]:
    data: dict[str, Any] = {"way": _WAYS[half.way], **_told({"corner_hz": half.corner_hz})}
    if isinstance(half.slope_db, Measured):
        data["slope_db_per_octave"] = half.slope_db.value
    return data | ({"type": half.kind} if isinstance(half.kind, str) else {})


def _told(results: Mapping[str, Result]) -> dict[str, Any]:
    return {key: _figure(each) for key, each in results.items() if isinstance(each, Measured)}


def _reasons(results: Mapping[str, Any]) -> Iterator[str]:
    for key, each in results.items():
        if isinstance(each, Refused):
            yield f"{key}: {each.reason}"[:_LONGEST_REASON]


def _figure(told: Measured) -> dict[str, float]:
    return {"value": _rounded(told.value, _DIGITS), "plus_minus": _error(told.plus_minus)}


def _curve(
    points: Iterable[tuple[Hertz, Result]], key: str = "db", places: int = 1
) -> list[dict[str, float]]:
    return [
        {"hz": _rounded(hz, 4), key: round(each.value, places) + 0.0}
        for hz, each in points
        if isinstance(each, Measured)
    ]


def _rounded(value: float, digits: int) -> float:
    """A figure with so many digits; 12.0 is 12."""
    if not value:
        return 0
    told = round(value, digits - 1 - floor(log10(abs(value))))
    return int(told) if float(told).is_integer() else told


def _error(value: float) -> float:
    """What a figure may be wrong by, rounded up."""
    if not value:
        return 0
    unit = 10.0 ** (floor(log10(value)) + 1 - _ERROR_DIGITS)
    return _rounded(ceil(value / unit) * unit, _ERROR_DIGITS + 1)


def _without_empty(data: Mapping[str, Any]) -> dict[str, Any]:
    return {key: value for key, value in data.items() if value != []}
