"""The finder's index and parts as the script files that the home page reads."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from builder.finder.entries import Entry
from builder.finder.tables import FinderData, PageNames, finder_data
from builder.model.names import FUNCTION_NAMES
from builder.model.wire_colours import WIRE_SRGB_HEX
from builder.pipeline.answers.which_car import sisters_in
from builder.rendering.pages.wording import GRADE_MARKS
from builder.rendering.script_data import script_json


def finder_files(
    entries: Sequence[Entry], renamed: Mapping[str, str] | None = None
) -> Iterator[tuple[str, bytes]]:
    """Yield the index of all vehicles and, beside it, the parts that are fetched when needed."""
    data = finder_data_of(entries, renamed)
    index = script_json(data.book)
    yield "assets/finder-data.js", f"window.loombookFinderData={index};\n".encode()
    for number, part in enumerate(data.parts):
        call = f"window.loombookFinderPart({number},{script_json(part)});\n"
        yield f"assets/finder-part-{number}.js", call.encode()


def finder_data_of(
    entries: Sequence[Entry], renamed: Mapping[str, str] | None = None
) -> FinderData:
    """Return the finder's data for a book, with the questions between its sister records.

    `renamed` gives the id of today by old id.
    """
    names = PageNames(FUNCTION_NAMES, GRADE_MARKS, WIRE_SRGB_HEX)
    return finder_data(entries, names, sisters_in(entries), renamed)
