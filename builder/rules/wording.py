"""How faults speak: figures with units, near spellings, lists of names."""

from __future__ import annotations

from collections.abc import Iterable

from builder.figures import shown
from builder.findings import DataPath, Fault, Fix
from builder.model.names import LEG_SIGNS, short_function_name
from builder.model.words import UNKNOWN, Function
from builder.rules.wiring import Site
from builder.speller import nearest, surely_named


def volts(value_v: float, *beside_v: float) -> str:
    """A voltage for a person, two decimals at most unless a limit beside it asks for more."""
    return f"{_short(value_v, beside_v)} V"


def ohms(value_ohm: float | None, *beside_ohm: float) -> str:
    """A resistance for a person, as `volts`; None is an open circuit."""
    return "open" if value_ohm is None else f"{_short(value_ohm, beside_ohm)} Ω"


def _short(value: float, beside: Iterable[float]) -> str:
    text = shown(value, 2, beside=beside)
    return text.rstrip("0").rstrip(".")


def function_words(function: Function) -> str:
    """A function word as people say it."""
    return short_function_name(function)


def called(site: Site) -> str:
    """The cavity and what the record calls it, for example 'A.4 (front-left +)'."""
    pin = site.pin
    sign = f" {LEG_SIGNS[pin.leg]}" if pin.leg else ""
    what = f"{pin.channel}{sign}" if pin.channel else function_words(pin.function)
    return f"{site.name} ({what})"


def did_you_mean(word: str, known: Iterable[str]) -> str:
    """A sentence that names the nearest known word, or all of them when few."""
    names = sorted(known)
    near = nearest(word, names)
    if near:
        return f'did you mean "{near}"?'
    if not names:
        return "there is none to name yet"
    return f"known here: {', '.join(names[:8])}{' …' if len(names) > 8 else ''}"


def sure_fix(path: DataPath, word: str, known: Iterable[str]) -> Fix | None:
    """The fix of a misspelt name: offered when one known name is far nearer than all others."""
    meant = surely_named(word, known)
    return Fix("write", path, meant, written=word) if meant else None


def no_housing(path: DataPath, name: str, known: Iterable[str], why: str) -> Fault:
    """The fault of a housing that is in no record of the book, or that nobody knows."""
    if name != UNKNOWN:
        return missing(path, "housing", name, known, why)
    return Fault(
        path,
        f"nobody knows which housing it is: {why}",
        "take it in hand and name its record; a new one is begun by: loombook new housing",
        nobody_knows=True,
    )


def missing(path: DataPath, kind: str, name: str, known: Iterable[str], why: str) -> Fault:
    """The fault of a name that leads nowhere; `why` says what cannot be done without it."""
    names = list(known)
    message = f'there is no {kind} "{name}": {why}'
    return Fault(path, message, did_you_mean(name, names), fix=sure_fix(path, name, names))
