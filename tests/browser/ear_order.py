"""What a screen reader reads of a page, in its order: the accessibility tree as lines.

    python tests/browser/ear_order.py SITE PAGE [width]

prints it for one page of a built site, each line a role with its name, indented as the tree is.
"""

from __future__ import annotations

import sys
from collections.abc import Iterator
from pathlib import Path
from typing import Any, NamedTuple

from chromium import Browser

_SILENT = frozenset({"InlineTextBox", "LineBreak", "ListMarker"})
_PASSED = frozenset({"none", "generic", "LayoutTable", "LayoutTableRow", "LayoutTableCell"})
"""Roles that say nothing by themselves: their children are read in their place."""
FIELDS = frozenset(
    {"textbox", "searchbox", "combobox", "spinbutton", "checkbox", "radio", "switch", "listbox"}
)
PRESSED = frozenset({"button", "link", "DisclosureTriangle"})
PICTURES = frozenset({"image", "img", "graphics-document", "SvgRoot"})


class Heard(NamedTuple):
    """One thing that is read: what it is, what it is called, how deep, of a heading its level."""

    role: str
    name: str
    depth: int
    level: int = 0

    def __str__(self) -> str:
        said = f"{self.role} {self.level}" if self.level else self.role
        return f"{'  ' * self.depth}{said}: {self.name}" if self.name else "  " * self.depth + said


def heard(browser: Browser) -> list[Heard]:
    """All that is read of the page in the browser, in order."""
    tree = browser.driver.execute_cdp_cmd("Accessibility.getFullAXTree", {})["nodes"]
    by_id = {node["nodeId"]: node for node in tree}
    return list(_read(tree[0], by_id, 0))


def _read(node: dict[str, Any], by_id: dict[str, Any], depth: int) -> Iterator[Heard]:
    role = _value(node, "role")
    if role in _SILENT:
        return
    if not node.get("ignored") and role not in _PASSED:
        yield Heard(role, " ".join(_value(node, "name").split()), depth, _level(node))
        depth += 1
    for child in node.get("childIds", ()):
        if child in by_id:
            yield from _read(by_id[child], by_id, depth)


def _value(node: dict[str, Any], key: str) -> str:
    return str(node.get(key, {}).get("value", ""))


def _level(node: dict[str, Any]) -> int:
    if _value(node, "role") != "heading":
        return 0
    found = [p["value"]["value"] for p in node.get("properties", ()) if p["name"] == "level"]
    return int(found[0]) if found else 0


def words(lines: list[Heard]) -> str:
    """What is said, names of pictures too, as one text."""
    said = [one.name for one in lines if one.role == "StaticText" or one.role in PICTURES]
    return " ".join(" ".join(said).split())


def main() -> None:
    """Print one page."""
    site, page = Path(sys.argv[1]).resolve(), sys.argv[2]
    browser = Browser()
    try:
        browser.resize(int(sys.argv[3]) if len(sys.argv) > 3 else 390)
        url, mark, sheet = page.partition("#")
        browser.open((site / url).as_uri() + mark + sheet)
        for one in heard(browser):
            print(one)
    finally:
        browser.driver.quit()


if __name__ == "__main__":
    main()
