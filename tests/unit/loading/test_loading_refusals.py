"""Every refusal: its id, its exact place, and what its message quotes."""

from __future__ import annotations

import pytest
from each_case import each

from builder.findings import Severity

# text, (id, line, column) of each finding, words of the first message
CASES = {
    "anchor": ("a: &base 1\n", [("YML111", 1, 4)], '"&base"'),
    "anchor on a key": ("&k a: 1\n", [("YML111", 1, 1)], '"&k"'),
    "anchor on a list": ("a:\n  b: &l [1]\n", [("YML111", 2, 6)], '"&l"'),
    "anchor on the whole": ("&all\na: 1\n", [("YML111", 1, 1)], '"&all"'),
    "alias": ("a:\n  - *base\n", [("YML112", 2, 5)], '"*base"'),
    "alias as key": ("*k : 1\n", [("YML112", 1, 1)], '"*k"'),
    "alias as record": ("*k\n", [("YML112", 1, 1)], '"*k"'),
    "tag": ("a: !!str 4\n", [("YML113", 1, 4)], '"!!str"'),
    "own tag": ("a:\n  b: !thing {c: 1}\n", [("YML113", 2, 6)], '"!thing"'),
    "tag that says nothing": ("a: ! b\n", [("YML113", 1, 4)], '"!"'),
    "python tag": ("a: !!python/object:os.x {}\n", [("YML113", 1, 4)], "!!python/object:os.x"),
    "anchor and tag": ("a: &x !!int 4\n", [("YML111", 1, 4), ("YML113", 1, 4)], '"&x"'),
    "merge": ("a: 1\n<<: {b: 2}\n", [("YML114", 2, 1)], '"<<"'),
    "merge of an alias": ("<<: *a\n", [("YML112", 1, 5), ("YML114", 1, 1)], '"<<"'),
    "key twice": ("a: 1\nb: 2\na: 3\n", [("YML115", 3, 1)], 'key "a" stands twice'),
    "key twice, in brackets": ("x: {a: 1, 'a': 3}\n", [("YML115", 1, 11)], "first at line 1"),
    "key three times": ("a: 1\na: 2\na: 3\n", [("YML115", 2, 1), ("YML115", 3, 1)], "line 1"),
    "integer key": ("p:\n  4: red\n", [("YML116", 2, 3)], 'key "4" is read as a number'),
    "float key": ("1.5: red\n", [("YML116", 1, 1)], '"1.5"'),
    "truth key": ("true: red\n", [("YML116", 1, 1)], "a truth value"),
    "null key": ("~: red\n", [("YML116", 1, 1)], "nothing"),
    "infinite key": (".inf: 1\n", [("YML116", 1, 1), ("YML120", 1, 1)], "a number"),
    "list key": ("a: {[b, c]: 1}\n", [("YML117", 1, 5)], "list or mapping"),
    "mapping key": ("? {b: c}\n: 1\n", [("YML117", 1, 3)], "list or mapping"),
    "set of lists": ("a: 1\n? - b\n", [("YML117", 2, 3)], "list or mapping"),
    "no key": (": red\n", [("YML118", 1, 1)], "empty"),
    "empty key": ('a: 1\n"": red\n', [("YML118", 2, 1)], "empty"),
    "blank key": ("a:\n  ' ': red\n", [("YML118", 2, 3)], "empty"),
    "question mark": ("a: {?b: 1}\n", [("YML105", 1, 6)], '"b"'),
    "two records": ("a: 1\n---\nb: 2\n", [("YML109", 2, 1)], "second document"),
    "version": ("%YAML 1.1\n---\na: no\n", [("YML110", 1, 1)], "%YAML"),
    "tag handle": ("%TAG !e! tag:e,2000:\n---\na: 1\n", [("YML110", 1, 1)], "%TAG"),
    "list": ("\n- a: 1\n", [("YML108", 2, 1)], "a list"),
    "text": ("only text\n", [("YML108", 1, 1)], '"only text"'),
    "number": ("4\n", [("YML108", 1, 1)], '"4"'),
    "nothing": ("", [("YML107", 1, 1)], "no record"),
    "blanks": ("\n  \n\n", [("YML107", 1, 1)], "no record"),
    "comment": ("# nothing yet\n", [("YML107", 1, 1)], "no record"),
    "empty document": ("---\n...\n", [("YML107", 2, 1)], "no record"),
    "zero width": ("a: 1\nb: x\u200by\n", [("YML104", 2, 5)], "U+200B ZERO WIDTH SPACE"),
    "override": ("é: 'a\u202eb'\n", [("YML104", 1, 6)], "U+202E RIGHT-TO-LEFT OVERRIDE"),
    "isolate": ("# \u2066\na: 1\n", [("YML104", 1, 3)], "U+2066"),
    "nul": ("a: b\x00\n", [("YML104", 1, 5)], "U+0000 NULL"),
    "escape": ("a: 1\r\nb: \x1b[2J\r\n", [("YML104", 2, 4)], "U+001B ESCAPE"),
    "next line": ("a: b\x85c\n", [("YML104", 1, 5)], "U+0085"),
    "line separator": ("a: b\u2028c: d\n", [("YML104", 1, 5)], "U+2028 LINE SEPARATOR"),
    "second byte order mark": ("\ufeffa: \ufeffb\n", [("YML104", 1, 4)], "U+FEFF"),
    "escaped override": ('a: "b\\u202Ec"\n', [("YML104", 1, 4)], "U+202E"),
    "escaped nul in a key": ('a: 1\n"b\\0": 1\n', [("YML104", 2, 1)], "U+0000"),
    "escaped return": ('a: "b\\rc"\n', [("YML104", 1, 4)], "U+000D CARRIAGE RETURN"),
    "tab": ("a:\n\tb: 1\n", [("YML106", 2, 1)], '"b: 1"'),
    "tab below a value": ("a:\n  b: 1\n\tc: 2\n", [("YML106", 3, 1)], '"c: 2"'),
    "tab first": ("\ta: 1\n", [("YML106", 1, 1)], '"a: 1"'),
    "open quote": ("a: 'b\nc: d\n", [("YML105", 1, 4)], "never closed"),
    "open double quote": ('x: 1\na: "b c\n', [("YML105", 2, 4)], '"b c" is never closed'),
    "open list": ("a: [1, 2\nb: 3\n", [("YML105", 2, 2)], "bracket opens at line 1"),
    "open mapping": ("a: {b: 1\n", [("YML105", 2, 1)], "end of the file"),
    "stray bracket": ("a: }\n", [("YML105", 1, 4)], '"}"'),
    "two colons": ("a: b: c\n", [("YML105", 1, 5)], '": c"'),
    "too deep a line": ("a: 1\n b: 2\n", [("YML105", 2, 3)], '": 2"'),
    "too shallow a line": ("a:\n  b: 1\n c: 2\n", [("YML105", 3, 2)], '"c: 2"'),
    "no colon": ("a: 1\nfoo\nb: 2\n", [("YML105", 2, 1)], '"foo"'),
    "key among items": ("- a\nb: 1\n", [("YML105", 2, 1)], '"b: 1"'),
    "item on the key's line": ("a: - b\n", [("YML105", 1, 4)], '"- b"'),
    "behind a quote": ("a: 'b' c\n", [("YML105", 1, 8)], '"c"'),
    "at sign": ("a: @b\n", [("YML105", 1, 4)], '"@b"'),
    "bare star": ("a: *\n", [("YML105", 1, 4)], '"*"'),
    "bare ampersand": ("a: & b\n", [("YML105", 1, 4)], '"& b"'),
    "tag handle without %TAG": ("a: !x!y z\n", [("YML105", 1, 4)], '"!x!y z"'),
    "backslash": ('a: "C:\\q"\n', [("YML105", 1, 4)], "backslash"),
    "block scalar header": ("a: |x\n  b\n", [("YML105", 1, 4)], '"|x"'),
}


@each("name", CASES)
def test_refusal(load, name):
    text, places, words = CASES[name]
    loaded = load(text)
    found = [(finding.rule_id, finding.line, finding.column) for finding in loaded.findings]
    assert sorted(found) == places
    assert loaded.data is None
    assert words in " ".join(finding.message for finding in loaded.findings)
    assert all(finding.help for finding in loaded.findings)
    assert {(f.severity, f.file) for f in loaded.findings} == {(Severity.STOP, "record.yaml")}


def test_key_named_as_first_line(load):
    (finding,) = load("a:\n  b: 1\n\n  c: 2\n  b: 3\n").findings
    assert (finding.line, finding.column) == (5, 3)
    assert "first at line 2" in finding.message


def test_the_same_key_in_two_mappings_is_no_fault(load):
    assert load("a: {b: 1}\nc: {b: 1}\n").data == {"a": {"b": 1}, "c": {"b": 1}}


def test_everything_is_collected_and_in_order(load):
    text = "a: *x\nb: &y 1\nb: !!str 2\n4: .nan\nc: 'q\n"
    found = [(finding.line, finding.rule_id) for finding in load(text).findings]
    assert found == [
        (1, "YML112"),
        (2, "YML111"),
        (3, "YML115"),
        (3, "YML113"),
        (4, "YML116"),
        (4, "YML120"),
        (5, "YML105"),
    ]


def test_a_key_is_told_twice_beside_a_hidden_character(load):
    found = {finding.rule_id for finding in load("a: 1\nb: x\u200b\na: 2\n").findings}
    assert found == {"YML104", "YML115"}


def test_a_control_character_is_no_syntax_error_as_well(load):
    assert [f.rule_id for f in load("a: \x07b\nc: 'd\n").findings] == ["YML104"]


def test_messages_show_no_hidden_character(load):
    (first, second) = load('"a\\u202Eb": 1\n"a\\u202Eb": 1\n').findings[1:]
    assert "\u202e" not in first.message + second.message
    assert "a<U+202E>b" in first.message + second.message


def test_what_may_look_refused_and_is_not(load):
    text = 'a: "<<"\nb: "&c *d !e"\n"<<": x\nf: it\'s & co\ng: "tab\\tline\\n"\nh: "?"\n'
    assert load(text).data == {
        "a": "<<",
        "b": "&c *d !e",
        "<<": "x",
        "f": "it's & co",
        "g": "tab\tline\n",
        "h": "?",
    }


@pytest.mark.parametrize("opening", ["[", "{a: "])
def test_nesting_ends_at_24(load, opening):
    closing = {"[": "]", "{a: ": "}"}[opening]
    deep = 23  # the record itself is the first
    assert load("a: " + opening * deep + closing * deep).findings == []
    (finding,) = load("a: " + opening * 24 + closing * 24).findings
    assert (finding.rule_id, finding.line) == ("YML119", 1)
    assert finding.column == 4 + 23 * len(opening)


@pytest.mark.parametrize("opening", ["[", "{a: ", "- ", "? "])
def test_a_file_of_nothing_but_openings_ends_soon(load, opening):
    last = load("a:\n " + opening * 20_000).findings[-1]
    assert (last.rule_id, last.line) == ("YML119", 2)


def test_reading_stops_after_fifty_faults(load):
    found = load("a: [" + "*x, " * 5000 + "]\n").findings
    assert [finding.rule_id for finding in found] == ["YML112"] * 50 + ["YML122"]


def test_fifty_hidden_characters_are_enough(load):
    assert len(load("a: " + "\u200b" * 5000).findings) == 51
