"""A part that has a plan refused shows why on its own page: the key, by its label, as it is said.

Each row spoils one key of a part of a shipped job, or of a converter in a shipped car. A new
refusal that comes from a part's record needs a row: the code is read for them.
"""

from __future__ import annotations

import ast
import copy
import html
import re
from collections.abc import Iterator
from dataclasses import replace
from typing import Any, NamedTuple

import pytest
from pack_jobs import BOOK, CONVERTERS, HOUSE, SHIPPED, VEHICLES, shipped_parts
from shipped_book import ROOT

from builder.declaring import Field, fields_of, read
from builder.loading import load_file
from builder.model.kinds import PARTS
from builder.model.parts import Converter
from builder.model.words import RecordKind
from builder.planning.feeds.tap_plan import make_plan
from builder.planning.job.make_pack import make_pack
from builder.planning.plan import Reason
from builder.planning.work_pack import JobParts
from builder.rendering.page import BuildInfo
from builder.rendering.pages.declared_facts import shown
from builder.rendering.pages.parts import amplifier_page, cable_page, converter_page
from builder.rendering.pages.wording import plain
from builder.schema_check.schemas import validator

INFO = BuildInfo("loombook", "0.1.0", "2025-05-02")
PAGES = {"converter": converter_page, "amplifier": amplifier_page, "cable": cable_page}


class Row(NamedTuple):
    """A key with a value that has the job refused, the refusal, and what its sentence names."""

    kind: RecordKind
    key: str
    value: Any
    job: str
    decision: str
    names: str


ROWS = (
    Row("converter", "inputs", 1, "cutter-fronts", "too few inputs", "has 1"),
    Row("converter", "outputs", 1, "cutter-fronts", "too few outputs", "has 1"),
    Row("converter", "input.type", "ground_referenced", "leto-four-doors", "never join these",
        "the negative input of CVN-4A is ground"),
    Row("converter", "input.max_v_rms", 0.5, "tansy-subwoofer", "the input would be overdriven",
        "the 0.5 V RMS that the input takes"),
    Row("converter", "input.after_sum_max_v_rms", 0.5, "rook-two-amplifiers", "the sum would clip",
        "the 0.5 V it takes after the sum"),
    Row("converter", "input.common_mode_max_v", 1, "ullin-split-fronts",
        "the input does not stand the bias", "the 1 V the input allows"),
    Row("converter", "sum", "none", "ullin-split-fronts", "the pairs cannot be joined",
        "adds no such inputs together"),
    Row("converter", "remote_out.max_ma", 1, "leto-four-doors",
        "turn-on output of CVN-4A is asked for too much", "it gives 1 mA"),
    Row("converter", "remote_out", "none", "lovage-mid-subwoofer",
        "nothing switches the amplifier on", "CVN-2A wakes by itself and has no turn-on output"),
    Row("amplifier", "class", "AB", "rook-two-amplifiers",
        "supply of distribution block: fuse above ceiling", "200 A"),
    Row("amplifier", "efficiency", 0.05, "leto-four-doors", "supply of door amp: no fuse fits",
        "348.3 A"),
    Row("amplifier", "channels.0.count", 1, "leto-four-doors", "no such amplifier channel",
        "door amp has 1 channels"),
    Row("amplifier", "channels.0.min_ohm", 32, "tansy-subwoofer", "the load is too low",
        "may drive 32 Ω at least"),
    Row("amplifier", "channels.0.bridged.min_ohm", 32, "tansy-two-coils", "the load is too low",
        "on channel 1+2 of sub amp, which may drive 32 Ω at least"),
    Row("amplifier", "channels.0.bridgeable", "unknown", "tansy-two-coils",
        "the channels cannot be bridged", "does not say that they can be"),
    Row("amplifier", "supply.fuse_a", 1000, "leto-four-doors", "supply of door amp: no fuse fits",
        "1000.0 A"),
    Row("amplifier", "turn_on.draw_ma", 5000, "leto-four-doors",
        "turn-on output of CVN-4A is asked for too much", "5000 mA"),
    Row("cable", "use", "power", "tansy-subwoofer", "turn-on: no conductor fits",
        "the stock has none of the kind"),
)  # fmt: skip


def spoilt_record(kind: RecordKind, name: str, key: str, value: Any) -> dict[str, Any]:
    data = copy.deepcopy(load_file(BOOK / f"{kind}s" / f"{name}.yaml", name).data)
    assert data is not None
    place: Any = data
    *steps, last = (int(step) if step.isdigit() else step for step in key.split("."))
    for step in steps:
        place = place[step]
    place[last] = value
    return data


def spoilt_parts(row: Row) -> Iterator[tuple[JobParts, Any]]:
    """The job with each of its parts of that kind spoilt, and that part."""
    parts = shipped_parts(row.job)
    parts = replace(parts, job=replace(parts.job, pad="none"))
    standing = {"converter": [parts.converter], "amplifier": list(parts.amplifiers.values())}
    for part in dict.fromkeys(standing.get(row.kind, parts.cables)):
        data = spoilt_record(row.kind, part.id, row.key, row.value)
        if not validator(row.kind).is_valid(data):
            continue  # a cable of one pair cannot be what another can
        new: Any = read(PARTS[row.kind], data)
        fitted = {
            name: new if row.kind == "amplifier" and one == part else one
            for name, one in parts.amplifiers.items()
        }
        cables = tuple(new if one == part else one for one in parts.cables)
        converter = new if row.kind == "converter" else parts.converter
        yield replace(parts, converter=converter, amplifiers=fitted, cables=cables), new


def refusals_of(row: Row) -> list[tuple[Reason, Any]]:
    return [
        (refusal, part)
        for parts, part in spoilt_parts(row)
        for refusal in make_pack(parts, defaults=HOUSE, would_do=lambda _: False).refusals
        if refusal.decision == row.decision
    ]


def keys_to(cls: type, key: str) -> list[Field]:
    """The declared keys on the way to one, which is named by keys and places in lists."""
    first, _, rest = key.partition(".")
    each = next(one for one in fields_of(cls) if one.key == first)
    rest = rest.removeprefix("0.") if each.item else rest
    return [each, *(keys_to(each.inner, rest) if rest and each.inner else [])]


@pytest.mark.parametrize("row", ROWS, ids=lambda row: f"{row.kind}-{row.key}")
def test_what_a_part_is_refused_for_stands_on_its_page(row: Row) -> None:
    found = refusals_of(row)
    assert found, row.decision
    refusal, part = found[0]
    assert row.names in refusal.because
    on_its_page(row, part)


def on_its_page(row: Row, part: Any) -> None:
    *around, each = keys_to(PARTS[row.kind], row.key)
    label = next(one.spec.label for one in (each, *reversed(around)) if one.spec.label)
    text = plain(html.unescape(re.sub(r"<[^>]*>", " ", PAGES[row.kind](part, [], INFO).body_html)))
    nothing = each.inner is not None and row.value in each.spec.means
    assert shown(each, None if nothing else row.value) in text
    assert plain(label) in text


@pytest.mark.parametrize("row", ROWS, ids=lambda row: f"{row.kind}-{row.key}")
def test_the_same_job_with_the_part_as_it_is_has_no_such_refusal(row: Row) -> None:
    pack = make_pack(shipped_parts(row.job), defaults=HOUSE, would_do=lambda _: False)
    assert row.decision not in {refusal.decision for refusal in pack.refusals}


IN_A_CAR = (
    Row("converter", "input.after_sum_max_v_rms", 0.5, "torvane-rook-2016-pickup",
        "the subwoofer sum would clip", "the 0.5 V it takes after the sum"),
    Row("converter", "sum", "none", "veldane-ullin-2021-premium", "the bands cannot be joined",
        "CVN-6S summing adds no inputs together"),
)  # fmt: skip
"""The same of a car and a converter without a job."""


@pytest.mark.parametrize("row", IN_A_CAR, ids=lambda row: row.decision)
def test_what_a_converter_is_refused_for_in_a_car_stands_on_its_page(row: Row) -> None:
    part = read(Converter, spoilt_record("converter", "cvn-6s", row.key, row.value))
    refusals = refusals_in(row.job, part)
    assert row.names in refusals[row.decision]
    assert row.decision not in refusals_in(row.job, CONVERTERS["cvn-6s"])
    on_its_page(row, part)


def refusals_in(car: str, part: Converter) -> dict[str, str]:
    plan = make_plan(VEHICLES[car], part, defaults=HOUSE, treatment="intercept")
    return {refusal.decision: refusal.because for refusal in plan.refusals}


OF_A_PART = {"DEVICE_RECORD", "AMPLIFIER_RECORD"}
WRITTEN_OTHERWISE = {
    "the sum would clip",
    "turn-on output of CVN-4A is asked for too much",
}
"""Decisions that are put together where they are made an objection."""


def test_every_refusal_that_comes_from_the_record_of_a_part_has_a_row() -> None:
    told = {row.decision for row in (*ROWS, *IN_A_CAR)}
    calls = [
        node
        for path in (ROOT / "builder" / "planning").rglob("*.py")
        for node in ast.walk(ast.parse(path.read_text("utf-8")))
        if isinstance(node, ast.Call) and getattr(node.func, "id", "") == "object_to"
    ]
    of_parts = [
        call
        for call in calls
        if OF_A_PART & {getattr(name, "id", "") for name in ast.walk(call.args[2])}
    ]
    decisions = [getattr(call.args[0], "value", None) for call in of_parts]
    assert {one for one in decisions if isinstance(one, str)} | WRITTEN_OTHERWISE <= told
    assert sum(not isinstance(one, str) for one in decisions) == len(WRITTEN_OTHERWISE)
    assert len(of_parts) >= 12
    assert {row.job for row in ROWS} <= set(SHIPPED)
