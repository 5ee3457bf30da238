"""What must hold between the keys of a record: `when … needs / bars / limits`, and `otherwise`."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Any

_LIMITS = {"least": "minimum", "most": "maximum", "least_items": "minItems", "kind": "type"}


@dataclass(frozen=True, slots=True)
class Condition:
    """One condition as an entry of a schema's `allOf`; its `because` is read when it fails."""

    schema: Mapping[str, Any]
    side: str = "then"

    def needs(self, *keys: str) -> Condition:
        """These keys must be there; `part.key` is a key of a part."""
        inner = {key.partition(".")[0]: key.partition(".")[2] for key in keys if "." in key}
        made = self._with({key: {"required": [inner[key]]} for key in inner})
        outer = [key for key in keys if "." not in key]
        return made._put("required", outer) if outer else made

    def bars(self, *keys: str) -> Condition:
        """These keys must not be there."""
        return self._with(dict.fromkeys(keys, False))

    def limits(self, key: str, *words: str, **limits: Any) -> Condition:
        """The key takes only these words, or lies within `least` and `most`."""
        said: dict[str, Any] = {_LIMITS[name]: value for name, value in limits.items()}
        return self._with({key: said | ({"enum": list(words)} if words else {})})

    def having(self, key: str) -> Condition:
        """The condition holds only where this key is there too."""
        test = self.schema["if"]
        narrowed = {**test, "required": [*test.get("required", []), key]}
        return replace(self, schema={**self.schema, "if": narrowed})

    def unless(self, key: str) -> Condition:
        """The condition holds only where this key is not there."""
        test = self.schema["if"]
        narrowed = {**test, "properties": {**test.get("properties", {}), key: False}}
        return replace(self, schema={**self.schema, "if": narrowed})

    @property
    def otherwise(self) -> Condition:
        """What follows holds when the test does not."""
        return replace(self, side="else")

    def _with(self, properties: Mapping[str, Any]) -> Condition:
        before = self.schema.get(self.side, {}).get("properties", {})
        return self._put("properties", {**before, **properties}) if properties else self

    def _put(self, word: str, said: Any) -> Condition:
        side = {**self.schema.get(self.side, {}), word: said}
        return replace(self, schema={**self.schema, self.side: side})


def when(because: str, key: str, *words: str) -> Condition:
    """A condition on a key that has one of these words."""
    test = {"properties": {key: {"enum": list(words)}}, "required": [key]}
    return Condition({"because": because, "if": test})


def given(because: str, key: str) -> Condition:
    """A condition on a key that is there."""
    return Condition({"because": because, "if": {"required": [key]}})


def without(because: str, *keys: str) -> Condition:
    """A condition on keys none of which is there."""
    alone = {"not": {"required": [*keys]}}
    none = {"properties": dict.fromkeys(keys, False)} if keys[1:] else alone
    return Condition({"because": because, "if": none})
