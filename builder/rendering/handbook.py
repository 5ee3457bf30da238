"""The parts of the handbook that are written by the code they describe."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import fields

from builder.editing.tabular import columns_markdown
from builder.model.glossary import GLOSSARY, Row
from builder.model.house_defaults import HouseDefaults
from builder.planning import tables
from builder.planning.comeback.caught import UNCAUGHT_WORDS
from builder.rendering.drawings.plug_faces import legend
from builder.rendering.drawings.plug_lesson import LATCH_ABOVE, LATCH_BESIDE, lesson
from builder.rendering.finder_words import finder_words
from builder.rendering.page_policy import header_lines
from builder.rendering.trade_rows import trade_table


def fill_in(markdown: str, defaults: HouseDefaults) -> str:
    """Return a handbook page with its marks replaced by generated tables and drawings."""
    for mark, made in _made_by_code(defaults).items():
        if mark in markdown:
            markdown = markdown.replace(mark, made())
    return markdown


def _made_by_code(defaults: HouseDefaults) -> dict[str, Callable[[], str]]:
    """What stands in the place of each mark, made only for the page that has it."""
    return {
        "<!-- house defaults -->": lambda: _defaults_table(defaults),
        "<!-- finder words -->": finder_words,
        "<!-- table columns -->": columns_markdown,
        "<!-- data sheet -->": _data_sheet,
        "<!-- headers -->": lambda: _as_code(header_lines()),
        "<!-- words -->": _glossary,
        "<!-- order of trade -->": trade_table,
        "<!-- reasons of faults not found -->": _unfound,
        "<!-- a plug with its latch above -->": lambda: lesson(LATCH_ABOVE),
        "<!-- a plug with its latch beside -->": lambda: lesson(LATCH_BESIDE),
        "<!-- signs in the cavities -->": legend,
    }


def _data_sheet() -> str:
    """The published figure of a bridge with its source, which no page of a car names."""
    watts, ohm = tables.BRIDGE_ONE_PERCENT_W, tables.BRIDGE_ONE_PERCENT_OHM
    volts = tables.bridge_one_percent_v_rms()
    return f"{watts:g} W into {ohm:g} Ω, {volts:.2f} V ({tables.DATA_SHEET_SOURCE})."


def _unfound() -> str:
    """A list of the reasons why a fault is not found before trim goes home."""
    return "\n".join(f"- {why}" for why in UNCAUGHT_WORDS.values())


def _glossary() -> str:
    """A Markdown table of what each thing is called, and of what it was called before."""
    head = ["| thing | word | was called, and is not any more |", "|---|---|---|"]
    return "\n".join(head + [f"| {row.thing} | {row.word} | {_others(row)} |" for row in GLOSSARY])


def _others(row: Row) -> str:
    return ", ".join(f"`{other.said}`" for other in row.others)


def _as_code(text: str) -> str:
    return "\n".join(f"    {line}" for line in text.splitlines())


def _defaults_table(defaults: HouseDefaults) -> str:
    """A Markdown table of the house defaults in force; a changed one is said to be changed."""
    shipped = {name: (value, unit, what) for name, value, unit, what in HouseDefaults.described()}
    lines = ["| default | value here | shipped value | what it is |", "|---|---|---|---|"]
    for field in fields(defaults):
        value, unit, what = shipped[field.name]
        here = getattr(defaults, field.name)
        changed = "" if here == value else " (changed by this book)"
        lines.append(f"| `{field.name}` | {here:g} {unit}{changed} | {value:g} {unit} | {what} |")
    return "\n".join(lines)
