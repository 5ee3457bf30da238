"""What to say of values: not in the list, out of range, in the wrong form."""

from __future__ import annotations

import re

from builder.findings import Fix
from builder.model.words import SchemaKind
from builder.schema_check.key_wording import Words, because, name_of
from builder.schema_check.meant import colours_meant, date_meant, figure_meant
from builder.schema_check.schemas import BASE, BLACK, Schema
from builder.schema_check.type_wording import example_of, shown_example
from builder.schema_check.violations import Violation
from builder.schema_check.yaml_words import listed, quoted, typed
from builder.speller import choices, nearest, surely

_WITH_THOUSANDTHS = {" V", " A", " m", " s"}


def not_in_list(kind: SchemaKind, violation: Violation, schema: Schema) -> Words:
    """A word that is not in the closed list."""
    legal = [str(word) for word in violation.limit]
    message = f"{quoted(violation.value)} is not a word for {name_of(violation.path, kind)}"
    near, between = nearest(violation.value, legal), choices(violation.value, legal)
    hint = f"did you mean {near}? " if near else ""
    if len(between) > 1:
        hint = f"did you mean {listed(between)}? "
    colours = colours_meant(str(violation.value), legal) if BLACK in legal else None
    if colours is not None and colours[1] is not None:
        return _two_colours(message, violation, *colours)
    sure = surely(violation.value, legal)
    fix = Fix("write", violation.path, typed(sure)) if sure else None
    return Words(message, f"{hint}allowed: {', '.join(legal)}.", fix)


def _two_colours(message: str, violation: Violation, base: str, stripe: str | None) -> Words:
    """Two colours in the place of one: the second is the stripe, where there can be one."""
    help_text = f"type {violation.path[-1]}: {base}, and stripe: {stripe} beside it."
    if violation.path[-1] != BASE:
        return Words(message, "type one colour.")
    fix = Fix("write", violation.path, base, beside=("stripe", str(stripe)))
    return Words(message, help_text, fix)


def wrong_version(violation: Violation) -> Words:
    """A whole number that is no record format which this version reads."""
    written, read = violation.value, [int(number) for number in violation.limit]
    message = f"the record format {quoted(written)} is not one that this version reads"
    if written > read[-1]:
        # To type an older number would make this version misread what the record says.
        return Words(
            message, f"use a newer version of loombook; this one reads schema: {read[-1]}."
        )
    fix = Fix("write", violation.path, str(read[-1])) if len(read) == 1 else None
    return Words(message, f"type schema: {read[-1]}.", fix)


def out_of_range(kind: SchemaKind, violation: Violation, schema: Schema) -> Words:
    """A number outside what is physically sane."""
    low = schema.get("minimum", schema.get("exclusiveMinimum"))
    high, unit = schema.get("maximum"), _unit(schema)
    how = "more" if violation.keyword == "maximum" else "less"
    if violation.keyword == "exclusiveMinimum":
        how = "not more"
    limit = f"{typed(violation.limit)}{unit}"
    message = (
        f"{name_of(violation.path, kind)} is {typed(violation.value)}{unit}, {how} than {limit}"
    )
    above = "above " if "exclusiveMinimum" in schema else "from "
    help_text = f"type a number {above}{typed(low)} to {typed(high)}{unit}."
    if (
        unit in _WITH_THOUSANDTHS
        and violation.keyword == "maximum"
        and violation.value / 1000 <= violation.limit
    ):
        help_text += f" If it is in m{unit.strip()}, type {typed(violation.value / 1000)}."
    return Words(message, help_text)


def wrong_form(kind: SchemaKind, violation: Violation, schema: Schema) -> Words:
    """Text that is not written as the schema asks for."""
    where, value = name_of(violation.path, kind), violation.value
    if violation.keyword == "format":
        return Words(f"{where} is {quoted(value)}, which is no day of the calendar", _form(schema))
    if "formMeaning" not in schema:
        return Words(f"{where} goes over more than one line", "write it on one line.")
    message = f"{where} is {quoted(value)}; it should be {schema['formMeaning']}"
    date = _date(str(value), schema)
    if date is not None and date[0] == value:  # rightly written, of a day 32 or of the year 2999
        told = f"{where} is {quoted(value)}, which is no date that a record can have"
        return Words(told, "correct it: year, month, day.")
    if date is not None:
        return Words(message, *_date_help(violation, *date))
    mended = _mended(str(value), schema)
    if mended is None:
        return Words(message, _form(schema))
    fix = Fix("write", violation.path, mended) if _surely_mended(str(value), mended) else None
    return Words(message, f"did you mean {mended}?", fix)


def _date(value: str, schema: Schema) -> tuple[str, bool, str] | None:
    form = schema["formMeaning"]
    if not form.startswith("YYYY-MM"):
        return None
    return date_meant(value, month=not form.startswith("YYYY-MM-DD"))


def _date_help(violation: Violation, text: str, sure: bool, doubt: str) -> tuple[str, Fix | None]:
    if sure:
        return f"type {text}.", Fix("write", violation.path, text)
    return f"type {text} if that is the day: {doubt}.", None


def empty_value(kind: SchemaKind, violation: Violation, schema: Schema) -> Words:
    """A key with nothing behind it, or text of spaces only."""
    where = name_of(violation.path, kind)
    like = f", {shown_example(schema)}" if example_of(schema) else ""
    return Words(
        f"{where} is empty", f"write a value{like}, or delete the line if you have nothing to say."
    )


def wrong_length(kind: SchemaKind, violation: Violation, schema: Schema) -> Words:
    """Text that is too long or too short."""
    length, limit = len(violation.value), violation.limit
    long = violation.keyword == "maxLength"
    message = (
        f"{name_of(violation.path, kind)} has {length} characters, "
        f"{'more' if long else 'less'} than {limit}"
    )
    return Words(message, "shorten it." if long else f"say more, for example {example_of(schema)}.")


def wrong_count(kind: SchemaKind, violation: Violation, schema: Schema) -> Words:
    """A list with too many or too few entries."""
    many = violation.keyword.startswith("max")
    where, limit = name_of(violation.path, kind), violation.limit
    message = (
        f"{where} has {len(violation.value)} entries, {'more' if many else 'less'} than {limit}"
    )
    if many:
        return Words(message, "shorten the list.")
    return Words(message, f"write at least {limit}, for example {example_of(schema)}.")


def repeated_item(kind: SchemaKind, violation: Violation, index: int) -> Words:
    """An entry that stands in a list twice."""
    value = quoted(violation.value[index])
    message = f"{value} stands twice in {name_of(violation.path, kind)}"
    return Words(message, "keep one of the two.", Fix("remove", (*violation.path, index)))


def wrong_here(kind: SchemaKind, violation: Violation) -> Words:
    """A value that is legal elsewhere but not beside the other values of the same object."""
    condition = violation.condition
    message = f"{name_of(violation.path, kind)} is {quoted(violation.value)}: {because(violation)}"
    if violation.keyword == "enum":
        allowed = [typed(word) for word in violation.limit]
        return Words(message, f"allowed here: {', '.join(allowed)}.")
    watched = condition.watches if condition is not None else frozenset()
    others = listed([quoted(key) for key in sorted(watched)])
    return Words(message, f"correct {quoted(violation.path[-1])}, or correct {others}.")


def _form(schema: Schema) -> str:
    example = example_of(schema)
    return f"for example {example}." if example else f"type {schema['formMeaning']}."


def _mended(value: str, schema: Schema) -> str | None:
    """The value written as asked for, when letters and hyphens are all it takes."""
    if "integer" in schema.get("type", []) and re.fullmatch(r" *[1-9][0-9]{0,2} *", value):
        return value.strip()
    figure = figure_meant(value, schema["unit"]) if "unit" in schema else None
    if figure is not None and figure.sure and figure.text.isdecimal():
        return figure.text
    words = re.findall(r"[a-z0-9]+", value.lower())
    for mended in ("-".join(words), value.strip().upper()):
        if words and re.fullmatch(schema["pattern"], mended):
            return mended
    return None


def _surely_mended(value: str, mended: str) -> bool:
    """Whether only capitals, or one sort of space between the words, or a unit is put right."""
    if mended.isdecimal():
        return True
    for mark in ("-", " ", "_"):
        if value.strip().lower().replace(mark, "-") == mended:
            return bool(re.fullmatch(rf"[A-Za-z0-9]+(?:{mark}[A-Za-z0-9]+)*", value.strip()))
    return False


def _unit(schema: Schema) -> str:
    unit = schema.get("unit")
    return f" {unit}" if unit and unit != "year" else ""
