"""`identify`: readings on one unknown wire in, ranked kinds of pin and the next measurement out."""

from __future__ import annotations

import math
from collections.abc import Collection, Iterable, Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from builder.book import shown_path
from builder.findings import Finding
from builder.loading import load_file
from builder.model.house_defaults import HouseDefaults
from builder.model.plugs import Reading
from builder.model.words import Function
from builder.parsing import parse_readings
from builder.parsing.reading_figures import ReadingTextError, Slip
from builder.parsing.reading_text import Given, read_reading
from builder.proof.house import house_note, house_words
from builder.proof.identify.candidates import Candidate
from builder.proof.identify.naming import Identification, identify
from builder.proof.identify.next_test import Proposal
from builder.proof.identify.raising import Raising
from builder.proof.identify.splitting import Measurement
from builder.proof.measuring_safety import safety_of
from builder.proof.wording import reading_words
from builder.schema_check import check_shape


class ReadingsRefusedError(Exception):
    """Lines that are no readings; `slips` holds (line text, its place from 1, what is wrong)."""

    def __init__(self, slips: Sequence[tuple[str, int, Slip]]) -> None:
        super().__init__("; ".join(slip.message for _, _, slip in slips))
        self.slips = tuple(slips)


def readings_of_texts(texts: Iterable[str], battery_v: float | None) -> tuple[Reading, ...]:
    """Return the readings that lines state; `battery_v` [V] stands in where a line names none.

    Raises:
        ReadingsRefusedError: some line is no reading; all slips are in it.
    """
    readings, slips = [], []
    for place, text in enumerate(texts, start=1):
        try:
            readings.append(read_reading(text, Given(battery_v)))
        except ReadingTextError as error:
            slips.append((text, place, error.slip))
    if slips:
        raise ReadingsRefusedError(slips)
    return tuple(readings)


def readings_of_file(path: Path) -> tuple[tuple[Reading, ...], list[Finding]]:
    """Return the readings of a YAML file, or what is wrong with it at its lines and columns."""
    shown = shown_path(path)
    loaded = load_file(path, shown)
    if loaded.data is None:
        return (), loaded.findings
    findings = loaded.findings + check_shape("readings", loaded.data, loaded.source_map, shown)
    if findings:
        return (), findings
    return parse_readings(loaded.data["readings"], ("readings",)), []


@dataclass(frozen=True, slots=True)
class Identified:
    """The readings of one wire and what they say of it."""

    readings: tuple[Reading, ...]
    found: Identification
    defaults: HouseDefaults

    @property
    def house(self) -> str:
        """The note of the house defaults that acted on the answer."""
        return house_note(self.found.house, self.defaults)

    def as_data(self) -> dict[str, Any]:
        """The answer as plain data: functions best first, each by its best kind."""
        return {
            "decided": self.found.decided,
            "verdict": self.found.verdict,
            "fits_best": list(self.found.tie),
            "not_ruled_out": list(self.found.open_functions),
            "readings": [_reading_data(reading) for reading in self.readings],
            "functions": [_candidate_data(best) for best in best_kinds(self.found)],
            "one_wrong_reading": [
                {"reading": slip.reading + 1, "frees": list(slip.frees)}
                for slip in self.found.slips
            ],
            "next": _proposal_data(self.found.next),
            "prove": _raising_data(self.found.raising),
            "house_defaults": list(house_words(self.found.house, self.defaults)),
        }


def identified(
    readings: Sequence[Reading], defaults: HouseDefaults, skip: Collection[Measurement] = ()
) -> Identified:
    """Rank every kind of pin by the readings. No load is ever proposed on an unknown wire."""
    return Identified(tuple(readings), identify(readings, defaults, skip=skip), defaults)


def best_kinds(found: Identification) -> Iterator[Candidate]:
    """Yield the best kind of each function, best first."""
    seen: set[Function] = set()
    for candidate in found.candidates:
        if candidate.function not in seen:
            seen.add(candidate.function)
            yield candidate


def _candidate_data(candidate: Candidate) -> dict[str, Any]:
    return {
        "function": candidate.function,
        "kind": candidate.kind.id,
        "name": candidate.kind.name,
        "met": list(candidate.met),
        "contradicted": list(candidate.contradicted),
        "not_informative": list(candidate.silent),
        "untested": candidate.untested,
        "note": candidate.kind.note,
    }


def _proposal_data(proposal: Proposal | None) -> dict[str, Any] | None:
    if proposal is None:
        return None
    return {
        **proposal.measurement._asdict(),
        "instruction": proposal.measurement.words,
        "expect": proposal.sentence,
        "expected_remaining": proposal.remaining,
        "safety": safety_line(proposal.measurement),
    }


def _raising_data(raising: Raising | None) -> dict[str, Any] | None:
    if raising is None:
        return None
    measurement = raising.measurement
    return {
        "measurement": measurement._asdict() if measurement else None,
        "instruction": measurement.words if measurement else "",
        "expect": raising.expect,
        "mind": raising.mind,
        "also": list(raising.also),
        "why": raising.why,
    }


def safety_line(measurement: Measurement) -> str:
    """What to mind in a measurement of an unknown wire."""
    return safety_of(measurement.state, measurement.quantity, measurement.against)


def _reading_data(reading: Reading) -> dict[str, Any]:
    value = "open" if reading.value is None or math.isinf(reading.value) else reading.value
    return {
        "state": reading.state,
        "quantity": reading.quantity,
        "value": value,
        "against": reading.against,
        "load": reading.load,
        "battery_v": reading.battery_v,
        "minutes": reading.minutes,
        "in_words": reading_words(reading),
    }
