"""The page "What is this wire?": its form for readings, and the whole table without a script."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import NamedTuple

from builder.model.house_defaults import HouseDefaults
from builder.model.names import LOAD_NAMES, QUANTITY_NAMES, STATE_NAMES, function_name
from builder.model.words import Function
from builder.proof.house import house_note, house_of_rows
from builder.proof.signatures.shapes import Kind
from builder.rendering.page import BuildInfo, Page
from builder.rendering.pages.expected import Expected, expected_lines
from builder.rendering.pages.wording import anchor
from builder.rendering.templates import fill

URL = "identify.html"
DATA_URL = "assets/identify-data.js"


class KindView(NamedTuple):
    """One kind of a function: its name, what it reads, and a remark."""

    name: str
    lines: tuple[Expected, ...]
    note: str


class FunctionView(NamedTuple):
    """A function with its kinds."""

    name: str
    anchor: str
    kinds: tuple[KindView, ...]
    house: str  # the house defaults behind its figures


def identify_page(kinds: Iterable[Kind], defaults: HouseDefaults, info: BuildInfo) -> Page:
    """Return the page; `kinds` are those of the signature table, in its order."""
    body = fill(
        "identify.html",
        functions=_functions(kinds, defaults),
        states=STATE_NAMES,
        quantities={name: f"{words}, {unit}" for name, (words, unit) in QUANTITY_NAMES.items()},
        loads=LOAD_NAMES,
        data_url=DATA_URL,
        info=info,
    )
    what = "Type what the meter shows on a wire you do not know: what it can be, what to read next."
    return Page(URL, "What is this wire?", what, body)


def _functions(kinds: Iterable[Kind], defaults: HouseDefaults) -> tuple[FunctionView, ...]:
    by_function: dict[Function, list[Kind]] = {}
    for kind in kinds:
        by_function.setdefault(kind.function, []).append(kind)
    return tuple(_function(name, same, defaults) for name, same in by_function.items())


def _function(name: Function, same: Sequence[Kind], defaults: HouseDefaults) -> FunctionView:
    rows = [row for kind in same for row in kind.rows]
    return FunctionView(
        function_name(name),
        anchor("reads", name),
        tuple(KindView(kind.name, expected_lines(kind.rows), kind.note) for kind in same),
        house_note(house_of_rows(rows), defaults),
    )
