"""Changes as Markdown: plans first, long lists folded, and nothing in a record that acts."""

from __future__ import annotations

from html import unescape
from typing import NamedTuple

import markdown
import pytest

from builder.rendering.change_markdown import changes_markdown


class OneChange(NamedTuple):
    words: str


class OneRecord(NamedTuple):
    kind: str
    name: str
    came: bool | None
    changes: tuple[OneChange, ...]


def record(kind: str, *words: str, name: str = "one", came: bool | None = None) -> OneRecord:
    return OneRecord(kind, name, came, tuple(OneChange(word) for word in words))


def test_what_would_be_built_otherwise_stands_before_why():
    text = changes_markdown(
        [record("vehicle", "A.4 grade: likely 0.8 → proven 0.97"), record("plan", "fuse: 1 A")]
    )
    assert text.index("### Tap plans") < text.index("fuse: 1 A") < text.index("### Cars")
    assert "Changed: 1 vehicle, 1 plan." in text


def test_a_record_of_another_kind_says_its_kind_and_that_it_came():
    text = changes_markdown([record("housing", name="block-c-20", came=True)])
    assert "### Parts and other records" in text and "**housing block-c-20: added**" in text


def test_nothing_changed_is_said_and_notes_stand_first():
    text = changes_markdown([], ["private is not in that revision"])
    assert text.index("private is not") < text.index("Nothing changed.")


def test_a_long_list_is_folded_and_a_short_one_is_not():
    long = changes_markdown([record("vehicle", *(f"A.{n} note" for n in range(13)))])
    short = changes_markdown([record("vehicle", *(f"A.{n} note" for n in range(12)))])
    assert "<details><summary>one, 13 changes</summary>" in long and "<details>" not in short


def test_a_page_at_a_forge_is_never_too_long():
    many = [record("vehicle", *["x" * 100] * 1000, name=f"car{n}") for n in range(5)]
    text = changes_markdown(many)
    assert text.count("- 600 more") == 5
    assert "100 more: `loombook diff`" in changes_markdown([record("job", "x")] * 600)


@pytest.mark.parametrize(
    "words",
    [
        "<script>alert(1)</script>", "![a](https://pins.example/a.png)", "[a](javascript:b)",
        "@somebody said so", "see #12 and GH-12", "**loud** _soft_ `code` ~~gone~~", "| a | b |",
        "# title", "- list", "1. list", "12) list", "> quote", "a\n\n# title", "https://pins.example",
        "www.pins.example", "a\\*b", "&lt;b&gt;", "[x]: https://pins.example", "$a$", "---",
    ],
)  # fmt: skip
def test_words_of_a_record_are_words_and_nothing_else(words):
    text = changes_markdown([record("vehicle", words, name=words)])
    (fact,) = [line for line in text.splitlines() if line.startswith("- ")]
    page = markdown.markdown(fact)
    # A general Markdown library agrees: one list, one entry, the words as they were typed.
    one_line = " ".join(words.split())
    assert page.startswith("<ul>\n<li>") and page.endswith("</li>\n</ul>")
    inner = page[len("<ul>\n<li>") : -len("</li>\n</ul>")]
    assert "<" not in inner and unescape(inner) == one_line
    assert "@" not in text and "://" not in text and "www." not in text
