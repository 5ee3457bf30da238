"""What an editor shows while a record is typed, asked of the language server that editors run."""

from __future__ import annotations

from collections.abc import Iterator
from typing import get_args

import pytest
from language_server import LanguageServer
from shipped_book import FULL_RECORDS, PINOUTS, ROOT, loombook
from template_places import full, places, schema_of, template

from builder.model.words import RecordKind

KINDS = get_args(RecordKind)


@pytest.fixture(scope="module")
def server() -> Iterator[LanguageServer]:
    running = LanguageServer(ROOT)
    yield running
    running.close()


@pytest.mark.parametrize("kind", KINDS)
def test_every_key_of_a_template_is_explained(server, kind):
    path = template(PINOUTS, kind)
    uri = server.open(path)
    found = places(path.read_text("utf-8"), kind)
    assert len(found) > (5 if kind == "contributor" else 10)
    for place in found:
        shown = server.hover(uri, place.key.start_mark.line, place.key.start_mark.column + 1)
        for part in place.schema["description"].split(" | "):
            assert part in shown.replace("\\", "").replace("&nbsp;", " "), place.path


@pytest.mark.parametrize("kind", KINDS)
def test_the_words_of_a_list_are_proposed_wherever_one_belongs(server, kind):
    path = template(PINOUTS, kind)
    uri = server.open(path)
    for place in places(path.read_text("utf-8"), kind):
        if "enum" not in place.schema:
            continue
        mark = place.value.start_mark
        proposed = server.proposals(uri, mark.line, mark.column)
        wanted = {str(word) for word in place.schema["enum"]}
        assert {word.strip("\"'") for word in proposed} == wanted, place.path


@pytest.mark.parametrize("kind", KINDS)
def test_the_keys_that_are_not_there_yet_are_proposed_with_their_meaning(server, kind):
    path = template(PINOUTS, kind)
    text = path.read_text("utf-8").rstrip("\n") + "\n\n"
    uri = server.open(path, text)
    proposed = server.proposals(uri, text.count("\n") - 1, 0)
    schema = schema_of(kind)["properties"]
    there = {place.path for place in places(text, kind)}
    assert set(proposed) == set(schema) - there
    assert all(proposed[key] == full(schema[key])["description"] for key in proposed)


@pytest.mark.parametrize(
    ("line", "known"),
    [
        ("      - cavity: 9\n        ", ("function", "channel", "leg", "wire", "fuse", "readings")),
        ("      - cavity: 9\n        readings:\n          - ", ("session", "state", "value")),
        (
            "      - cavity: 9\n        wire:\n          ",
            ("base", "stripe", "size_mm2", "size_awg"),
        ),
    ],
    ids=["a pin", "a reading", "a wire"],
)
def test_the_keys_of_a_pin_are_proposed_as_it_is_typed(server, line, known):
    path = template(PINOUTS, "vehicle")
    text = path.read_text("utf-8")
    before, _, after = text.partition("  - id: B\n")
    typed = before + line
    uri = server.open(path, f"{typed}\n  - id: B\n{after}")
    last = typed.rsplit("\n", 1)[1]
    assert set(known) <= set(server.proposals(uri, typed.count("\n"), len(last)))


@pytest.mark.parametrize("key", ["function", "base", "state", "quantity", "leg", "channel"])
def test_a_word_is_proposed_where_nothing_has_been_typed_yet(server, key):
    path = template(PINOUTS, "vehicle")
    text = (FULL_RECORDS / "vehicle.yaml").read_text("utf-8")
    (place, *_) = [p for p in places(text, "vehicle") if p.path.endswith(f".{key}")]
    start, end = place.value.start_mark, place.value.end_mark
    rest = text[end.index :]
    if not rest.startswith((",", "}")):  # a remark behind the value goes with it
        rest = rest[rest.index("\n") :]
    uri = server.open(path, text[: start.index] + rest)
    proposed = server.proposals(uri, start.line, start.column)
    assert {str(word) for word in place.schema["enum"]} == set(proposed)


DAMAGES = {
    "vehicle": ("  outputs: unknown", "  outputs: brigded", "bridged"),
    "housing": ("latch: ", "lach: ", "lach"),
    "converter": ("inputs: ", "inputs: many # ", "integer"),
    "amplifier": ("schema: 1", "schema: 2", "1"),
    "cable": ("id: ", "# id: ", "id"),
    "loom": ("ends:", "endz:", "endz"),
    "interface": ("maker: ", "makr: ", "makr"),
    "contributor": ("since: ", "sinse: ", "sinse"),
    "job": ("converter: ", "convertor: ", "convertor"),
    "visit": ("places: ", "plaecs: ", "plaecs"),
}


@pytest.mark.parametrize("kind", KINDS)
def test_a_template_has_no_mark_and_a_damaged_one_has_it_on_its_line(server, kind):
    path = template(PINOUTS, kind)
    assert server.findings(server.open(path)) == []
    text = path.read_text("utf-8")
    old, new, says = DAMAGES[kind]
    before, found, after = text.partition(f"\n{old}")
    assert found, old
    found_here = server.findings(server.open(path, f"{before}\n{new}{after}"))
    # A key that is missing can only be told of the record, at its first line.
    record_line = next(i for i, line in enumerate(text.splitlines()) if line and line[0] != "#")
    wanted = record_line if new.startswith("#") else before.count("\n") + 1
    assert any(line == wanted and says in message for line, message in found_here), found_here


def test_no_record_of_the_book_is_underlined(server):
    opened = [(path, server.open(path)) for path in sorted(PINOUTS.rglob("*.yaml"))]
    assert len(opened) > 60
    assert {path.name: server.findings(uri) for path, uri in opened if server.findings(uri)} == {}


def test_it_is_the_same_in_a_book_of_ones_own(server, tmp_path):
    assert loombook("start", tmp_path / "ours", "--alone").exit_code == 0
    path = template(tmp_path / "ours", "vehicle")
    place = next(p for p in places(path.read_text("utf-8"), "vehicle") if p.path == "make")
    uri = server.open(path)
    assert "The make." in server.hover(uri, place.key.start_mark.line, 1)
    settings = tmp_path / "ours" / "book.yaml"
    lines = settings.read_text("utf-8").splitlines()
    line = next(i for i, text in enumerate(lines) if text.startswith("site_name:"))
    uri = server.open(settings)
    assert "What the built site is called." in server.hover(uri, line, 1)
    assert server.findings(uri) == []
