"""What differs between two editions of a record, a plan or a work pack, one fact at a time."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from typing import Any, Literal, NamedTuple

from builder.model.names import function_name
from builder.model.plugs import Condition, Pin, Reading
from builder.model.vehicle import Vehicle
from builder.model.words import BATTERY_NEGATIVE
from builder.proof.pin_proof import PinProof, Proofs
from builder.proof.wording import reading_words
from builder.rendering.drawings.wire_colours import wire_words
from builder.rendering.pages.old_notes import old_note_words
from builder.rendering.pages.pins import claim_words


class Change(NamedTuple):
    """One fact that changed. `old` or `new` is None where there was or is nothing."""

    place: str  # "A.4", "power.charging_a", "input 1 positive"
    what: str  # "function", "grade" ...; "" when the place says it
    old: str | None
    new: str | None

    @property
    def words(self) -> str:
        """The change as one line."""
        name = f"{self.place} {self.what}".strip()
        if self.old is None:
            return f"{name} added: {self.new}"
        if self.new is None:
            return f"{name} gone: {self.old}"
        return f"{name}: {self.old} → {self.new}"


class Graded(NamedTuple):
    """A vehicle, its record as typed, and what its pins are worth."""

    vehicle: Vehicle
    data: Mapping[str, Any]
    proofs: Proofs


def vehicle_changes(old: Graded, new: Graded) -> Iterator[Change]:
    """Yield what changed on a vehicle: first its pins, then everything else in the record."""
    before, after = _pins(old.vehicle), _pins(new.vehicle)
    for place in _both(before, after):
        yield from _pin(place, before.get(place), after.get(place), old.proofs, new.proofs)
    yield from data_changes(_without_pins(old.data), _without_pins(new.data))


def _pins(vehicle: Vehicle) -> dict[str, Pin]:
    return {f"{plug.id}.{pin.cavity}": pin for plug in vehicle.plugs for pin in plug.pins}


def _both(before: Mapping[str, Any], after: Mapping[str, Any]) -> list[str]:
    return list(dict.fromkeys([*before, *after]))


def _pin(
    place: str, old: Pin | None, new: Pin | None, before: Proofs, after: Proofs
) -> Iterator[Change]:
    if old is None or new is None:
        words = [_pin_words(pin) if pin else None for pin in (old, new)]
        yield Change(place, "", *words)
        return
    facts_before, facts_after = _pin_facts(old), _pin_facts(new)
    for what, said in facts_before.items():
        if said != facts_after[what]:
            yield Change(place, what, said, facts_after[what])
    yield from _readings(place, old.readings, new.readings)
    yield from _counted(place, "claim", map(claim_words, old.claims), map(claim_words, new.claims))
    notes = [map(old_note_words, pin.old_notes) for pin in (old, new)]
    yield from _counted(place, "old note", *notes)
    grades = [_grade_words(before[old.path]), _grade_words(after[new.path])]
    if grades[0] != grades[1]:
        yield Change(place, "grade", *grades)


def _pin_words(pin: Pin) -> str:
    facts = _pin_facts(pin)
    return ", ".join(word for word in (facts["function"], facts["wire"]) if word)


PinFact = Literal[
    "function", "wire", "wire size", "fuse", "most current", "level", "holds for", "note"
]
"""What is compared of a pin, as it is printed."""


def _pin_facts(pin: Pin) -> dict[PinFact, str]:
    wire, fuse = pin.wire, pin.fuse
    size = (f"{wire.size_mm2:g} mm²" if wire.size_mm2 else wire.size_awg or "") if wire else ""
    rating = "unknown" if fuse is None or fuse.rating_a is None else f"{fuse.rating_a:g} A"
    role = (function_name(pin.function), pin.channel or "", pin.leg or "")
    return {
        "function": " ".join(word for word in role if word),
        "wire": wire_words(wire),
        "wire size": size or "not recorded",
        "fuse": f"{fuse.place}, {rating}" if fuse else "none recorded",
        "most current": _figure(pin.max_source_ma, "mA"),
        "level": _figure(pin.level_v, "V"),
        "holds for": _condition_words(pin.only_if) if pin.only_if else "the whole record",
        "note": pin.note or "none",
    }


def _condition_words(condition: Condition) -> str:
    """The part of a scope in words."""
    parts = (
        ("trims", condition.trims),
        ("with one of", condition.options_any),
        ("without", condition.options_none),
    )
    return "; ".join(f"{name} {', '.join(words)}" for name, words in parts if words)


def _figure(value: float | None, unit: str) -> str:
    return "not recorded" if value is None else f"{value:g} {unit}"


def _grade_words(proof: PinProof) -> str:
    return f"{proof.band} {proof.shown}"


def _readings(place: str, old: Sequence[Reading], new: Sequence[Reading]) -> Iterator[Change]:
    yield from _counted(place, "reading", map(_reading, old), map(_reading, new))


def _reading(reading: Reading) -> str:
    extra = [
        f"against {reading.against}" if reading.against != BATTERY_NEGATIVE else "",
        f"volume step {reading.volume_step}" if reading.volume_step is not None else "",
        f"{reading.tone_hz:g} Hz" if reading.tone_hz is not None else "",
        f"for {reading.lasts_s:g} s" if reading.lasts_s is not None else "",
        f"from {reading.from_v:g} V" if reading.from_v is not None else "",
        reading.note or "",
        f"battery {reading.battery_v:g} V" if reading.battery_v is not None else "",
        f"visit {reading.session}",
    ]
    return ", ".join([reading_words(reading), *(word for word in extra if word)])


def _counted(place: str, what: str, old: Iterator[str], new: Iterator[str]) -> Iterator[Change]:
    """Yield what came and went of two heaps in which order says nothing."""
    before, after = Counter(old), Counter(new)
    for words in (before - after).elements():
        yield Change(place, what, words, None)
    for words in (after - before).elements():
        yield Change(place, what, None, words)


def _without_pins(data: Mapping[str, Any]) -> dict[str, Any]:
    plugs = [{key: plug[key] for key in plug if key != "pins"} for plug in data.get("plugs", ())]
    return {**data, "plugs": plugs}


def data_changes(old: Mapping[str, Any], new: Mapping[str, Any]) -> Iterator[Change]:
    """Yield every value that differs between two records as typed, by its place."""
    before, after = dict(_flat(old, "")), dict(_flat(new, ""))
    for place in _both(before, after):
        if before.get(place) != after.get(place):
            yield Change(place, "", before.get(place), after.get(place))


_NAMING = ("id", "name", "channel", "position", "sound", "question", "rule", "test")
"""Keys that tell the entries of a list apart, so that a new one does not shift the rest."""


def _flat(value: Any, place: str) -> Iterator[tuple[str, str]]:
    if isinstance(value, Mapping):
        for key, inner in value.items():
            yield from _flat(inner, f"{place}.{key}" if place else str(key))
    elif isinstance(value, list) and any(isinstance(inner, Mapping | list) for inner in value):
        for name, inner in _named(value):
            yield from _flat(inner, f"{place}[{name}]")
    else:
        listed = isinstance(value, list)
        yield place, (", ".join(map(str, value)) or "none") if listed else str(value)


def _named(entries: Sequence[Any]) -> Iterator[tuple[str, Any]]:
    seen: Counter[str] = Counter()
    for number, entry in enumerate(entries, start=1):
        keys = [key for key in _NAMING if isinstance(entry, Mapping) and key in entry]
        name = str(entry[keys[0]]) if keys else str(number)
        seen[name] += 1
        yield name if seen[name] == 1 else f"{name} #{seen[name]}", entry
