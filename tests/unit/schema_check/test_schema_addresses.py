"""Schemas find each other where they stand, in the package and in a started book, offline."""

from __future__ import annotations

import json
from collections.abc import Iterator
from pathlib import Path
from typing import Any
from urllib.parse import urldefrag, urljoin, urlsplit
from urllib.request import url2pathname

import pytest
from jsonschema import Draft202012Validator
from referencing import Registry, Resource
from referencing.jsonschema import DRAFT202012
from shipped_book import PINOUTS, loombook

from builder.data_files import schema_folder
from builder.loading import load_text
from builder.model.words import RecordKind

KINDS: tuple[RecordKind, ...] = (
    "vehicle", "housing", "converter", "amplifier", "cable", "loom", "interface", "contributor",
    "job", "visit",
)  # fmt: skip


@pytest.fixture(params=["shipped", "started"])
def folder(request: pytest.FixtureRequest, tmp_path: Path) -> Path:
    if request.param == "shipped":
        return schema_folder()
    assert loombook("start", tmp_path / "ours", "--alone").exit_code == 0
    return tmp_path / "ours" / "schema"


def references(schema: Any, base: str) -> Iterator[str]:
    """Every `$ref` as the address that it leads to; an `$id` counts as the standard says."""
    if isinstance(schema, list):
        for one in schema:
            yield from references(one, base)
    if isinstance(schema, dict):
        base = urljoin(base, schema["$id"]) if isinstance(schema.get("$id"), str) else base
        if isinstance(schema.get("$ref"), str):
            yield urljoin(base, schema["$ref"])
        for one in schema.values():
            yield from references(one, base)


def target(address: str) -> Any:
    """What stands at an address of a file, a pointer of keys behind it."""
    file, pointer = urldefrag(address)
    found = json.loads(on_disk(file).read_text("utf-8"))
    for step in pointer.split("/")[1:]:
        found = found[step]
    return found


def on_disk(address: str) -> Path:
    parts = urlsplit(address)
    assert parts.scheme == "file", f"{address} asks the network"
    return Path(url2pathname(parts.path))


def test_every_reference_leads_to_a_definition_in_the_files_beside_it(folder: Path) -> None:
    counted = 0
    for file in sorted(folder.glob("*.schema.json")):
        for address in references(json.loads(file.read_text("utf-8")), file.as_uri()):
            assert on_disk(urldefrag(address).url).parent == folder
            assert isinstance(target(address), dict), address
            counted += 1
    assert counted > 200


def test_a_file_that_names_another_address_would_be_found() -> None:
    away = {
        "$id": "https://schemas.example/cable.schema.json",
        "$ref": "defs.schema.json#/$defs/id",
    }
    (address,) = references(away, "file:///book/schema/cable.schema.json")
    with pytest.raises(AssertionError, match="asks the network"):
        on_disk(address)


@pytest.mark.parametrize("kind", KINDS)
def test_another_validator_reads_a_template_from_its_first_line_alone(
    kind: RecordKind, folder: Path
) -> None:
    book = PINOUTS if folder == schema_folder() else folder.parent
    template = book / f"{kind}s" / "TEMPLATE.yaml"
    text = template.read_text("utf-8")
    named = template.parent / text.splitlines()[0].partition("$schema=")[2]
    assert named.resolve() == (folder / f"{kind}.schema.json").resolve()
    registry: Registry[Any] = Registry(retrieve=retrieved)
    check = Draft202012Validator({"$ref": named.resolve().as_uri()}, registry=registry)
    data = load_text(text, "TEMPLATE.yaml").data
    assert data is not None and check.is_valid(data)
    assert not check.is_valid({**data, "id": 7})  # a reference into the file beside it


def retrieved(address: str) -> Resource[Any]:
    return DRAFT202012.create_resource(json.loads(on_disk(address).read_text("utf-8")))
