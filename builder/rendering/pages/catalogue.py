"""Pages of rules and other findings, and pages of the schema: why refused, which key."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from functools import reduce
from operator import getitem
from typing import Any, NamedTuple

from builder.findings import CatalogueEntry, Severity
from builder.model.names import function_name
from builder.model.words import SchemaKind
from builder.rendering.page import BuildInfo, Page
from builder.rendering.pages.lists import Entry, index_page
from builder.rendering.pages.prove import CARDS, prove_url
from builder.rendering.pages.wording import coded
from builder.rendering.templates import fill
from builder.rules.read_off import figures_in


class Section(NamedTuple):
    """One part of an explanation: `code` text is shown as typed, else as paragraphs."""

    heading: str
    text: str
    code: bool = False

    @property
    def paragraphs(self) -> tuple[str, ...]:
        """The text cut at blank lines."""
        return tuple(part.strip() for part in self.text.split("\n\n") if part.strip())


class Explained(NamedTuple):
    """A finding id with its explanation, whether a rule or not."""

    id: str
    slug: str
    title: str
    severity: Severity
    hazard: bool
    sections: tuple[Section, ...]
    not_known: frozenset[Severity] = frozenset()  # weights that say what nobody knows yet
    partly: frozenset[Severity] = frozenset()  # weights that say either, finding by finding

    def as_data(self) -> dict[str, Any]:
        """The explanation as plain data."""
        return {
            "id": self.id,
            "slug": self.slug,
            "title": self.title,
            "severity": self.severity.word,
            "hazard": self.hazard,
            "not_yet_known": [weight.word for weight in sorted(self.not_known)],
            "either": [weight.word for weight in sorted(self.partly)],
            "sections": [{"heading": one.heading, "text": one.text} for one in self.sections],
        }


_WEIGHTS = {
    Severity.STOP: "No plan may be made from what it concerns.",
    Severity.FIX: "A plan only when the record accepts it, with a reason and a name.",
    Severity.WARN: "Printed and counted; a plan may be made.",
    Severity.NOTE: "Worth knowing.",
}


def explain_entry(entry: CatalogueEntry) -> Explained:
    """Return a catalogue entry (loading, shape, book) in the form of the rule pages."""
    sections = (
        Section("What it catches", entry.what),
        Section("Why it matters in the bay", entry.why),
        Section("Example", _said_to_be_invented(entry.example), code=True),
        Section("How to mend it", entry.fix),
        Section("Source", entry.source),
    )
    return Explained(entry.id, entry.slug, entry.title, entry.severity, False, sections)


def _said_to_be_invented(example: str) -> str:
    return f"# invented figures: type what you read\n{example}" if figures_in(example) else example


def weight_words(explained: Explained) -> str:
    """Return what a finding of this severity keeps from being done, and whether a check fails."""
    return f"{_WEIGHTS[explained.severity]} {_thin_words(explained)}".rstrip()


def _thin_words(explained: Explained) -> str:
    """Whether the record is wrong or only thin, as the rule declares it."""
    if explained.severity in explained.not_known:
        return "It says what nobody knows yet, not that the record is wrong: no check fails for it."
    milder = [weight.word for weight in sorted(explained.not_known) if weight.is_grave]
    if milder:
        said = " or ".join(milder)
        return f"As a {said} it says what nobody knows yet, and no check fails for it."
    if explained.partly:
        return (
            "Where it says that nobody looked or measured, the record is not wrong and no check "
            "fails for it: the plan waits all the same."
        )
    return ""


def finding_page(explained: Explained, info: BuildInfo) -> Page:
    """Return the page of one finding id, at `rules/ID.html`."""
    weight = weight_words(explained)
    body = fill("rule.html", rule=explained, weight=weight, cards=_cards(explained), info=info)
    title = f"{explained.id} {explained.title}"
    return Page(f"rules/{explained.id}.html", title, f"{title}: what it catches and why.", body)


def _cards(explained: Explained) -> list[tuple[str, str]]:
    """Cards of the functions that a rule on readings shows in its example, as (URL, name)."""
    if not explained.id.startswith("MET"):
        return []
    code = " ".join(section.text for section in explained.sections if section.code)
    named = dict.fromkeys(re.findall(r"function: (\w+)", code))
    return [(prove_url(name), function_name(name)) for name in named if name in CARDS]


def findings_index(explained: Sequence[Explained], info: BuildInfo) -> Page:
    """Return the list of every finding id."""
    entries = [
        Entry(f"rules/{one.id}.html", coded(f"{one.id} {one.title}"), one.severity.word)
        for one in sorted(explained, key=lambda one: one.id)
    ]
    intro = "What the checks look for, and why each finding matters in the bay."
    return index_page("rules/index.html", "Rules", intro, entries, info)


class KeyView(NamedTuple):
    """One key of a record kind."""

    name: str
    needed: str
    what: str
    form: str
    example: str
    words: tuple[tuple[str, str], ...]


def schema_page(
    kind: SchemaKind, schema: Mapping[str, Any], defs: Mapping[str, Any], info: BuildInfo
) -> Page:
    """Return the page of one record kind from its schema and the shared definitions."""
    keys = key_views(schema, defs)
    title = f"Keys of a {kind} record"
    body = fill(
        "schema.html", title=title, what=schema.get("description", ""), keys=keys, info=info
    )
    return Page(f"schema/{kind}.html", title, f"{title}: meaning, unit and example of each.", body)


def schema_index(kinds: Sequence[str], info: BuildInfo) -> Page:
    """Return the list of record kinds."""
    entries = [Entry(f"schema/{kind}.html", f"Keys of a {kind} record", "") for kind in kinds]
    intro = "Every key a record may hold, with its meaning, unit and example."
    return index_page("schema/index.html", "Record keys", intro, entries, info)


def key_views(schema: Mapping[str, Any], defs: Mapping[str, Any]) -> tuple[KeyView, ...]:
    """Return every key under `schema`; `defs` is the schema that its references lead into."""
    return tuple(_keys(schema, defs["$defs"], ""))


def _keys(schema: Mapping[str, Any], defs: Mapping[str, Any], prefix: str) -> list[KeyView]:
    """Every key under `schema`, dotted, those inside lists marked with []."""
    found: list[KeyView] = []
    required = set(schema.get("required", ()))
    for name, raw in schema.get("properties", {}).items():
        node = _resolved(raw, defs)
        path = f"{prefix}{name}"
        found.append(_key(path, name in required, node, defs))
        found += _keys(node, defs, f"{path}.")
        if isinstance(node.get("items"), Mapping):
            found += _keys(_resolved(node["items"], defs), defs, f"{path}[].")
    return found


def _resolved(node: Mapping[str, Any], defs: Mapping[str, Any]) -> Mapping[str, Any]:
    """The node with its reference followed, of null or another the other; its own words win."""
    if "anyOf" in node:
        return {**_resolved(node["anyOf"][-1], defs), **node}
    if "$ref" not in node:
        return node
    named = node["$ref"].partition("/$defs/")[2].split("/")  # one of $defs, or what stands in it
    target = _resolved(reduce(getitem, named, defs), defs)
    return {**target, **{key: value for key, value in node.items() if key != "$ref"}}


def _key(path: str, needed: bool, node: Mapping[str, Any], defs: Mapping[str, Any]) -> KeyView:
    words = _words(node, defs)
    examples = node.get("examples", ())
    return KeyView(
        path,
        "needed" if needed else "optional",
        str(node.get("description", "")),
        _form(node, defs),
        ", ".join(_typed(example) for example in examples[:2]),
        tuple((str(word), str(meaning)) for word, meaning in words.items()),
    )


def _words(node: Mapping[str, Any], defs: Mapping[str, Any]) -> Mapping[str, Any]:
    if "wordMeanings" in node:
        return dict(node["wordMeanings"])
    for part in ("items", "then"):
        inner = node.get(part)
        if isinstance(inner, Mapping):
            meanings = _resolved(inner, defs).get("wordMeanings")
            if meanings:
                return dict(meanings)
    return {}


def _form(node: Mapping[str, Any], defs: Mapping[str, Any]) -> str:
    kinds = node.get("type", "")
    names = [kinds] if isinstance(kinds, str) else list(kinds)
    said = " or ".join(_TYPES.get(name, name) for name in names if name)
    words = [said] if said else []
    if "items" in node and isinstance(node["items"], Mapping):
        inner = _form(_resolved(node["items"], defs), defs)
        words = [f"list of: {inner}" if inner else "list"]
    if "formMeaning" in node:
        words.append(str(node["formMeaning"]))
    if "unit" in node:
        words.append(f"in {node['unit']}")
    low, high = node.get("minimum"), node.get("maximum")
    if low is not None and high is not None:
        words.append(f"from {low:g} to {high:g}")
    return ", ".join(words)


_TYPES = {
    "string": "text",
    "integer": "whole number",
    "number": "number",
    "object": "group of keys",
    "array": "list",
    "boolean": "yes or no",
}


def _typed(value: Any) -> str:
    """A value as it would be typed in a record."""
    if isinstance(value, Mapping):
        return "{" + ", ".join(f"{key}: {_typed(inner)}" for key, inner in value.items()) + "}"
    if isinstance(value, list):
        return "[" + ", ".join(_typed(inner) for inner in value) + "]"
    if isinstance(value, bool):
        return "yes" if value else "no"
    return str(value)
