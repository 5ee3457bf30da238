"""What the site gives away: every record is there, as typed, and its table says the same."""

from __future__ import annotations

import csv
import hashlib
import io
import json
from pathlib import Path
from typing import Any

import jsonschema_rs
import pytest
from shipped_book import PINOUTS, loombook
from site_folder import check_folder, plain_cell, validator
from whole_plans import whole_plans

from builder.book import RecordFile, open_book
from builder.model.vehicle import Vehicle
from builder.pipeline.checking.book_check import check_book
from builder.pipeline.checking.deciding import plans_of
from builder.pipeline.checking.records import as_counted, read_record
from builder.pipeline.checking.shelf import counting_shelf
from builder.planning.plan_json import plan_as_json
from builder.proof.pin_proof import prove
from builder.rendering import missing
from builder.rendering.pages.open_data import open_data_page
from builder.rendering.pins_csv import COLUMNS
from builder.schema_check import check_shape
from builder.source_map import SourceMap

BOOK = open_book(PINOUTS)
FILES = [file for file in BOOK.files() if not file.is_template]


@pytest.fixture(scope="module")
def site(shipped_site: Path) -> Path:
    return shipped_site


def data(site: Path, url: str) -> Any:
    return json.loads((site / "data" / url).read_text("utf-8"))


def schema(site: Path, name: str) -> jsonschema_rs.Validator:
    return validator(site / "data" / "schema", name)


def url_of(file: RecordFile) -> str:
    return f"{file.kind}s/{file.path.stem}.json"


def test_the_index_names_every_record_with_the_sum_of_its_file(site: Path) -> None:
    index = data(site, "records.json")
    assert not list(schema(site, "data-index").iter_errors(index))
    told = {(one["kind"], one["id"]): one["hash"] for one in index["records"]}
    assert told == {
        (file.kind, file.path.stem): hashlib.sha256(file.path.read_bytes()).hexdigest()
        for file in FILES
    }
    assert len(index["records"]) == len(told)
    for one in index["records"]:
        assert (site / "data" / one["url"]).is_file()
        assert (site / "data" / one["page"]).is_file()
        assert one["title"]


@pytest.mark.parametrize("file", FILES, ids=url_of)
def test_a_data_file_holds_the_record_as_typed_and_fits_its_schemas(
    site: Path, file: RecordFile
) -> None:
    found, read = data(site, url_of(file)), read_record(file)
    assert not list(schema(site, "data-file").iter_errors(found))
    assert check_shape(file.kind, found["record"], SourceMap(None), "x") == []
    assert found["record"] == json.loads(json.dumps(read.data, default=str))
    assert found["about"]["record_sha256"] == read.digest
    assert (site / "data" / url_of(file)).parent.joinpath(found["about"]["schema"]).is_file()
    if file.kind == "job":
        assert not list(schema(site, "work-pack").iter_errors(found["computed"]["pack"]))


def test_each_car_has_every_plan_with_all_that_it_says(site: Path) -> None:
    checked = check_book(BOOK)
    for file in [one for one in FILES if one.kind == "vehicle"]:
        read = as_counted(read_record(file), checked.shelf)
        assert isinstance(read.record, Vehicle)
        decided = plans_of(read, read.record, checked.shelf, checked.gate())
        plans = [json.loads(json.dumps(plan_as_json(one.plan))) for one in decided]
        told = whole_plans(data(site, url_of(file))["computed"])
        for plan in (*plans, *told):
            plan.pop("refusals")  # they name files, which a site has by the addresses of its book
        assert plans and told == plans


@pytest.mark.parametrize("file", FILES[::9], ids=url_of)
def test_every_file_says_that_it_is_invented_and_on_which_terms(
    site: Path, file: RecordFile
) -> None:
    about = data(site, url_of(file))["about"]
    assert about["data"] == "invented"
    assert about["notice"].startswith("Invented")
    assert about["licence"] == "CC0-1.0"


def test_a_book_that_states_no_terms_says_so(small_book: Path, tmp_path: Path) -> None:
    assert loombook("build", small_book, "--output", tmp_path / "site").exit_code == 0
    about = data(tmp_path / "site", "records.json")["about"]
    assert about["licence"].startswith("not stated")


def test_the_table_read_back_equals_the_records(site: Path) -> None:
    text = (site / "data" / "pins.csv").read_bytes().decode("utf-8")
    assert text.count("\r\n") == text.count("\n")
    rows = list(csv.DictReader(io.StringIO(text, newline="")))
    assert [{k: plain_cell(v) for k, v in row.items()} for row in rows] == expected_rows()


def expected_rows() -> list[dict[str, str]]:
    """The same rows made from the raw data of the records, by another way."""
    rows = []
    for file in FILES:
        own = read_record(file)
        read = as_counted(own, counting_shelf(BOOK))
        if isinstance(read.record, Vehicle):
            proofs = prove(read.record, BOOK.defaults)
            for plug, typed_plug in zip(read.record.plugs, read.data["plugs"], strict=True):
                for pin, typed in zip(plug.pins, typed_plug.get("pins", []), strict=True):
                    proof = proofs[pin.path]
                    raw = {
                        **from_record(read.data, typed_plug, typed),
                        "record_sha256": own.digest,
                    }
                    raw["computed_grade"] = proof.band
                    raw["computed_score"] = round(proof.score, 4)
                    rows.append(
                        {name: text_of(raw.get(name)) for name in (c.name for c in COLUMNS)}
                    )
    return rows


def from_record(
    record: dict[str, Any], plug: dict[str, Any], pin: dict[str, Any]
) -> dict[str, Any]:
    wire, fuse, scope = pin.get("wire", {}), pin.get("fuse", {}), record["scope"]
    only_if = pin.get("only_if", {})
    return {
        **{key: record[key] for key in ("make", "model", "variant", "data")},
        **{key: pin.get(key) for key in ("cavity", "function", "channel", "leg", "note")},
        **{key: number(pin.get(key)) for key in ("max_source_ma", "level_v")},
        "old_notes": len(pin.get("old_notes", ())),
        "vehicle": record["id"],
        "year_from": scope["year_from"],
        "year_to": scope["year_to"],
        "plug": plug["id"],
        "housing": plug["housing"],
        "wire_base": wire.get("base"),
        "wire_stripe": wire.get("stripe"),
        "wire_size_mm2": wire.get("size_mm2"),
        "wire_size_awg": wire.get("size_awg"),
        "fuse_place": fuse.get("place"),
        "fuse_rating_a": number(fuse.get("rating_a")),
        "only_if": "; ".join(f"{key}: {', '.join(words)}" for key, words in only_if.items()),
        "readings": len(pin.get("readings", [])),
        "claims": len(pin.get("claims", [])),
    }


def number(value: object) -> object:
    """A number, or nothing for a figure that is not known."""
    return None if value == "unknown" else value


def text_of(value: object) -> str:
    if value is None:
        return ""
    return f"{value:.10g}" if isinstance(value, float) else str(value)


def test_the_page_links_every_file_and_explains_every_column_and_key(site: Path) -> None:
    page = (site / "data" / "index.html").read_text("utf-8")
    for column in COLUMNS:
        assert f"<code>{column.name}</code>" in page
    for file in ("records.json", "pins.csv", "pins.csv-metadata.json"):
        assert f'href="{file}"' in page
    for name in (path.name for path in (site / "data" / "schema").iterdir()):
        assert f'href="schema/{name}"' in page
    for key in keys_in(data(site, url_of(FILES[-1])), ""):
        if not key.startswith("record."):
            assert f"<code>{key}</code>" in page, key


def keys_in(value: Any, prefix: str) -> set[str]:
    """Every key of a document as the page writes it, lists marked with []."""
    if isinstance(value, list):
        return {key for one in value for key in keys_in(one, prefix)}
    if not isinstance(value, dict):
        return set()
    found = {f"{prefix}{key}" for key in value}
    for key, inner in value.items():
        found |= keys_in(inner, f"{prefix}{key}{'[]' if isinstance(inner, list) else ''}.")
    return found


def test_the_page_needs_every_schema() -> None:
    with pytest.raises(KeyError):
        open_data_page({}, None)  # type: ignore[arg-type]


def test_the_links_the_build_joined_are_those_on_disk(site: Path) -> None:
    assert [bad for bad in check_folder(site) if bad.page != missing.URL] == []


def test_a_link_that_leads_nowhere_is_found_by_the_build(
    small_book: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    from builder.rendering.shell import Shell

    site, bad = tmp_path / "site", ' <a href="gone.html#x">x</a> <a href="#nowhere">y</a>'
    assert loombook("build", small_book, "--output", site).exit_code == 0
    plans = list((site / "plans").iterdir())
    pour = Shell.pour

    def with_bad_link(self: Shell, page: Any) -> str:
        return pour(self, page) + (bad if page.url.startswith("plans/") else "")

    monkeypatch.setattr(Shell, "pour", with_bad_link)
    done = loombook("build", small_book, "--output", site, "--no-store")  # else none is poured
    assert done.exit_code == 1
    assert done.output.count("leads to a file that is not there") == 1  # of their folder
    assert done.output.count("names a fragment that is not on that page") == len(plans)
    assert not any(bad in page.read_text("utf-8") for page in plans)  # the old site stands
    for page in plans:
        page.write_text(page.read_text("utf-8") + bad, "utf-8")
    told = sorted(
        f'{found.page}: "{found.target}"'
        for found in check_folder(site)
        if found.page != missing.URL  # its links count from the root of a server
    )
    assert told == sorted(
        line.rpartition('"')[0] + '"' for line in done.output.splitlines() if '"' in line
    )
