"""The tables of schema/README.md that tell the keys of the declared kinds."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Any

from builder.declaring import rules_of, schema_of
from builder.model.kinds import DECLARED

_HEAD = ("| key | must | what |", "|---|---|---|")


def readme_file(text: str) -> str:
    """Return the README with the tables of all declared kinds as they are declared."""
    for cls in DECLARED.values():
        pattern = rf"(\n## {cls.__name__}\n\n)(?:\|.*\n)+(?:\n(?:- .*\n)+)?"
        text, found = re.subn(pattern, lambda at, cls=cls: at[1] + table_of(cls), text)  # type: ignore[misc]
        assert found == 1, f"no table of {cls.__name__}"
    return text


def table_of(cls: type) -> str:
    """The keys of a record class as a table, and its conditions as a list."""
    conditions = [f"- {rule.schema['because']}" for rule in rules_of(cls)]
    lines = [*_HEAD, *_rows(schema_of(cls)), *(["", *conditions] if conditions else [])]
    return "\n".join(lines) + "\n"


def _rows(schema: dict[str, Any]) -> Iterator[str]:
    for key, said in schema["properties"].items():
        must = "yes" if key in schema.get("required", ()) else "no"
        yield f"| `{key}` | {must} | {said['description']} |"
