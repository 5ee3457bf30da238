"""How the entries of the loader's catalogue are made."""

from __future__ import annotations

from builder.findings import CatalogueEntry, Severity

COMMON = "common practice, no source"
YAML_SECTION = "YAML 1.2.2, section "


def entry(number: int, slug: str, title: str, **said: str) -> CatalogueEntry:
    """Return the entry of finding YML<number>; everything the loader refuses is a stop."""
    return CatalogueEntry(f"YML{number}", slug, title, Severity.STOP, **said)
