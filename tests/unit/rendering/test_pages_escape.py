"""Records are data: whatever they hold, a page stays the page we wrote."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest
from page_samples import INFO, Tags, hostile, page_of, sample, sample_plan, sample_shelf

from builder.findings import Finding, Severity
from builder.model.summary import summarise
from builder.rendering.page import Page
from builder.rendering.pages.lists import home_page, make_pages, vehicles_index
from builder.rendering.pages.looms import loom_page
from builder.rendering.pages.parts import (
    amplifier_page,
    cable_page,
    contributor_page,
    converter_page,
    housing_page,
    interface_page,
)
from builder.rendering.pages.plan import plan_page

PAYLOADS = [
    "</td></table><script>alert(1)</script>",
    '" onmouseover="alert(1)" x="',
    "' onmouseover='alert(1)' x='",
    "<img src=x onerror=alert(1)>",
    "<a href='javascript:alert(1)'>x</a>",
    "]]> --> </style> <!--loombook:body-->",
    "{{ 7 * 7 }}{% raw %}{{ vehicle.__class__ }}",
    "[text](http://elsewhere.example) **bold** <http://elsewhere.example>",
    "&lt;script&gt; &amp;amp; \u202e\u2028",
]
KEPT = frozenset({"id", "housing", "session", "plug", "means", "path"})
# Words of closed lists that the model holds as plain text.
CLOSED = frozenset({"kind", "type", "sum", "latch", "seen_from", "use", "material", "delay_adjust"})
PLAN_WORDS = KEPT | frozenset(
    {"kind", "vehicle", "converter", "leg", "treatment", "verdict", "basis", "state", "load"}
)


@pytest.fixture(scope="module")
def harmless() -> Tags:
    """What elements and attributes a page of ours has, with harmless text in it."""
    vehicle, shelf = sample("vehicles"), sample_shelf()
    page = page_of(vehicle, shelf, plans=[sample_plan(vehicle, shelf)], findings=[finding("x")])
    return Tags(page.body_html + plan_of(vehicle).body_html)


def finding(words: str) -> Finding:
    return Finding("f", 1, 1, Severity.WARN, "PIN101", "s", words, words, (), words)


def plan_of(vehicle: Any) -> Page:
    shelf = sample_shelf()
    plan = sample_plan(sample("vehicles"), shelf)
    return plan_page(plan, vehicle, shelf.converters["template-converter"], shelf, INFO)


@pytest.mark.parametrize("payload", PAYLOADS)
def test_vehicle_page_keeps_text_as_text(payload: str, harmless: Tags) -> None:
    vehicle = hostile(sample("vehicles"), payload, KEPT)
    page = page_of(vehicle, sample_shelf(), findings=[finding(payload)])
    tags = Tags(page.body_html)
    assert tags.elements <= harmless.elements
    assert tags.attributes <= harmless.attributes
    assert " ".join(payload.split()) in tags.text


@pytest.mark.parametrize("payload", PAYLOADS)
def test_plan_page_keeps_text_as_text(payload: str, harmless: Tags) -> None:
    shelf = sample_shelf()
    vehicle = sample("vehicles")
    plan = hostile(sample_plan(vehicle, shelf), payload, PLAN_WORDS | {"cavity"})
    converter = hostile(shelf.converters["template-converter"], payload, KEPT | CLOSED)
    typed = hostile(vehicle, payload, KEPT | {"cavity"})  # a plug has each cavity once
    page = plan_page(plan, typed, converter, shelf, INFO)
    tags = Tags(page.body_html)
    assert tags.elements <= harmless.elements
    assert tags.attributes <= harmless.attributes
    assert " ".join(payload.split()) in tags.text


@pytest.mark.parametrize("payload", PAYLOADS)
def test_part_and_list_pages_keep_text_as_text(payload: str) -> None:
    kept = KEPT | CLOSED | {"mates_with", "blocked"}
    vehicle = hostile(sample("vehicles"), payload, KEPT)
    summary = summarise(vehicle, payload)
    pages = [
        housing_page(replace(sample("housings"), name=payload, note=payload), [], INFO),
        converter_page(hostile(sample("converters"), payload, kept), [], INFO),
        amplifier_page(hostile(sample("amplifiers"), payload, kept), [], INFO),
        cable_page(hostile(sample("cables"), payload, kept), [], INFO),
        loom_page(replace(sample("looms"), name=payload, note=payload), [], INFO),
        interface_page(replace(sample("interfaces"), name=payload, note=payload), [], INFO),
        contributor_page(replace(sample("contributors"), name=payload, note=payload), [], INFO),
        home_page([summary], INFO),
        vehicles_index([summary], INFO),
        *make_pages([summary], INFO),
    ]
    for page in pages:
        tags = Tags(page.body_html)
        assert not tags.elements & {"img", "iframe", "style", "form"}
        ours = page.body_html.count('<script src="assets/finder')
        assert page.body_html.count("<script") == ours
        assert not {name for name in tags.attributes if name.startswith("on")}
        assert not [value for name, value in tags.values if name == "href" and ":" in value]
        assert " ".join(payload.split()) in tags.text, page.url


def test_no_page_has_inline_style_or_script(harmless: Tags) -> None:
    assert "style" not in harmless.attributes
    assert not harmless.elements & {"style", "script"}


def test_make_names_become_safe_file_names() -> None:
    vehicle = replace(sample("vehicles"), make="../../Büro & <b>/x")
    page = make_pages([summarise(vehicle, "f")], INFO)[0]
    assert page.url == "makes/buFCro-b-x.html"
