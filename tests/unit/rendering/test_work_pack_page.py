"""What the pages and the text of a job must show."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace
from html.parser import HTMLParser
from typing import Any

import pytest
from pack_samples import bay, job, job_parts, sample_pack
from page_samples import INFO, Tags, hostile

from builder.findings import Finding, Severity
from builder.model.job import Result
from builder.planning.pack_details import HoldUpPart
from builder.planning.plan import ProofReading, Reason
from builder.planning.work_pack import JobParts, WorkPack
from builder.rendering.pack_text import pack_text
from builder.rendering.pages.bay_lines import bay_band
from builder.rendering.pages.cautions import cautions_of
from builder.rendering.pages.job_sheets import sheets_of
from builder.rendering.pages.job_tests import bay_groups
from builder.rendering.pages.jobs_list import job_entry, jobs_index
from builder.rendering.pages.work_pack import work_pack_page

DIGEST = "0a1b2c3d"
WHOLE = [
    *("cover", "parts", "tap", "levels", "power", "cables", "tests", "steps"),
    *("because", "revert", "customer"),
]


@pytest.fixture(scope="module")
def parts() -> JobParts:
    return job_parts()


@pytest.fixture(scope="module")
def pack(parts: JobParts) -> WorkPack:
    return sample_pack(parts)


def shown(pack: WorkPack, parts: JobParts, findings: Sequence[Finding] = ()) -> str:
    return work_pack_page(pack, parts, findings, INFO, DIGEST).body_html


@pytest.fixture(scope="module")
def document(pack: WorkPack, parts: JobParts) -> str:
    return shown(pack, parts)


def sheets(document: str) -> dict[str, str]:
    """Each sheet's own HTML by its id."""
    parts = re.split(r'(?=<section class="(?:sheet |after))', document)[1:-1]
    return {re.findall(r'id="(\w+)"', part)[0]: part for part in parts}


def said(document: str, sheet: str) -> str:
    return Tags(sheets(document)[sheet]).text


def test_a_tap_plan_has_every_sheet_in_the_order_of_the_work(document: str) -> None:
    assert list(sheets(document)) == WHOLE
    letters = re.findall(r'<span class="letter">(\w)</span>', document)
    assert letters == list("JBCDEFGKHI")


def test_every_sheet_can_be_carried_alone(document: str, parts: JobParts) -> None:
    for at, (name, sheet) in enumerate(sheets(document).items()):
        assert f"letter-{'ajbcdefgkhi'[at]}" in sheet.split(">", 1)[0]
        if name != "cover":
            assert f"job {parts.job.id}, sum {DIGEST}" in Tags(sheet).text, name
        assert parts.job.title.lower() in Tags(sheet).text.lower(), name
        assert "invented data" in Tags(sheet).text.lower(), name


def test_the_foot_on_paper_names_the_job_and_the_state_it_was_made_from(
    pack: WorkPack, parts: JobParts
) -> None:
    page = work_pack_page(pack, parts, (), INFO, DIGEST)
    assert page.foot == f"job {parts.job.id} · sum {DIGEST} · invented"


def test_dangers_stand_on_every_sheet_that_somebody_works_from(
    document: str, pack: WorkPack, parts: JobParts
) -> None:
    dangers = [c for c in cautions_of(parts.vehicle, parts.job, pack.steps) if c.weight == "danger"]
    assert dangers
    for name in ("cover", "tap", "power", "cables", "tests", "steps", "revert"):
        for caution in dangers:
            assert caution.title in said(document, name), name
            assert caution.text in said(document, name), name
    for caution in cautions_of(parts.vehicle, parts.job, pack.steps):
        assert caution.text in said(document, "cover")
    assert "Danger" not in said(document, "customer")


def test_paper_points_to_the_cover_and_says_dangers_whole_where_hands_are(
    pack: WorkPack, parts: JobParts
) -> None:
    """The bay sheet says them for the steps too, which follow it in the same columns."""
    cautions = cautions_of(parts.vehicle, parts.job, pack.steps)
    for sheet in sheets_of(pack, cautions):
        pointed = set(sheet.on_cover)
        assert pointed <= set(cautions)
        if sheet.id == "revert":
            assert not pointed and sheet.cautions
        if sheet.id in ("tests", "steps"):
            assert sheet.in_columns
            assert {one.weight for one in sheet.cautions} == {"care", "danger"}
        if sheet.id == "tests":
            whole = set(sheet.cautions) - pointed
            assert {one.weight for one in pointed} == {"care"}
        if sheet.id == "steps":
            dangers = {one for one in sheet.cautions if one.weight == "danger"}
            assert pointed & dangers == whole & dangers and dangers


@pytest.mark.parametrize("kind", ["probe_plan", "no_plan"])
def test_nothing_to_build_from_is_shown_while_it_may_not_be_built(
    pack: WorkPack, parts: JobParts, kind: str
) -> None:
    reason = Reason("turn-on not proved", "nobody read A.7 asleep", "the vehicle's record")
    refused = replace(pack, kind=kind, refusals=(reason,))
    document = shown(refused, parts)
    names = list(sheets(document))
    assert not {"cables", "revert", "customer", "parts"} & set(names)
    assert names[:2] == ["cover", "tests"]
    assert ("power" in names) == (kind == "probe_plan")
    banner = Tags(re.findall(r'<div class="banner.*?</div>', document, re.S)[0]).text
    assert banner.startswith({"probe_plan": "Probe plan.", "no_plan": "No plan."}[kind])
    assert "turn-on not proved. nobody read A.7 asleep" in banner
    assert "What would have to change" in said(document, "cover")
    for change in pack.alternatives:
        assert change.because in said(document, "cover")
    assert "Measure first" in said(document, "tests")


def test_a_refused_pack_without_tests_asks_for_the_proofs_of_its_plan(
    pack: WorkPack, parts: JobParts
) -> None:
    (group,) = bay_groups(replace(pack, tests=()), ())
    assert len(group.lines) == len(pack.plan.tests) > 4


def test_the_cover_says_who_wanted_what_and_what_is_lost(
    document: str, pack: WorkPack, parts: JobParts
) -> None:
    cover = said(document, "cover")
    for word in (parts.job.wanted, parts.job.car.tag, *parts.job.protect, *pack.losses):
        assert word in cover
    for told in parts.job.car.answers:
        assert f"{told.question} {told.answer}" in cover
    for amplifier in parts.amplifiers.values():
        assert amplifier.name in cover


def test_findings_are_on_the_cover_with_what_to_do(pack: WorkPack, parts: JobParts) -> None:
    open_one = Finding("f", 1, 1, Severity.WARN, "PWR105", "s", "short at idle", "a larger one")
    accepted = replace(open_one, rule_id="CAB101", message="loose", accepted="told him")
    document = shown(pack, parts, [open_one, accepted])
    assert "short at idle To do: a larger one" in said(document, "cover")
    assert "loose Accepted: told him" in said(document, "cover")
    assert 'href="../rules/PWR105.html"' in document
    assert "No finding is open" in said(shown(pack, parts), "cover")


def test_every_pin_with_its_wire_and_treatment_is_on_the_tap_sheet(
    document: str, pack: WorkPack
) -> None:
    tap = said(document, "tap")
    assert pack.plan.feeds
    for feed in pack.plan.feeds:
        assert f"{feed.plug}.{feed.cavity} {feed.wire}" in tap.replace(
            f"{feed.wire} {feed.wire}", feed.wire
        )
    for reason in pack.treatments:
        pair, _, treatment = reason.decision.partition(": ")
        assert re.search(rf"{pair}[^:]*: {treatment}", tap)
    assert "A.7 switches CVN-4A: 8 mA of 250 mA, 3 %" in tap
    assert "Insulate, each end on its own" in tap


def test_the_hold_up_capacitor_is_said_where_there_is_one(pack: WorkPack, parts: JobParts) -> None:
    part = HoldUpPart(4091.0, 4700.0, 47.0, 0.5, 12.1, 9.5, 0.25)
    tap = said(shown(replace(pack, hold_up=part), parts), "tap")
    assert "4700 µF (4091 µF needed) hold the turn-on for 0.5 s, from 12.1 V down to 9.5 V" in tap


def test_gains_are_set_in_volts_with_a_box_for_what_was_reached(
    document: str, pack: WorkPack
) -> None:
    sheet = sheets(document)["levels"]
    table = re.findall(r'<table class="cards settings".*?</table>', sheet, re.S)[0]
    assert table.count('class="box"') == len(pack.levels)
    for level in pack.levels:
        assert level.speaker in Tags(table).text
    assert "14.1 V RMS (50 W, limited by the speaker)" in Tags(table).text


def test_supply_runs_show_the_next_thicker_conductor(document: str) -> None:
    power = said(document, "power")
    for word in ("8 AWG copper", "40 A", "0.371 V", "6 AWG copper: 0.251 V", "2.4 h", "38 days"):
        assert word in power


def test_every_conductor_spare_and_cut_is_on_the_cable_sheet(
    document: str, pack: WorkPack, parts: JobParts
) -> None:
    cables = said(document, "cables")
    for row in pack.conductors:
        assert row.purpose in cables
    assert cables.count("spare: insulate at both ends") >= 3
    assert "5C speaker cable, 18 AWG: 4 pieces, 18.4 m" in cables
    for label in pack.labels:
        assert label.text in cables
    for end in pack.insulate:
        assert end.what in said(document, "tap") + cables


def test_the_bay_sheet_has_a_tick_a_band_and_an_empty_box_a_line(
    document: str, pack: WorkPack
) -> None:
    sheet = sheets(document)["tests"]
    lines = re.findall(r'<tr[^>]*><td class="test">.*?</tr>', sheet)
    assert len(lines) == len(pack.tests)
    for line, test in zip(lines, pack.tests, strict=True):
        assert line.count('<input type="checkbox"') == 1
        assert line.count('<span class="box"></span>') == 1
        words = Tags(line).text
        assert words.startswith(f"{test.number} {test.id} {test.what}")
        assert bay_band(test) in words


def test_a_result_of_the_record_takes_the_place_of_the_box(pack: WorkPack, parts: JobParts) -> None:
    results = (
        Result(test="battery-at-rest-asleep", value=12.4, by="bay-four", date="2024-06-01"),
        Result(test=pack.tests[16].id, passed=True, by="bay-four", date="2024-06-01"),
    )
    sheet = sheets(shown(pack, replace(parts, job=job(results=results))))["tests"]
    assert "12.4 V DC, bay-four, 2024-06-01" in Tags(sheet).text
    assert "passed, bay-four, 2024-06-01" in Tags(sheet).text
    assert sheet.count('<td class="reads"><span class="box">') == (len(pack.tests) - 2)


def test_the_newest_result_stands_and_the_older_one_is_struck_through(
    pack: WorkPack, parts: JobParts
) -> None:
    line = "battery-at-rest-asleep"
    results = (
        Result(test=line, value=12.6, by="bay-four", date="2024-06-02"),
        Result(test=line, value=11.9, by="bay-four", date="2024-06-01"),
        Result(test=line, value=12.5, by="bay-two", date="2024-06-02"),
    )
    tested = replace(parts, job=job(results=results))
    sheet = sheets(shown(pack, tested))["tests"]
    assert '<span class="filled">12.5 V DC, bay-two, 2024-06-02</span>' in sheet
    for older in ("12.6 V DC, bay-four, 2024-06-02", "11.9 V DC, bay-four, 2024-06-01"):
        assert f"earlier: <s>{older}</s>" in sheet
    printed = pack_text(pack, tested, [])
    assert "12.5 V DC, bay-two, 2024-06-02; earlier: 12.6 V DC" in printed


def test_a_proof_line_says_state_and_band_once_and_its_caution_at_the_head(
    pack: WorkPack, parts: JobParts
) -> None:
    reading = ProofReading(
        "A", "4", None, "constant", "asleep", "battery_negative", "none", "dc_v", 12.0, 12.8,
        "asleep: DC volts against battery negative: 12.00 V to 12.80 V", "x", "Never load it.",
    )  # fmt: skip
    what = "A.4: asleep: DC volts against battery negative: 12.00 V to 12.80 V"
    two = [replace(bay(at, "before", what, "asleep", low=12.0, high=12.8), reading=reading)
           for at in (1, 2)]  # fmt: skip
    (group,) = bay_groups(replace(pack, tests=tuple(two)), ())
    assert group.cares == (("1", "Never load it."),)
    assert [line.what for line in group.lines] == ["A.4: DC volts against battery negative"] * 2
    assert [line.care for line in group.lines] == ["1", "1"]
    assert group.lines[0].band == "12 to 12.8 V DC"


@pytest.mark.parametrize(
    ("changes", "words"),
    [
        ({"quantity": "check"}, "yes"),
        ({"low": 13.435028, "high": 14.142135, "quantity": "ac_v"}, "13.5 to 14.1 V AC"),
        ({"low": 3.24, "high": 3.9600000000000004, "quantity": "ac_v"}, "3.24 to 3.96 V AC"),
        ({"low": 7.4214, "high": 9.0706, "quantity": "ac_v"}, "7.43 to 9.07 V AC"),
        ({"low": 7.402, "high": 7.408, "quantity": "ac_v"}, "7.402 to 7.408 V AC"),
        ({"low": 2.8, "high": 4.0133, "quantity": "ohm"}, "2.8 to 4 Ω"),
        ({"high": 18.19, "high_mohm": 18.19}, "at most 18.1 mΩ (V ÷ A)"),
        ({"low": 100000.0, "quantity": "ohm"}, "100 kΩ or more (open passes)"),
        ({"low": 2.8, "high": 4.0, "quantity": "ohm"}, "2.8 to 4 Ω"),
        ({"high": 0.5, "unit": "A", "quantity": "a"}, "at most 0.5 A"),
        ({"low": -0.05, "high": 0.05}, "at most 0.05 V DC either way"),
        ({}, "any value: write it down"),
    ],
)
def test_bands_of_the_bay_sheet(changes: dict[str, Any], words: str) -> None:
    assert bay_band(bay(1, "bench", "x", **changes)) == words


def test_steps_are_in_order_with_their_gates(document: str, pack: WorkPack) -> None:
    sheet = sheets(document)["steps"]
    text = Tags(sheet).text
    places = [text.index(f"{step.number} {step.text}") for step in pack.steps]
    assert places == sorted(places)
    assert "Gate, before the next step: negative off at __:__, earliest __:__" in text
    assert "Not yet: the wait of the restraint system is not recorded" in text
    assert sheet.count('<input type="checkbox"') == len(pack.steps)


def test_every_reason_is_printed_with_its_source(document: str, pack: WorkPack) -> None:
    because = said(document, "because")
    reasons = (*pack.treatments, *pack.plan.because, *pack.because, *pack.alternatives)
    assert pack.power
    for reason in (*reasons, *pack.power.because):
        for word in (reason.decision, reason.because, f"Source: {reason.source}"):
            assert " ".join(word.split()) in because


def test_ticks_belong_to_one_state_of_the_job(
    document: str, pack: WorkPack, parts: JobParts
) -> None:
    marks = set(re.findall(r'data-ticks="([^"]+)"', document))
    assert len(marks) == 1
    other = work_pack_page(pack, parts, (), INFO, "3d2c1b0a").body_html
    assert marks.isdisjoint(re.findall(r'data-ticks="([^"]+)"', other))


def test_invented_data_is_marked_unless_every_record_is_measured(
    pack: WorkPack, parts: JobParts
) -> None:
    measured = replace(
        parts,
        job=job(data="measured"),
        vehicle=replace(parts.vehicle, data="measured"),
        converter=replace(parts.converter, data="measured"),
        amplifiers={n: replace(a, data="measured") for n, a in parts.amplifiers.items()},
        cables=tuple(replace(cable, data="measured") for cable in parts.cables),
    )
    assert "nvented data" not in Tags(shown(pack, measured)).text
    one_left = replace(measured, cables=parts.cables)
    assert "Invented data." in Tags(shown(pack, one_left)).text


class Balance(HTMLParser):
    """Fails on an element that is closed out of order or never."""

    def __init__(self, document: str) -> None:
        super().__init__()
        self.open: list[str] = []
        self.feed(document)

    def handle_starttag(self, tag: str, attrs: object) -> None:
        if tag not in ("input", "br", "img"):
            self.open.append(tag)

    def handle_startendtag(self, tag: str, attrs: object) -> None:
        pass

    def handle_endtag(self, tag: str) -> None:
        assert self.open and self.open.pop() == tag, tag


def test_the_page_is_well_made(document: str) -> None:
    assert Balance(document).open == []
    ids = re.findall(r'\sid="([^"]*)"', document)
    assert sorted(set(ids)) == sorted(ids)
    assert set(re.findall(r'\sfor="([^"]*)"', document)) <= set(ids)
    assert not re.search(r"</t[dh]><t[dh]|</d[td]><d[td]|\sstyle=", document)


PAYLOAD = "</td></table><script>alert(1)</script>\" onmouseover='x' {{ 7 * 7 }}"
KEPT = frozenset(
    {"id", "job", "kind", "vehicle", "converter", "leg", "treatment", "verdict", "basis", "path"}
    | {"state", "phase", "demand_class", "data", "name", "amplifier", "part", "cable", "quantity"}
)


def test_text_of_records_stays_text(document: str, pack: WorkPack, parts: JobParts) -> None:
    tame = Tags(document)
    bad = replace(parts, job=hostile(parts.job, PAYLOAD, KEPT))
    tags = Tags(shown(hostile(pack, PAYLOAD, KEPT), bad))
    assert tags.elements <= tame.elements | {"small", "strong"}
    assert tags.attributes <= tame.attributes
    assert " ".join(PAYLOAD.split()) in tags.text


def test_the_text_form_has_every_sheet_in_order(pack: WorkPack, parts: JobParts) -> None:
    lines = pack_text(pack, parts, []).splitlines()
    heads = [line[0] for line in lines if re.match(r"[A-K]  [A-Z]", line)]
    assert heads == list("AJBCDEFGKHI")
    text = "\n".join(lines)
    for step in pack.steps:
        assert f"{step.number:>2}  {step.text}" in text
    for test in pack.tests:
        assert f"] {test.number} {test.id} " in text
    for words in (
        *pack.revert,
        *pack.customer,
        *pack.losses,
        *(row.wire for row in pack.conductors),
    ):
        assert words in text
    for caution in cautions_of(parts.vehicle, parts.job, pack.steps):
        assert caution.text in text


def test_the_text_form_of_a_refused_pack_joins_nothing(pack: WorkPack, parts: JobParts) -> None:
    reason = Reason("turn-on not proved", "nobody read A.7 asleep", "the record")
    text = pack_text(replace(pack, kind="no_plan", refusals=(reason,)), parts, [])
    assert text.startswith("A  THE JOB\nNO PLAN")
    assert "turn-on not proved: nobody read A.7 asleep (the record)" in text
    assert "STEPS IN ORDER" not in text
    assert "Cut list" not in text


def test_jobs_are_listed_with_what_came_of_them(parts: JobParts) -> None:
    page = jobs_index([job_entry(parts.job, "probe_plan", parts.vehicle.title)], INFO)
    assert page.url == "jobs/index.html"
    assert f'href="../jobs/{parts.job.id}.html"' in page.body_html
    assert f"Probe plan: {parts.vehicle.title}" in Tags(page.body_html).text
    assert "Nothing yet." in Tags(jobs_index([], INFO).body_html).text
