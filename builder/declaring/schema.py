"""A record class as JSON Schema (2020-12)."""

from __future__ import annotations

from typing import Any

from builder.declaring.records import Field, fields_of, longest_line, rules_of, shared_name
from builder.declaring.specs import Form

TYPES = {int: "integer", float: "number", str: "string", bool: "boolean"}
Schema = dict[str, Any]


def schema_of(cls: type, defs: str = "defs.schema.json") -> Schema:
    """The schema of a record class. `defs` is the file that shared forms stand in."""
    declared = fields_of(cls)
    required = [each.key for each in declared if not each.spec.optional]
    line = longest_line(cls)
    rules = [dict(condition.schema) for condition in rules_of(cls)]
    return {
        "type": ["object", "string"] if line else "object",
        "description": " ".join((cls.__doc__ or "").partition("\n\n")[0].split()),
        **({"maxLength": line} if line else {}),
        **({"required": required} if required else {"minProperties": 1}),
        "additionalProperties": False,
        "properties": {each.key: _property(each, defs) for each in declared},
        **({"allOf": rules} if rules else {}),
    }


def form_schema(form: Form) -> Schema:
    """The definition of a shared form."""
    kind = form.schema.get("type", "string")
    said = {"description": form.description} if form.description else {}
    return {"type": kind, **said, **_words(form.means), **form.schema}


def _property(each: Field, defs: str) -> Schema:
    spec, kind = each.spec, _kind(each, defs)
    head: Schema = {name: kind.pop(name) for name in ("$ref", "type") if name in kind}
    said = {"description": spec.description} if spec.description else {}
    unit = {"unit": spec.unit} if spec.unit else {}
    shown = examples_shown(each)
    examples = {"examples": shown} if shown else {}
    return {**head, **said, **unit, **spec.limits, **kind, **said, **examples}


def examples_shown(each: Field) -> list[Any]:
    """The examples of a key without the figures that somebody has to read."""
    said = [example for example in each.spec.examples if example is not None]
    bare = [(example, _bare(example)) for example in said]
    return [shown for example, shown in bare if _stands(example, shown, each.inner)]


def _bare(example: Any) -> Any:
    """An example without the keys that are left blank, and without items that have some."""
    if isinstance(example, dict):
        bare = {key: _bare(value) for key, value in example.items() if value is not None}
        return {key: value for key, value in bare.items() if value or not example[key]}
    return [one for one in example if one == _bare(one)] if isinstance(example, list) else example


def _stands(example: Any, shown: Any, inner: type | None) -> bool:
    """Whether what is left of an example has all that it must have."""
    if isinstance(example, dict) and inner is not None and example != shown:
        must = [each.key for each in fields_of(inner) if not each.spec.optional]
        return bool(shown) and all(key in shown for key in must)
    return bool(shown) or not example


def _kind(each: Field, defs: str) -> Schema:
    """What a value must be, without what is said of it."""
    spec, inner = each.spec, each.inner
    if each.item is not None:
        return {"type": "array", "items": _property(each.item, defs)}
    shared = shared_name(inner) if inner else spec.form.name if spec.form else ""
    if shared or spec.unknown:
        return {"$ref": f"{defs}#/$defs/{shared or 'number_or_unknown'}"}
    if inner is not None:
        return schema_of(inner, defs) | (_or_words("object", spec.means) if spec.means else {})
    if spec.form is not None:
        return form_schema(spec.form)
    if each.scalar in (int, float):
        return _or_words(TYPES[each.scalar], spec.means)
    return {"type": "string", **_words(spec.means)}


def _words(means: Any) -> Schema:
    return {"enum": list(means), "wordMeanings": dict(means)} if means else {}


def _or_words(kind: str, means: Any) -> Schema:
    either = {"type": [kind, "string"], "if": {"type": "string"}, "then": _words(means)}
    return either if means else {"type": kind}
