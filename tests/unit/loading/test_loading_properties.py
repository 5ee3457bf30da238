"""No bytes whatsoever raise; what other writers write is read as they meant it."""

from __future__ import annotations

import json
import unicodedata
from pathlib import Path

import pytest
import yaml
from hypothesis import given, settings
from hypothesis import strategies as st
from samples import many

from builder.loading import EventSource, load_text
from builder.loading.catalogue import SLUGS
from builder.loading.events import available_sources
from builder.loading.scalars import SMALLEST_FRACTION

ROOT = Path(__file__).parents[3]
TEMPLATES = {path.parent.name: path for path in sorted(ROOT.glob("pinouts/*/TEMPLATE.yaml"))}
SOURCES = available_sources()
YAML_LIKE = st.text("ab:-?[]{}&*!|>'\"%@`#,~<.0123e+\\ux \t\n\r\u200b\u202e\x00é", max_size=60)
# Written by YAML 1.1 these need quotes it does not set, or are refused here by design.
VISIBLE = st.text(st.characters(codec="utf-8", exclude_categories=["C", "Zl", "Zp", "M", "Lo"]))
NUMBERS = st.integers(-(2**53) + 1, 2**53 - 1) | st.floats(
    allow_nan=False, allow_infinity=False
).filter(lambda number: number == 0 or abs(number) >= SMALLEST_FRACTION)
KEYS = VISIBLE.filter(lambda key: key.strip())
VALUES = st.recursive(
    st.none() | st.booleans() | NUMBERS | VISIBLE,
    lambda inner: st.lists(inner, max_size=4) | st.dictionaries(KEYS, inner, max_size=4),
    max_leaves=12,
)
RECORDS = st.dictionaries(KEYS, VALUES, min_size=1, max_size=5)


def check_is_sound(text: str | bytes) -> None:
    """Either data or findings, each with an id of the catalogue and a place in the file."""
    for source in SOURCES:
        loaded = load_text(text, "f", source)
        assert (loaded.data is None) == bool(loaded.findings)
        for finding in loaded.findings:
            assert finding.slug == SLUGS[finding.rule_id]
            assert finding.line >= 1 and finding.column >= 1
            shown = {unicodedata.category(letter) for letter in finding.message + finding.help}
            assert not shown & {"Cc", "Cf", "Cs", "Zl", "Zp"}


@given(st.binary(max_size=200))
@settings(deadline=None)
def test_no_bytes_raise(raw):
    check_is_sound(raw)


@given(st.text(max_size=100) | YAML_LIKE)
@settings(max_examples=many(400), deadline=None)
def test_no_text_raises(text):
    check_is_sound(text)


@given(YAML_LIKE.map(lambda text: "a: " + text))
@settings(max_examples=many(400), deadline=None)
def test_both_parsers_agree_wherever_both_accept(text):
    read = [load_text(text, "f", source).data for source in SOURCES]
    if None not in read:
        assert [repr(data) for data in read] == [repr(read[0])] * len(read)


@st.composite
def mutated_templates(draw: st.DrawFn) -> bytes:
    raw = bytearray(TEMPLATES[draw(st.sampled_from(sorted(TEMPLATES)))].read_bytes())
    for _ in range(draw(st.integers(1, 4))):
        start = draw(st.integers(0, len(raw)))
        stop = min(len(raw), start + draw(st.integers(0, 30)))
        raw[start:stop] = draw(st.binary(max_size=4) | YAML_LIKE.map(str.encode))
    return bytes(raw)


@given(mutated_templates())
@settings(max_examples=many(60), deadline=None)
def test_no_damaged_template_raises(raw):
    check_is_sound(raw)


@pytest.mark.parametrize("source", SOURCES)
@given(RECORDS)
@settings(deadline=None)
def test_json_is_read_as_it_was_meant(source, record):
    loaded = load_text(json.dumps(record, ensure_ascii=False), "f", source)
    assert (loaded.data, loaded.findings) == (record, [])


@pytest.mark.parametrize("source", SOURCES)
@given(RECORDS, st.sampled_from([None, '"']), st.booleans())
@settings(deadline=None)
def test_what_pyyaml_writes_is_read_as_it_was_meant(source, record, style, flow):
    # PyYAML writes YAML 1.1. With every text in quotes only two of its spellings differ
    # from 1.2: `!!float` tags on quoted numbers, so numbers are left plain here, and
    # texts like 1e3 or 0o7 that 1.1 thinks need no quotes, which the quotes cover.
    dumper = QuotedDumper if style else PlainDumper
    written = yaml.dump(record, Dumper=dumper, default_flow_style=flow, allow_unicode=True)
    loaded = load_text(written, "f", source)
    assert (loaded.data, loaded.findings) == (record, [])


class QuotedDumper(yaml.SafeDumper):
    """Double quotes around every text; no anchors."""

    def ignore_aliases(self, _data):
        return True


class PlainDumper(QuotedDumper):
    """Quotes where 1.1 wants them, and around what 1.2 alone takes for a number."""


def write_quoted(dumper: yaml.SafeDumper, text: str) -> yaml.Node:
    return dumper.represent_scalar("tag:yaml.org,2002:str", text, style='"')


def write_text(dumper: yaml.SafeDumper, text: str) -> yaml.Node:
    read = load_text(f"a: {text}", "f").data if text[:1] in tuple("-+.0123456789") else {"a": text}
    style = None if read == {"a": text} else '"'
    return dumper.represent_scalar("tag:yaml.org,2002:str", text, style=style)


QuotedDumper.add_representer(str, write_quoted)
PlainDumper.add_representer(str, write_text)


@pytest.mark.parametrize("source", list(EventSource))
@pytest.mark.parametrize("kind", sorted(TEMPLATES))
def test_templates_are_read_without_a_finding(kind, source):
    if source not in SOURCES:
        pytest.skip("PyYAML was built without libyaml here")
    loaded = load_text(TEMPLATES[kind].read_bytes(), kind, source)
    assert loaded.findings == []
    assert loaded.data["schema"] == 1
