"""The schemas of declared kinds say what the declarations say, and the reader reads all records."""

from __future__ import annotations

import json
import re
from collections.abc import Iterator

import pytest
from shipped_book import PINOUTS, ROOT

from builder.declared_files import declared_texts
from builder.declared_files.json_text import COLUMNS, json_text
from builder.declared_files.lent_keys import sheet_file
from builder.declared_files.schemas import defs_file
from builder.declared_files.tables import readme_file
from builder.declared_files.templates import template_file
from builder.declaring import fields_of, read
from builder.loading import load_file
from builder.model.job import Treatments
from builder.model.kinds import DECLARED


def committed(name: str) -> dict[str, object]:
    return json.loads((ROOT / "schema" / f"{name}.schema.json").read_text("utf-8"))


@pytest.mark.parametrize("path", declared_texts(), ids=lambda path: path.name)
def test_a_declared_file_is_that_of_its_declaration(path):
    assert path.read_text("utf-8") == declared_texts()[path], (
        "write it anew: python -m builder.declared_files"
    )


def test_json_has_a_line_for_each_key_and_fills_those_of_what_is_short():
    said = {"type": "string", "description": "long " * 15, "enum": ["a b"], "unit": "V"}
    text = json_text({"properties": {"one": said, "two": {"type": "string"}}, "required": ["one"]})
    assert json.loads(text)["properties"]["one"] == said
    assert max(map(len, text.splitlines())) <= COLUMNS
    assert '\n    "two": {"type": "string"}\n  },\n  "required": ["one"]\n}\n' in text
    assert '"enum": ["a b"], "unit": "V"\n' in text


STAND_IN = ("none", "unknown", "no", "auto")


@pytest.mark.parametrize("kind", DECLARED)
def test_every_shipped_record_is_read_whole(kind):
    for path in sorted((PINOUTS / f"{kind}s").rglob("*.yaml")):
        data = load_file(path, path.name).data
        made = read(DECLARED[kind], data)
        named = {each.key: each.attribute for each in fields_of(DECLARED[kind])}
        assert set(data) <= set(named)
        for key, value in data.items():
            if isinstance(value, str | int | float) and value not in (
                "none",
                "unknown",
                "no",
                "auto",
            ):
                assert str(getattr(made, named[key])) == str(value), (path.name, key)


def test_a_template_says_every_key_of_its_kind():
    for kind, cls in DECLARED.items():
        text = (PINOUTS / f"{kind}s" / "TEMPLATE.yaml").read_text("utf-8")
        for key in (each.key for each in fields_of(cls)):
            assert re.search(rf"^(?:# )?{key}:", text, re.M), (kind, key)


def test_a_comment_of_a_template_that_is_none_of_the_declaration_is_written_over():
    path = PINOUTS / "converters" / "TEMPLATE.yaml"
    text = path.read_text("utf-8")
    spoilt = text.replace("# what the maker calls it", "# what a dealer calls it")
    assert spoilt != text == template_file("converter", spoilt)


def test_a_table_that_lacks_a_key_is_written_over():
    text = (ROOT / "schema" / "README.md").read_text("utf-8")
    spoilt = re.sub(r"(?m)^\| `delay_adjust` .*\n", "", text)
    assert spoilt != text == readme_file(spoilt)


SHOWN_ONLY = {
    "at_supply_v",
    *("speaker_level_in", "measured_by"),
    *("generation", "engine_sound"),
    "leg_capacitor_uf",
}
"""Keys that people read, on pages or in the record, and nothing reckons with; the engine's sound is
asked by its name, with the other features."""


def attributes(cls: type) -> Iterator[str]:
    for each in fields_of(cls):
        yield each.attribute
        if each.inner is not None and each.inner is not Treatments:  # asked by their channels
            yield from attributes(each.inner)


def test_every_key_is_reckoned_with_or_said_to_be_shown_only():
    declared = {name for cls in DECLARED.values() for name in attributes(cls)}
    code = "\n".join(path.read_text("utf-8") for path in (ROOT / "builder").rglob("*.py"))
    read_somewhere = set(re.findall(r"\.(\w+)\b", code))
    assert declared - read_somewhere == SHOWN_ONLY, "reckon with it, or name it here"


@pytest.mark.parametrize(
    ("name", "write", "key"), [("sheet", sheet_file, "meter"), ("defs", defs_file, "lasts_s")]
)
def test_what_a_sheet_takes_over_is_written_over(name, write, key):
    text = (ROOT / "schema" / f"{name}.schema.json").read_text("utf-8")
    spoilt = text.replace(f'"{key}": {{', f'"{key}": {{"title": "spoilt",')
    assert spoilt != text == write(spoilt)
