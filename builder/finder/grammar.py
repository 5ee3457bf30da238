"""The grammar of a question: what a word, or several, can be. The first rule that fits, holds.

One table for both: `matching.py` runs it here, `finder-words.js` on the page. No expression means
something else there, and a part that may stand is taken wherever it stands.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Literal, NamedTuple

from builder.finder.entries import FUSE
from builder.finder.words import WordSet

Test = Literal["set", "like", "known", "phrase", "colour", "joined", "begun", "end", "open"]
"""How a part fits: a word of a set, one like an expression; the longest known word, one of several
tokens, a colour, two colours in one token, the beginning of known words that is still being typed;
no token: the end of the question, or its last word may not be finished."""


class Part(NamedTuple):
    """One part of a pattern. `of` is the set or the expression that `test` asks for."""

    test: Test
    of: str = ""
    may: bool = False  # it may as well be missing
    none: bool = False  # it stands for no token, and must not fit here


RuleKind = Literal[
    "and", "years", "begun", "colour", "known", "cavity", "plug", "spot", "noise", "name"
]


class Rule(NamedTuple):
    """What tokens of a pattern are. `value` is text in which {1} is what was caught first.

    Of years it is both ends, in any order, each a sum; two digits are a year as people say it.
    """

    kind: RuleKind
    pattern: Sequence[Part]
    value: tuple[str, ...] = ()


def _set(name: WordSet, may: bool = False, none: bool = False) -> Part:
    return Part("set", name, may, none)


def _like(expression: str, may: bool = False) -> Part:
    return Part("like", expression, may)


LAST_YEAR = 9999
_LAST = str(LAST_YEAR)
_YEAR = _like(r"(?:my)?((?:19|20)[0-9]{2})|(?:my|')([0-9]{2})")
_COLOUR, _KNOWN, _END, _OPEN = Part("colour"), Part("known"), Part("end"), Part("open")
_ON = _like("on")  # "2016 on": only where nothing follows
_NOT_KNOWN = Part("known", none=True)

RULES: tuple[Rule, ...] = (
    Rule("and", [_set("and")]),
    Rule("years", [_set("from"), _YEAR, _set("yearsBetween"), _YEAR], ("{1}", "{2}")),
    Rule("years", [_set("from"), _YEAR, _set("yearsOnward", may=True)], ("{1}", _LAST)),
    Rule("years", [_set("until"), _YEAR], ("0", "{1}")),
    Rule("years", [_set("before"), _YEAR], ("0", "{1} -1")),
    Rule("years", [_set("after"), _YEAR], ("{1} 1", _LAST)),
    Rule("years", [_YEAR, _set("yearsBetween"), _YEAR], ("{1}", "{2}")),
    Rule("years", [_YEAR, _set("yearsOnward")], ("{1}", _LAST)),
    Rule("years", [_YEAR, _ON, _END], ("{1}", _LAST)),
    Rule("years", [_YEAR], ("{1}", "{1}")),
    Rule("years", [_like(r"((?:19|20)[0-9]{2})\+")], ("{1}", _LAST)),
    Rule("years", [_like("((?:19|20)[0-9]{2})-((?:19|20)[0-9]{2})")], ("{1}", "{2}")),
    Rule("years", [_like("(19|20)([0-9]{2})-([0-9]{2})")], ("{1}{2}", "{1}{3}")),
    Rule("years", [_like("([0-9]{2})-([0-9]{2})")], ("{1}", "{2}")),
    Rule("years", [_like("(19|20)"), _END, _OPEN], ("{1}00", "{1}99")),
    Rule("years", [_like("((?:19|20)[0-9])"), _END, _OPEN], ("{1}0", "{1}9")),
    Rule("begun", [Part("begun")]),
    Rule(
        "colour",
        [
            *(_COLOUR, _like("/", may=True), _set("joining", may=True), _like("/", may=True)),
            *(_like("a", may=True), _COLOUR, _set("stripe", may=True)),
        ],
        ("{1}", "{2}"),
    ),
    Rule("colour", [_COLOUR], ("{1}", "")),
    Rule("colour", [Part("joined")], ("{1}", "{2}")),
    Rule("known", [Part("phrase")]),
    Rule("cavity", [_set("cavity"), _like("([0-9]{1,3})")], ("{1}",)),
    Rule("plug", [_set("plug"), _NOT_KNOWN, _like("([0-9a-z])")], ("{1}",)),
    Rule(
        "plug",
        [_set("plug"), _NOT_KNOWN, _set("noise", none=True), _like("([0-9a-z]{2,3})")],
        ("{1}",),
    ),
    Rule("known", [_KNOWN]),
    Rule("cavity", [_set("fuse")], (FUSE,)),
    Rule(
        "spot",
        [_like("([a-z]{1,3}[0-9]{0,2})[.-]([0-9]{1,3})|([a-z]{1,2})([0-9]{1,3})")],
        ("{1}", "{2}"),
    ),
    Rule("noise", [_set("noise")]),
    Rule("name", [_like(".*")]),
)
