"""A piece cut shorter than its way.

What it catches
---------------
A line of the cut list that is shorter than the route plus 10 % and 0.3 m at each end (house
defaults), or a new lead shorter than the measured way to its speaker.

Why it matters in the bay
-------------------------
It ends a hand's breadth before the plug, and a joint is put where there must be none.

Example
-------
Fails::

    routes: [{from: amp 1, to: sub, carries: speaker, length_m: 3.5, zones: []}]
    speakers: [{name: sub, lead: {length_m: 2.6}}]

Passes::

    routes: [{from: amp 1, to: sub, carries: speaker, length_m: 3.5, zones: []}]
    speakers: [{name: sub, lead: {length_m: 4.5}}]

How to mend it
--------------
Cut it again from the route; use the short piece elsewhere.

Source
------
Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.figures import shown
from builder.findings import Fault, Severity
from builder.model.house_defaults import HouseDefaults
from builder.model.job import Job
from builder.planning.cables.cut_lengths import cut_length_m
from builder.planning.work_pack import JobParts, WorkPack
from builder.rules.rule import Scope, rule


def check(pack: WorkPack, parts: JobParts) -> Iterator[Fault]:
    """Yield each short piece of the cut list, and each lead shorter than its measured way."""
    yield from _pieces(pack, parts.shelf.defaults)
    yield from _leads(parts.job)


def _pieces(pack: WorkPack, defaults: HouseDefaults) -> Iterator[Fault]:
    for row in pack.cut_list:
        if row.route_m is None:
            continue
        least = cut_length_m(row.route_m, defaults)
        if row.cut_m < least:
            yield Fault(
                ("routes",),
                f"{row.name} is cut to {shown(row.cut_m, beside=least)} m for a way of "
                f"{shown(row.route_m)} m (at least {shown(least)} m)",
                "cut it longer",
            )


def _leads(job: Job) -> Iterator[Fault]:
    ways = {each.to_place: each.length_m for each in job.routes if each.carries == "speaker"}
    for speaker in job.speakers:
        way = ways.get(speaker.name)
        if speaker.lead is not None and way is not None and speaker.lead.length_m < way:
            length = shown(speaker.lead.length_m, beside=way)
            yield Fault(
                (*speaker.path, "lead", "length_m"),
                f"the lead to {speaker.name} is {length} m and the way is {shown(way)} m: it does "
                "not reach",
                "make the lead longer than the way",
            )


RULE = rule("CAB109", Severity.FIX, Scope.JOB, check)
