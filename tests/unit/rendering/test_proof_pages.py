"""The evidence on a vehicle page, disputes, the cards "Prove it" and the health of the book."""

from __future__ import annotations

import gzip
import re
from dataclasses import replace

import pytest
from page_samples import INFO, Tags, page_of, sample, sample_plan, sample_shelf

from builder.model.house_defaults import HouseDefaults
from builder.model.names import function_name
from builder.model.plugs import Claim
from builder.model.vehicle import Resolution, Vehicle
from builder.pipeline.checking.health import health_of
from builder.pipeline.site.reference_pages import explanation_pages, prove_pages
from builder.proof.contradictions.explaining import TITLES
from builder.proof.pin_proof import prove
from builder.proof.signatures.of_pins import kinds_of_function, kinds_of_pin
from builder.rendering.drawings.health_bars import BAND_HATCH, Bar, bars
from builder.rendering.page import BuildInfo
from builder.rendering.pages.attacks import MARKS
from builder.rendering.pages.disputes import dispute_lines, dispute_views
from builder.rendering.pages.health import (
    NEVER,
    OLDER,
    GradeCount,
    Health,
    age_words,
    health_page,
)
from builder.rendering.pages.prove import CARDS, prove_url
from builder.rendering.terminal import vehicle_text

HOUSE = HouseDefaults()


def with_claims(*claims: Claim, **changes: object) -> Vehicle:
    """The example vehicle, whose A.1 is a constant with full proof, with these claims on A.1."""
    vehicle = sample("vehicles")
    plug = vehicle.plugs[0]
    first = replace(plug.pins[0], claims=claims)
    plugs = (replace(plug, pins=(first, *plug.pins[1:])), *vehicle.plugs[1:])
    return replace(vehicle, plugs=plugs, **changes)


def claim(by: str, says: str) -> Claim:
    return Claim(by=by, date="2024-05-10", method="paper", says=says)  # type: ignore[arg-type]


def disputed() -> Vehicle:
    return with_claims(claim("harbour-sound", "illumination"))


def settled() -> Vehicle:
    end = Resolution(
        pin="A.1",
        by="marram-and-daughter",
        date="2024-06-01",
        deciding="12.6 V locked",
        retires=("harbour-sound",),
    )
    return with_claims(claim("harbour-sound", "illumination"), resolutions=(end,))


def pin_of(document: str, anchor: str) -> str:
    start = document.index(f'id="{anchor}"')
    return document[start : document.index("</tbody>", start)]


def test_evidence_says_who_when_how_how_heavy_and_for_which_side() -> None:
    said = Tags(pin_of(page_of(disputed(), sample_shelf()).body_html, "pin-A-1")).text
    assert re.search(
        r"supports, weighs 0\.80: meter, every defining state alder-pit-audio, 2024", said
    )
    assert "opposes, weighs 0.40: a printed diagram harbour-sound, 2024-05-10" in said


def test_what_was_set_aside_is_struck_through_and_says_by_whom_and_why() -> None:
    pin = pin_of(page_of(settled(), sample_shelf()).body_html, "pin-A-1")
    struck = re.findall(r"<s>(.*?)</s>([^<]*)", pin)
    assert len(struck) == 2  # the evidence, and the claim among the claims
    for inside, after in struck:
        assert "harbour-sound" in inside
        assert "superseded by marram-and-daughter, 2024-06-01, because 12.6 V locked" in after
    assert "<s>" not in pin_of(page_of(disputed(), sample_shelf()).body_html, "pin-A-1")


def test_readings_of_a_retired_session_are_struck_through() -> None:
    first = sample("vehicles").plugs[0].pins[0].readings[0].session
    end = Resolution(pin="A.1", by="x", date="2024-06-01", deciding="y", retires=(first,))
    pin = pin_of(page_of(with_claims(resolutions=(end,)), sample_shelf()).body_html, "pin-A-1")
    assert re.search(r"<s>[^\n]*12\.61 V DC[^\n]*</s> superseded", pin)


def test_every_kind_that_a_pin_may_be_of_shows_what_it_reads() -> None:
    vehicle = replace(sample("vehicles"), channels=())
    vehicle = replace(
        vehicle,
        radio=replace(vehicle.radio, outputs="unknown"),
        factory_amplifier=replace(vehicle.factory_amplifier, feed="unknown"),
    )
    pin = next(pin for pin in vehicle.plugs[0].pins if pin.function == "speaker")
    kinds = kinds_of_pin(vehicle, pin, HOUSE)
    assert len(kinds) > 2
    document = page_of(vehicle, sample_shelf()).body_html
    (place,) = re.findall(r'href="#(reads-[\w-]+)"', pin_of(document, f"pin-A-{pin.cavity}"))
    (fold,) = re.findall(rf'<details class="fold" id="{place}">.*?</details>', document, re.S)
    said = Tags(fold).text
    for kind in kinds:
        assert kind.name in said


def test_a_dispute_stands_before_the_cautions_and_is_linked_from_its_pin() -> None:
    shelf = sample_shelf()
    vehicle = disputed()
    plan = replace(sample_plan(vehicle, shelf), kind="probe_plan")
    blocked = replace(plan, turn_on=replace(plan.turn_on, path=vehicle.plugs[0].pins[0].path))
    document = page_of(vehicle, shelf, plans=[blocked]).body_html
    assert document.index('id="answers"') < document.index('id="disputes"')
    assert document.index('id="disputes"') < document.index('id="cautions"')
    assert 'href="#dispute-A-1"' in pin_of(document, "pin-A-1")
    block = document[document.index('id="dispute-A-1"') : document.index('id="cautions"')]
    said = Tags(block).text
    for words in ("constant supply", "illumination", "The reading that decides.", "Mind:"):
        assert words in said
    assert f'href="../plans/{vehicle.id}--{plan.converter}.html"' in block


def test_every_explanation_stands_beside_the_dispute_with_its_verdict_in_words() -> None:
    document = page_of(disputed(), sample_shelf()).body_html
    block = document[document.index('id="dispute-A-1"') : document.index('id="cautions"')]
    said = Tags(block).text
    places = [said.index(title[0].upper() + title[1:]) for title in TITLES.values()]
    assert places == sorted(places)
    assert sum(said.count(verdict) for verdict in MARKS) >= len(TITLES)
    assert "The first that fits: a real contradiction. The reading that decides" in said
    assert "Tried in this order" not in pin_of(document, "pin-A-1")  # once is enough


def test_what_speaks_against_a_pin_is_explained_there_when_it_is_no_dispute() -> None:
    told = replace(claim("harbour-sound", "illumination"), method="colour")
    vehicle = with_claims(told)
    document = page_of(vehicle, sample_shelf()).body_html
    assert 'id="disputes"' not in document
    said = Tags(pin_of(document, "pin-A-1")).text
    assert "for a dispute both sides need 0.40, and they have 0.80 and 0.20" in said
    text = vehicle_text(vehicle, prove(vehicle, HOUSE), [])
    assert "Spoken against: A.1" in text
    assert "Tried in this order:" in text


def test_a_tap_plan_or_one_that_does_without_the_pin_is_not_blocked() -> None:
    shelf, vehicle = sample_shelf(), disputed()
    plan = sample_plan(vehicle, shelf)
    path = vehicle.plugs[0].pins[0].path
    tap = replace(plan, kind="tap_plan", turn_on=replace(plan.turn_on, path=path))
    without = replace(plan, kind="probe_plan", turn_on=replace(plan.turn_on, path=None))
    views = dispute_views(vehicle, prove(vehicle, HOUSE), [tap, without])
    assert [view.blocks for view in views] == [()]


def test_a_page_without_disputes_has_no_block() -> None:
    assert 'id="disputes"' not in page_of(settled(), sample_shelf()).body_html


def test_the_command_shows_the_dispute() -> None:
    vehicle = disputed()
    proofs = prove(vehicle, HOUSE)
    text = vehicle_text(vehicle, proofs, [])
    assert "Disputed: A.1" in text
    for line in dispute_lines(dispute_views(vehicle, proofs)[0]):
        assert line in text
    assert "The reading that decides: " in text


@pytest.fixture(scope="module")
def cards() -> dict[str, str]:
    return {page.url: page.body_html for page in prove_pages(HOUSE, INFO)}


def test_there_is_a_card_for_every_function_of_the_table_and_a_list(cards: dict[str, str]) -> None:
    assert set(cards) == {"prove/index.html", *map(prove_url, CARDS)}
    for name in CARDS:
        assert f'href="../{prove_url(name)}"' in cards["prove/index.html"]


@pytest.mark.parametrize("function", CARDS)
def test_a_card_names_every_kind_defining_state_and_load(
    function: str, cards: dict[str, str]
) -> None:
    said = Tags(cards[prove_url(function)]).text
    for kind in kinds_of_function(function, HOUSE):  # type: ignore[arg-type]
        assert kind.name[1:] in said
        assert kind.note in said
        for words in kind.defining.values():
            assert words in said
    for words in ("a 5 mA load", "a 1 A load", "Often taken for", "common practice, no source"):
        assert words in said
    assert len(gzip.compress(cards[prove_url(function)].encode())) < 60_000


def test_a_card_follows_the_house_defaults_of_the_book() -> None:
    shop = replace(HOUSE, supply_drop_v=0.7)
    pages = {page.url: page.body_html for page in prove_pages(shop, INFO)}
    assert "battery − 0.7 V to battery + 0.3 V" in pages["prove/accessory.html"]


def test_rules_on_readings_lead_to_the_cards_of_their_example() -> None:
    pages = {page.url: page.body_html for page in explanation_pages(INFO)}
    assert 'href="../prove/constant.html"' in pages["rules/MET102.html"]
    assert "prove/" not in pages["rules/PIN101.html"]


@pytest.mark.parametrize(
    ("day", "words"),
    [
        ("2024-05-13", "under 1 year"),
        ("2023-05-14", "under 1 year"),
        ("2023-05-13", "1 to 2 years"),
        ("2022-05-13", "2 to 5 years"),
        ("2019-05-14", "2 to 5 years"),
        ("2019-05-13", "5 to 10 years"),
        ("2014-05-13", OLDER),
        ("", NEVER),
    ],
)
def test_ages_are_whole_years_to_the_day_of_the_book(day: str, words: str) -> None:
    assert age_words(day, "2024-05-13") == words


def test_the_health_of_a_vehicle_counts_every_pin_once() -> None:
    vehicle = disputed()
    found = health_of(vehicle, prove(vehicle, HOUSE))
    pins = sum(len(plug.pins) for plug in vehicle.plugs)
    assert sum(grade.pins for grade in found.grades) == pins
    assert sum(count for _, count in found.measured) == pins
    assert [one.place for one in found.disputed] == ["A.1"]


def test_a_car_without_a_reliable_switched_supply_says_why() -> None:
    vehicle = sample("vehicles")
    assert health_of(vehicle, prove(vehicle, HOUSE)).no_switched == ""
    plug = vehicle.plugs[0]
    weak = tuple(
        replace(pin, readings=(), claims=()) if pin.function == "retained" else pin
        for pin in plug.pins
    )
    bare = replace(vehicle, plugs=(replace(plug, pins=weak),))
    assert "A.2 (retained) is unproved" in health_of(bare, prove(bare, HOUSE)).no_switched
    none = tuple(pin for pin in plug.pins if pin.function != "retained")
    empty = replace(vehicle, plugs=(replace(plug, pins=none),))
    assert health_of(empty, prove(empty, HOUSE)).no_switched == "no such wire is described"


def health(*grades: GradeCount) -> Health:
    return Health("car", "a car", grades, (("2024-05-13", sum(g.pins for g in grades)),), (), "")


def test_wanted_readings_are_those_with_most_room_under_proven() -> None:
    few = GradeCount("constant", "unproved", "measure: loaded", 2, 1.8)
    many = GradeCount("speaker", "good", "a second contributor", 8, 0.8)
    shield = GradeCount("shield", "unproved", "measure: ohms", 40, 36.0)
    proven = GradeCount("ground", "proven", "", 9, 0.0)
    text = Tags(health_page([health(few, many, shield, proven)], INFO).body_html).text
    wanted = text[text.index("Readings wanted") : text.index("Grades by function")]
    assert wanted.index("measure: loaded 2 pins") < wanted.index("a second contributor 8 pins")
    assert "measure: ohms" not in wanted  # no plan rests on a shield
    assert "59 pins of 1 vehicle," in text


def test_the_table_and_the_drawing_hold_the_same_counts() -> None:
    grades = (
        GradeCount("constant", "proven", "", 3, 0.0),
        GradeCount("constant", "disputed", "x", 1, 0.4),
        GradeCount("ground", "unproved", "y", 2, 1.8),
    )
    document = health_page([health(*grades), health(*grades)], INFO).body_html
    rows = re.findall(r'<tr><th scope="row">(.*?)</th>(.*?)</tr>', document)
    table = {name: re.findall(r"<td>(.*?)</td>", cells) for name, cells in rows}
    assert table[function_name("constant")] == ["6", "·", "·", "·", "·", "2", "8"]
    assert table["ground"] == ["·", "·", "·", "·", "4", "·", "4"]
    assert table["all pins"][-1] == "12"
    assert "constant 8; ground 4" in document


def test_bars_are_on_one_scale_and_told_apart_without_colour() -> None:
    assert len(set(BAND_HATCH.values())) == len(BAND_HATCH)
    drawn = bars([Bar("a", (("solid", 10),)), Bar("b", (("rising", 5),))], "k", "title", ())
    widths = [float(w) for w in re.findall(r'lb-part"[^>]* width="([\d.]+)"', drawn)]
    assert widths[0] == 2 * widths[1] > 0
    assert not re.search(r"#[0-9a-f]{3,6}", drawn)


def test_an_empty_book_has_a_health_page() -> None:
    page = health_page([], BuildInfo("loombook", "0.1.0", ""))
    assert "0 pins of 0 vehicles" in Tags(page.body_html).text
