"""The rows about the whole car: one field a row, `plug A housing` for one of many."""

from __future__ import annotations

from builder.editing.tabular.car_fields import FIELDS, GROUPS, Field, field_in_group, field_of
from builder.editing.tabular.columns import ManyGroup
from builder.editing.tabular.draft import Draft
from builder.editing.tabular.faults import CellError, Place
from builder.editing.tabular.parts import MARK, Row
from builder.editing.tabular.values import read_cell
from builder.editing.tabular.words import plain
from builder.speller import surely
from builder.spreadsheets import Cell

_GROUPS_BEFORE = {"session": "visit"}
"""Groups by the word that tables had for them."""
_SHORT = 3
"""Labels of so few letters are near to anything."""


def read_car(rows: list[tuple[str, Row]], draft: Draft) -> None:
    """Put what the rows say of the car into the draft."""
    names: dict[tuple[str, str], int] = {}
    seen: dict[str, int] = {}
    for sheet, row in rows:
        label, value = _label_and_value(row)
        if label and value is not None and not _said_before(sheet, row, label, seen, draft):
            _read_field(sheet, row, label, value, names, draft)


def _label_and_value(row: Row) -> tuple[str, Cell | None]:
    """The field's name, and its value; a row that begins with ## says something to people."""
    first = row[0] if row[0].column == 1 else None
    if first is None or first.text.lstrip().startswith(MARK * 2):
        return "", None
    label = " ".join(first.text.strip().lstrip(MARK).strip().rstrip(":").split())
    value = next((cell for cell in row if cell.column == 2 and cell.text.strip()), None)
    return label, value


def _said_before(sheet: str, row: Row, label: str, seen: dict[str, int], draft: Draft) -> bool:
    earlier = seen.setdefault(plain(label), row[0].row)
    if earlier == row[0].row:
        return False
    place = Place(sheet, row[0].row, 1)
    draft.say(
        *(place, "TAB103", f'"{label}" stands in row {earlier} already'), "keep one of the two rows"
    )
    return True


def _read_field(
    sheet: str, row: Row, label: str, value: Cell, names: dict[tuple[str, str], int], draft: Draft
) -> None:
    place = Place(sheet, value.row, value.column)
    field, name = _field_said(label)
    if field is None:
        _say_unknown(draft, Place(sheet, row[0].row, 1), label)
        return
    read = draft.attempt(place, lambda: read_cell(value, field.at))
    if read is None:
        said = f"{field.group} {name} {field.label}" if field.group else field.label
        draft.refused_fields[said.lower()] = True
    if field.group:
        _put_in_group(field, name, read, place, names, draft)
    elif read is not None:
        draft.put(field.path, read, place)


def _field_said(label: str) -> tuple[Field | None, str]:
    """The field that a label names, and which of many it is of."""
    group, _, rest = label.partition(" ")
    name, _, part = rest.partition(" ")
    field = field_of(label)
    of_group = _GROUPS_BEFORE.get(group.lower(), group.lower())
    if field is None and of_group in GROUPS and part:
        field = field_in_group(of_group, part)
    return field, name


def _put_in_group(
    field: Field,
    name: str,
    value: object,
    place: Place,
    names: dict[tuple[str, str], int],
    draft: Draft,
) -> None:
    """Put the value into the one of many of that name."""
    if not field.group:
        return
    which = field.group, name.lower()
    if which not in names and (made := _new_item(field.group, name, place, draft)) is not None:
        names[which] = made
    if value is not None and which in names:
        draft.put((GROUPS[field.group][0], names[which], *field.path), value, place)


def _new_item(group: ManyGroup, name: str, place: Place, draft: Draft) -> int | None:
    """Begin one of many; None when it cannot have that name."""
    items, key, _ = GROUPS[group]
    first = Place(place.sheet, place.row, 1)
    try:
        item = {key: read_cell(Cell(place.row, 1, name), (items, 0, key))} if key else {}
    except CellError as error:
        draft.faults.append(error.at(first))
        return None
    draft.data.setdefault(items, [])
    return int(draft.append((items,), item, place)[1])


def _say_unknown(draft: Draft, place: Place, label: str) -> None:
    headings = [field.heading for field in FIELDS]
    near = surely(label, headings) if len(label) > _SHORT else None
    if near:
        draft.say(place, "TAB103", f'"{label[:60]}" is no field', f"did you mean {near}?")
    else:
        draft.say(place, "TAB104", f'the field "{label[:60]}" is not read')
