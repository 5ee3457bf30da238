"""The finder's index and parts as the script files that the home page reads."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence

from builder.finder.entries import Entry
from builder.finder.tables import FinderData, PageNames, finder_data
from builder.model.house_defaults import HouseDefaults
from builder.model.housing import Housing
from builder.model.names import FUNCTION_NAMES
from builder.model.wire_colours import WIRE_SRGB_HEX
from builder.model.words import FUNCTIONS
from builder.pipeline.answers.which_car import sisters_in
from builder.proof.signatures.of_pins import kinds_of_function
from builder.rendering.pages.record_maker import housing_data
from builder.rendering.pages.state_strip import state_strip
from builder.rendering.pages.wording import GRADE_MARKS
from builder.rendering.script_data import script_json


def finder_files(
    entries: Sequence[Entry],
    renamed: Mapping[str, str] | None = None,
    defaults: HouseDefaults | None = None,
    housings: Iterable[Housing] = (),
) -> Iterator[tuple[str, bytes]]:
    """Yield the index of all vehicles and, beside it, what is fetched when needed: the parts, and
    the faces of each housing."""
    data = finder_data_of(entries, renamed, defaults)
    index = script_json(data.book)
    yield "assets/finder-data.js", f"window.loombookFinderData={index};\n".encode()
    for number, part in enumerate(data.parts):
        call = f"window.loombookFinderPart({number},{script_json(part)});\n"
        yield f"assets/finder-part-{number}.js", call.encode()
    for housing in housings:
        call = f"window.loombookShell({script_json(housing_data(housing))});\n"
        yield f"assets/shell-{housing.id}.js", call.encode()


def finder_data_of(
    entries: Sequence[Entry],
    renamed: Mapping[str, str] | None = None,
    defaults: HouseDefaults | None = None,
) -> FinderData:
    """Return the finder's data for a book, with the questions between its sister records.

    `renamed` gives the id of today by old id; `defaults` are the house's limits of readings.
    """
    house = defaults or HouseDefaults()
    states = {f: state_strip(kinds_of_function(f, house)) for f in FUNCTIONS}
    names = PageNames(FUNCTION_NAMES, GRADE_MARKS, WIRE_SRGB_HEX, states)
    return finder_data(entries, names, sisters_in(entries), renamed)
