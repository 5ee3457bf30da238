"""The cards "Prove it": one page a function, made from the signature table."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from typing import NamedTuple

from builder.model.house_defaults import HouseDefaults
from builder.model.names import LOAD_NAMES, QUANTITY_NAMES, STATE_NAMES, function_name
from builder.model.words import Function
from builder.proof.house import house_note, house_of_rows
from builder.proof.measuring_safety import BY_STATE, DEAD, LIVE, PAIR
from builder.proof.mistaken import Telling, tellings_of
from builder.proof.proving import Step, load_advice, steps_of
from builder.proof.signatures.of_pins import kinds_of_function
from builder.proof.signatures.shapes import PRACTICE, Kind
from builder.proof.signatures.shapes import Expected as Row
from builder.proof.signatures.table import AGAINST_WORDS, SIGNATURES
from builder.rendering.page import BuildInfo, Page
from builder.rendering.pages.expected import reads
from builder.rendering.pages.lists import Entry, index_page
from builder.rendering.templates import fill

VERDICTS = {"allowed": "Allowed", "conditional": "On condition", "never": "Never"}


class StepView(NamedTuple):
    """One reading of the proof. `source` is a mark that the foot of the card explains."""

    when: str
    how: str
    reads: str
    settles: str
    note: str
    source: str


class KindView(NamedTuple):
    """One kind of the function: its defining states, the readings that settle them, and
    what else it reads."""

    name: str
    note: str
    defining: tuple[str, ...]
    proof: tuple[StepView, ...]
    also: tuple[StepView, ...]


class TellingView(NamedTuple):
    """What the wire is taken for, and the reading that tells."""

    name: str
    function: str
    how: str
    ours: str
    theirs: str
    remark: str


CARDS: tuple[Function, ...] = tuple(dict.fromkeys(one.function for one in SIGNATURES))
"""The functions that have a card: those that the signature table knows."""


def prove_url(function: str) -> str:
    """Where the card of a function stands."""
    return f"prove/{function}.html"


def prove_page(function: Function, meaning: str, defaults: HouseDefaults, info: BuildInfo) -> Page:
    """Return the card of a function; `meaning` says in a sentence what such a wire does."""
    kinds = kinds_of_function(function, defaults)
    sources, told = _sources(kinds), tellings_of(function, defaults)
    name = function_name(function)
    body = fill(
        "prove.html",
        title=name,
        function=function,
        meaning=meaning,
        kinds=[_kind_view(kind, sources) for kind in kinds],
        loads=[
            (LOAD_NAMES[one.load], VERDICTS[one.verdict], one.why) for one in load_advice(function)
        ],
        tellings=[_telling_view(telling) for telling in told],
        safety=_safety(kinds),
        sources=sources,
        house=house_note(house_of_rows(_rows(kinds, told)), defaults),
        info=info,
    )
    what = f"How to prove a pin is {name}: readings, bands, loads and what it is mistaken for."
    return Page(prove_url(function), f"Prove it: {name}", what, body)


def prove_index(meanings: Mapping[Function, str], info: BuildInfo) -> Page:
    """Return the list of all cards; `meanings` says in a sentence what each function does."""
    entries = [Entry(prove_url(name), function_name(name), meanings[name]) for name in CARDS]
    intro = (
        "One card a function: which readings prove it, in which order, which load it stands, "
        "and what it is often mistaken for. Each prints on its own."
    )
    return index_page("prove/index.html", "Prove it", intro, entries, info)


def _rows(kinds: Iterable[Kind], told: Iterable[Telling]) -> Iterator[Row]:
    """Yield every line whose limits the card prints."""
    for kind in kinds:
        yield from kind.rows
    for telling in told:
        yield from (*telling.ours, *telling.theirs)


def _sources(kinds: tuple[Kind, ...]) -> dict[str, str]:
    """Each source that a line of the card rests on, with its mark: a, b, c."""
    named = dict.fromkeys(row.source for kind in kinds for row in kind.rows)
    ordered = sorted(named, key=lambda source: source != PRACTICE)
    return {source: chr(ord("a") + index) for index, source in enumerate(ordered)}


def _kind_view(kind: Kind, sources: Mapping[str, str]) -> KindView:
    steps = [(step, _step_view(step, sources)) for step in steps_of(kind)]
    return KindView(
        kind.name,
        kind.note,
        tuple(kind.defining.values()),
        tuple(view for step, view in steps if step.settles),
        tuple(view for step, view in steps if not step.settles),
    )


def _step_view(step: Step, sources: Mapping[str, str]) -> StepView:
    row = step.row
    when = [STATE_NAMES[state] for state in step.states]
    if "asleep" in step.states and row.proves_from_min:
        when = [
            f"{word} for {row.proves_from_min:g} min or more"
            if word == STATE_NAMES["asleep"]
            else word
            for word in when
        ]
    return StepView(
        " · ".join(when),
        f"{QUANTITY_NAMES[row.quantity][0]} against {AGAINST_WORDS[row.against]}",
        reads(row),
        "; ".join(step.settles),
        row.note,
        sources[row.source],
    )


def _telling_view(telling: Telling) -> TellingView:
    name = function_name(telling.function)
    if telling.measurement is None:
        how = telling.by_hand or "No one reading of the table tells them apart."
        return TellingView(name, telling.function, how, "", "", "")
    return TellingView(
        name,
        telling.function,
        f"{telling.measurement.words}.",
        ", or ".join(reads(row) for row in telling.ours),
        ", or ".join(reads(row) for row in telling.theirs),
        _remark(telling),
    )


def _remark(telling: Telling) -> str:
    words = []
    if telling.our_kind:
        words.append(f"compared: {telling.our_kind} and {telling.their_kind}")
    if not telling.settles:
        words.append("helps, does not settle")
    return "; ".join(words)


def _safety(kinds: tuple[Kind, ...]) -> tuple[str, ...]:
    """What to mind in the readings that prove the function, each caution once."""
    steps = [step for kind in kinds for step in steps_of(kind)]
    proof = [step for step in steps if step.settles] or steps
    rows = [step.row for step in proof]
    states = dict.fromkeys(step.states[0] for step in proof)
    general = (
        (any(row.quantity != "ohm" for row in rows), LIVE),
        (any(row.quantity == "ohm" for row in rows), f"Ohms: {DEAD}"),
        (any(row.against == "other_leg" for row in rows), f"Across a pair: {PAIR}"),
    )
    return (
        *(words for due, words in general if due),
        *(f"{STATE_NAMES[s].capitalize()}: {BY_STATE[s]}" for s in states if s in BY_STATE),
    )
