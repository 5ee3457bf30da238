"""Finder entries of a large invented book, made without records.

What is assumed, because nobody has such a book: 56 makes, each with 8 to 20 models in two to four
generations of three to seven records. A book of more than ten thousand records has more makes, and
each has more models, both by the root of how much larger it is. A maker uses a handful of plug
layouts, and a generation has one set of wire colours; one record in three differs from it in a few
wires. Grades differ from record to record: a record has one usual grade, and one row in six
differs. Variants are made of words that every maker uses, with one word of the maker's own.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import ceil, sqrt
from random import Random

from builder.finder.entries import BANDS, Entry, Row
from builder.model.vehicle import Answer, Question, Scope

_USUAL = 10_000
"""Records of a book with 56 makes; a larger one has more of all."""
_SOUNDS = ("ba", "bri", "co", "da", "dre", "el", "fa", "gri", "ha", "is", "ka", "lo", "mar", "nor")
_ENDS = ("dan", "mor", "vel", "tis", "rin", "sk", "lex", "ton", "via", "gar", "mund", "ra", "quo")
_BODIES = ("hatch", "saloon", "wagon", "coupe", "van", "pickup", "crossover")
_TRIMS = ("base", "mid trim", "top trim", "fleet", "sport pack", "long wheelbase")
_RADIOS = ("button radio", "small screen", "large screen", "cassette radio", "single-disc radio")
_COLOURS = ("black", "white", "red", "green", "blue", "yellow", "grey", "brown", "violet", "orange")
_SINGLE = (
    *("constant", "accessory", "retained", "run", "ground", "ground", "illumination"),
    *("amplifier_on", "aerial_on", "mute", "speed", "reverse", "park_brake", "data_high"),
    *("data_low", "microphone", "camera_signal", "wheel_keys", "shield", "unknown", "not_used"),
)
_CHANNELS = ("front-left", "front-right", "rear-left", "rear-right")

Pins = list[tuple[str, str, str, str]]  # function, channel, plug, cavity


def made_entries(count: int, seed: int = 7) -> list[Entry]:
    """Return `count` entries; the same seed gives the same book."""
    random = Random(seed)
    found: list[Entry] = []
    more = sqrt(max(1, count / _USUAL))
    for make in _names(random, ceil(56 * more)):
        layouts = [_layout(random) for _ in range(6)]
        own = random.choice(_SOUNDS) + random.choice(_ENDS)
        for model in _names(random, ceil(random.randint(8, 20) * more)):
            found += _model(random, make, model, own, layouts)
    random.shuffle(found)
    assert len(found) >= count, len(found)
    return found[:count]


def _names(random: Random, count: int) -> list[str]:
    made: dict[str, None] = {}
    while len(made) < count:
        parts = [random.choice(_SOUNDS), random.choice(_SOUNDS), random.choice(_ENDS)]
        made["".join(parts[random.randint(0, 1) :]).capitalize()] = None
    return list(made)


def _layout(random: Random) -> Pins:
    """One maker's plugs: A with supplies and speakers, B with the rest."""
    cavities = random.sample(range(1, 25), 24)
    pins: Pins = []
    for channel in _CHANNELS:
        pins.append(("speaker", channel, "A", f"{cavities.pop()} + / {cavities.pop()} −"))
    single = random.sample(_SINGLE, random.randint(10, 18))
    for at, function in enumerate(single):
        plug = "A" if at < 10 else "B"
        pins.append((function, "", plug, str(cavities.pop() if plug == "A" else at - 9)))
    return sorted(pins, key=lambda pin: pin[2])


def _model(random: Random, make: str, model: str, own: str, layouts: Sequence[Pins]) -> list[Entry]:
    found: list[Entry] = []
    year = random.randint(1995, 2008)
    for _ in range(random.randint(2, 4)):
        last = year + random.randint(2, 5)
        pins = random.choice(layouts)
        wires = [_wire(random, pin) for pin in pins]
        records = range(random.randint(3, 7))
        ids = [f"{make}-{model}-{year + 1}-{own}{at}".lower() for at in records]
        found += [
            _entry(random, one, make, model, own, (year, last), pins, wires, ids) for one in ids
        ]
        year = last + 1
    return found


def _entry(
    random: Random, record: str, make: str, model: str, own: str, years: tuple[int, int],
    pins: Pins, wires: list[str], ids: list[str],
) -> Entry:  # fmt: skip
    body, trim = random.choice(_BODIES), random.choice(_TRIMS)
    variant = f"{body}, {trim}, {random.choice((*_RADIOS, own))}"
    if random.random() < 1 / 3:
        wires = [
            _wire(random, p) if random.random() < 0.2 else w
            for p, w in zip(pins, wires, strict=True)
        ]
    usual = random.choice(BANDS[1:])
    grades = [random.choice(BANDS) if random.random() < 1 / 6 else usual for _ in pins]
    found = zip(pins, wires, grades, strict=True)
    rows = tuple(Row(*pin, wire, grade, "") for pin, wire, grade in found)
    scope = Scope(
        year_from=years[0], year_to=years[1], bodies=(body,), markets=("all",), drive_side="left",
        trims=(trim.split()[0],), options_any=(), options_none=(), radios=("kr-1",),
    )  # fmt: skip
    told = tuple(
        Answer(answer=f"{number + 1} rows", means=one) for number, one in enumerate(ids[:3])
    )
    ask = Question(question="How many rows of buttons has the radio?", cost="look", answers=told)
    return Entry(record, make, model, variant, *years, "", rows, scope, (ask,))


def _wire(random: Random, pin: tuple[str, str, str, str]) -> str:
    base, stripe = random.sample(_COLOURS, 2)
    if pin[1]:
        return f"{base}/white and {base}/black"
    return base if random.random() < 0.5 else f"{base}/{stripe}"
