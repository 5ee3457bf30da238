"""Forms of what is recorded of looms: their ends and branches, and the points that wires join."""

from __future__ import annotations

from builder.declaring import Form

LOOM_NAME = Form(
    "loom_name", "What an end, a branch or a splice of a loom is called.", {"type": "string",
    "pattern": "^[a-z][a-z0-9]*(?: [a-z0-9]+)*$", "maxLength": 40,
    "not": {"type": "string", "pattern": "[\\n\\r\\t]"},
    "formMeaning": "lower-case words with single spaces, like radio end or branch 1"},
)  # fmt: skip
LOOM_POINT = Form(
    "loom_point", "Where a wire of a loom ends: a cavity of a plug of it, a branch that ends bare, "
    "or a splice.", {"type": "string", "pattern": "^[a-z][a-z0-9]*(?: [a-z0-9]+)*"
    "(?:\\.(?:[1-9]|[1-9][0-9]|1[0-9][0-9]|[A-Z][0-9]{0,2}))?$", "maxLength": 44,
    "not": {"type": "string", "pattern": "[\\n\\r\\t]"},
    "formMeaning": "a plug of the loom, a dot and a cavity (radio end.11), or a branch that ends "
    "bare or a splice (branch 1)"},
)  # fmt: skip
