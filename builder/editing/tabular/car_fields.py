"""What is said of the whole car, one row a field, made of the declarations of a vehicle."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Literal, NamedTuple

from builder.declaring import fields_of
from builder.editing.drafts.vehicle_draft import QUESTIONS
from builder.editing.tabular.columns import ManyGroup
from builder.editing.tabular.declared import held_keys, lists_in
from builder.editing.tabular.words import plain
from builder.findings import DataPath
from builder.model.vehicle import Vehicle
from builder.schema_check.schemas import schema_at


class Field(NamedTuple):
    """A field: how the table names it, where it goes in the record, its other names.

    A field of a `group`, a key of `GROUPS`, names one of many: `plug A housing`.
    """

    label: str
    path: DataPath
    others: tuple[str, ...] = ()
    group: ManyGroup | Literal[""] = ""

    @property
    def at(self) -> DataPath:
        """Where the schema of a vehicle describes it."""
        return (GROUPS[self.group][0], 0, *self.path) if self.group else self.path

    @property
    def meaning(self) -> str:
        """What it means, in a sentence."""
        return str(schema_at("vehicle", self.at).get("description", ""))

    @property
    def heading(self) -> str:
        """The field as the template writes it."""
        return f"{self.group} {GROUPS[self.group][2]} {self.label}" if self.group else self.label


GROUPS: dict[ManyGroup, tuple[str, str, str]] = {
    "plug": ("plugs", "id", "A"),
    "visit": ("sessions", "id", "s1"),
    "channel": ("channels", "channel", "front-left"),
    "sound": ("protected_sounds", "", "1"),
    "part": ("access", "", "1"),
    "passage": ("passages", "", "1"),
    "settled": ("resolutions", "", "1"),
}
"""Of each group: its list in the record, the key that its name becomes, and an example of one."""


def _car() -> Iterator[Field]:
    """Each key of the car that one cell says; those of many are told apart by their names."""
    for path, heading, others in held_keys(Vehicle):
        if path not in _NOT_ASKED:
            yield Field(heading, path, others)
    yield Field("protected sounds", ("protected_sounds",))


def _of_groups() -> Iterator[Field]:
    classes = {each.key: each.inner for each in fields_of(Vehicle)}
    for group, (items, key, _) in GROUPS.items():
        for path, heading, others in held_keys(classes[items] or Vehicle):
            if path != (key,):
                yield Field(heading, path, others, group)


_NOT_ASKED: tuple[DataPath, ...] = (("schema",),)
FIELDS: tuple[Field, ...] = (*_car(), *_of_groups())

_IN_ROWS = frozenset(
    {*(items for items, _, _ in GROUPS.values()), "pins", "claims", "old_notes", "readings"}
)
NOT_HELD: tuple[DataPath, ...] = tuple(lists_in(Vehicle, _IN_ROWS))
"""What a table has no place for; it is typed into the record afterwards."""

DEFAULTS: dict[DataPath, str] = {
    **{
        question.path: question.default
        for question in QUESTIONS
        if question.path and question.default
    },
    ("data",): "measured",
}
"""What a field is when the table does not say: the same as when `new vehicle` is not told."""


def field_of(label: str) -> Field | None:
    """The field of the whole car that a label names, or None."""
    name = plain(label)
    return next((f for f in FIELDS if not f.group and name in _names(f)), None)


def field_in_group(group: ManyGroup, label: str) -> Field | None:
    """The field of one of many that a label names, or None."""
    name = plain(label)
    return next((f for f in FIELDS if f.group == group and name in _names(f)), None)


def _names(field: Field) -> tuple[str, ...]:
    path = " ".join(str(step) for step in field.path)
    return tuple(plain(name) for name in (field.label, *field.others, path, ".".join(field.path)))  # type: ignore[arg-type]
