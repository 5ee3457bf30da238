"""`record`: a frozen dataclass whose keys are declared, checked when it is defined."""

from __future__ import annotations

import types
import typing
from dataclasses import dataclass, fields
from typing import Any, Literal, dataclass_transform, get_args, get_origin

from builder.declaring.alike import METHODS
from builder.declaring.conditions import Condition
from builder.declaring.specs import SPEC, Spec, figure, listed, part, text, word

_declared: dict[type, tuple[str, tuple[Field, ...]]] = {}


class Field(typing.NamedTuple):
    """A declared key: the attribute, its key in the record, its type, what is said of it.

    `words` are the legal words of its type; `inner` is the record class of a part or of the items
    of a list; `item` the type of a list's items, None when it is no list.
    """

    attribute: str
    key: str
    spec: Spec
    words: tuple[str, ...]
    scalar: type | None  # int, float or str
    inner: type | None
    item: Field | None
    nullable: bool


@dataclass_transform(
    frozen_default=True, kw_only_default=True, field_specifiers=(figure, word, text, part, listed)
)
def record(cls: Any = None, *, shared: str = "", slots: bool = True) -> Any:
    """Make a class a record: frozen, keyword only, slotted if `slots`, its keys declared.

    `shared` is its name in `defs.schema.json` when records of several kinds hold it.

    Raises:
        TypeError: a declaration contradicts its type.
    """
    if cls is None:
        return lambda cls: record(cls, shared=shared, slots=slots)
    ready = _declare(_frozen(cls, slots=slots, kw_only=True), shared)
    for each in fields_of(ready):
        _check(ready, each)
    return ready


@dataclass_transform(frozen_default=True, field_specifiers=(figure, word, text, part, listed))
def answer(cls: Any) -> Any:
    """Make a class an answer of ours: a record that nobody types, its words without meanings."""
    return _declare(_frozen(cls), "")


def _frozen(cls: Any, *, slots: bool = True, kw_only: bool = False) -> Any:
    """A frozen dataclass, with the methods that all of them share."""
    made = dataclass(frozen=True, slots=slots, kw_only=kw_only, repr=False, eq=False)(cls)
    for name in METHODS.keys() - vars(cls).keys():
        setattr(made, name, METHODS[name])
    return made


def _declare(cls: Any, shared: str) -> Any:
    hints = typing.get_type_hints(cls)
    specs = [(each.name, each.metadata[SPEC]) for each in fields(cls) if SPEC in each.metadata]
    _declared[cls] = shared, tuple(field_of(name, hints[name], spec) for name, spec in specs)
    return cls


def fields_of(cls: type) -> tuple[Field, ...]:
    """The declared keys of a record class, in their order."""
    return _declared[cls][1]


def settles(cls: type, attribute: str) -> str:
    """Who or what settles a key of danger while it is unknown; "" for another key.

    Raises:
        KeyError: the class has no such key.
    """
    return {each.attribute: each.spec.settles for each in fields_of(cls)}[attribute]


def shared_name(cls: type) -> str:
    """Its name in `defs.schema.json`, "" for a class that only one kind holds."""
    return _declared[cls][0]


def rules_of(cls: type) -> tuple[Condition, ...]:
    """The conditions between the keys of a record class."""
    return getattr(cls, "RULES", ())


def longest_line(cls: type) -> int:
    """How many characters of one line of text may stand for it, 0 where none may.

    Who knows its grammar reads such a line into its keys before the record is read.
    """
    return getattr(cls, "LINE", 0)


def field_of(name: str, hint: Any, spec: Spec) -> Field:
    """Take a type apart into what readers and schemas ask for."""
    kinds = _members(hint)
    words = tuple(w for kind in kinds if get_origin(kind) is Literal for w in get_args(kind))
    lists = [kind for kind in kinds if get_origin(kind) is tuple]
    of_items = spec.item or Spec(form=spec.form, means=spec.means)
    item = field_of(name, get_args(lists[0])[0], of_items) if lists else None
    inner = next((kind for kind in kinds if kind in _declared), item.inner if item else None)
    scalar = next((kind for kind in kinds if kind in (int, float, str, bool)), None)
    return Field(name, spec.key or name, spec, words, scalar, inner, item, types.NoneType in kinds)


def _members(hint: Any) -> tuple[Any, ...]:
    union = get_origin(hint) in (typing.Union, types.UnionType)
    return tuple(m for part in get_args(hint) for m in _members(part)) if union else (hint,)


def _check(cls: type, each: Field) -> None:
    """Refuse a declaration whose words are not those of its type."""
    legal = each.words or (each.item.words if each.item else ())
    said = each.spec.form.means if each.spec.form else each.spec.means
    if legal and not each.inner and not each.scalar and list(legal) != list(said):
        raise TypeError(f"{cls.__name__}.{each.attribute}: words {legal}, meanings {tuple(said)}")
