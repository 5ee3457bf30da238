"""A built page as a person reads it: headings, tables by their column titles, lists, labels.

Nothing here knows a template, a class name or an id. What is hidden from a reader (drawings,
swatches, scripts) is left out.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path
from xml.etree.ElementTree import Element

import html5lib

HEADINGS = ("h1", "h2", "h3", "h4")
UNREAD = ("script", "style", "svg", "template")


def read_page(path: Path) -> Element:
    """The main part of the page in that file."""
    page = html5lib.parse(path.read_text("utf-8"), namespaceHTMLElements=False)
    main = page.find(".//main")
    assert main is not None, path.name
    return main


def words(element: Element) -> str:
    """The text a person reads in an element, its white space made single."""
    return " ".join(_text(element).split())


def _text(element: Element, without: tuple[str, ...] = ()) -> str:
    if not isinstance(element.tag, str) or element.tag in (*UNREAD, *without):
        return ""
    if "hidden" in element.attrib or element.get("aria-hidden") == "true":
        return ""
    inner = (f"{_text(child, without)}{child.tail or ''}" for child in element)
    return f"{element.text or ''}{''.join(inner)}"


def under(page: Element, heading: str) -> list[Element]:
    """What stands under each heading of those words, to the next heading that ends it.

    Returns the outermost elements, in order.
    """
    found: list[Element] = []
    part: list[Element] = []
    level = ""
    for element in page.iter():
        if element.tag in HEADINGS and (not level or str(element.tag) <= level):
            # What holds the next heading began before it, but is not a part of this one's text.
            found += [each for each in part if element not in each.iter()]
            part = []
            level = str(element.tag) if words(element) == heading else ""
        elif level:
            part.append(element)
    found += part
    assert found, f'nothing under "{heading}"'
    inside = {child for element in found for child in element.iter() if child is not element}
    return [element for element in found if element not in inside]


def headings(page: Element, starting: str) -> list[str]:
    """The headings that begin with those words, in order."""
    titles = [words(element) for element in page.iter() if element.tag in HEADINGS]
    return [title for title in titles if title.startswith(starting)]


def every(elements: list[Element], tag: str) -> list[Element]:
    """The elements of that name among and within `elements`, in order."""
    return [found for element in elements for found in element.iter(tag)]


def items(elements: list[Element]) -> list[str]:
    """The texts of all list items, each without the lists within it."""
    return [" ".join(_text(item, ("ul", "ol")).split()) for item in every(elements, "li")]


def labelled(elements: list[Element]) -> Iterator[tuple[str, list[Element]]]:
    """Each term of the definition lists with what stands beside it."""
    label, values = "", list[Element]()
    for element in (found for each in elements for found in each.iter()):
        if element.tag == "dt":
            if label:
                yield label, values
            label, values = words(element), []
        elif element.tag == "dd":
            values.append(element)
    if label:
        yield label, values


Row = tuple[dict[str, str], list[Element]]


def rows(table: Element) -> list[Row]:
    """The rows of a table: texts by column title, and the full-width cells below each row.

    A title over several rows is none of them: each row says for itself what it says.
    """
    titles = [words(cell) for cell in table.iter("th") if cell.get("scope") == "col"]
    found: list[Row] = []
    for row in table.iter("tr"):
        cells = [cell for cell in row if cell.tag in ("th", "td")]
        if all(cell.get("scope") in ("col", "rowgroup") for cell in cells):
            continue
        if len(cells) == len(titles):
            found.append((dict(zip(titles, map(words, cells), strict=True)), []))
        else:
            across = [cell.get("colspan") == str(len(titles)) for cell in cells]
            assert found and across == [True], f"{titles} over {[words(cell) for cell in cells]}"
            found[-1][1].extend(cells)
    return found


def the_table(elements: list[Element]) -> list[Row]:
    """The rows of the one table among `elements`."""
    (table,) = every(elements, "table")
    return rows(table)


def has_figure(text: str, figure: str) -> bool:
    """Tell whether "12.4 V" stands in a text by itself, and not as a part of "112.4 V"."""
    return re.search(rf"(?<![\w.−-]){re.escape(figure)}(?!\w|\.\d)", text) is not None
