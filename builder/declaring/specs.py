"""What is said of a key, beside its type: the specifiers that stand behind the keys of a record."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import MISSING, dataclass, field
from typing import Any

SPEC = "spec"  # where the metadata of a field holds what is said of it

_OF_FIGURES = {"least": "minimum", "above": "exclusiveMinimum", "most": "maximum"}
_OF_TEXTS = {"least": "minLength", "most": "maxLength"}
_OF_LISTS = {"least": "minItems", "most": "maxItems", "unique": "uniqueItems"}


@dataclass(frozen=True, slots=True)
class Form:
    """A form that values of many keys have; with a name it stands in `defs.schema.json`.

    `means` are its legal words, if it is a list of words; `schema` is the rest of its definition:
    type, pattern, lengths, limits, and `formMeaning`, what the form is in a person's words.
    """

    name: str
    description: str
    schema: Mapping[str, Any] = field(default_factory=dict)
    means: Mapping[str, str] = field(default_factory=dict)


@dataclass(frozen=True, slots=True, kw_only=True)
class Spec:
    """Everything a declaration says of one key.

    None in an example stands for a figure that somebody reads or measures: nobody shall find one to
    copy, so templates leave it blank and schemas give no example of it.
    `limits` are named as JSON Schema names them. `means` gives the meaning of each legal word, or
    of each word that stands in the place of a figure or part ("none", "no"); `unknown` lets that
    word stand in the place of a figure. `key` is its name in the record where Python cannot have
    it. `read` makes the attribute of the plain value where its type does not say how.
    `label` names the key on pages, `absent` is what they show when the record does not say.
    `ask` is the question to a person who begins a record, `answer` what he means by none, None
    when there must be one, `option` its name where not the key, `lines` asks a line an item.
    `column` names its column in tables where the key's words do not, then other names for it.
    `sketch` is what a sketch of a job assumes where nobody says it. `settles` makes the key one of
    danger: while it is unknown the worst is taken, and this is who or what settles it.
    """

    description: str = ""
    examples: tuple[Any, ...] = ()
    unit: str = ""
    limits: Mapping[str, Any] = field(default_factory=dict)
    means: Mapping[str, str] = field(default_factory=dict)
    unknown: bool = False
    form: Form | None = None
    item: Spec | None = None
    key: str = ""
    read: Callable[[Any], Any] | None = None
    optional: bool = False
    label: str = ""
    absent: str = "not recorded"
    ask: str = ""
    answer: str | None = None
    option: str = ""
    lines: bool = False
    sketch: Any = None
    settles: str = ""
    column: tuple[str, ...] = ()


def figure(description: str, unit: str, *examples: Any, **said: Any) -> Any:
    """A number with its unit: `least`, `above`, `most`; words (`means`) may stand in its place."""
    return _field(_OF_FIGURES, examples, description=description, unit=unit, **said)


def word(description: str, *examples: Any, **said: Any) -> Any:
    """One of a list of words: its own, each with its meaning (`means`), or a shared `form`."""
    return _field({}, examples, description=description, **said)


def text(description: str, *examples: Any, **said: Any) -> Any:
    """A text, or a name that may look like a number, of a `form`, `least` to `most` long."""
    return _field(_OF_TEXTS, examples, description=description, **said)


def part(*examples: Any, **said: Any) -> Any:
    """A record inside the record; its class describes it. Words (`means`) may stand instead."""
    return _field({}, examples, **said)


def listed(description: str, *examples: Any, **said: Any) -> Any:
    """A list, `least` to `most` long; `form` or `means` are those of each item, or `item` says."""
    return _field(_OF_LISTS, examples, description=description, **said)


def _field(names: Mapping[str, str], examples: tuple[Any, ...], **said: Any) -> Any:
    default = said.pop("default", MISSING)
    limits = {names[name]: said.pop(name) for name in names if name in said}
    if "item" in said:
        said["item"] = said["item"].metadata[SPEC]
    spec = Spec(examples=examples, limits=limits, **{"optional": default is not MISSING, **said})
    return field(default=default, metadata={SPEC: spec})
