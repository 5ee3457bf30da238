"""Every declared key of a part stands on its page, with a label and as its record says it."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any, Literal

import pytest
from page_samples import INFO, Tags
from shipped_book import PINOUTS

from builder.declaring import fields_of, figure, listed, part, read, record, word
from builder.loading import load_file
from builder.model.kinds import PARTS
from builder.rendering.pages.declared_facts import facts_of
from builder.rendering.pages.looms import loom_page
from builder.rendering.pages.parts import (
    amplifier_page,
    cable_page,
    contributor_page,
    converter_page,
    housing_page,
    interface_page,
)
from builder.rendering.pages.wording import plain

PAGES = {
    "converter": converter_page,
    "amplifier": amplifier_page,
    "cable": cable_page,
    "housing": housing_page,
    "loom": loom_page,
    "interface": interface_page,
    "contributor": contributor_page,
}
ELSEWHERE = {"schema", "id", "data", "rows"}  # the address, a mark, the drawings
RECORDS = [
    pytest.param(kind, path, id=f"{kind}-{path.stem}")
    for kind in PARTS
    for path in sorted((PINOUTS / f"{kind}s").glob("*.yaml"))
]


def leaves(value: Any, path: str) -> Iterator[tuple[str, Any]]:
    if isinstance(value, dict):
        for key, inner in value.items():
            yield from leaves(inner, f"{path}.{key}")
    elif isinstance(value, list):
        for inner in value:
            yield from leaves(inner, path)
    else:
        yield path, value


def said(value: Any) -> str:
    if value == "unknown":
        return "not recorded"
    return plain(value) if isinstance(value, str) else f"{value:.10g}"


@pytest.mark.parametrize(("kind", "path"), RECORDS)
def test_whatever_a_record_says_stands_on_its_page(kind, path):
    data = load_file(path, path.name).data
    page = PAGES[kind](read(PARTS[kind], data), [], INFO)
    text = plain(Tags(page.body_html).text)
    for key, value in leaves({k: v for k, v in data.items() if k not in ELSEWHERE}, kind):
        assert said(value) in text, f"{key}: {value} of {path.name} does not stand on its page"


STANDS_ELSEWHERE = {
    *("schema", "id", "data", "name", "maker", "rows", "pairs", "singles"),
    *("ends", "branches", "wires"),
}
"""Keys without a line among the facts: the head of the page, drawings, tables and the JSON say
them."""


def bare_keys(cls: type, *, in_a_line: bool) -> Iterator[str]:
    """The keys that come without a name; of those side by side in one line, all but the first."""
    bare = [each for each in fields_of(cls) if not each.spec.label]
    for each in fields_of(cls):
        if each.inner is not None and each.key not in STANDS_ELSEWHERE:
            yield from bare_keys(each.inner, in_a_line=bool(each.spec.label))
    yield from (each.key for each in bare[in_a_line:] if each.inner is None)


@pytest.mark.parametrize("kind", PARTS)
def test_every_key_has_a_label_or_stands_elsewhere_on_the_page(kind):
    assert set(bare_keys(PARTS[kind], in_a_line=False)) <= STANDS_ELSEWHERE


WITHOUT_A_LABEL = {
    ("Gain", "kind"): "its line is called gain",
    ("PowerAt", "w_rms"): "its line is called power",
    ("Amplifier", "channels"): "its keys stand by themselves",
    ("Converter", "input"): "its keys stand by themselves",
    ("Converter", "output"): "its keys stand by themselves",
    ("Converter", "turn_on"): "its keys stand by themselves",
    ("Interface", "needs"): "its keys stand by themselves",
}


def unlabelled(cls: type) -> Iterator[tuple[str, str]]:
    for each in fields_of(cls):
        if each.key not in STANDS_ELSEWHERE:
            if not each.spec.label:
                yield cls.__name__, each.key
            if each.inner is not None:
                yield from unlabelled(each.inner)


def test_a_key_without_a_label_is_one_of_those_that_need_none():
    """Also the first of several in one line: "22, thickest 14" would not say which 22 is."""
    assert {one for kind in PARTS for one in unlabelled(PARTS[kind])} == set(WITHOUT_A_LABEL)


@record
class Load:
    """A load."""

    ohm: float = figure("Ohms.", "Ω", 4, label="into")
    w_rms: float = figure("Watts.", "W", 60)


@record
class Group:
    """A group."""

    count: int = figure("How many.", "channels", 4, label="Channels")
    power: tuple[Load, ...] = listed("Power.", [{"ohm": 4, "w_rms": 60}], label="Power")


@record
class Box:
    """A box."""

    kind: Literal["hot_one", "b"] = word("Which.", "b", means={"hot_one": "A.", "b": "B."})
    pad: float | None = figure("Pad.", "Ω", 47, "none", means={"none": "None."}, label="Pad")
    rest: float | None = figure("Rest.", "V", 1, unknown=True, default=None, label="Rest")
    hidden: float | None = figure("Size.", "V", 1, default=None, label="Size", absent="")
    one: Load | None = part(
        {"ohm": 4, "w_rms": 60}, "no", means={"no": "None."}, label="One", default=None, absent="-"
    )
    groups: tuple[Group, ...] = listed("Groups.", default=())


LOAD = {"ohm": 4, "w_rms": 60.5}


def lines(**more: Any) -> list[tuple[str, str]]:
    return [tuple(fact) for fact in facts_of(read(Box, {"kind": "hot_one", "pad": "none"} | more))]


def test_nothing_is_the_word_for_it_or_that_nobody_wrote_it_down():
    assert lines() == [("Pad", "none"), ("Rest", "not recorded"), ("One", "-")]


def test_a_part_with_a_label_is_one_line_and_a_list_without_one_is_numbered():
    one = {"count": 2, "power": [LOAD, LOAD]}
    assert lines(one=LOAD, hidden=2, groups=[one])[2:] == [
        ("Size", "2 V"),
        ("One", "into 4 Ω, 60.5 W RMS"),
        ("Channels", "2"),
        ("Power", "into 4 Ω, 60.5 W RMS; into 4 Ω, 60.5 W RMS"),
    ]
    assert [label for label, _ in lines(groups=[one, one])[3:]] == [
        *("Group 1: Channels", "Group 1: Power"),
        *("Group 2: Channels", "Group 2: Power"),
    ]
