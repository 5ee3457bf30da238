"""What a vehicle page and a plan page must show."""

from __future__ import annotations

import gzip
import re
from dataclasses import replace
from html.parser import HTMLParser

import pytest
from page_samples import INFO, Tags, page_of, sample, sample_plan, sample_shelf

from builder.findings import Finding, Severity
from builder.model.house_defaults import HouseDefaults
from builder.model.names import function_name
from builder.model.vehicle import Vehicle
from builder.model.wire import Wire
from builder.pipeline.checking.plan_sum import plan_sum
from builder.planning.plan import Plan, Reason
from builder.planning.plan_json import plan_as_json
from builder.rendering.pages.cautions import cautions_of
from builder.rendering.pages.job_tests import proof_groups
from builder.rendering.pages.plan import plan_page
from builder.rendering.pages.plan_phrases import band_words
from builder.rendering.pages.scope import holds_for


@pytest.fixture(scope="module")
def vehicle() -> Vehicle:
    record = sample("vehicles")
    assert isinstance(record, Vehicle)
    return record


@pytest.fixture(scope="module")
def page_text(vehicle: Vehicle) -> str:
    return Tags(page_of(vehicle, sample_shelf()).body_html).text


def section(document: str, name: str) -> str:
    found = re.search(rf'<section[^>]* id="{name}".*?</section>', document, re.S)
    assert found, f"no section {name}"
    return Tags(found[0]).text


def with_features(vehicle: Vehicle, **changes: str) -> Vehicle:
    return replace(vehicle, features=replace(vehicle.features, **changes))


def test_answers_come_first_and_name_cavity_wire_and_grade(vehicle: Vehicle) -> None:
    document = page_of(vehicle, sample_shelf()).body_html
    assert document.index('id="answers"') < document.index('id="cautions"')
    said = section(document, "answers")
    assert re.search(r"Constant A\.1 yellow/red .*? \w+ Switched A\.2 (red )+", said)
    assert re.search(r"Front left \+ A\.3 (white )+− A\.4 (white/black )+", said)
    assert "no turn-on output on the plugs described here" in said
    assert "□□□□ unproved" in said  # the right pair, which nobody measured


def test_a_radio_woken_by_data_says_so_instead_of_a_switched_wire(vehicle: Vehicle) -> None:
    plug = vehicle.plugs[0]
    pins = tuple(pin for pin in plug.pins if pin.function != "retained")
    woken = replace(
        vehicle,
        radio=replace(vehicle.radio, data_wake="yes"),
        plugs=(replace(plug, pins=pins),),
    )
    said = section(page_of(woken, sample_shelf()).body_html, "answers")
    assert "woken by a data message, no wire follows the key" in said


def test_every_plug_is_drawn_from_both_sides(vehicle: Vehicle) -> None:
    document = page_of(vehicle, sample_shelf()).body_html
    for plug in vehicle.plugs:
        found = re.search(rf'id="plug-{plug.id}".*?</section>', document, re.S)
        assert found
        assert "looking at the wires entering</text>" in found[0]
        assert "looking into the open face</text>" in found[0]


def test_every_pin_shows_readings_expected_readings_and_what_would_raise_it(
    vehicle: Vehicle,
) -> None:
    document = page_of(vehicle, sample_shelf()).body_html
    start = document.index('id="pin-A-1"')
    pin = Tags(document[start : document.index("</tbody>", start)]).text
    for words in ("constant supply", "yellow/red", "1.5 mm²", "F31, 15 A", "12.61 V DC"):
        assert words in pin
    for words in ("after 65 min", "battery 12.62 V", "alder-pit-audio, 2024-05-13"):
        assert words in pin
    assert "What it should read" in pin
    assert "To raise it:" in pin
    assert "Claims, not measured" in pin


def test_what_pins_should_read_stands_once_for_all_of_a_kind(vehicle: Vehicle) -> None:
    document = page_of(vehicle, sample_shelf()).body_html
    asked = re.findall(r'href="#(reads-[\w-]+)">What it should read', document)
    assert len(asked) > len(set(asked)) > 1
    for place in set(asked):
        (fold,) = re.findall(rf'<details class="fold" id="{place}">.*?</details>', document, re.S)
        assert "It should read" in fold and "How to prove it" in fold
    assert document.count('id="reads-') == len(set(asked)) * 2 + 1  # each fold and its title


def test_wires_that_some_eyes_confuse_are_listed_under_the_pins(vehicle: Vehicle) -> None:
    plug = vehicle.plugs[0]
    wires = {"1": Wire(base="red"), "2": Wire(base="brown")}
    pins = tuple(replace(pin, wire=wires.get(pin.cavity)) for pin in plug.pins)
    alike = replace(vehicle, plugs=(replace(plug, pins=pins), *vehicle.plugs[1:]))
    said = Tags(page_of(alike, sample_shelf()).body_html).text
    assert "Hard to tell apart for some eyes" in said
    assert re.search(r"A\.1 red \(.*?\) and A\.2 brown \(.*?\): to eyes without red cones", said)
    assert "less than 11 ΔE00 apart, a house default" in said
    apart = HouseDefaults(wires_confusable_de00=1)
    shelf = replace(sample_shelf(), defaults=apart)
    assert "Hard to tell apart" not in Tags(page_of(alike, shelf).body_html).text


def test_adjacent_cells_have_white_space_between_them(vehicle: Vehicle) -> None:
    shelf = sample_shelf()
    plan = sample_plan(vehicle, shelf)
    converter = shelf.converters["template-converter"]
    for document in (
        page_of(vehicle, shelf).body_html,
        plan_page(plan, vehicle, converter, shelf, INFO).body_html,
    ):
        assert not re.search(r"</t[dh]><t[dh]", document)
        assert not re.search(r"</d[td]><d[td]", document)


def test_invented_data_is_marked_on_every_record_page(vehicle: Vehicle, page_text: str) -> None:
    assert "Invented data." in page_text
    measured = Tags(page_of(replace(vehicle, data="measured"), sample_shelf()).body_html).text
    assert "Invented data." not in measured
    assert "Measured data." in measured


def test_last_measured_stands_apart_from_last_edited(vehicle: Vehicle, page_text: str) -> None:
    assert f"Last measured {max(s.date for s in vehicle.sessions)}, " in page_text
    assert f"Last edited {vehicle.edited}" in page_text


def test_scope_has_three_columns_and_never_inherits(vehicle: Vehicle) -> None:
    scope = replace(
        vehicle.scope,
        year_from=2015,
        year_to=2019,
        trims=("base",),
        drive_side="left",
        options_none=("audio-pack",),
    )
    sessions = (replace(vehicle.sessions[0], car=replace(vehicle.sessions[0].car, year=2018)),)
    holds = holds_for(replace(vehicle, scope=scope, sessions=sessions))
    assert "model years 2015–2019" in holds.holds
    assert "cars with option audio-pack" in holds.holds_not
    assert "trims not named here" in holds.not_known
    assert "driver on the right" in holds.not_known
    # 2017 to 2019 is within a year of the measured car; what is older is only claimed
    assert "2015–2016 by measurement: claimed only" in holds.not_known


def test_findings_link_to_their_rule(vehicle: Vehicle) -> None:
    finding = Finding("f", 12, 1, Severity.WARN, "PIN111", "s", "two alike", "give cavities")
    document = page_of(vehicle, sample_shelf(), findings=[finding]).body_html
    assert 'href="../rules/PIN111.html"' in document
    assert "two alike To do: give cavities line 12" in section(document, "findings")


def test_restraint_wait_is_the_makers_figure_or_look_it_up(vehicle: Vehicle) -> None:
    unknown = " ".join(caution.text for caution in cautions_of(vehicle))
    assert "look it up in the maker's instructions before any restraint plug is touched" in unknown
    assert "Until then that step is blocked." in unknown
    assert " min " not in unknown  # no figure of ours stands in
    known = replace(vehicle, safety=replace(vehicle.safety, restraint_wait_min=3.0))
    assert "wait 3 min" in " ".join(caution.text for caution in cautions_of(known))


@pytest.mark.parametrize(
    ("feature", "title"),
    [("start_stop", "Start-stop"), ("emergency_call", "Emergency call")],
)
def test_features_that_exist_or_are_not_known_are_cautioned(
    vehicle: Vehicle, feature: str, title: str
) -> None:
    def titles(value: str) -> str:
        changed = with_features(vehicle, **{feature: value})
        return " | ".join(caution.title for caution in cautions_of(changed))

    assert title in titles("yes")
    assert f"{title}: not known, so check" in titles("unknown")
    assert title not in titles("no")


def test_high_voltage_is_cautioned_unless_ruled_out(vehicle: Vehicle) -> None:
    for value, weight in (("yes", "danger"), ("unknown", "danger")):
        found = [c for c in cautions_of(with_features(vehicle, hybrid=value)) if "igh" in c.title]
        assert [caution.weight for caution in found] == [weight]
    assert not [c for c in cautions_of(with_features(vehicle, hybrid="no")) if "igh v" in c.title]


def test_cautions_stand_on_the_plan_page_too(vehicle: Vehicle) -> None:
    shelf = sample_shelf()
    plan = sample_plan(vehicle, shelf)
    converter = shelf.converters["template-converter"]
    said = section(plan_page(plan, vehicle, converter, shelf, INFO).body_html, "cautions")
    for caution in cautions_of(vehicle):
        assert caution.title in said


def test_plan_page_shows_terminals_levels_tests_and_reasons(vehicle: Vehicle) -> None:
    shelf = sample_shelf()
    plan = sample_plan(vehicle, shelf)
    assert plan.tests
    converter = shelf.converters["template-converter"]
    document = plan_page(plan, vehicle, converter, shelf, INFO).body_html
    for name in ("terminals", "turn-on", "levels", "losses", "tests", "reasons"):
        section(document, name)
    assert document.count('<input type="checkbox"') == len(plan.tests)
    said = section(document, "tests")
    (group,) = proof_groups(plan.tests)
    for test, line in zip(plan.tests, group.lines, strict=True):
        assert f"{test.plug}.{test.cavity}, {function_name(test.function)}: " in said
        for words in (line.what, line.state, line.band, test.settles, test.safety):
            assert " ".join(words.split()) in said
    for feed in plan.feeds:
        assert f"{feed.plug}.{feed.cavity}" in section(document, "terminals")


def drawn(plan: Plan, vehicle: Vehicle) -> list[str]:
    """The plugs of a plan's page, each with the cavities that are ringed in its wires side."""
    shelf = sample_shelf()
    page = plan_page(plan, vehicle, shelf.converters["template-converter"], shelf, INFO)
    found = re.findall(r'(<svg class="lb-drawing lb-plug lb-plug-w" id="lb-(\w)-w".*?</svg>)',
                       page.body_html)  # fmt: skip
    return [".".join([plug, *ringed(drawing)]) for drawing, plug in found]


def ringed(drawing: str) -> list[str]:
    """The cavities that have a ring round them: it stands two units off on each side."""
    rings = {(float(x) + 2, float(y) + 2) for x, y in re.findall(
        r'class="lb-ring" x="([\d.]+)" y="([\d.]+)"', drawing)}  # fmt: skip
    placed = re.findall(r'<title>(\w+):[^<]*</title><use href="[^"]*" x="([\d.]+)" y="([\d.]+)"',
                        drawing)  # fmt: skip
    found = [name for name, x, y in placed
             if any(abs(float(x) - a) + abs(float(y) - b) < 0.3 for a, b in rings)]  # fmt: skip
    assert len(found) == len(rings)
    return sorted(found)


def test_a_probe_plan_draws_the_plugs_that_are_to_be_read(vehicle: Vehicle) -> None:
    """A change of these drawings that no test noticed once.

    Nothing may be joined yet, so that there are no feeds to ring: whoever has the probes in his
    hand looks for the cavities to be read, and for the turn-on wire where one is chosen.
    """
    plan = sample_plan(vehicle, sample_shelf())
    there = [replace(plan.tests[0], plug="B", cavity=cavity) for cavity in ("8", "7", "8")]
    nowhere = replace(plan.tests[0], plug=None, cavity=None)
    probe = replace(plan, kind="probe_plan", feeds=(), tests=(*there, nowhere))
    none_on = replace(probe, turn_on=replace(plan.turn_on, plug=None, cavity=None))
    assert drawn(none_on, vehicle) == ["B.7.8"]
    assert drawn(probe, vehicle) == ["A.2", "B.7.8"]
    assert drawn(replace(none_on, tests=(nowhere,)), vehicle) == []


def test_a_tap_plan_draws_what_is_joined(vehicle: Vehicle) -> None:
    plan = sample_plan(vehicle, sample_shelf())
    assert (plan.kind, plan.turn_on.cavity) == ("tap_plan", "2")
    elsewhere = replace(plan, tests=(replace(plan.tests[0], plug="B", cavity="7"),))
    assert drawn(elsewhere, vehicle) == ["A.2.3.4"]


@pytest.mark.parametrize("kind", ["tap_plan", "probe_plan", "no_plan"])
def test_the_kind_of_plan_is_said_in_words_with_its_reasons(vehicle: Vehicle, kind: str) -> None:
    shelf = sample_shelf()
    refusal = Reason("no pair to tap", "the plug has none", "the record")
    plan: Plan = replace(sample_plan(vehicle, shelf), kind=kind, refusals=(refusal,))
    converter = shelf.converters["template-converter"]
    text = Tags(plan_page(plan, vehicle, converter, shelf, INFO).body_html).text
    assert {"tap_plan": "Tap plan.", "probe_plan": "Probe plan.", "no_plan": "No plan."}[
        kind
    ] in text
    assert "no pair to tap. the plug has none" in text


def test_ticks_belong_to_one_state_of_the_plan(vehicle: Vehicle) -> None:
    shelf = sample_shelf()
    converter = shelf.converters["template-converter"]
    plan = sample_plan(vehicle, shelf)
    changed = replace(plan, losses=("the fader",))

    def mark(one: Plan) -> str:
        digest = plan_sum(plan_as_json(one))
        document = plan_page(one, vehicle, converter, shelf, INFO, digest).body_html
        found = re.search(r'data-ticks="([^"]+)"', document)
        assert found
        return found[1]

    assert mark(plan) == mark(plan)
    assert mark(plan) != mark(changed)


@pytest.mark.parametrize(
    ("low", "high", "unit", "words"),
    [
        (None, 0.5, "V DC", "at most 0.5 V DC"),
        (10000.0, None, "Ω", "10000 Ω or more (open passes)"),
        (9.0, None, "V DC", "9 V DC or more"),
        (-0.5, 0.5, "V DC", "at most 0.5 V DC either way"),
        (2.8, 4.4, "Ω", "2.8 to 4.4 Ω"),
        (None, None, "Hz", "any value: write it down"),
    ],
)
def test_bands_are_said_as_a_person_would(
    low: float | None, high: float | None, unit: str, words: str
) -> None:
    assert band_words(low, high, unit) == words


class Balance(HTMLParser):
    """Fails on an element that is closed out of order or never."""

    VOID = frozenset({"input", "br", "hr", "img", "meta", "link"})

    def __init__(self, document: str) -> None:
        super().__init__()
        self.open: list[str] = []
        self.feed(document)

    def handle_starttag(self, tag: str, attrs: object) -> None:
        if tag not in self.VOID:
            self.open.append(tag)

    def handle_startendtag(self, tag: str, attrs: object) -> None:
        pass

    def handle_endtag(self, tag: str) -> None:
        assert self.open, f"</{tag}> closes nothing"
        assert self.open.pop() == tag


def test_elements_are_closed_and_ids_are_not_repeated(vehicle: Vehicle) -> None:
    shelf = sample_shelf()
    plan = sample_plan(vehicle, shelf)
    converter = shelf.converters["template-converter"]
    for document in (
        page_of(vehicle, shelf, plans=[plan]).body_html,
        plan_page(plan, vehicle, converter, shelf, INFO).body_html,
    ):
        assert Balance(document).open == []
        ids = re.findall(r'\sid="([^"]*)"', document)
        assert sorted(set(ids)) == sorted(ids)


def test_a_page_is_small_enough_for_a_bad_signal(vehicle: Vehicle) -> None:
    document = page_of(vehicle, sample_shelf()).body_html
    assert len(gzip.compress(document.encode())) < 60_000
