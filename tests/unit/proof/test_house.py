"""House defaults: every one that acts on a result is printed beside it, as the book sets it."""

from __future__ import annotations

import ast
import inspect
from collections.abc import Iterator
from dataclasses import fields, replace
from typing import Any

import pytest
from proof_cars import claim, full_constant, pin, reading, session, vehicle

from builder.model.book import Shelf
from builder.model.house_defaults import HouseDefaults
from builder.pipeline.answers.identifying import best_kinds, identified
from builder.pipeline.site.reference_pages import prove_pages
from builder.proof.grading.grade import grade_pin
from builder.proof.house import house_note, house_of_rows
from builder.proof.pin_proof import prove
from builder.proof.signatures.of_pins import kinds
from builder.proof.signatures.page_table import table_for_page
from builder.proof.signatures.shapes import Expected
from builder.rendering.identify_text import identification_text
from builder.rendering.page import BuildInfo
from builder.rendering.pages.health import GRADING, health_page
from builder.rendering.pages.identify import identify_page
from builder.rendering.pages.vehicle import vehicle_page
from builder.rules import registry
from builder.rules.rule import Rule, Scope

HOUSE = HouseDefaults()
INFO = BuildInfo("loombook", "0.1.0", "2024-01-01")
SHOP = HouseDefaults(supply_match_v=0.45, asleep_proved_min=62, weight_full=0.79, off_max_v=0.55)


def changed(name: str) -> HouseDefaults:
    return replace(HOUSE, **{name: getattr(HOUSE, name) * 1.25})


def test_a_note_names_the_key_with_its_value_and_unit() -> None:
    assert house_note(["asleep_min"], HOUSE) == "house default (book.yaml): asleep_min 20 min"
    both = house_note(["asleep_min", "off_max_v", "asleep_min"], SHOP)
    assert both == "house defaults (book.yaml): asleep_min 20 min, off_max_v 0.55 V"
    assert house_note([], HOUSE) == ""


def acts(row: Expected) -> tuple[object, ...]:
    """What of a line a default may move: its limits, and asleep its minutes."""
    waits = (row.meets_from_min, row.proves_from_min, row.contradicts_from_min)
    return (row.low, row.high, waits if "asleep" in row.states else ())


SIGNED = house_of_rows(row for kind in kinds(HOUSE).values() for row in kind.rows)


@pytest.mark.parametrize("name", SIGNED)
def test_every_default_of_the_table_is_named_by_exactly_the_lines_that_it_moves(name: str) -> None:
    before, after = kinds(HOUSE), kinds(changed(name))
    moved = [
        (kind_id, index)
        for kind_id, kind in before.items()
        for index, row in enumerate(kind.rows)
        if acts(row) != acts(after[kind_id].rows[index])
    ]
    named = [
        (kind_id, index)
        for kind_id, kind in before.items()
        for index, row in enumerate(kind.rows)
        if name in (*row.house, *row.waits)
    ]
    assert moved == named


def constant(defaults: HouseDefaults) -> str:
    wire = pin("1", "constant", readings=full_constant(), claims=(claim("b", "paper", "run"),))
    car = vehicle(wire, sessions=(session(),))
    page = vehicle_page(car, Shelf(defaults=defaults), prove(car, defaults), [], [], INFO)
    return page.body_html


def test_the_vehicle_page_prints_those_of_the_grade_and_of_the_bands() -> None:
    shipped, shop = constant(HOUSE), constant(SHOP)
    for name in ("weight_full", "weight_paper", "supply_match_v", "asleep_proved_min"):
        assert f"{name} {getattr(HOUSE, name):g}" in shipped
    for name in ("weight_full", "supply_match_v", "asleep_proved_min"):
        assert f"{name} {getattr(SHOP, name):g}" in shop
        assert f"{name} {getattr(HOUSE, name):g} " not in shop
    dispute = shop[shop.index('id="dispute-A-1"') :]
    assert "weight_full 0.79" in dispute[: dispute.index("</section>")]


@pytest.mark.parametrize(
    ("claims", "readings", "changes", "name"),
    [
        (("paper",), (), {}, "cap_unmeasured"),
        (("colour",), (), {}, "weight_colour"),
        (("job",), full_constant(), {}, "weight_job"),
        ((), full_constant(), {"read_from": "unknown"}, "cap_unknown_face"),
        ((), full_constant(), {"car_trim": "sport"}, "far_factor"),
    ],
)
def test_a_grade_names_what_weighed_capped_or_lowered_it(
    claims: tuple[str, ...], readings: tuple[object, ...], changes: dict[str, object], name: str
) -> None:
    said = tuple(claim("alder-pit-audio", method) for method in claims)
    wire = pin("1", "constant", readings=readings, claims=said)
    grade = grade_pin(vehicle(wire, sessions=(session(**changes),)), wire, HOUSE)
    assert name in grade.house


@pytest.mark.parametrize("name", GRADING)
def test_no_default_moves_a_grade_without_being_named(name: str) -> None:
    """Two people, a paper and a job: whatever moves the score is among the names."""
    wire = pin(
        "1",
        "constant",
        readings=(*full_constant(), reading("run", 12.2, load="1a", session="s2")),
        claims=(claim("c", "paper"), claim("d", "colour", "run"), claim("alder-pit-audio", "job"),
                claim("e", "told")),
    )  # fmt: skip
    others = {"weight_full": 0.1, "weight_part": 0.3, "cap_one_contributor": 0.2}
    car = vehicle(wire, sessions=(session(), session("s2", "harbour-sound", car_trim="sport")))
    before = grade_pin(car, wire, HOUSE)
    value = others.get(name, getattr(HOUSE, name) / 2)
    after = grade_pin(car, wire, replace(HOUSE, **{name: value}))
    if after.score != before.score:
        assert name in (*before.house, *after.house)


def test_cards_print_theirs() -> None:
    shop = {page.url: page.body_html for page in prove_pages(SHOP, INFO)}
    card = shop["prove/constant.html"]
    assert "supply_match_v 0.45 V" in card
    assert "asleep_proved_min 62 min" in card
    assert "data_pair_min_ohm" not in card


def test_the_identify_page_and_its_data_print_theirs() -> None:
    document = identify_page(kinds(SHOP).values(), SHOP, INFO).body_html
    constants = document[document.index('id="reads-constant"') :]
    assert "supply_match_v 0.45 V" in constants[: constants.index("</details>")]
    assert table_for_page(SHOP)["house"]["supply_match_v"] == "supply_match_v 0.45 V"


def test_the_command_prints_those_that_acted() -> None:
    for defaults, value in ((HOUSE, "0.5 V"), (SHOP, "0.55 V")):
        answer = identified([reading("accessory", 12.3)], defaults)
        text = identification_text(
            answer.readings, answer.found, list(best_kinds(answer.found)), "", answer.house
        )
        assert f"off_max_v {value}" in " ".join(text.split())
        assert answer.as_data()["house_defaults"]
        assert "data_pair_min_ohm" not in text


def test_the_health_of_the_book_prints_those_of_its_grades() -> None:
    document = health_page([], INFO, SHOP).body_html
    assert "weight_full 0.79" in document
    for name in GRADING:
        assert name in document


# -- findings -------------------------------------------------------------------------------------


def names_in_source(rule: Rule) -> Iterator[str]:
    """Names of house defaults that the rule's own file reads, and what it calls in the proof."""
    module = inspect.getmodule(inspect.unwrap(rule.check))
    assert module is not None
    yield from _names_read(module, set())


def _names_read(read: Any, seen: set[Any]) -> Iterator[str]:
    seen.add(read)
    known = {each.name for each in fields(HouseDefaults)}
    around = vars(read) if inspect.ismodule(read) else read.__globals__
    for node in ast.walk(ast.parse(inspect.getsource(read))):
        if isinstance(node, ast.Attribute) and node.attr in known:
            yield node.attr
        called = around.get(node.id) if isinstance(node, ast.Name) else None
        called = inspect.unwrap(called) if callable(called) else None
        if inspect.isfunction(called) and called not in seen and _judges(called):
            yield from _names_read(called, seen)


def _judges(called: Any) -> bool:
    """The proof's own judgements, which a rule may ask instead of judging by itself."""
    return called.__module__ in (
        "builder.proof.signatures.nominal",
        "builder.proof.contradictions.clashes",
        "builder.proof.contradictions.pair_clashes",
        "builder.proof.pin_readings",
    )


USING = [
    rule
    for rule in registry.RULES
    if rule.scope is Scope.VEHICLE and rule.id[:3] in ("PIN", "MET", "EVD")
    and any(names_in_source(rule))
]  # fmt: skip


def test_many_rules_on_readings_use_house_defaults() -> None:
    assert len(USING) > 15


@pytest.mark.parametrize("rule", USING, ids=lambda rule: rule.id)
def test_a_rule_that_reads_a_default_prints_it(rule: Rule) -> None:
    assert set(names_in_source(rule)) == set(rule.check.house)  # type: ignore[attr-defined]


def test_a_finding_ends_with_the_default_as_the_book_sets_it() -> None:
    wire = pin("1", "constant", readings=(reading("asleep", 12.5, minutes=24.0),))
    car = vehicle(wire, sessions=(session(),))
    rule = registry.BY_ID["MET121"]
    assert list(rule.check(car, Shelf())) == []
    (fault,) = rule.check(car, Shelf(defaults=HouseDefaults(asleep_min=25)))
    assert isinstance(fault.message, str)
    assert fault.message.endswith("[house default (book.yaml): asleep_min 25 min]")
