"""Ids that no record can have: the site has a page of that name, or a disk has no such file."""

from __future__ import annotations

from builder.findings import CatalogueEntry, Fault, Severity
from builder.model.words import UNKNOWN, SchemaKind

PAGES_OF_LISTS = frozenset({"index"})
"""Pages of the site that stand in the folders of records; a test looks for others."""

_PORTS = (f"{port}{number}" for port in ("com", "lpt") for number in range(10))
DEVICES = frozenset({"con", "prn", "aux", "nul", *_PORTS})
"""Names of devices under Windows, with any ending: Microsoft's "Naming Files, Paths, and
Namespaces" (from memory). A book with such a file cannot be taken out of git there."""

RESERVED_ID = CatalogueEntry(
    id="BOK107",
    slug="reserved-id",
    title="An id that no record can have",
    severity=Severity.STOP,
    what="A record whose `id` is `index`, as the list of its kind is called, or a name that "
    "Windows keeps for a device: `con`, `prn`, `aux`, `nul`, `com0` to `com9`, `lpt0` to `lpt9`. A "
    "housing cannot be called `unknown` either.",
    why="A record becomes a page and a data file of its name. The one would take the place of the "
    "list, the other cannot be copied to every disk or stick.",
    example="id: aux   # aux-adapter",
    fix="Add a word to the id, and rename the file in the same way.",
    source='Windows names: Microsoft, "Naming Files, Paths, and Namespaces"; the rest chosen by '
    "this project.",
)


def reserved_id(kind: SchemaKind, record_id: str) -> Fault | None:
    """Return what is wrong with the id of a record of this kind, if no record can have it."""
    if record_id in PAGES_OF_LISTS:
        told = f'"{record_id}" is the name of the page that lists every {kind}'
    elif record_id in DEVICES:
        told = f'"{record_id}" is a name that Windows keeps for a device: no file can have it there'
    elif kind == "housing" and record_id == UNKNOWN:
        told = "unknown is what a plug says of which nobody knows the housing"
    else:
        return None
    other = f"{record_id}-{kind}"
    help_text = f"type another, for example id: {other}, and rename the file to {other}.yaml"
    return Fault(("id",), told, help_text)
