"""Nothing that a person fills in or types again shows a figure that could pass for his reading."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from typing import Any

import pytest
from shipped_book import PINOUTS, loombook

from builder.editing.drafts import DRAFTED_KINDS, questions_of
from builder.editing.tabular import csv_rows
from builder.model.kinds import DECLARED
from builder.model.words import RecordKind, SchemaKind
from builder.rendering.pages.record_maker import shown_schema
from builder.schema_check.key_wording import example_line, to_read
from builder.schema_check.schemas import resolve, schema_at

CARS: tuple[SchemaKind, ...] = ("vehicle", "job", "sheet", "readings")
NO_READING = re.compile(
    r"nominal_ohm|(woofer|tweeter)_ohm|corner_hz|rated_w_rms|ohm|tuned_hz|count|number|size_\w+|year\w*|(high|low)_pass_hz"
    r"|subsonic_hz|slope_db_per_octave|delay_ms|pad|channel|bridged_with|(in|out)put|coil"
)
"""Keys of what is printed on a part, decided or counted: nobody reads them off a car."""


def keys(schema: Any, seen: tuple[str, ...] = ()) -> Iterator[tuple[str, Mapping[str, Any]]]:
    """Every key of a schema with what is said of it, through its lists and parts."""
    full = resolve(schema)
    for key, inner in full.get("properties", {}).items():
        if isinstance(inner, dict) and key != "begun":  # which nobody types
            yield key, {**resolve(inner), **inner}
            yield from keys(inner, (*seen, key)) if len(seen) < 6 else ()
    if isinstance(full.get("items"), dict):
        yield from keys(full["items"], seen)


def read_off() -> set[str]:
    """The keys of what is read or measured on a car: no schema gives a number of them."""
    found = {key for kind in CARS for key, said in keys(schema_at(kind, ())) if to_read(said)}
    return {key for key in found if not NO_READING.fullmatch(key)}


READ = read_off()


def figures_in(value: Any, key: str = "") -> Iterator[str]:
    """The figures of such keys anywhere in data, as "key: figure"."""
    if isinstance(value, dict):
        for name, inner in value.items():
            yield from figures_in(inner, str(name))
    elif isinstance(value, list):
        for inner in value:
            yield from figures_in(inner, key)
    elif isinstance(value, int | float) and not isinstance(value, bool) and key in READ:
        yield f"{key}: {value}"


def typed_in(text: str) -> list[str]:
    """The figures of such keys in a text, be it a comment, braces or a sentence."""
    return re.findall(rf"\b(?:{'|'.join(sorted(READ))}): *-?[0-9](?:[0-9.]*[0-9])?", text)


def test_what_is_read_is_what_one_would_think() -> None:
    wanted = {"minutes", "value", "battery_v", "tone_hz", "from_v", "lasts_s", "impedance_mohm"}
    wanted |= {"clean_max_v_rms", "speaker_ohm", "base_load_a", "restraint_wait_min", "current_a"}
    assert wanted | {"drop_mv", "parked_ma", "length_m", "max_source_ma", "rating_a"} <= READ


@pytest.mark.parametrize("kind", CARS)
def test_no_schema_gives_one_as_an_example(kind: SchemaKind) -> None:
    shown = {kind: schema_at(kind, ()).get("examples", [])}
    for key, said in keys(schema_at(kind, ())):
        shown.setdefault(key, []).extend(said.get("examples", []))
    assert [*figures_in(shown)] == []


@pytest.mark.parametrize("kind", [*DECLARED])
def test_no_template_shows_one(kind: RecordKind) -> None:
    text = (PINOUTS / f"{kind}s" / "TEMPLATE.yaml").read_text("utf-8")
    lines = [f for f in typed_in(text) if kind in ("vehicle", "job") or "battery" in f]
    assert lines == []


def test_a_line_to_type_and_a_field_of_the_page_ask_for_it() -> None:
    for kind in CARS:
        for key, said in keys(schema_at(kind, ())):
            if key in READ:
                assert typed_in(example_line(key, {**said, "description": ""})) == [], key
                assert not any(
                    isinstance(e, float | int) for e in shown_schema(dict(said)).get("examples", ())
                ), key


def test_the_table_to_fill_shows_none() -> None:
    rows = [",".join(row) for row in csv_rows()]
    heads = next(row for row in csv_rows() if row[0] == "plug")
    example = next(row for row in csv_rows() if row[0].startswith("example"))
    cells = dict(zip(heads, example, strict=True))
    measured = {h: c for h, c in cells.items() if re.search(r"\((V|min|Ω|A|mm²|mV|mA|Hz)\)", h)}
    assert {"asleep (V)", "asleep battery (V)", "asleep (min)"} <= measured.keys()
    assert [c for c in measured.values() if re.search(r"[0-9]", c)] == []
    shown = [row for row in rows if re.search(r"^#[^,]*,,[0-9.]+,", row)]
    assert [row for row in shown if not row.startswith("#plug A empty")] == []


@pytest.mark.parametrize("kind", DRAFTED_KINDS)
def test_no_question_of_a_new_record_holds_one(kind: RecordKind) -> None:
    unit = r"(?:V|A|Ah|mA|Ω|ohm|W|w|m|min|Hz|dB|s)\b"
    asked = [q.prompt for q in questions_of(kind)]
    assert [q for q in asked if re.search(rf"\b[0-9][0-9.,]* ?{unit}", q)] == []
    assert [
        q for q in asked if re.search(r"like [0-9.]+(-| into)[0-9 ]", q) if "2016" not in q
    ] == []


def test_no_help_of_a_command_holds_one() -> None:
    for command in ("identify", "new", "evidence", "check", "plan", "import"):
        said = loombook(command, "--help").output
        assert re.findall(r"\b[0-9]+\.[0-9]+ (?:V|ohm)|minutes [0-9]+|battery [0-9]", said) == []


def blanks_filled_by_nobody(text: str) -> str:
    """A template whose lines to fill are opened and left as they are."""
    text = re.sub(r"(?m)^( *)# ?( *- \{.*: [,}].*)$", r"\1\2", text)
    text = re.sub(r"(?m)^# (passages): +#.*$", r"\1:", text)
    return re.sub(
        r"(?m)^( +)(readings): \[\]( +#.*)?$\n((?:\1  ?#.*\n)*)(?=\1  +- \{)",
        r"\1\2:\n",
        text,
    )


def test_a_template_with_its_blanks_left_open_is_asked_for_them(tmp_path: Any) -> None:
    text = blanks_filled_by_nobody((PINOUTS / "vehicles" / "TEMPLATE.yaml").read_text("utf-8"))
    book = tmp_path / "book"
    (book / "vehicles").mkdir(parents=True)
    (book / "vehicles" / "template-vehicle.yaml").write_text(text, "utf-8")
    found = loombook("check", book)
    assert found.exit_code == 1 and "Traceback" not in found.output
    for key in ("minutes", "value", "battery_v"):
        assert f'"{key}" is empty' in found.output
    assert "<what was read, in V>" in found.output and typed_in(found.output) == []


@pytest.mark.parametrize("put_back", ["minutes: 65", "battery_v: 12.62", "base_load_a: 42"])
def test_one_that_is_put_back_is_found(put_back: str) -> None:
    assert typed_in(f"#   - {{session: s1, state: asleep, {put_back}, quantity: dc_v}}") == [
        put_back
    ]
    key, figure = put_back.split(": ")
    assert [*figures_in({"readings": [{key: float(figure)}]})] == [f"{key}: {float(figure)}"]
