"""Pages of findings and of record keys."""

from __future__ import annotations

import json

import pytest
from page_samples import INFO, Tags

from builder.data_files import schema_folder
from builder.findings import CatalogueEntry, Severity
from builder.model.kinds import DECLARED
from builder.rendering.pages.catalogue import (
    explain_entry,
    finding_page,
    findings_index,
    schema_page,
)
from builder.rules.pages import HEADINGS

ENTRY = CatalogueEntry(
    "YML999",
    "odd-thing",
    "An odd <thing>",
    Severity.FIX,
    "First paragraph.\n\nSecond paragraph.",
    "It confuses.",
    "a: 1   # <fails>",
    "Type it otherwise.",
    "common practice, no source",
)


def test_a_finding_page_has_every_section() -> None:
    page = finding_page(explain_entry(ENTRY), INFO)
    assert page.url == "rules/YML999.html"
    assert "<p>First paragraph.</p>\n<p>Second paragraph.</p>" in page.body_html
    assert "a: 1   # &lt;fails&gt;" in page.body_html
    text = Tags(page.body_html).text
    for words in HEADINGS:
        assert words in text


def test_what_can_do_harm_says_so() -> None:
    hazard = explain_entry(ENTRY)._replace(hazard=True)
    assert "a record cannot accept it" in finding_page(hazard, INFO).body_html
    assert "a record cannot accept it" not in finding_page(explain_entry(ENTRY), INFO).body_html


def test_the_index_lists_ids_in_order() -> None:
    other = explain_entry(ENTRY)._replace(id="CON101")
    body = findings_index([explain_entry(ENTRY), other], INFO).body_html
    assert body.index("CON101") < body.index("YML999")


@pytest.mark.parametrize("kind", DECLARED)
def test_every_top_key_of_a_schema_is_explained(kind: str) -> None:
    schema = json.loads((schema_folder() / f"{kind}.schema.json").read_text("utf-8"))
    defs = json.loads((schema_folder() / "defs.schema.json").read_text("utf-8"))
    body = schema_page(kind, schema, defs, INFO).body_html
    for key in schema["properties"]:
        assert f"<dt><code>{key}</code>" in body


def test_keys_inside_lists_and_their_words_are_explained() -> None:
    schema = json.loads((schema_folder() / "vehicle.schema.json").read_text("utf-8"))
    defs = json.loads((schema_folder() / "defs.schema.json").read_text("utf-8"))
    text = Tags(schema_page("vehicle", schema, defs, INFO).body_html).text
    assert "plugs[].pins[].readings[].state needed" in text
    assert "retained Like accessory" in text
