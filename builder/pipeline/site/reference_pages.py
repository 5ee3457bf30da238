"""The pages that are not a vehicle or a plan: home, lists, parts, rules, schema, and data files."""

from __future__ import annotations

import json
from collections import defaultdict
from collections.abc import Callable, Iterator, Mapping, Sequence
from functools import partial
from typing import Any, NamedTuple

from builder.data_files import schema_folder
from builder.finder.entries import Entry
from builder.model.house_defaults import HouseDefaults
from builder.model.parts import Interface
from builder.model.words import Function
from builder.pipeline.answers.answering import renamed_vehicles
from builder.pipeline.answers.explanations import every_explanation
from builder.pipeline.checking.book_check import CheckedBook
from builder.pipeline.site.finder_files import finder_files
from builder.pipeline.site.maker_pages import maker_pages, maker_scripts
from builder.planning.car.interface_fit import bus_plug
from builder.proof.signatures.of_pins import kinds
from builder.proof.signatures.page_table import table_for_page
from builder.rendering.page import BuildInfo, Page
from builder.rendering.pages.catalogue import (
    finding_page,
    findings_index,
    schema_index,
    schema_page,
)
from builder.rendering.pages.identify import DATA_URL, identify_page
from builder.rendering.pages.lists import home_page, parts_indexes, vehicles_index
from builder.rendering.pages.looms import loom_page
from builder.rendering.pages.parts import (
    Used,
    amplifier_page,
    cable_page,
    contributor_page,
    converter_page,
    housing_page,
    interface_page,
)
from builder.rendering.pages.prove import CARDS, prove_index, prove_page
from builder.rendering.script_data import script_json
from builder.schema_check.schemas import KINDS

PlansMade = Sequence[tuple[str, Used]]
"""Each plan page as (converter id, where it is)."""


def list_pages(checked: CheckedBook, info: BuildInfo) -> list[Page]:
    """Return home, the page for unknown wires, and the lists of makes and parts."""
    summaries = checked.summaries
    return [
        home_page(summaries, info, jobs=sum(bool(job.pack) for job in checked.jobs)),
        identify_page(kinds(checked.book.defaults).values(), checked.book.defaults, info),
        *maker_pages(info),
        vehicles_index(summaries, info),
        *parts_indexes(checked.shelf, info),
    ]


class PartPage(NamedTuple):
    """The page of one part: where the part is used, and what makes the page from that."""

    name: str
    used: list[Used]
    make: Callable[[BuildInfo], Page]


def part_pages(
    checked: CheckedBook, plans: PlansMade, jobs: Mapping[str, list[Used]]
) -> Iterator[PartPage]:
    """Yield the page of every part.

    `jobs` are the jobs that use an amplifier or cable, by the part's id.
    """

    def page(part: Any, used: list[Used], make: Callable[..., Page]) -> PartPage:
        return PartPage(
            f"{type(part).__name__} {part.id}", used, lambda info: make(part, used, info)
        )

    shelf, cars = checked.shelf, _cars_by_housing(checked)
    plans_by_converter: dict[str, list[Used]] = defaultdict(list)
    for converter_id, used in plans:
        plans_by_converter[converter_id].append(used)
    for housing in shelf.housings.values():
        yield page(housing, cars.get(housing.id, []), housing_page)
    for converter in shelf.converters.values():
        yield page(converter, plans_by_converter.get(converter.id, []), converter_page)
    for amplifier in shelf.amplifiers.values():
        yield page(amplifier, jobs.get(amplifier.id, []), amplifier_page)
    for cable in shelf.cables.values():
        yield page(cable, jobs.get(cable.id, []), cable_page)
    for loom in shelf.looms.values():
        yield page(loom, jobs.get(loom.id, []), partial(loom_page, housings=shelf.housings))
    for interface in shelf.interfaces.values():
        yield page(interface, list(_cars_that_fit(checked, interface)), interface_page)
    for contributor in shelf.contributors.values():
        yield page(contributor, _cars_measured(checked, contributor.id), contributor_page)


def _cars_by_housing(checked: CheckedBook) -> dict[str, list[Used]]:
    cars: dict[str, list[Used]] = defaultdict(list)
    for summary in checked.summaries:
        used = Used(f"vehicles/{summary.id}.html", summary.title)
        for housing in sorted({pin.housing for pin in summary.pins}):
            cars[housing].append(used)
    return cars


def _cars_measured(checked: CheckedBook, handle: str) -> list[Used]:
    return [
        Used(f"vehicles/{summary.id}.html", summary.title)
        for summary in checked.summaries
        if handle in summary.contributors
    ]


def _cars_that_fit(checked: CheckedBook, interface: Interface) -> Iterator[Used]:
    for summary in checked.summaries:
        wires = ((pin.plug, pin.housing, pin.function) for pin in summary.pins)
        if bus_plug(interface, wires) is not None:
            yield Used(f"vehicles/{summary.id}.html", summary.title)


def explanation_pages(info: BuildInfo) -> list[Page]:
    """Return a page for every finding id, and their list."""
    explained = every_explanation()
    return [findings_index(explained, info), *(finding_page(item, info) for item in explained)]


def schemas() -> dict[str, Any]:
    """The JSON Schemas by kind, and "defs"."""
    files = schema_folder().glob("*.schema.json")
    return {
        file.name.removesuffix(".schema.json"): json.loads(file.read_text("utf-8"))
        for file in sorted(files)
    }


def schema_pages(info: BuildInfo) -> list[Page]:
    """Return a page for every record kind, and their list."""
    found = schemas()
    defs: Mapping[str, Any] = found["defs"]
    pages = [schema_page(kind, found[kind], defs, info) for kind in KINDS]
    return [schema_index(KINDS, info), *pages]


def prove_pages(defaults: HouseDefaults, info: BuildInfo) -> list[Page]:
    """Return the card of every function of the signature table, and their list."""
    meanings: Mapping[Function, str] = schemas()["defs"]["$defs"]["function"]["wordMeanings"]
    cards = [prove_page(name, meanings[name], defaults, info) for name in CARDS]
    return [prove_index(meanings, info), *cards]


def script_files(checked: CheckedBook, entries: Sequence[Entry]) -> Iterator[tuple[str, bytes]]:
    """Yield the data that pages read, as scripts, so that they read it from a stick too."""
    renamed, shelf = renamed_vehicles(checked.book), checked.shelf
    yield from finder_files(entries, renamed, checked.book.defaults, shelf.housings.values())
    table = script_json(table_for_page(checked.book.defaults))
    yield DATA_URL, f"window.loombookIdentifyData={table};\n".encode()
    yield from maker_scripts(checked, schemas())
