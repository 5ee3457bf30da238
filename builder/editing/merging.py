"""Two records of one car as one: what of the second is new to the first, and what they dispute.

Pure data in, data and text out. Nothing is chosen: where both say something and it differs, that is
a `Difference`, and a person says which is right.
"""

from __future__ import annotations

from collections.abc import Hashable, Iterator, Mapping
from dataclasses import dataclass, field
from typing import Any, Final, Literal, NamedTuple

from builder.editing.edits import Edit, UneditableError, apply_edits
from builder.editing.layout import entry_at, read_layout
from builder.editing.spelling import flow_text
from builder.editing.splicing import insert_item, insert_key
from builder.findings import DataPath
from builder.model.words import UNKNOWN

_Data = dict[str, Any]

_NAMES: dict[str, tuple[str, ...]] = {
    "sessions": ("id",), "plugs": ("id",), "pins": ("cavity", "only_if"), "channels": ("channel",),
    "fuse_positions": ("panel", "position"), "access": ("name",), "passages": ("name",),
    "photos": ("file",), "protected_sounds": ("sound",),
}  # fmt: skip
"""What tells the items of a list apart: two of one name are one thing, told twice."""
_GATHERED = frozenset(
    {"readings", "claims", "accept", "resolutions", "how_to_tell", "look_alikes", "recordings"}
)
"""Lists whose items stand for themselves: what is new is added."""
_SETS = frozenset({"shell_colours", "restraint_zones", "high_voltage_zones", "empty", "uncovers"})
"""Lists of words of which a car has all that anybody saw."""
_MEAN_NOTHING = frozenset({"protected_sounds", "restraint_zones", "high_voltage_zones"})
"""Lists that say by being empty that somebody looked and found none."""
_ANCHORS = frozenset({"read_from", "housing"})
"""What every cavity of a plug depends on: unknown beside known is a difference too."""
_JOINED = frozenset({"note"})
_REMARKED = frozenset({"make", "model", "variant", "generation", "edited"})
"""Of the second record these become a remark: one record has one of each."""
_OF_THE_RECORD = frozenset({"schema", "id", "replaces"})
_VISITS: Final = "sessions"
_NAME_A_VISIT = frozenset({"session", "retires"})


class Difference(NamedTuple):
    """What the two say differently: the place in words, and what each says."""

    place: str
    ours: str
    theirs: str


class Step(NamedTuple):
    """One change of the first record's text: a key or item that is added, a value in a place."""

    kind: Literal["key", "item", "value"]
    path: DataPath
    what: Any


@dataclass(slots=True)
class Merging:
    """What came of it: the record as data, the steps to its text, remarks, and what is disputed."""

    data: _Data = field(default_factory=dict)
    steps: list[Step] = field(default_factory=list)
    remarks: list[str] = field(default_factory=list)
    differences: list[Difference] = field(default_factory=list)


def merging(ours: _Data, theirs: _Data) -> Merging:
    """Return what the first of two vehicle records is with all that the second knows.

    Both are schema-valid, and their scopes are the same: who asks has seen to that. Visits of the
    second whose id the first has for another visit get a new one.
    """
    found = Merging()
    found.data = _mapping((), ours, _with_own_visits(theirs, ours), found)
    return found


def merged_text(text: str, found: Merging, remarks: list[str]) -> str:
    """Return the first record's text with every step made, and remarks as comments at its end.

    Raises:
        UneditableError: the text has no place for a step.
    """
    for step in sorted(found.steps, key=lambda step: step.kind != "value"):
        text = _stepped(text, step)
    end = "" if text.endswith("\n") else "\n"
    return text + end + "".join(f"# {line}\n" for line in remarks)


def _stepped(text: str, step: Step) -> str:
    if step.kind == "key":
        return insert_key(text, step.path[:-1], str(step.path[-1]), step.what, "vehicle")
    if step.kind == "item":
        return insert_item(text, step.path, step.what, "vehicle")
    part = entry_at(read_layout(text), step.path).part
    if part.kind != "scalar" and not part.flow:
        raise UneditableError(f"{_words(step.path)} runs over several lines: write it on one")
    return apply_edits(text, [Edit(part.start, part.end, flow_text(step.what))])


def _mapping(path: DataPath, ours: _Data, theirs: _Data, found: Merging) -> _Data:
    whole = dict(ours)
    for key, said in theirs.items():
        place = (*path, key)
        if not path and key in _OF_THE_RECORD | {"scope"}:
            continue
        if key not in ours:
            found.steps.append(Step("key", place, said))
            whole[key] = said
        else:
            whole[key] = _value(place, ours[key], said, found)
    return whole


def _value(path: DataPath, ours: Any, theirs: Any, found: Merging) -> Any:
    key = path[-1]
    if ours == theirs:
        return ours
    if len(path) == 1 and key in _REMARKED:
        found.remarks.append(f"{key}: {theirs}")
        return ours
    if key not in _ANCHORS and (_is_blank(theirs) or _is_blank(ours)):
        return ours if _is_blank(theirs) else _put(path, theirs, found)
    return _both(path, ours, theirs, found)


def _both(path: DataPath, ours: Any, theirs: Any, found: Merging) -> Any:
    """What two say of one thing of which neither is silent."""
    if isinstance(ours, dict) and isinstance(theirs, dict):
        return _mapping(path, ours, theirs, found)
    if isinstance(ours, list) and isinstance(theirs, list):
        return _list(path, ours, theirs, found)
    if path[-1] in _JOINED:
        return _put(path, f"{ours}; {theirs}", found)
    return _disputed(path, ours, theirs, found)


def _list(path: DataPath, ours: list[Any], theirs: list[Any], found: Merging) -> Any:
    key = str(path[-1])
    if key in _MEAN_NOTHING and bool(ours) != bool(theirs):
        return _disputed(path, ours, theirs, found)
    if key in _NAMES:
        return _named(path, ours, theirs, found)
    if key in _GATHERED | _SETS:
        return _with_items(path, ours, [each for each in theirs if each not in ours], found)
    return _disputed(path, ours, theirs, found)


def _named(path: DataPath, ours: list[Any], theirs: list[Any], found: Merging) -> list[Any]:
    whole = list(ours)
    known = {_name(each, path): at for at, each in enumerate(ours)}
    new = []
    for each in theirs:
        at = known.get(_name(each, path))
        if at is None:
            new.append(each)
        elif isinstance(each, dict):
            whole[at] = _mapping((*path, at), ours[at], each, found)
    return _with_items(path, whole, new, found)


def _name(item: Any, path: DataPath) -> Hashable:
    if not isinstance(item, dict):
        return str(item)
    return tuple(repr(item.get(key)) for key in _NAMES[str(path[-1])])


def _with_items(path: DataPath, ours: list[Any], new: list[Any], found: Merging) -> list[Any]:
    found.steps += (Step("item", path, each) for each in new)
    return [*ours, *new]


def _put(path: DataPath, what: Any, found: Merging) -> Any:
    found.steps.append(Step("value", path, what))
    return what


def _disputed(path: DataPath, ours: Any, theirs: Any, found: Merging) -> Any:
    said = (str(each) if isinstance(each, str) else flow_text(each) for each in (ours, theirs))
    found.differences.append(Difference(_words(path), *said))
    return ours


def _is_blank(value: Any) -> bool:
    return value is None or value in (UNKNOWN, [UNKNOWN])


def _words(path: DataPath) -> str:
    return ".".join(str(step + 1) if isinstance(step, int) else step for step in path)


def _with_own_visits(theirs: _Data, ours: _Data) -> _Data:
    """The second record with its visits under ids that the first has for no other visit."""
    names = dict(_new_ids(theirs, ours))
    return _renamed(theirs, names) if names else theirs


def _new_ids(theirs: _Data, ours: _Data) -> Iterator[tuple[str, str]]:
    known = {each["id"]: each for each in ours["sessions"]}
    taken = {*known, *(each["id"] for each in theirs["sessions"])}
    for each in theirs["sessions"]:
        same = next((id for id, one in known.items() if one == {**each, "id": id}), "")
        if same or each["id"] in known:
            name = same or _free(each["id"], taken)
            taken.add(name)
            yield each["id"], name


def _free(name: str, taken: set[str]) -> str:
    number = 2
    while f"{name}-{number}" in taken:
        number += 1
    return f"{name}-{number}"


def _renamed(value: Any, names: Mapping[str, str], key: str = "") -> Any:
    """The same with other ids of visits, wherever one stands."""
    if isinstance(value, dict):
        whole = {inner: _renamed(each, names, inner) for inner, each in value.items()}
        if key == _VISITS:
            whole["id"] = names.get(whole["id"], whole["id"])
        return whole
    if isinstance(value, list):
        return [_renamed(each, names, key) for each in value]
    return names.get(value, value) if key in _NAME_A_VISIT else value
