"""The health of the book: how far its pins are proved, how old, and what to measure next."""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Sequence
from dataclasses import fields
from typing import Final, NamedTuple

from markupsafe import Markup

from builder.model.house_defaults import HouseDefaults
from builder.model.names import function_name, short_function_name
from builder.model.words import FUNCTIONS, PAIRED, SUPPLIES, Function, GradeBand
from builder.planning.job.wanted_pins import WantedPin
from builder.proof.grading.grade import PROVEN
from builder.proof.house import house_note
from builder.rendering.drawings.health_bars import BAND_HATCH, Bar, bars
from builder.rendering.measure_next_text import what_to_measure, why_wanted
from builder.rendering.page import BuildInfo, Page
from builder.rendering.pages.wording import grade_mark, pin_anchor
from builder.rendering.templates import fill

URL = "health.html"
WANTED_SHOWN = 10
FIRST_SHOWN = 6
PLANNED: frozenset[Function] = SUPPLIES | PAIRED | {"ground", "amplifier_on"}
"""Functions that a plan rests on."""
AGES = ((1, "under 1 year"), (2, "1 to 2 years"), (5, "2 to 5 years"), (10, "5 to 10 years"))
OLDER, NEVER = "10 years or more", "never measured"


SHIPPED = HouseDefaults()
_FAR: Final = "far_factor"
GRADING = tuple(
    each.name
    for each in fields(HouseDefaults)
    if each.name.startswith(("weight_", "cap_")) or each.name == _FAR
)
"""The house defaults that every grade of a book is made with."""


class GradeCount(NamedTuple):
    """How many pins of one vehicle share function, grade and what would raise it.

    `room` is how far their scores lie under proven, added up.
    """

    function: Function
    band: GradeBand
    raise_by: str
    pins: int
    room: float


class Disputed(NamedTuple):
    """One disputed pin: "A.4", its function, and where its dispute stands on the page."""

    place: str
    function: str
    anchor: str


class Health(NamedTuple):
    """What one vehicle adds to the book's health; small, because there may be many.

    `measured` counts pins by the day of their newest reading, "" for none. `no_switched` says
    why no switched supply is good or proven, "" when one is.
    """

    id: str
    title: str
    grades: tuple[GradeCount, ...]
    measured: tuple[tuple[str, int], ...]
    disputed: tuple[Disputed, ...]
    no_switched: str
    wanted: tuple[WantedPin, ...] = ()  # pins worth measuring first, best first


class Wanted(NamedTuple):
    """A reading that would raise the grade of many pins."""

    what: str
    function: str
    short: str
    pins: int
    cars: int


class Row(NamedTuple):
    """One function's pins by grade, and all of them; `short` is its name in the drawing."""

    name: str
    short: str
    counts: tuple[int, ...]
    total: int


def health_page(
    healths: Sequence[Health], info: BuildInfo, defaults: HouseDefaults = SHIPPED
) -> Page:
    """Return the page; `info.as_of` is the day that ages are counted to."""
    rows = _rows(healths)
    ages, wanted = _ages(healths, info.as_of), _wanted(healths)
    body = fill(
        "health.html",
        bands=[(band, grade_mark(band)) for band in BAND_HATCH],
        rows=rows,
        total=_total(rows),
        bars=_grade_bars(rows),
        ages=ages,
        age_bars=_age_bars(ages),
        disputed=[one for one in healths if one.disputed],
        no_switched=[one for one in healths if one.no_switched],
        wanted=wanted,
        wanted_bars=_wanted_bars(wanted),
        first=_measured_first(healths),
        cars=len(healths),
        house=house_note(GRADING, defaults),
        info=info,
    )
    what = "How far the pins of this book are proved, how old the readings are, what is wanted."
    return Page(URL, "Health of the book", what, body)


def _rows(healths: Sequence[Health]) -> list[Row]:
    counted: Counter[tuple[Function, GradeBand]] = Counter()
    for one in healths:
        for grade in one.grades:
            counted[grade.function, grade.band] += grade.pins
    table = [
        Row(
            function_name(name),
            short_function_name(name),
            tuple(counted[name, band] for band in BAND_HATCH),
            0,
        )
        for name in FUNCTIONS
    ]
    return [row._replace(total=sum(row.counts)) for row in table if any(row.counts)]


def _total(rows: Sequence[Row]) -> Row:
    counts = tuple(sum(row.counts[i] for row in rows) for i in range(len(BAND_HATCH)))
    return Row("all pins", "", counts, sum(counts))


def _grade_bars(rows: Sequence[Row]) -> Markup:
    drawn = [
        Bar(row.short, tuple(zip(BAND_HATCH.values(), row.counts, strict=True))) for row in rows
    ]
    legend = [(pattern, band) for band, pattern in BAND_HATCH.items()]
    return bars(drawn, "grades", "Pins of this book, by function and grade", legend)


def _ages(healths: Sequence[Health], as_of: str) -> list[tuple[str, int]]:
    counted: Counter[str] = Counter()
    for one in healths:
        for day, pins in one.measured:
            counted[age_words(day, as_of)] += pins
    return [(age, counted[age]) for age in (*(words for _, words in AGES), OLDER, NEVER)]


def age_words(day: str, as_of: str) -> str:
    """How old a reading of `day` is at `as_of`, both YYYY-MM-DD; "" was never taken."""
    if not day:
        return NEVER
    for years, words in AGES:
        if day > f"{int(as_of[:4]) - years:04d}{as_of[4:]}":
            return words
    return OLDER


def _wanted(healths: Sequence[Health]) -> list[Wanted]:
    """The readings with most room above them: pins times how far each lies under proven.

    Only pins that a plan rests on: a shield that nobody measured stops no work.
    """
    room: defaultdict[tuple[str, Function], float] = defaultdict(float)
    pins: Counter[tuple[str, Function]] = Counter()
    cars: Counter[tuple[str, Function]] = Counter()
    for one in healths:
        waiting = [grade for grade in one.grades if grade.raise_by and grade.function in PLANNED]
        for grade in waiting:
            room[grade.raise_by, grade.function] += grade.room
            pins[grade.raise_by, grade.function] += grade.pins
        cars.update({(grade.raise_by, grade.function) for grade in waiting})
    ranked = sorted(room, key=lambda key: (-round(room[key], 6), -pins[key], key))
    return [
        Wanted(key[0], function_name(key[1]), short_function_name(key[1]), pins[key], cars[key])
        for key in ranked[:WANTED_SHOWN]
    ]


class First(NamedTuple):
    """A pin to measure first: its car, where it is, why, and what to measure."""

    car: str
    title: str
    anchor: str
    place: str
    function: str
    why: str
    measure: tuple[str, ...]


def _measured_first(healths: Sequence[Health]) -> list[First]:
    """The pins that open most plans for each minute of a visit, over all cars."""
    pins = sorted((pin for one in healths for pin in one.wanted), key=lambda pin: pin.rank)
    return [
        First(
            pin.vehicle,
            pin.title,
            pin_anchor(*pin.place.split(".")) if "." in pin.place else "",
            pin.place,
            function_name(pin.function),
            why_wanted(pin),
            what_to_measure(pin),
        )
        for pin in pins[:FIRST_SHOWN]
    ]


def _age_bars(ages: Sequence[tuple[str, int]]) -> Markup:
    drawn = [Bar(age, (("solid", pins),)) for age, pins in ages]
    return bars(drawn, "ages", "Pins of this book, by their newest reading", ())


def _wanted_bars(wanted: Sequence[Wanted]) -> Markup:
    drawn = [
        Bar(f"{at} {one.short}", (("solid", one.pins),)) for at, one in enumerate(wanted, start=1)
    ]
    return bars(drawn, "wanted", "Pins that wait for a reading, numbered as listed", ())


def room_of(score: float) -> float:
    """How far a score lies under proven."""
    return max(0.0, PROVEN - score)
