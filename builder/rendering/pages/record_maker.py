"""The record page: its frame, which rules it applies, and the data its scripts work with."""

from __future__ import annotations

import textwrap
from collections.abc import Iterable, Mapping, Sequence
from typing import Any, NamedTuple

from builder.editing.house_style import (
    ONE_LINE_ITEMS,
    ONE_LINE_LISTS,
    OPEN_ITEMS,
    OPEN_MAPPINGS,
    SECTIONS,
    WIDTH,
)
from builder.editing.interview.for_scripts import line_data
from builder.editing.writing import INVENTED_LINE, SCHEMA_LINE, usual_schema_ref
from builder.model.housing import Housing
from builder.model.names import FUNCTION_NAMES, QUANTITY_NAMES, STATE_NAMES, short_function_name
from builder.model.said.for_scripts import said_data
from builder.model.said.states import ALIKE_STATES, LOAD_WORDS
from builder.model.said.units import READ_UNITS
from builder.model.wire_colours import WIRE_SRGB_HEX
from builder.model.words import FUNCTIONS, PAIRED, STATES, SUPPLIES, RecordKind
from builder.parsing.reading_words import (
    AGAINST_SPELLINGS,
    DEAD_STATES,
    EXAMPLE,
    LIMITS,
    LOAD_SPELLINGS,
    OPEN,
    STATE_SPELLINGS,
)
from builder.proof.faces.poses import mirror
from builder.rendering.drawings.function_kinds import HATCH, kind_of
from builder.rendering.page import BuildInfo, Page
from builder.rendering.pages.identify import DATA_URL as SIGNATURES_URL
from builder.rendering.templates import fill
from builder.rules import value_implausible
from builder.rules.rule import Rule, Scope
from builder.schema_check.key_wording import to_read

URL = "record-maker.html"
DATA_URL = "assets/record-maker-data.js"
VALIDATOR_URL = "assets/record-maker-validator.js"
KINDS: tuple[RecordKind, ...] = ("vehicle", "housing")
"""The kinds of record that the page writes."""

CHECKED_HERE = {
    "PIN101": "",
    "PIN102": "",
    "PIN103": "",
    "PIN104": "",
    "PIN105": "",
    "PIN106": "",
    "PIN108": "all but the answers of how to tell, which name other records",
    "PIN110": "",
    "PIN112": "",
    "PIN117": "",
    "PIN119": "",
}
"""The rules that the page applies while one types, and what of each it leaves to the command."""
_SHOWN = frozenset(
    {
        *("type", "enum", "wordMeanings", "unit", "minimum", "maximum", "exclusiveMinimum"),
        *("description", "formMeaning", "pattern", "minItems", "maxItems", "maxLength", "$ref"),
        *("required", "if", "then"),
    }
)
_OF_COMMAND = (Scope.RECORD, Scope.PART, Scope.VEHICLE, Scope.BOOK)

Schema = Mapping[str, Any]


class RuleLine(NamedTuple):
    """One rule in the list of what is checked where."""

    id: str
    title: str
    but: str


def maker_page(rules: Iterable[Rule], info: BuildInfo) -> Page:
    """Return the page; `rules` is the catalogue, of which it lists those about cars and shells."""
    about = [
        RuleLine(rule.id, rule.title, CHECKED_HERE.get(rule.id, ""))
        for rule in rules
        if rule.scope in _OF_COMMAND and {"vehicle", "housing"}.intersection(rule.kinds)
    ]
    body = fill(
        "record_maker.html",
        here=[line for line in about if line.id in CHECKED_HERE],
        command=[line for line in about if line.id not in CHECKED_HERE],
        data_url=DATA_URL,
        signatures_url=SIGNATURES_URL,
        validator_url=VALIDATOR_URL,
        info=info,
    )
    what = "Write the record of a car on the phone, without a signal and without YAML."
    return Page(URL, "Take down a car", what, body)


def maker_data(
    schemas: Mapping[str, Schema],
    housings: Sequence[Housing],
    schema_refs: Mapping[RecordKind, str] | None = None,
) -> dict[str, Any]:
    """Return what the scripts of the page work with, as data that JSON can hold.

    Args:
        schemas: The schemas of `KINDS`, and the shared definitions as "defs".
        housings: The shells of the book, which a plug can be chosen from.
        schema_refs: By kind, the relative path of its schema from where this book puts such a
            record; by default of the usual place.
    """
    return {
        "schemas": {name: shown_schema(schemas[name]) for name in (*KINDS, "defs")},
        "housings": [housing_data(each) | {"mirror": mirror(each)} for each in housings],
        "style": _style(schemas, schema_refs or {}),
        "reading": _reading(),
        "said": said_data(),
        "lines": line_data(),
        "rules": _rules(),
        "names": {
            "functions": FUNCTION_NAMES,
            "states": STATE_NAMES,
            "quantities": {name: f"{w}, {unit}" for name, (w, unit) in QUANTITY_NAMES.items()},
        },
        "kinds": {function: kind_of(function) for function in FUNCTIONS},
        "hatch": HATCH,
        "colours": WIRE_SRGB_HEX,
    }


def shown_schema(schema: Any) -> Any:
    """A schema without what a form does not need: conditions, and all examples but a short one.

    `order` holds the keys in the order of the schema, which data in a script does not keep;
    `conditional` says that some keys are asked for or refused by the values of others.
    """
    if not isinstance(schema, dict):
        return schema
    kept = {word: value for word, value in schema.items() if word in _SHOWN}
    for word in ("properties", "$defs"):
        if word in schema:
            kept[word] = {key: shown_schema(inner) for key, inner in schema[word].items()}
    if "properties" in schema:
        kept["order"] = list(schema["properties"])
    if "allOf" in schema:
        kept["conditional"] = True
    if "items" in schema:
        kept["items"] = shown_schema(schema["items"])
    asked = to_read(schema).strip("<>")
    if asked:
        return {**kept, "asked": asked}
    short = [one for one in schema.get("examples", []) if not isinstance(one, dict | list)]
    return {**kept, "examples": short[:1]} if short else kept


def housing_data(housing: Housing) -> dict[str, Any]:
    """Return a shell as the page's script takes it."""
    return {
        "id": housing.id,
        "name": housing.name,
        "seen_from": housing.seen_from,
        "latch": housing.latch,
        "rows": [list(row) for row in housing.rows],
        "row_shift": list(housing.row_shift),
        "blade_mm": housing.blade_mm,
        "sizes": housing.blades_mm,
        "blocked": list(housing.blocked),
        "keyed_corner": housing.keyed_corner,
        "mates_with": list(housing.mates_with),
    }


def _style(schemas: Mapping[str, Schema], refs: Mapping[RecordKind, str]) -> dict[str, Any]:
    """The house style of a new record; see builder/editing."""
    return {
        "width": WIDTH,
        "one_line_items": sorted(ONE_LINE_ITEMS),
        "one_line_lists": sorted(ONE_LINE_LISTS),
        "open_items": sorted(OPEN_ITEMS),
        "open_mappings": sorted(OPEN_MAPPINGS),
        "kinds": {
            kind: {
                "schema_line": SCHEMA_LINE + (refs.get(kind) or usual_schema_ref(kind)),
                "invented": INVENTED_LINE,
                "sections": list(SECTIONS.get(kind, ())),
                "explanations": _explanations(schemas[kind]),
            }
            for kind in KINDS
        },
    }


def _explanations(schema: Schema) -> dict[str, list[str]]:
    return {
        key: [f"# {line}" for line in textwrap.wrap(inner["description"], WIDTH - 2)]
        for key, inner in schema["properties"].items()
    }


def _reading() -> dict[str, Any]:
    return {
        "example": EXAMPLE,
        "states": list(STATES),
        "state_spellings": STATE_SPELLINGS,
        "loads": sorted(LOAD_WORDS),
        "load_spellings": LOAD_SPELLINGS,
        "against_spellings": AGAINST_SPELLINGS,
        "units": READ_UNITS,
        "open": OPEN,
        "alike_states": {way.replace(" ", "_"): states for way, states in ALIKE_STATES.items()},
        "limits": LIMITS,
        "dead_states": list(DEAD_STATES),
    }


def _rules() -> dict[str, Any]:
    return {
        "short_functions": {name: short_function_name(name) for name in FUNCTIONS},
        "paired": sorted(PAIRED),
        "supplies": sorted(SUPPLIES),
        "limits": {
            "readings": value_implausible.READING_LIMITS,
            "battery": value_implausible.BATTERY,
            "speaker_pair": value_implausible.SPEAKER_PAIR,
            "speaker_ohm": value_implausible.SPEAKER_NOMINAL,
            "clean_level": value_implausible.CLEAN_LEVEL,
            "delay": value_implausible.DELAY,
            "lead": value_implausible.LEAD,
        },
    }
