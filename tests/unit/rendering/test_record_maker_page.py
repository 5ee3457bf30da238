"""What the page "Take down a car" is given, and what it says of itself."""

from __future__ import annotations

import re
from typing import Any

from page_samples import INFO, sample_shelf

from builder.pipeline.site.reference_pages import schemas
from builder.rendering.pages.record_maker import (
    CHECKED_HERE,
    maker_data,
    maker_page,
    shown_schema,
)
from builder.rules.registry import BY_ID, RULES
from builder.rules.rule import Scope


def data() -> dict[str, Any]:
    return maker_data(schemas(), list(sample_shelf().housings.values()))


def test_every_key_of_a_vehicle_is_in_the_form_in_the_order_of_its_schema() -> None:
    schema = schemas()["vehicle"]
    shown = data()["schemas"]["vehicle"]
    assert shown["order"] == list(schema["properties"])
    pins = shown["properties"]["plugs"]["items"]["properties"]["pins"]["items"]
    assert pins["conditional"] is True
    assert pins["order"][:4] == ["cavity", "function", "channel", "leg"]


def test_a_short_example_is_kept_and_a_long_one_is_not() -> None:
    shown = shown_schema({"type": "string", "examples": [["a"], "b", "c"], "allOf": []})
    assert shown == {"type": "string", "examples": ["b"], "conditional": True}


def test_every_rule_about_cars_and_shells_is_listed_once() -> None:
    body = maker_page(RULES, INFO).body_html
    here, command = body.split("Checked only by", 1)
    listed = re.findall(r"rules/([A-Z]{3}\d{3})\.html", here)
    assert listed == list(CHECKED_HERE)
    others = re.findall(r"rules/([A-Z]{3}\d{3})\.html", command)
    scopes = (Scope.RECORD, Scope.PART, Scope.VEHICLE, Scope.BOOK)
    asked = {r.id for r in RULES if r.scope in scopes and {"vehicle", "housing"} & {*r.kinds}}
    assert {*listed, *others} == asked
    assert {"PIN119", "LOM109"} <= asked
    assert not {*listed} & {*others}
    assert all(rule_id in BY_ID for rule_id in CHECKED_HERE)


def test_the_three_words_are_explained() -> None:
    body = maker_page(RULES, INFO).body_html
    for word in ("<dt>unknown</dt>", "<dt>none, no</dt>", "<dt>left out</dt>"):
        assert word in body
