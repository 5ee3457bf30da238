"""A bay sheet as YAML, empty, to be filled by hand."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from typing import NamedTuple

from builder.model.job import JobCar
from builder.model.names import STATE_NAMES
from builder.model.words import State
from builder.planning.plan import ProofReading
from builder.planning.work_pack import BayTest
from builder.rendering.pages.bay_lines import bay_band
from builder.rendering.sheet_facts import STATE, also_asked, reading_facts

HEAD = (
    "What was read in the bay. Fill `session`, then each line that you read: put in the figures",
    "and take the # off. Leave the other lines as they are. Then: loombook evidence add THIS-FILE",
)

_WHERE_OPEN = "  # no figure, the meter shows open: passed: yes in place of value"


class SheetHead(NamedTuple):
    """What a sheet is of: ids of the records, the sum of their state, and the car if known."""

    title: str
    vehicle: str
    job: str | None
    converter: str | None
    record: str
    car: JobCar | None


def empty_sheet(head: SheetHead, tests: Sequence[BayTest], schema_ref: str) -> str:
    """Return the text of a sheet with one line for each test, each behind a #."""
    lines = [f"# yaml-language-server: $schema={schema_ref}", f"# Bay sheet: {head.title}."]
    lines += [f"# {line}" for line in HEAD]
    lines += ["", "schema: 1", *_ids(head), "", *_session(head.car), ""]
    lines += ["readings:", *_readings((t for t in tests if t.reading), by_state=not head.job)]
    if head.job:
        lines += ["", "results:", *_results(tests)]
    return "\n".join(lines) + "\n"


def _ids(head: SheetHead) -> Iterator[str]:
    for key in ("vehicle", "job", "converter"):
        if getattr(head, key):
            yield f"{key}: {getattr(head, key)}"
    if head.record:
        yield f'record: "{head.record}"'


def _session(car: JobCar | None) -> Iterator[str]:
    yield "session:"
    yield "  by:                        # your shop or handle, for example alder-pit-audio"
    yield "  date:                      # YYYY-MM-DD"
    yield f"  car: {{{_car(car)}}}  # tag: a random word for it; year, built, trim if known"
    yield "  method: meter              # meter | scope"
    yield "  read_from: moulded         # by the numbers of this sheet or on the housing; only if"
    yield "                             # you counted yourself: wire_side | mating_side | unknown"
    yield "  against: battery_negative  # battery_negative | body"
    yield "  # meter: {impedance_mohm: , true_rms: }"


def _car(car: JobCar | None) -> str:
    if car is None:
        return "tag: "
    known = {"tag": car.tag, "year": car.year, "built": car.built, "trim": car.trim}
    return ", ".join(f"{key}: {value}" for key, value in known.items() if value is not None)


def _readings(tests: Iterable[BayTest], *, by_state: bool) -> Iterator[str]:
    """The lines; of a car alone, which has no course of work, under the state that they share."""
    state: State | None = None
    for test in tests:
        if test.reading is not None:
            if by_state and test.reading.state != state:
                state = test.reading.state
                yield f"  # -- {STATE_NAMES[test.reading.state]} --"
            yield f"  # {test.number}: {test.what}"
            yield f"  # - {{{', '.join(_reading(test.reading))}}}"


def _reading(reading: ProofReading) -> Iterator[str]:
    for key, value in reading_facts(reading).items():
        yield f"{key}: {value}"
        if key == STATE:
            yield from (f"{also}: " for also in also_asked(reading) if also != "battery_v")
    yield "value: "
    if "battery_v" in also_asked(reading):
        yield "battery_v: "


def _results(tests: Iterable[BayTest]) -> Iterator[str]:
    """The lines that are no reading of a pin: one that is counts for its line as well."""
    for test in tests:
        if test.reading is not None:
            continue
        key = "passed: yes" if test.quantity == "check" else "value: "
        key += ", battery_v: " if test.band.moves else ""
        key += ", current_a: " if test.high_mohm is not None else ""
        yield f"  # {test.number}: {test.what} ({bay_band(test)})"
        is_open = test.quantity == "ohm" and test.band.high is None
        yield f"  # - {{test: {test.id}, {key}}}{_WHERE_OPEN if is_open else ''}"
