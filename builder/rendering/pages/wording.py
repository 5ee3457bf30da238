"""Words of the records as a person would read them, and figures with their units."""

from __future__ import annotations

import re
from functools import lru_cache

from markupsafe import Markup, escape

from builder.model.wire import Sized
from builder.model.words import GROUND_REFERENCES, GradeBand
from builder.planning.words import PlanKind

GRADE_MARKS: dict[GradeBand, str] = {
    "proven": "■■■■",
    "good": "■■■□",
    "check first": "■■□□",
    "don't rely": "■□□□",
    "unproved": "□□□□",
    "disputed": "■≠■",
}
"""A mark that is read without colour, for each grade word."""
PLAN_KINDS: dict[PlanKind, str] = {
    "tap_plan": "Tap plan",
    "probe_plan": "Probe plan",
    "no_plan": "No plan",
}
_HYPHENED = re.compile(r"(\w+(?:-\w+)+)")
_TICKED = re.compile(r"`([^`]+)`")
_NOT_ANCHOR = re.compile(r"[^A-Za-z0-9]+")


def plain(word: str) -> str:
    """A word of the records with spaces: "front-left" as "front left"."""
    return word.replace("_", " ").replace("-", " ")


def against_words(against: str) -> str:
    """What a reading was taken against."""
    if against in GROUND_REFERENCES:
        return plain(against)
    return f"pin {against}" if "." in against else f"cavity {against}"


@lru_cache(maxsize=4096)
def anchor(*parts: str) -> str:
    """A fragment name made of `parts`; only letters, digits and hyphens."""
    return "-".join(_NOT_ANCHOR.sub("-", part) for part in parts)


def pin_anchor(plug: str, cavity: str) -> str:
    """Where a pin stands on its vehicle's page."""
    return anchor("pin", plug, cavity)


def figure(value: float | None, unit: str, otherwise: str = "not recorded") -> str:
    """A number with its unit, without trailing zeros; `otherwise` for None."""
    if value is None:
        return otherwise
    return f"{value:.10g} {unit}".rstrip()


def size_words(of: Sized | None, otherwise: str = "") -> str:
    """Conductor size as recorded; `otherwise` for none."""
    if of is not None and of.size_mm2 is not None:
        return figure(of.size_mm2, "mm²")
    return f"{of.size_awg} AWG" if of is not None and of.size_awg else otherwise


def listed(words: tuple[str, ...], otherwise: str) -> str:
    """Words joined by commas; `otherwise` for none."""
    return ", ".join(words) if words else otherwise


def grade_class(band: GradeBand) -> str:
    """The class name of a grade word."""
    return "g-" + "".join(letter for letter in band if letter.isalpha())


def grade_mark(band: GradeBand) -> str:
    """The mark that stands beside a grade word."""
    return GRADE_MARKS[band]


def url_name(name: str) -> str:
    """A file name made of a person's word: "Wexlow" as "wexlow", "Büro" as "buFCro".

    Letters beyond ASCII become capitals, which the rest never has, so that words that differ
    in them differ in their file names.
    """
    spelled = "".join(
        f"u{ord(sign):X}" if sign.isalnum() and not sign.isascii() else sign
        for sign in name.lower()
    )
    return _NOT_ANCHOR.sub("-", spelled).strip("-") or "unnamed"


def plan_url(vehicle_id: str, converter_id: str) -> str:
    """Where the plan of a vehicle with a converter stands."""
    return f"plans/{vehicle_id}--{converter_id}.html"


def coded(said: str) -> Markup:
    """Return one of our own texts for a page, its words between backticks shown as code.

    Never one of a record: that is shown as it was typed.

    >>> coded("type `renamed: <id>`")
    Markup('type <code>renamed: &lt;id&gt;</code>')
    """
    return Markup(_TICKED.sub(r"<code>\1</code>", str(escape(said))))


def in_quotes(said: str) -> Markup:
    """Return text as an attribute in single quotes: JSON is half double quotes.

    >>> in_quotes('{"a":"b\'s & <c>"}')
    Markup('\'{"a":"b&#39;s &amp; &lt;c&gt;"}\'')
    """
    return Markup("'" + str(escape(said)).replace("&#34;", '"') + "'")  # its quotes are escaped


def unbroken(said: str) -> Markup:
    """Return a text for a page, in which no name with a hyphen is broken over two lines.

    >>> unbroken("of CVN-2A & <x>")
    Markup('of <span class="unbroken">CVN-2A</span> &amp; &lt;x&gt;')
    """
    return Markup(_HYPHENED.sub(r'<span class="unbroken">\1</span>', str(escape(said))))
