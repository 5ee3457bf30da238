"""The facts of a part's page, as its declaration names them: a new key stands there by itself."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from builder.declaring import Field, fields_of
from builder.model.car_forms import AMPLIFIER_FEED, RADIO_OUTPUTS
from builder.rendering.pages.car_facts import Fact
from builder.rendering.pages.wording import figure, plain


def facts_of(part: object, before: str = "") -> Iterator[Fact]:
    """Yield a line for each key that has a label.

    A part of a record with a label is one line, its keys side by side; one without gives a line
    for each of its keys. A list of parts without a label gives the lines of each, numbered when
    there are several. A key without a label stands elsewhere on the page.
    """
    for each in fields_of(type(part)):
        value = getattr(part, each.attribute)
        if each.spec.label and (value is not None or each.spec.absent):
            yield Fact(before + each.spec.label, shown(each, value))
        elif not each.spec.label and each.inner is not None and value is not None:
            parts = value if each.item else (value,)
            for number, one in enumerate(parts, start=1):
                yield from facts_of(one, f"Group {number}: " if len(parts) > 1 else before)


def top_facts(record: object) -> list[Fact]:
    """A line for each key of a record itself that has a label, if it says anything."""
    labelled = [each for each in fields_of(type(record)) if each.spec.label]
    given = [(each, getattr(record, each.attribute)) for each in labelled]
    return [Fact(each.spec.label, shown(each, value)) for each, value in given if value]


def shown(each: Field, value: Any) -> str:
    """What the record says of a key, in a person's words."""
    if value is None or value == ():
        return _nothing(each)
    if each.item is not None:
        joint = "; " if each.inner else ", "
        return joint.join(shown(each.item, one) for one in value)
    if each.inner is not None:
        return ", ".join(_side_by_side(value))
    if each.words and isinstance(value, str):
        return plain(value) + _meaning(each, value)
    if isinstance(value, bool):
        return "yes" if value else "no"
    return f"{value} {unit_of(each)}".rstrip() if isinstance(value, str) else _figure(each, value)


def _meaning(each: Field, value: str) -> str:
    """What a word says of sound and wires, behind it: its name alone tells nobody what to do."""
    form = each.spec.form
    if form not in (RADIO_OUTPUTS, AMPLIFIER_FEED):
        return ""
    said = form.means[value].rstrip(".")
    return f": {said[0].lower()}{said[1:]}"


def _side_by_side(part: object) -> Iterator[str]:
    for each in fields_of(type(part)):
        value = getattr(part, each.attribute)
        if value is not None or each.spec.unknown:
            yield f"{each.spec.label} {shown(each, value)}".strip()


def _nothing(each: Field) -> str:
    """The word that stands for nothing, where no other can; else that nobody wrote it down."""
    word = next(iter(each.spec.means), "")
    return word if word and not each.spec.optional else each.spec.absent


def _figure(each: Field, value: float) -> str:
    return figure(value, unit_of(each) if each.scalar is float else "")


def unit_of(each: Field) -> str:
    """The unit of a value; that of an RMS value says so."""
    form = each.spec.form.schema.get("unit", "") if each.spec.form else ""
    unit = each.spec.unit or form
    return f"{unit} RMS" if each.key.endswith("_rms") and unit else unit
