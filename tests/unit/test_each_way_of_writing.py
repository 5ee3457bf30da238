"""Three hundred ways of writing things, each given to every way in that could be asked it."""

from __future__ import annotations

from typing import Any, NamedTuple

import pytest
import yaml
from shipped_book import PINOUTS, ROOT
from shipped_cars import typed_text
from tabular.tables import read, told

from builder.book import open_book
from builder.editing.drafts import AnswerError, read_one
from builder.editing.drafts.drafting import questions_of
from builder.finder.search import reply
from builder.finder.tokens import tokens_of
from builder.finder.understanding import items_of, question_of
from builder.loading import load_text
from builder.model.wire_colours import WIRE_SRGB_HEX
from builder.model.words import FUNCTIONS, STATES
from builder.parsing.reading_figures import ReadingTextError
from builder.parsing.reading_text import read_reading
from builder.pipeline.answers.kept_entries import finder_entries
from builder.schema_check import check_shape


class Way(NamedTuple):
    """One way of writing: what it is read as, or between what it is asked back."""

    kind: str
    written: str
    means: str
    asks: tuple[str, ...]
    mishap: tuple[str, ...]


ROWS = yaml.safe_load((ROOT / "tests" / "ways_of_writing.yaml").read_text("utf-8"))
WAYS = [
    Way(
        row["kind"],
        written,
        row.get("means", ""),
        tuple(row.get("asks", ())),
        tuple(row.get("mishap", ())),
    )
    for row in ROWS
    for written in row["ways"]
]
"""All of them: what is asked, and what should come of it."""


def of_kind(*kinds: str) -> Any:
    found = [way for way in WAYS if way.kind in kinds]
    return pytest.mark.parametrize("way", found, ids=lambda way: f"{way.kind}: {way.written}")


def test_there_are_sixty_things_and_three_hundred_ways() -> None:
    assert len(ROWS) >= 60
    assert len({(way.kind, way.written) for way in WAYS}) == len(WAYS) >= 300


# ---- a line of the interview, of an option or of an answers file --------------------------------
LINES = {"function": "A 1 {}", "colour": "A 1 mute {}", "wire": "A 1 mute {}", "leg": "A 1 {} tan"}


def said_of(pin: dict[str, Any] | None, kind: str) -> str:
    """What was written of a pin, as the table of ways says it."""
    if pin is None:
        return "empty"
    if kind == "function":
        return str(pin["function"])
    if kind == "leg":
        return f"{pin['channel']} {'+' if pin['leg'] == 'positive' else '-'}"
    wire = pin["wire"]
    return "/".join(wire[key] for key in ("base", "stripe") if key in wire)


@of_kind("function", "colour", "wire", "leg")
def test_a_line_of_the_interview_reads_it_or_asks_back(way: Way) -> None:
    question = next(each for each in questions_of("vehicle") if each.name == "pin")
    line = LINES[way.kind].format(way.written)
    if way.asks:
        if way.kind == "function" and "speaker" in way.asks:
            return
        with pytest.raises(AnswerError) as refused:
            read_one("vehicle", question, line)
        assert all(each in str(refused.value) for each in way.asks)
    else:
        assert said_of(read_one("vehicle", question, line).pin, way.kind) == way.means


# ---- a cell of a table, and a heading -----------------------------------------------------
CELLS = {
    "function": ("plug,cavity,function", 'A,1,"{}"', "C2"),
    "colour": ("plug,cavity,function,colours", 'A,1,mute,"{}"', "D2"),
    "wire": ("plug,cavity,function,colours", 'A,1,mute,"{}"', "D2"),
    "leg": ("plug,cavity,function,colours", 'A,1,"{}",tan', "C2"),
}


@of_kind("function", "colour", "wire", "leg")
def test_a_cell_of_a_table_reads_it_or_asks_back(way: Way) -> None:
    heads, row, place = CELLS[way.kind]
    imported = read(heads, row.format(way.written))
    if way.asks:
        assert told(imported) == [("TAB109", place)]
        message = next(fault.message for fault in imported.faults if fault.code == "TAB109")
        assert all(each in message for each in way.asks)
        return
    assert told(imported) == []
    plug = imported.data["plugs"][0]
    pin = None if plug["empty"] else plug["pins"][0]
    assert said_of(pin, way.kind) == way.means


@of_kind("state")
def test_a_heading_of_a_table_reads_it_or_is_not_read(way: Way) -> None:
    heads = f"plug,cavity,function,who,date,car tag,{way.written} V,{way.written} min"
    row = "A,1,accessory,alder-pit-audio,2024-05-10,car-1,12.4,65"
    imported = read(heads, row)
    if way.asks:
        assert ("TAB103", "G1") in told(imported)
        message = next(fault.message for fault in imported.faults if fault.code == "TAB103")
        assert all(each in message for each in way.asks)
        return
    assert told(imported) == []
    assert imported.data["plugs"][0]["pins"][0]["readings"][0]["state"] == way.means


# ---- a record or a sheet that is typed by hand --------------------------------------------
LEGAL = {"function": FUNCTIONS, "colour": tuple(WIRE_SRGB_HEX), "state": STATES}
PLACES = {"function": ("function",), "colour": ("wire", "base"), "state": ("readings", 0, "state")}


@pytest.fixture(scope="module")
def record() -> Any:
    return load_text(typed_text("ostrel-tansy-2017-hatch-base"), "car.yaml")


@of_kind("function", "colour", "state")
def test_a_record_by_hand_is_told_the_word_or_asked_back(way: Way, record: Any) -> None:
    """A word of one meaning is one that `mend` types; of several, the finding names all."""
    if way.means == "empty":
        return  # no word of a record: a cavity without terminal stands in another list
    pin = next(i for i, each in enumerate(record.data["plugs"][0]["pins"]) if each.get("readings"))
    path = ("plugs", 0, "pins", pin, *PLACES[way.kind])
    found = check_shape("vehicle", _with(record.data, path, way.written), record.source_map, "x")
    found = [each for each in found if each.path == path]
    if way.written == way.means:
        assert found == []
    elif way.means:
        assert found[0].fix is not None and found[0].fix.text == way.means
    else:
        assert found[0].fix is None
        legal = [each for each in way.asks if each in LEGAL[way.kind]]
        assert all(each in found[0].help for each in legal)


def _with(data: Any, path: tuple[Any, ...], value: str) -> Any:
    if not path:
        return value
    step, rest = path[0], path[1:]
    if isinstance(data, list):
        return [_with(one, rest, value) if i == step else one for i, one in enumerate(data)]
    return {**data, step: _with(data[step], rest, value)}


# ---- a question ---------------------------------------------------------------------------------
@pytest.fixture(scope="module")
def entries() -> Any:
    return finder_entries(open_book(PINOUTS))


@of_kind("function", "colour", "wire")
def test_a_question_looks_for_all_that_it_can_mean_or_asks_back(way: Way, entries: Any) -> None:
    asked = question_of(items_of(tokens_of(f"{way.written} ")))
    if way.kind == "function" and "finder" in way.mishap:
        assert asked.facts == ()
    elif way.kind == "function":
        want = {way.means, *way.asks} & set(FUNCTIONS) or {"not_used"}
        assert want <= set(asked.facts[0].functions)
    elif "finder" in way.mishap:
        return
    elif way.asks:  # a word that begins the name of a car asks for that car, so one is named
        asked_back = reply(f"ostrel tansy ground {way.written} ", entries).missed
        assert all(each in asked_back for each in way.asks)
    else:
        colour = asked.facts[0].colours[0]
        assert "/".join(filter(None, colour)) == way.means


# ---- a reading in one line ----------------------------------------------------------------------
@of_kind("state")
def test_a_line_of_a_reading_knows_the_state_or_asks_back(way: Way) -> None:
    line = f"{way.written} {'12.4 V' if way.means != 'unplugged' else '3.9 ohm'} minutes 65"
    if way.asks:
        with pytest.raises(ReadingTextError) as refused:
            read_reading(line)
        assert all(each in refused.value.slip.message for each in way.asks)
    else:
        assert read_reading(line).state == way.means


@of_kind("figure")
def test_a_line_of_a_reading_knows_the_figure_and_its_unit(way: Way) -> None:
    value, quantity = way.means.split()
    found = read_reading(f"unplugged {way.written}")
    assert found.quantity == quantity
    assert found.value == (None if value == "open" else pytest.approx(float(value)))


@of_kind("figure")
def test_a_cell_of_readings_knows_the_figure(way: Way) -> None:
    value, quantity = way.means.split()
    unit = {"dc_v": "V", "ac_v": "V AC", "ohm": "ohm", "hz": "Hz", "ma": "mA"}[quantity]
    heads = f"plug,cavity,function,who,date,car tag,unplugged {unit}"
    imported = read(heads, f'A,1,accessory,alder-pit-audio,2024-05-10,car-1,"{way.written}"')
    assert told(imported) == []
    found = imported.data["plugs"][0]["pins"][0]["readings"][0]["value"]
    assert found == ("open" if value == "open" else pytest.approx(float(value)))
