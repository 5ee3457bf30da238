"""The pages behind the site's five places: plans, what measures, and all else."""

from __future__ import annotations

from collections.abc import Sequence

from builder.model.summary import VehicleSummary
from builder.rendering.page import BuildInfo, Page
from builder.rendering.pages.lists import Entry, index_page, make_groups
from builder.rendering.pages.recall_list import RECALLS_URL
from builder.rendering.templates import fill

PLANS_URL = "plans/index.html"
MEASURE_URL = "measure/index.html"
MORE_URL = "more/index.html"

_MEASURE = (
    Entry("identify.html", "What is this wire?", "name it by its readings"),
    Entry("prove/index.html", "Prove a pin", "one card for each function"),
    Entry("health.html", "What to measure next", "the readings this book waits for"),
    Entry("handbook/prove-a-pin.html", "How a pin is proved", "states of the car, battery, load"),
    Entry("record-maker.html", "Take down a car", "on the phone, without a signal"),
)
_MORE = (
    Entry("vehicles/index.html", "Vehicles", "by make and model"),
    Entry("parts/index.html", "Parts", "converters, amplifiers, cables, looms, housings"),
    Entry("handbook/add-your-car.html", "Add a car", "the ways in, from phone to table"),
    Entry("handbook/index.html", "Handbook", "the course of a job, proofs, drawings, numbers"),
    Entry("handbook/cautions.html", "Cautions", "restraints, battery, high voltage, drilling"),
    Entry("rules/index.html", "Rules", "every finding: what it means, what to type"),
    Entry("health.html", "How good this book is", "grades, age, disputes"),
    Entry(RECALLS_URL, "Recall list", "jobs that the book speaks against since"),
    Entry("contributors/index.html", "Contributors", "who measured"),
    Entry("schema/index.html", "Records, field by field", "what each file may say"),
    Entry("data/index.html", "Open data", "tables and JSON, and their terms"),
    Entry("handbook/offline.html", "Without a signal", "what this phone keeps"),
)


def section_pages(summaries: Sequence[VehicleSummary], info: BuildInfo) -> list[Page]:
    """Return the lists of plans, of ways to measure, and of all else."""
    return [
        plans_index(summaries, info),
        index_page(
            MEASURE_URL, "Measure", "Which wire is it, and what settles it.", _MEASURE, info
        ),
        index_page(MORE_URL, "More", "All else in this book.", _MORE, info),
    ]


def plans_index(summaries: Sequence[VehicleSummary], info: BuildInfo) -> Page:
    """Return the way from a make and model to the plans of its cars."""
    body = fill("plans.html", makes=make_groups(summaries), info=info)
    return Page(PLANS_URL, "Plans", "Which pins feed a converter: choose the car.", body)
