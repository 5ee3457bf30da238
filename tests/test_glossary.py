"""One word for one thing: nothing that people read calls a thing by a name it had before."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path

import click
import people_text
import pytest
from click.testing import CliRunner
from people_text import Text
from shipped_book import ROOT

from builder.cli import main
from builder.finder.words import MEANINGS
from builder.model.glossary import GLOSSARY, slips
from builder.model.names import FUNCTION_NAMES, SINGULAR_NAMES, STATE_NAMES

TYPED = {
    "builder/model/said/functions.py": "what people call a wire when they ask",
    "builder/model/said/states.py": "how people write states in headings",
    "builder/cli/faces/checking.py": "the old word of --format, beside the new one",
    "builder/model/glossary.py": "the table itself",
}
"""Where old words stand because they are typed by people and must be understood."""
PRINTED = {
    "handbook/finder.html": "the finder's table of what people type",
    "handbook/tables.html": "the headings that are read",
    "handbook/words.html": "the table of the words",
}
"""The same on pages."""


def code_files() -> list[Path]:
    return sorted((ROOT / "builder").rglob("*.py"))


def prose_files() -> list[Path]:
    templates = (ROOT / "site_templates").rglob("*")
    return [
        ROOT / "README.md",
        ROOT / "schema" / "README.md",
        *sorted((ROOT / "schema").glob("*.json")),
        *sorted(path for path in templates if path.suffix in (".md", ".html", ".js")),
    ]


def told(place: str, texts: Iterator[Text] | list[Text]) -> list[str]:
    """What is wrong with the texts of one file, as `file:line: what to write`."""
    return [f"{place}:{text.line}: {slip}" for text in texts for slip in slips(text.text)]


def texts_of_code(path: Path) -> Iterator[Text]:
    is_page = path.parent.name in {"rules", "schema_check"}
    return people_text.of_python(path.read_text("utf-8"), docstrings=is_page)


def test_messages_and_rule_pages_have_the_words():
    found = [
        line
        for path in code_files()
        if (shown := path.relative_to(ROOT).as_posix()) not in TYPED
        for line in told(shown, texts_of_code(path))
    ]
    assert found == []


def test_templates_handbook_scripts_schemas_and_readme_have_the_words():
    found = [
        line
        for path in prose_files()
        for line in told(path.relative_to(ROOT).as_posix(), people_text.of_file(path))
    ]
    assert found == []


def commands(group: click.Group, before: tuple[str, ...] = ()) -> Iterator[tuple[str, ...]]:
    for name, command in group.commands.items():
        yield (*before, name)
        if isinstance(command, click.Group):
            yield from commands(command, (*before, name))


@pytest.mark.parametrize("names", list(commands(main)), ids=" ".join)
def test_help_has_the_words(names):
    done = CliRunner().invoke(main, [*names, "--help"])
    assert done.exit_code == 0
    helped = [Text(1, people_text.without_code(" ".join(done.output.split())))]
    if names != ("completion",):  # that one is about the shell of a terminal
        assert told(" ".join(names), helped) == []


def test_every_page_and_data_file_has_the_words(shipped_site):
    seen: set[str] = set()
    found = []
    for path in sorted(shipped_site.rglob("*")):
        shown = path.relative_to(shipped_site).as_posix()
        if path.suffix in (".html", ".json") and shown not in PRINTED:
            read = people_text.of_page if path.suffix == ".html" else people_text.of_data
            new = [text for text in read(path.read_text("utf-8")) if text.text not in seen]
            seen |= {text.text for text in new}
            found += told(shown, new)
    assert len(seen) > 10_000
    assert found == []


def test_a_page_says_a_place_in_full_where_places_stand(shipped_site):
    """Cars explain the short form once, plans and packs at the first terminal."""
    short = re.compile(r"\b[A-Z][a-z0-9]{0,3}\.\d+\b")
    full = re.compile(r"\b(\w+)\.(\w+) is plug \1, cavity \2\b")
    kinds = ("vehicles", "plans", "jobs")
    pages = [page for kind in kinds for page in sorted(shipped_site.glob(f"{kind}/*.html"))]
    places = 0
    for page in pages:
        text = page.read_text("utf-8")
        if 'class="cards terminals"' in text or 'class="plug"' in text:
            texts = [one.text for one in people_text.of_page(text)]
            places += any(map(short.search, texts))
            assert any(map(full.search, texts)), page.name
    assert places > 50


def test_places_where_old_words_may_stand_have_some():
    for name in TYPED:
        assert told(name, texts_of_code(ROOT / name)), f"{name} needs no exception any more"


def test_no_word_is_another_of_its_own_table():
    for row in GLOSSARY:
        assert list(slips(row.word)) == [], row.thing
    for names in (FUNCTION_NAMES, SINGULAR_NAMES, STATE_NAMES):
        for name in names.values():
            assert list(slips(name)) == []


@pytest.mark.parametrize("other", [o for row in GLOSSARY for o in row.others], ids=lambda o: o.said)
def test_each_other_word_is_found_in_a_sentence(other):
    """As the handbook prints it, or within the phrase that makes it a name."""
    phrases = (
        *("{}", "the {} pin", "pairs are {}", "a pair is {} here", "state {}", "state 12ab34cd"),
        *("{} wire", "{} first"),
    )
    assert any(list(slips(phrase.format(other.said))) for phrase in phrases)


@pytest.mark.parametrize(
    "read, text, line",
    [
        (people_text.of_markdown, "# One\n\nGood.\n\nA session\nof two lines.\n", 5),
        (people_text.of_page, "<p>Good.</p>\n<p>A <b>job</b>\npack.</p>", 2),
        (people_text.of_template, "{% if a %}\n<p>The shell of {{ b }}</p>{% endif %}", 2),
        (people_text.of_script, 'const a = 1;\nsay("a session of " + one + " day"); // offline', 2),
        (people_text.of_schema, '{\n"description": "A session of work."}', 2),
        (people_text.of_data, '{\n"says": "a session of work", "session": "s1"}', 2),
    ],
)
def test_texts_are_found_with_their_lines(read, text, line):
    assert [found.split(":")[1] for found in told("x", read(text))] == [str(line)]


def test_of_code_only_what_people_read_is_looked_at():
    source = (
        '"""A session of the module."""\n'
        "import click\n"
        'A = {"session": 1, "a session of words": f"the {1} shell"}\n'
        "@click.command()\n"
        'def run():\n    """Ask offline."""\n'
        'def other():\n    """A session of nobody."""\n'
    )
    found = told("x", people_text.of_python(source, docstrings=False))
    assert sorted(one.split(":")[1] for one in found) == ["3", "3", "6"]
    assert len(told("x", people_text.of_python(source, docstrings=True))) == 4


def test_the_finder_understands_new_words_and_old_ones():
    known = {word: meaning.means for meaning in MEANINGS for word in meaning.words}
    for function in ("constant", "accessory", "retained", "run", "amplifier_on", "aerial_on"):
        assert known[FUNCTION_NAMES[function].replace("-", " ")][0] == function
    assert known["retained accessory"] == ("retained",)
    assert known["remote output"][0] == known["amplifier on"][0] == "amplifier_on"
    assert known["aerial on"] == ("aerial_on",)


def test_a_command_by_its_old_name_says_the_new_one(tmp_path):
    done = CliRunner().invoke(main, ["new", "sheet", str(tmp_path / "car.xlsx")])
    assert done.exit_code == 0 and (tmp_path / "car.xlsx").is_file()
    assert "loombook new sheet is called loombook new table now" in done.output


ANSWERS = [
    ("show", "ostrel-tansy-2017-hatch-base"),
    ("plan", "rook-two-amplifiers"),
    ("plan", "ostrel-tansy-2017-hatch-base", "-c", "cvn-2a"),
    ("why", "ostrel-tansy-2017-hatch-base", "A.7"),
    ("why", "tansy-subwoofer"),
    ("find", "rook", "switched"),
    ("next", "--limit", "3"),
]
"""Asked of the book that a checkout has."""


@pytest.mark.parametrize("words", ANSWERS, ids=" ".join)
def test_what_commands_answer_has_the_words(words, monkeypatch):
    """Sheet titles stand in capitals in a terminal; they are looked at in the code."""
    monkeypatch.chdir(ROOT)
    done = CliRunner().invoke(main, list(words))
    assert done.exit_code == 0
    lines = [line for line in done.stdout.splitlines() if not re.match(r"[A-Z]  [A-Z ]+$", line)]
    assert told(" ".join(words), [Text(at, line) for at, line in enumerate(lines, 1)]) == []
