"""One page of each kind that the site of the shipped book has."""

from __future__ import annotations

TANSY = "ostrel-tansy-2017-hatch-base"
VEHICLE = f"vehicles/{TANSY}.html"
PLAN = f"plans/{TANSY}--cvn-2a.html"
JOB = "jobs/tansy-subwoofer.html"
PAGES = (
    "index.html",
    "identify.html",
    "record-maker.html",
    "health.html",
    "not-saved.html",
    "404.html",
    VEHICLE,
    "vehicles/index.html",
    "plans/index.html",
    "measure/index.html",
    "more/index.html",
    PLAN,
    JOB,
    "jobs/index.html",
    "recalls/index.html",
    "comebacks/tansy-subwoofer.html",
    "makes/ostrel.html",
    "parts/index.html",
    "housings/two-row-20-latch-top.html",
    "housings/index.html",
    "converters/cvn-2a.html",
    "amplifiers/amn-3.html",
    "cables/five-core-18.html",
    "looms/sedge-fronts-out.html",
    "interfaces/ok-7n.html",
    "contributors/alder-pit-audio.html",
    "prove/index.html",
    "prove/constant.html",
    "rules/index.html",
    "rules/PIN101.html",
    "schema/index.html",
    "schema/vehicle.html",
    "handbook/index.html",
    "handbook/numbers.html",
    "handbook/offline.html",
    "handbook/publish.html",
    "data/index.html",
)

FINISHED = "jobs/tansy-subwoofer-finished.html"
SHEETS = (
    *(f"{FINISHED}#{sheet}" for sheet in (
        "tap", "parts", "levels", "power", "cables", "tests", "steps", "because", "revert",
        "as_built", "customer",
    )),
    "jobs/sedge-fronts.html#loom",
)  # fmt: skip
"""Each sheet of a job at its own address, where it alone is shown."""
OTHERWISE = (
    "plans/cindral-osier-2018--cvn-2a.html",
    "plans/cindral-osier-2018--cvn-4a.html",
    "jobs/ullin-split-fronts.html",
    "index.html#ask=tansy cvn-2a switched",
)
"""Pages that look otherwise for what they say: a probe plan, no plan, a job that is not to be built
yet, and the field with its answers."""
STATES = (*SHEETS, *OTHERWISE)
