"""Lists: home, makes, vehicles, parts. Plain lists answer with scripts switched off."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping, Sequence
from types import MappingProxyType
from typing import NamedTuple

from builder.finder.entries import Entry as Car
from builder.model.book import Shelf
from builder.model.summary import VehicleSummary
from builder.rendering.find_pages import FINDER_SCRIPTS
from builder.rendering.page import BuildInfo, Page
from builder.rendering.pages.short_answers import ShortAnswer, short_answers
from builder.rendering.pages.wording import anchor, url_name
from builder.rendering.templates import fill


class Entry(NamedTuple):
    """One line of a list: a link relative to the site's root, its name and a remark.

    `answers` are what a reader without scripts came for; only vehicles have them.
    """

    url: str
    name: str
    remark: str
    answers: tuple[ShortAnswer, ...] = ()


Answers = Mapping[str, tuple[ShortAnswer, ...]]
"""What to print under each vehicle, by its id."""


class ModelGroup(NamedTuple):
    """The records of one model."""

    name: str
    anchor: str
    years: str
    records: Sequence[VehicleSummary]
    answers: Answers

    @property
    def entries(self) -> tuple[Entry, ...]:
        """A line for each record, oldest first; most lists name models alone."""
        ordered = sorted(self.records, key=lambda r: (r.scope.year_from, r.scope.year_to, r.id))
        return tuple(self._entry(record) for record in ordered)

    def _entry(self, record: VehicleSummary) -> Entry:
        return Entry(
            f"vehicles/{record.id}.html",
            f"{_years(record.scope.year_from, record.scope.year_to)}, {record.variant}",
            f"{len(record.pins)} pins",
            self.answers.get(record.id, ()),
        )


class MakeGroup(NamedTuple):
    """One make with its models."""

    name: str
    url: str
    records: int
    models: tuple[ModelGroup, ...]


def make_groups(
    summaries: Sequence[VehicleSummary], answers: Answers = MappingProxyType({})
) -> tuple[MakeGroup, ...]:
    """Return the vehicles by make and model, each in the order of the alphabet."""
    makes: defaultdict[str, defaultdict[str, list[VehicleSummary]]] = defaultdict(
        lambda: defaultdict(list)
    )
    for summary in summaries:
        makes[summary.make][summary.model].append(summary)
    return tuple(
        MakeGroup(
            make,
            f"makes/{url_name(make)}.html",
            sum(len(records) for records in models.values()),
            tuple(_model(model, records, answers) for model, records in sorted(models.items())),
        )
        for make, models in sorted(makes.items())
    )


def _model(name: str, records: list[VehicleSummary], answers: Answers) -> ModelGroup:
    first = min(record.scope.year_from for record in records)
    last = max(record.scope.year_to for record in records)
    years = _years(first, last)
    return ModelGroup(name, anchor("model", url_name(name)), years, records, answers)


def _years(first: int, last: int) -> str:
    return str(first) if first == last else f"{first}–{last}"


def home_page(summaries: Sequence[VehicleSummary], info: BuildInfo, jobs: int = 0) -> Page:
    """Return the home page: the finder, then makes and models.

    `jobs` is how many jobs the book holds; their list is linked when there are any.
    """
    groups = make_groups(summaries)
    body = fill("home.html", makes=groups, info=info, jobs=jobs, example=_example(summaries))
    return Page(
        "index.html",
        "Find a car, find a pin",
        "Which cavity is switched, which is constant, and who measured it: find your car.",
        body,
        scripts=FINDER_SCRIPTS,
    )


def _example(summaries: Sequence[VehicleSummary]) -> str:
    """A car to ask for, as one would type it: the newest of the book."""
    newest = max(summaries, key=lambda s: (s.scope.year_from, s.id), default=None)
    return f"{newest.model} {newest.scope.year_from}".lower() if newest else "model 2018"


def make_pages(
    summaries: Sequence[VehicleSummary], info: BuildInfo, cars: Sequence[Car] = ()
) -> list[Page]:
    """Return one page a make, with its models, years and variants.

    `cars` are the finder's entries: from them each vehicle's constant, switched and ground are
    printed, so that the page answers by itself.
    """
    answers = {car.id: short_answers(car) for car in cars}
    return [
        Page(
            make.url,
            make.name,
            f"{make.name}: {make.records} vehicle records by model and year.",
            fill("make.html", make=make, info=info),
        )
        for make in make_groups(summaries, answers)
    ]


def vehicles_index(summaries: Sequence[VehicleSummary], info: BuildInfo) -> Page:
    """Return the list of makes and models; the records stand on the pages of the makes."""
    body = fill("vehicles.html", makes=make_groups(summaries), count=len(summaries), info=info)
    return Page(
        "vehicles/index.html", "Vehicles", "Every vehicle of this book, by make and model.", body
    )


_PARTS = (
    ("converters", "Converters", "Speaker level in, line level out."),
    ("amplifiers", "Amplifiers", "What they give, take and fuse."),
    ("cables", "Cables", "What is on the shelf, pair by pair."),
    ("looms", "Looms", "What goes between a plug and its unit, wire by wire."),
    ("interfaces", "Interfaces", "What reads the car's bus and can be switched from."),
    ("housings", "Housings", "Plug housings, drawn from both sides."),
    ("contributors", "Contributors", "Who measured, by their handles."),
)


def parts_indexes(shelf: Shelf, info: BuildInfo) -> list[Page]:
    """Return the list of part kinds and one list a kind."""
    kinds = [
        Entry(f"{folder}/index.html", name, f"{what} {len(getattr(shelf, folder))} records.")
        for folder, name, what in _PARTS
    ]
    pages = [index_page("parts/index.html", "Parts", "What the plans reckon with.", kinds, info)]
    for folder, name, what in _PARTS:
        entries = [
            Entry(f"{folder}/{part.id}.html", part.name, getattr(part, "maker", None) or "")
            for part in sorted(getattr(shelf, folder).values(), key=lambda part: part.name)
        ]
        pages.append(index_page(f"{folder}/index.html", name, what, entries, info))
    return pages


def index_page(url: str, title: str, intro: str, entries: Sequence[Entry], info: BuildInfo) -> Page:
    """Return a page that is one list; it stands one folder deep."""
    body = fill("index.html", title=title, intro=intro, entries=entries, info=info)
    return Page(url, title, f"{title}. {intro}", body)
